import { countsInFeet } from "../draw/one-line/wire-view.ts";
import type { Compiled } from "../compile.ts";
import { isVerified, printTrust } from "../explain/index.ts";
import { lineStartsOf, positionAt } from "../plan/text/index.ts";
import type { Scene } from "../draw/scene.ts";
import { writeSvg } from "../draw/write-svg.ts";
import { alsoInSays, type Finding } from "../rules/index.ts";
import type { CircuitDesign } from "../size/index.ts";
import { missingSays } from "../system/index.ts";
import { list, table } from "./html-blocks.ts";
import { escapeHtml, tag } from "./html.ts";
import { curveScenes } from "./curve-scenes.ts";
import { faultSchedule, faultScheduleColumns } from "./fault-schedule.ts";
import { cautions } from "./print-basis.ts";
import { clauseOf, printJudged, waiverOf } from "./print-findings.ts";
import { scheduleColumns } from "./print-schedule.ts";
import { loadsOf, voltsIn } from "./print-states.ts";
import { statesSection } from "./states-section.ts";

/**
 * One page for a browser that has no network: the drawing, what the rules say, the schedule, volts by state, what was assumed and what is
 * missing. Nothing in it is fetched, and nothing that a plan holds can become a part of the page.
 *
 * @param file as it was named
 * @param scenes the one-line drawing
 * @param diagram the circuit diagram of the alternating side; empty where nothing alternates
 * @param font addresses of the drawing font that hold the font itself; the page carries it once
 */
export function reportPage(
  file: string,
  compiled: Compiled,
  scenes: readonly Scene[],
  diagram: readonly Scene[],
  font: { readonly regular: string; readonly semibold: string },
): string {
  const { plan, design, judgement } = compiled;
  const title = plan.name === "" ? file : plan.name;
  const revision = plan.revision === "" ? "" : `, revision ${plan.revision}`;
  const fails = judgement.findings.filter((f) => f.outcome === "fail");
  const untold = judgement.findings.filter((f) => f.outcome === "cannot tell");
  const placeOf = placesIn(plan.text);
  const columns = scheduleColumns(design.circuits, countsInFeet(compiled.system));
  return [
    "<!doctype html>",
    '<html lang="en">',
    '<head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">',
    `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; font-src data:; img-src data:">`,
    tag("title", `${title}${revision}`),
    `<style>${fontFaces(font)}${STYLE}</style></head>`,
    "<body>",
    "<header>",
    tag("h1", `${title}${revision}`),
    tag("p", `${file}: ${printJudged(judgement.tally)}`),
    "</header>",
    `<nav><a href="#findings">Findings</a><a href="#drawing">Drawing</a>${diagram.length === 0 ? "" : '<a href="#diagram">Circuit diagram</a>'}<a href="#schedule">Schedule</a><a href="#faults">Faults</a><a href="#positions">States</a><a href="#states">Volts</a><a href="#basis">Basis</a></nav>`,
    "<main>",
    ...cautions.map((text) => tag("p", text, "caution")),
    '<section id="findings"><h2>Findings</h2>',
    ...(fails.length === 0 ? [tag("p", "No rule fails.")] : fails.map((f) => findingBlock(f, placeOf))),
    ...(untold.length === 0
      ? []
      : [
          `<details><summary>${untold.length} that cannot be told</summary>`,
          ...untold.map((f) => findingBlock(f, placeOf)),
          "</details>",
        ]),
    "</section>",
    ...drawingSection("drawing", "One-line drawing", scenes),
    ...drawingSection("diagram", "Circuit diagram of the alternating side", diagram),
    '<section id="schedule"><h2>Schedule</h2>',
    table(
      columns.map((c) => (typeof c.head === "string" ? c.head : c.head.join(" "))),
      design.circuits.map((c: CircuitDesign) =>
        columns.map((column) => {
          const cell = column.cell(c);
          return { text: typeof cell === "string" ? [cell] : cell, isNumber: column.align === "number" };
        }),
      ),
    ),
    tag(
      "p",
      "An asterisk marks a device that the plan gives; an exclamation mark stands where something is not met.",
      "small",
    ),
    "</section>",
    ...faultsSection(compiled),
    ...statesSection(compiled),
    '<section id="states"><h2>Volts at the loads, state by state</h2>',
    table(
      ["load", "wire", ...design.states.map((s) => s.id)],
      loadsOf(design).map(({ part, circuit }) => [
        { text: [part], isNumber: false },
        { text: [circuit ?? ""], isNumber: false },
        ...design.states.map((s) => ({ text: [voltsIn(s, part)], isNumber: true })),
      ]),
    ),
    "</section>",
    '<section id="basis"><h2>What it rests on</h2>',
    "<h3>Assumed, because the plan does not say</h3>",
    list(
      design.assumptions.map(
        ({ says, trust, pin }) => `${says}${isVerified(trust) ? "" : ` (${printTrust(trust)})`}; pin with ${pin}`,
      ),
    ),
    "<h3>Missing</h3>",
    list(design.missing.map(({ about, fact, why }) => `${about}: ${fact} is ${missingSays[why]}`)),
    "</section>",
    "</main>",
    "</body></html>",
    "",
  ].join("\n");
}

