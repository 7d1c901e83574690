import type { Span } from "../diagnostic.ts";
import type { LabelFact, LabelProblem, LabelReading, WireReading } from "../wire/label/label-reading.ts";
import { allNames, plainName, type KnownName } from "../wire/name/index.ts";
import { factsOf, factName } from "./reading-facts.ts";
import { printRows } from "./stack-rows.ts";
import type { Paint, Style } from "./terminal.ts";
import { clip, textWidth, wrap } from "./text-width.ts";

export interface ReadingOptions {
  readonly width: number;
  readonly paint: Paint;
  /** With the table of facts and the other names; else the meaning alone, as a list of many labels wants it. */
  readonly isLong: boolean;
}

interface One {
  readonly text: string;
  readonly read: LabelReading;
}

/** What labels mean, one block a label, and for several a closing line. */
export function printReadings(all: readonly One[], options: ReadingOptions): string[] {
  const blocks = all.map((one) => printReading(one, options));
  const lines = blocks.flatMap((block, i) => (i === 0 ? block : ["", ...block]));
  return all.length === 1 ? lines : [...lines, "", tally(all)];
}

function tally(all: readonly One[]): string {
  const count = (verdict: LabelReading["verdict"]): number => all.filter(({ read }) => read.verdict === verdict).length;
  return `${all.length} labels: ${count("exact")} exact, ${count("ambiguous")} ambiguous, ${count("rejected")} rejected`;
}

const styles: Readonly<Record<LabelReading["verdict"], Style>> = {
  exact: "cyan",
  ambiguous: "yellow",
  rejected: "red",
};

function printReading({ text, read }: One, options: ReadingOptions): string[] {
  const blocks = blocksOf(text, read, options).filter((block) => block.length > 0);
  // In a list a label is one block: what stands together is looked through fast.
  return blocks.flatMap((block, i) => (i === 0 || !options.isLong ? block : ["", ...block]));
}

function blocksOf(text: string, read: LabelReading, options: ReadingOptions): string[][] {
  const { width, paint, isLong } = options;
  const problems = read.problems.flatMap((problem) => printProblem(text, problem, width));
  const verdict = (says: string): string[] =>
    wrap(`${read.verdict}: ${says}`, width).map((line, i) =>
      i === 0 ? line.replace(read.verdict, paint(styles[read.verdict], read.verdict)) : line,
    );
  switch (read.verdict) {
    case "exact": {
      const [reading] = read.readings;
      return [
        [...printMarked(text, isLong ? marksOf(text, reading) : [], width), ...verdict(reading.says)],
        isLong ? printFacts(text, reading, options) : [],
        [
          ...reading.by.flatMap((by) => wrap(`decided by: ${by}`, width, 2)),
          ...read.ruledOut.flatMap((out) => wrap(`ruled out: ${out.says}`, width, 2)),
          ...reading.traps.flatMap((trap) => wrap(`trap: ${trap}`, width, 2)),
          ...problems,
        ],
        isLong ? printNames(reading, options) : [],
      ];
    }
    case "ambiguous":
      return [
        [...printMarked(text, [], width), ...verdict(read.question)],
        read.readings.flatMap((reading, i) => printChoice(reading, i + 1, width)),
        problems,
      ];
    case "rejected": {
      const [first, ...rest] = read.problems;
      const head = isMarked(text, first, width)
        ? [shown(text), carets(shown(text), [first.at])]
        : printMarked(text, [], width);
      return [
        [...head, ...verdict(first.message), ...wrap(`hint: ${first.hint}`, width, 2)],
        rest.flatMap((problem) => printProblem(text, problem, width)),
      ];
    }
  }
}

/** What cannot be seen or would break the line becomes a dot; every sign keeps its place. */
const shown = (text: string): string => text.replace(/[\u0000-\u001f\u007f-\u009f]/g, "·");

interface Mark {
  readonly at: readonly Span[];
  readonly says: string;
}

