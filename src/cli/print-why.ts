import { leaningText, sourceText, workedText } from "../why/index.ts";
import type { Change, Explanation, LadderRung, WayElement, WorkedSection, WorkedStep } from "../why/index.ts";
import { decimalText } from "../quantity/decimal-text.ts";
import { printRows } from "./stack-rows.ts";
import type { Paint } from "./terminal.ts";
import { clip, textWidth, wrap } from "./text-width.ts";

/** Names of steps stand in a column of their own, no wider than this. */
const NAMES = 34;
/** Where a sum has less room than this beside its name it stands under it. */
const LEAST_SUM = 40;

const CAUTION =
  "Advice to a competent person, not a certificate: local law, the edition of the rules in force and a licensed electrician or surveyor decide.";

/** An explanation as a page of text. */
export function printWhy(explanation: Explanation, width: number, paint: Paint): string {
  const { question, answer, ladder, sections, changes, leansOn, cautions, further } = explanation;
  const blocks = [
    [...wrap(question, width).map((line) => paint("bold", line)), ...wrap(answer, width)],
    ladder.length === 0 ? [] : printLadder(ladder, width, paint),
    ...sections.map((section) => printSection(section, width, paint)),
    printChanges(changes, width, paint),
    leansOn.length === 0
      ? []
      : [paint("bold", "Leans on"), ...leansOn.flatMap((l) => wrap(`- ${leaningText(l)}`, width, 2))],
    [...cautions.flatMap((text) => wrap(text, width)), ...wrap(CAUTION, width)],
    further.length === 0 ? [] : wrap(`Ask further: ${further.join(", ")}`, width, 2),
  ];
  return blocks
    .filter((block) => block.length > 0)
    .map((block) => `${block.join("\n")}\n`)
    .join("\n");
}

function printLadder(ladder: readonly LadderRung[], width: number, paint: Paint): string[] {
  const judged = ladder.filter((r) => r.outcome !== "not judged yet" && r.outcome !== "not stated");
  const table = printRows<LadderRung>(
    [
      { head: "constraint", cell: (r) => (r.decides ? `${r.id} ◀` : r.id) },
      { head: "alone asks", cell: (r) => r.size ?? (r.outcome === "not met" ? "none on sale" : "–") },
      { head: "is", cell: (r) => r.outcome },
      { head: "figures", cell: (r) => wrap(r.says, Math.max(20, Math.floor((width - 30) * 0.45))), least: 16 },
      { head: "source", cell: (r) => wrap(r.source, Math.max(16, Math.floor((width - 30) * 0.35))), least: 12 },
    ],
    judged,
    width,
    paint,
  );
  const below = judged.filter((r) => r.thinner !== "");
  const listed = (outcome: LadderRung["outcome"], says: string): string => {
    const ids = ladder.filter((r) => r.outcome === outcome).map((r) => (r.says === "" ? r.id : `${r.id} (${r.says})`));
    return ids.length === 0 ? "" : ` ${says}: ${ids.join(", ")}.`;
  };
  const decides = judged.some((r) => r.decides) ? "◀ decides." : "";
  return [
    paint("bold", "What each constraint alone asks for"),
    ...table,
    ...wrap(
      `${decides}${listed("not stated", "Nothing is stated for")}${listed("not judged yet", "Not judged yet")}`.trim(),
      width,
    ),
    ...(below.length === 0 ? [] : ["", paint("bold", "The size below, everything else as it is")]),
    ...below.flatMap((r) => wrap(`- ${r.id}, ${r.thinner}`, width, 2)),
  ];
}

function printSection({ title, says, steps, way }: WorkedSection, width: number, paint: Paint): string[] {
  const widest = Math.min(NAMES, Math.max(0, ...steps.map(({ name }) => textWidth(name))));
  return [
    ...wrap(title, width).map((line) => paint("bold", line)),
    ...(says === "" ? [] : wrap(says, width)),
    ...(way.length === 0 ? [] : printWay(way, width)),
    ...steps.flatMap((step) => printStep(step, widest, width)),
  ];
}

function printWay(way: readonly WayElement[], width: number): string[] {
  return printRows<WayElement>(
    [
      { head: "", cell: (e) => e.pole },
      { head: "element", cell: (e) => e.element, least: 8 },
      { head: "", cell: (e) => e.what },
      { head: ["current", "A"], cell: (e) => ampsIn(e.amps), align: "number" },
      { head: ["resistance", "mΩ"], cell: (e) => decimalText(1000 * e.ohms, { decimals: 3 }), align: "number" },
      {
        head: ["lost", "V"],
        cell: (e) => `${e.volts < -5e-5 ? "−" : ""}${decimalText(Math.abs(e.volts), { decimals: 4 })}`,
        align: "number",
      },
    ],
    way,
    width,
  );
}

/** Amps on a way, to a figure more than in the schedule, so that what flows on shows as the same. */
const ampsIn = (x: number): string => `${x < -5e-4 ? "−" : ""}${decimalText(Math.abs(x), { figures: 4 })}`;

/** The name of what is worked out, then the sum with its numbers, then where it comes from. */
function printStep(step: WorkedStep, names: number, width: number): string[] {
  const isBeside = width - names >= LEAST_SUM;
  const room = width - 2 - (isBeside ? names : 0);
  const source = sourceText(step);
  const lines = [
    ...(step.equation === "" ? [] : wrap(step.equation, room)),
    ...wrap(workedText(step) + (source === "" ? "" : `  [${source}]`), room, 2),
  ];
  if (!isBeside) return [...wrap(step.name, width), ...lines.map((line) => `  ${line}`)];
  const heads = wrap(step.name, names).map((line) => clip(line, names));
  return Array.from({ length: Math.max(lines.length, heads.length) }, (_, i) =>
    `${heads[i] ?? ""}${" ".repeat(Math.max(0, names - textWidth(heads[i] ?? "")))}  ${lines[i] ?? ""}`.trimEnd(),
  );
}

function printChanges(changes: readonly Change[], width: number, paint: Paint): string[] {
  if (changes.length === 0) return [];
  return [
    paint("bold", "What would change it, everything else chosen anew"),
    ...changes.flatMap(({ when, then }) => wrap(`- ${when}: ${then}`, width, 2)),
  ];
}