const drawingSection = (id: string, head: string, scenes: readonly Scene[]): string[] =>
  scenes.length === 0
    ? []
    : [
        `<section id="${id}"><h2>${head}</h2>`,
        ...scenes.map((scene) => `<figure>${writeSvg(scene)}</figure>`),
        "</section>",
      ];

/** What governs each circuit and what shorts do, with the curves of the devices that feed others. */
function faultsSection(compiled: Compiled): string[] {
  const rows = faultSchedule(compiled);
  const curves = curveScenes(compiled);
  return [
    '<section id="faults"><h2>Faults and devices</h2>',
    rows.length === 0
      ? tag("p", "No circuit of direct current can be studied.")
      : table(
          faultScheduleColumns.map(({ head }) => (typeof head === "string" ? head : head.join(" "))),
          rows.map((row) =>
            faultScheduleColumns.map((column) => {
              const cell = column.cell(row);
              return { text: typeof cell === "string" ? [cell] : cell, isNumber: column.align === "number" };
            }),
          ),
        ),
    tag(
      "p",
      "Margin: room to the limit of what governs. Least fault: one battery alone, empty and cold; greatest: everything that can push. Cleared by: by the longest that is published, which for class T fuses is the time at twice the rating: minutes, where milliseconds are usual; bears: what the hardest short that is cleared within 5 s lets through, of what the weakest conductor bears. Never test a short.",
      "small",
    ),
    ...curves.flatMap((scene) => [tag("h3", scene.title), `<figure>${writeSvg(scene)}</figure>`]),
    "</section>",
  ];
}

/** The drawings name the font; here it is, once for all of them. */
const fontFaces = ({ regular, semibold }: { readonly regular: string; readonly semibold: string }): string =>
  [
    [400, regular],
    [600, semibold],
  ]
    .map(([weight, url]) => `@font-face{font-family:"IBM Plex Sans";font-weight:${weight};src:url("${url}")}`)
    .join("");

function placesIn(text: string): (f: Finding) => string {
  const starts = lineStartsOf(text);
  return ({ at }) => {
    const [place] = at;
    if (place === undefined) return "";
    const { line, column } = positionAt(text, place[0], starts);
    return `line ${line}, column ${column}`;
  };
}

/** How grave a finding is, by shape and by word; colour only repeats it. */
const SHAPES = {
  must: '<path d="M6 1h8l5 5v8l-5 5H6l-5-5V6z" fill="currentColor"/><path d="M6.5 6.5l7 7m0-7l-7 7" stroke="var(--paper)" stroke-width="2.4"/>',
  should:
    '<path d="M10 2l9 16H1z" stroke="currentColor" stroke-width="2" fill="none"/><path d="M10 7.5v5m0 2v1.5" stroke="currentColor" stroke-width="2"/>',
  note: '<circle cx="10" cy="10" r="8" stroke="currentColor" stroke-width="2" fill="none"/><path d="M10 9v6m0-9.5V7" stroke="currentColor" stroke-width="2"/>',
  unknown:
    '<path d="M10 1l9 9-9 9-9-9z" stroke="currentColor" stroke-width="1.8" stroke-dasharray="3 2" fill="none"/><path d="M7.5 8a2.5 2.5 0 1 1 2.5 2.7v1.3m0 1.6v1" stroke="currentColor" stroke-width="1.8" fill="none"/>',
} as const;