/** The characters of a label that said something, and what: one mark for the facts that stand on the same characters. */
function marksOf(text: string, { from }: WireReading): Mark[] {
  const marks = new Map<string, { at: readonly Span[]; facts: LabelFact[] }>();
  for (const [fact, at] of factsWithPlaces(from)) {
    const key = carets(shown(text), at);
    const mark = marks.get(key) ?? { at, facts: [] };
    mark.facts.push(fact);
    marks.set(key, mark);
  }
  const start = (at: readonly Span[]): number => at[0]?.[0] ?? 0;
  return [...marks.values()]
    .sort((a, b) => start(a.at) - start(b.at))
    .map(({ at, facts }) => ({ at, says: facts.map(factName).join(", ") }));
}

const factsWithPlaces = (from: WireReading["from"]): (readonly [LabelFact, readonly Span[]])[] =>
  (Object.keys(from) as LabelFact[]) // its keys are facts
    .map((fact) => [fact, from[fact] ?? []] as const)
    .filter(([, at]) => at.length > 0);

/** The label, and below it a line of carets for each mark. */
function printMarked(text: string, marks: readonly Mark[], width: number): string[] {
  const label = shown(text);
  return [
    clip(label, width),
    ...marks.map(({ at, says }) => clip(`${carets(label, at).padEnd(textWidth(label))}  ${says}`, width)),
  ];
}

function carets(label: string, at: readonly Span[]): string {
  let line = "";
  for (const [start, end] of [...at].sort((a, b) => a[0] - b[0])) {
    line = line.padEnd(textWidth(label.slice(0, start)));
    line = line.padEnd(Math.max(textWidth(label.slice(0, end)), line.length === 0 ? 1 : 0), "^");
  }
  return line;
}

function printFacts(text: string, reading: WireReading, { width, paint }: ReadingOptions): string[] {
  const rows = factsOf(reading).map(({ fact, says }) => {
    const at = reading.from[fact] ?? [];
    return {
      name: factName(fact),
      says,
      by: [...new Set(at.map(([start, end]) => shown(text.slice(start, end))))].join(" … "),
    };
  });
  return printRows(
    [
      { head: "fact", cell: (row) => row.name },
      { head: "is", cell: (row) => row.says, least: 24 },
      { head: "said by", cell: (row) => (row.by === "" ? "follows" : row.by), least: 10 },
    ],
    rows,
    width,
    paint,
  );
}

/** A reading of several, with the label that means it and nothing else. */
function printChoice({ says, make, exactLabel }: WireReading, number: number, width: number): string[] {
  const left = 4;
  const lines = wrap(says, width - left).map((line, i) => (i === 0 ? ` ${number}  ` : "").padEnd(left) + line);
  const label = plainName(make) ?? exactLabel;
  return label === null ? lines : [...lines, clip(`${" ".repeat(left)}write \`${label}\``, width)];
}

/** A label that is cut off has no place to point at. */
const isMarked = (text: string, { at }: LabelProblem, width: number): boolean =>
  textWidth(shown(text)) <= width && at[1] > at[0];

function printProblem(text: string, problem: LabelProblem, width: number): string[] {
  const { at, message, hint } = problem;
  return [
    ...(isMarked(text, problem, width) ? [shown(text), carets(shown(text), [at])] : []),
    ...wrap(message, width),
    ...wrap(`hint: ${hint}`, width, 2),
  ];
}

/** Names with how they stand; behind right ones who says so, behind others what they mean. */
function printNames({ make }: WireReading, { width, paint }: ReadingOptions): string[] {
  const names = allNames(make);
  if (names.length === 0) return [];
  const left = Math.max(9, ...names.map(({ label }) => textWidth(label))) + 16;
  const room = Math.max(24, width - left);
  return printRows(
    [
      { head: "its names", cell: ({ label }) => label },
      { head: "", cell: ({ standing }) => standing },
      { head: "", cell: (name) => wrap(saidBy(name), room), least: 24 },
    ],
    names,
    width,
    paint,
  );
}

function saidBy({ by, standing, says, trap }: KnownName): string {
  const dialects = [...new Set(by.map(({ dialect }) => dialect))];
  const uses = [...new Set(by.map(({ use }) => use))];
  if (by.length === 0) return says;
  const who = dialects.length > 3 ? "nearly everywhere" : dialects.join(", ");
  const but = standing === "this cable" || trap === null ? "" : `; ${trap}`;
  return `${who}: ${uses.join(", ")}${but}`;
}
