import type { Change, Cure, CureSearch, DecidingAssumptions, FindingName } from "../cure/index.ts";
import { counted } from "./figures.ts";
import { decimalText } from "../quantity/decimal-text.ts";
import type { FindingsOptions } from "./print-findings.ts";
import { wrap } from "./text-width.ts";

/** Columns that the first word takes, as that of a finding. */
const INDENT = 9;
/** So many circuits are named that come out otherwise. */
const MOVED = 6;

/** Lines with a word at their head. */
const lineWith =
  ({ width }: FindingsOptions) =>
  (head: string, words: string, indent = INDENT): string[] =>
    wrap(words, width - indent).map((row, i) => (i === 0 ? head : "").padEnd(indent) + row);

/** Cures of a finding, to stand under it. */
export function printCures(search: CureSearch, wanted: FindingName, options: FindingsOptions): string[] {
  const line = lineWith(options);
  if (search.is === "not searched") return line("cure", `not searched: ${search.why}`);
  const stopped = search.complete ? "" : ", and the search stopped there";
  if (search.is === "none") {
    const tried = search.tried === 0 ? "" : `; ${counted(search.tried, "plan")} compiled${stopped}`;
    return line("cure", `none: ${search.why}${tried}`);
  }
  return search.cures.flatMap((cure, i) => printCure(cure, i + 1, wanted, options));
}

function printCure(cure: Cure, number: number, wanted: FindingName, options: FindingsOptions): string[] {
  const line = lineWith(options);
  const cost = [counted(cure.lines, "line"), copperOf(cure)].filter((w) => w !== "").join(", ");
  const others = cure.clears.filter((f) => f.rule !== wanted.rule || f.about !== wanted.about);
  const moved = cure.moved.slice(0, MOVED).map((c) => `${c.name} ${c.now} → ${c.then}`);
  if (cure.moved.length > MOVED) moved.push(`${cure.moved.length - MOVED} more`);
  return [
    ...line(`cure ${number}`, `${cure.says} (${cost})${cure.touchesPinned ? "; changes what is pinned or found" : ""}`),
    ...cure.changes.flatMap((change) => printChange(change, options)),
    ...(moved.length === 0 ? [] : line("", `chosen otherwise then: ${moved.join("; ")}`)),
    ...(others.length > 0 ? line("", `clears ${counted(others.length, "other finding")} too: ${namesOf(others)}`) : []),
    ...(cure.raises.length === 0 ? [] : line("", `raises ${namesOf(cure.raises)}`)),
  ];
}

function printChange({ name, now, then }: Change, options: FindingsOptions): string[] {
  const line = lineWith(options);
  const pad = " ".repeat(INDENT);
  const short = `${name}: ${now} ⇒ ${then}`;
  if (short.length <= options.width - INDENT) return line("", short);
  return [...line(`${pad}now  `, `${name}: ${now}`, INDENT + 5), ...line(`${pad}then `, then, INDENT + 5)];
}

const namesOf = (findings: readonly FindingName[]): string =>
  findings
    .map((f) => `${f.outcome === "fail" ? f.severity : "unsure"} ${f.rule} ${f.about.replace(/^\w+\./, "")}`)
    .join(", ");

function copperOf({ addedMm2M }: Cure): string {
  if (addedMm2M === 0) return "no copper";
  const figure = decimalText(Math.abs(addedMm2M), { figures: 3 });
  return `${figure} mm²·m of copper ${addedMm2M > 0 ? "more" : "less"}`;
}

/** What came of moving the defaults; the findings themselves stand with the others. */
export function printMovedAssumptions(found: DecidingAssumptions, { width }: FindingsOptions): string[] {
  const { findings, idle, notVaried, tried, complete } = found;
  const lines = [
    `${counted(findings.length, "assumption")} ${findings.length === 1 ? "decides" : "decide"} something, ${idle.length} decide nothing over their range`,
    ...(notVaried.length === 0 ? [] : [`not varied: ${notVaried.join(", ")}`]),
    `${counted(tried, "plan")} compiled${complete ? "" : ", and the search stopped there"}`,
  ];
  return ["Assumptions moved over their ranges", ...lines.flatMap((l) => wrap(`- ${l}`, width, 2))];
}