const shape = (which: keyof typeof SHAPES): string =>
  `<svg viewBox="0 0 20 20" width="18" height="18" aria-hidden="true">${SHAPES[which]}</svg>`;

function findingBlock(f: Finding, placeOf: (f: Finding) => string): string {
  const isWaived = f.waived !== null && f.waived.lapsed === null;
  const kind = f.outcome === "cannot tell" ? "unknown" : isWaived ? "waived" : f.severity;
  const head = f.outcome === "cannot tell" ? `cannot tell (${f.severity})` : isWaived ? "waived" : f.severity;
  const mark = shape(f.outcome === "cannot tell" ? "unknown" : f.severity);
  const more = f.alsoIn.length === 0 ? "" : `; also ${alsoInSays(f.alsoIn)}`;
  const clause = clauseOf(f);
  return [
    `<article class="finding ${kind}">`,
    `<h3><span class="mark">${mark} ${escapeHtml(head)}</span> ${escapeHtml(f.title)} <code>${escapeHtml(f.about)}</code></h3>`,
    tag("p", `${f.because}${more}.`),
    ...(f.outcome === "fail" ? [tag("p", `Danger: ${f.danger}.`)] : []),
    tag("p", [f.rule, clause, placeOf(f)].filter((x) => x !== "").join(" · "), "small"),
    ...(f.waived === null ? [] : [tag("p", `Waiver: ${waiverOf(f.waived)}`)]),
    "</article>",
  ].join("");
}

const STYLE = `
:root{--ink:#14202B;--ink2:#46545F;--hair:#C3CCD2;--page:#F6F7F4;--paper:#fff;--fail:#7D0B1A;--warn:#8F6000;--note:#0A4A66;--unknown:#666C72}
@media (prefers-color-scheme:dark){:root{--ink:#E8EDF0;--ink2:#AEBAC3;--hair:#3A4650;--page:#12181E;--paper:#1B232B;--fail:#F4606C;--warn:#EDB23A;--note:#35B4F0;--unknown:#C3C8CD}}
*{box-sizing:border-box}
body{margin:0;background:var(--page);color:var(--ink);font:16px/1.5 system-ui,"Segoe UI",Roboto,"Liberation Sans",Arial,sans-serif;font-variant-numeric:tabular-nums slashed-zero}
header,main,nav{max-width:80rem;margin:0 auto;padding:0 1rem}
h1{font-size:1.75rem;line-height:1.25;margin:1.5rem 0 .25rem}h2{font-size:1.25rem;margin:2rem 0 .5rem;border-bottom:1px solid var(--hair)}h3{font-size:1rem;margin:.75rem 0 .25rem}
nav{display:flex;flex-wrap:wrap;gap:0 1rem}nav a{color:inherit}
.caution{border:2px solid var(--warn);padding:.5rem .75rem;background:var(--paper)}
.finding{border-left:4px solid var(--ink2);background:var(--paper);padding:.25rem .75rem;margin:.75rem 0;overflow-wrap:anywhere}
.finding p{margin:.15rem 0}.mark svg{vertical-align:-3px}.finding h3 code{font-weight:400;color:var(--ink2)}
.must{border-color:var(--fail)}.must .mark{color:var(--fail)}.should{border-left-style:double;border-color:var(--warn)}.should .mark{color:var(--warn)}
.note{border-color:var(--note)}.note .mark{color:var(--note)}.unknown,.waived{border-left-style:dashed;border-color:var(--unknown)}
.small{color:var(--ink2);font-size:.875rem}
.wide{overflow-x:auto}
table{border-collapse:collapse;background:var(--paper);font-size:.875rem}
th,td{padding:.2rem .5rem;border-bottom:1px solid var(--hair);text-align:left;vertical-align:top;white-space:nowrap}
td.n{text-align:right}
figure{margin:1rem 0;background:#fff;overflow-x:auto}
figure svg{display:block;width:100%;height:auto;min-width:46rem}
@media print{nav{display:none}body{background:#fff}.finding,table{break-inside:avoid}}
`;
