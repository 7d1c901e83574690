import { isVerified, printTrust, type Trust } from "../explain/index.ts";
import type { Explanation, LadderRung, LeansOn, WayElement, WorkedSection, WorkedStep } from "./explanation.ts";
import { decimalText } from "../quantity/decimal-text.ts";
import { withUnit } from "./print-number.ts";

/** Names and texts come from plans and may hold anything: every one of them goes through here. */
const escaped = (text: string): string =>
  text
    .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u2028-\u202e\u2060-\u206f\ufeff]/g, "·")
    .replace(/[&<>"'`]/g, (sign) => `&#${sign.charCodeAt(0)};`)
    .replace(FIGURE_AND_UNIT, "$1\u00a0");

/** A figure and its unit stay on one line. */
const FIGURE_AND_UNIT = /(\d) (?=(?:%|mm²|m|V|A|W|s|°C|m?Ω|AWG|SAE|mm)(?:[\s,.;:)]|$))/g;

const STYLE = `
:root { color-scheme: light dark; --ink: #17202a; --dim: #5a6570; --line: #c9d0d6; --paper: #fff; --bar: #e9ecee; --mark: #5b2a86; }
@media (prefers-color-scheme: dark) { :root { --ink: #e8edf1; --dim: #a3adb5; --line: #46505a; --paper: #12181e; --bar: #2a333b; --mark: #c9a4ec; } }
body { margin: 2rem auto; padding: 0 1rem; max-width: 60rem; background: var(--paper); color: var(--ink); font: 16px/1.45 system-ui, sans-serif; }
h1 { font-size: 1.5rem; margin: 0 0 .3rem; } h2 { font-size: 1.05rem; margin: 1.8rem 0 .4rem; }
p { margin: .3rem 0; } .dim { color: var(--dim); } .scroll { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; } th, td { text-align: left; vertical-align: top; padding: .25rem .8rem .25rem 0; border-bottom: 1px solid var(--line); }
th { color: var(--dim); font-weight: 600; } td:first-child { min-width: 6rem; } td.n { text-align: right; font-variant-numeric: tabular-nums; white-space: nowrap; }
.bar { display: block; height: .5rem; background: var(--bar); border: 1px solid var(--dim); } .decides .bar { background: var(--mark); border-color: var(--mark); } .decides td:first-child, .decides .n { font-weight: 600; }
.sum { font-variant-numeric: tabular-nums; } ul { margin: .3rem 0; padding-left: 1.2rem; }
@media screen and (max-width: 40rem) { .ladder thead { display: none; } .ladder tr { display: block; border-bottom: 1px solid var(--line); padding: .4rem 0; } .ladder td { display: block; width: auto !important; border: 0; padding: .1rem 0; text-align: left; } .ladder td:first-child { font-weight: 600; } .ladder td:last-child { color: var(--dim); } }
@media print { body { margin: 0; max-width: none; } h2 { break-after: avoid; } tr { break-inside: avoid; } }
`;

/**
 * An explanation as one page of HTML: no script, nothing fetched, readable and printable without a network.
 *
 * @param heading what it is of: the plan's name and revision
 */
export function explanationPage(explanation: Explanation, heading: string): string {
  const { question, answer, ladder, sections, changes, leansOn, cautions } = explanation;
  const body = [
    `<p class="dim">${escaped(heading)}</p>`,
    `<h1>${escaped(question)}</h1>`,
    `<p>${escaped(answer)}</p>`,
    ladder.length === 0 ? "" : ladderTable(ladder),
    ...sections.map(section),
    changes.length === 0
      ? ""
      : `<h2>What would change it</h2>${table(
          ["when", "then"],
          changes.map(({ when, then }) => [cell(when), cell(then)]),
        )}`,
    leansOn.length === 0
      ? ""
      : `<h2>Leans on</h2><ul>${leansOn.map((l) => `<li>${escaped(leaningText(l))}</li>`).join("")}</ul>`,
    cautions.length === 0 ? "" : `<h2>Mind</h2><ul>${cautions.map((c) => `<li>${escaped(c)}</li>`).join("")}</ul>`,
  ];
  return [
    "<!doctype html>",
    '<html lang="en">',
    '<head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">',
    `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">`,
    `<title>${escaped(question)}</title><style>${STYLE}</style></head>`,
    "<body><main>",
    ...body.filter((part) => part !== ""),
    "</main></body>",
    "</html>",
    "",
  ].join("\n");
}

/** One thing that an answer rests on, as a line. */
export function leaningText({ kind, says, line, column, pin, trust }: LeansOn): string {
  switch (kind) {
    case "plan":
      return `${says} (plan, line ${line ?? 0}:${column ?? 0})`;
    case "assumption":
      return `assumed: ${says}${trustText(trust)}${pin === "" ? "" : `; pin with \`${pin}\``}`;
    case "missing":
      return `missing: ${says}`;
    case "table":
      return `${says}${trust === null ? "" : `: ${printTrust(trust)}`}`;
  }
}

const trustText = (trust: Trust | null): string =>
  trust === null || isVerified(trust) ? "" : `, ${printTrust(trust)}`;

const cell = (text: string): string => `<td>${escaped(text)}</td>`;
const number = (text: string): string => `<td class="n">${escaped(text)}</td>`;

function table(heads: readonly string[], rows: readonly (readonly string[])[]): string {
  const head = heads.map((h) => `<th scope="col">${escaped(h)}</th>`).join("");
  const top = heads.length === 0 ? "" : `<thead><tr>${head}</tr></thead>`;
  return `<div class="scroll"><table>${top}<tbody>${rows.map((r) => `<tr>${r.join("")}</tr>`).join("")}</tbody></table></div>`;
}

function ladderTable(ladder: readonly LadderRung[]): string {
  const areas = ladder.flatMap((r) => (r.areaMm2 === null ? [] : [r.areaMm2]));
  const least = Math.log(Math.min(...areas, 1) / 2);
  const most = Math.log(Math.max(...areas, 1));
  const bar = (areaMm2: number | null): string =>
    areaMm2 === null || areaMm2 <= 0
      ? "<td></td>"
      : `<td style="width:15%"><span class="bar" style="width:${Math.round((100 * (Math.log(areaMm2) - least)) / (most - least))}%"></span></td>`;
  const rows = ladder
    .filter((r) => r.outcome !== "not judged yet" && r.outcome !== "not stated")
    .map(
      (r) =>
        `<tr${r.decides ? ' class="decides"' : ""}>${cell(r.decides ? `${r.id}, decides` : r.id)}${number(r.size ?? (r.outcome === "not met" ? "nothing on sale" : "–"))}${bar(r.areaMm2)}${cell(r.outcome)}<td>${escaped(r.says)}${r.thinner === "" ? "" : `<br><span class="dim">${escaped(r.thinner)}</span>`}</td>${cell(r.source)}</tr>`,
    );
  const heads = ["constraint", "alone asks for", "", "is", "figures, and what the size below would do", "source"];
  const rest = ladder.filter((r) => r.outcome === "not judged yet").map((r) => r.id);
  const note = rest.length === 0 ? "" : `<p class="dim">Not judged yet: ${escaped(rest.join(", "))}.</p>`;
  return `<h2>What each constraint alone asks for</h2><div class="scroll"><table class="ladder"><thead><tr>${heads.map((h) => `<th scope="col">${h}</th>`).join("")}</tr></thead><tbody>${rows.join("")}</tbody></table></div>${note}`;
}

function section({ title, says, steps, way }: WorkedSection): string {
  return [
    `<h2>${escaped(title)}</h2>`,
    says === "" ? "" : `<p class="dim">${escaped(says)}</p>`,
    way.length === 0 ? "" : wayTable(way),
    steps.length === 0 ? "" : table([], steps.map(stepRow)),
  ].join("");
}

const stepRow = (step: WorkedStep): readonly string[] => [
  cell(step.name),
  `<td class="sum">${step.equation === "" ? "" : `${escaped(step.equation)}<br>`}${escaped(workedText(step))}</td>`,
  cell(sourceText(step)),
];

/** The numbers of a step and what they come to. */
export function workedText({ equation, working, text, table: place }: WorkedStep): string {
  if (equation !== "") return `= ${working} = ${text}`;
  return working === text
    ? text
    : `${place === null ? text : `${working}: ${text}`}${place === null && working !== "" ? `, ${working}` : ""}`;
}

/** Where a step comes from; sums by well-known laws need no source in print. */
export const sourceText = ({ source, trust, table: place }: WorkedStep): string =>
  place === null && trust === "derived" && !/\d/.test(source) ? "" : `${source}${trustText(trust)}`;

const wayTable = (way: readonly WayElement[]): string =>
  table(
    ["", "element", "", "current", "resistance", "lost"],
    way.map((e) => [
      cell(e.pole),
      cell(e.element),
      cell(e.what),
      number(withUnit(e.amps, "A")),
      number(`${decimalText(1000 * e.ohms, { decimals: 3 })} mΩ`),
      number(`${e.volts < -5e-5 ? "−" : ""}${decimalText(Math.abs(e.volts), { decimals: 4 })} V`),
    ]),
  );
