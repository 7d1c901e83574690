import { isVerified, printCitation, printTrust } from "../explain/index.ts";
import { excerpt, lineStartsOf, positionAt } from "../plan/text/index.ts";
import {
  alsoInSays,
  printFigure,
  type Finding,
  type Judgement,
  type JudgementTally,
  type Severity,
} from "../rules/index.ts";
import { counted } from "./figures.ts";
import type { Paint, Style } from "./terminal.ts";
import { wrap } from "./text-width.ts";

/** Columns that the first word of a finding takes, and its own lines are indented by. */
const INDENT = 9;

const styles: Readonly<Record<Severity, Style>> = { must: "red", should: "yellow", note: "cyan" };

/** The word at the head of a finding: how grave a fail is, or that it cannot be told. */
const headOf = (f: Finding): string =>
  f.waived !== null && f.waived.lapsed === null ? "waived" : f.outcome === "fail" ? f.severity : "unsure";

export interface FindingsOptions {
  readonly width: number;
  readonly paint: Paint;
}

/**
 * Findings as people read them: what could happen, what is with its figures, the line of the plan, the clause and how far it can be leaned on.
 *
 * @param file as it was named
 */
export function printFindings(
  file: string,
  text: string,
  findings: readonly Finding[],
  { width, paint }: FindingsOptions,
): string[] {
  const starts = lineStartsOf(text);
  const line = (words: string, head = ""): string[] =>
    wrap(words, width - INDENT).map((row, i) => (i === 0 ? head : "").padEnd(INDENT) + row);
  return findings.flatMap((f, i) => {
    const [place] = f.at;
    const position = place === undefined ? null : positionAt(text, place[0], starts);
    const where = position === null ? file : `${file}:${position.line}:${position.column}`;
    const head = headOf(f);
    const style = head === "waived" || f.outcome !== "fail" ? "dim" : styles[f.severity];
    const lines = [`${paint(style, head.padEnd(INDENT))}${f.title}  ${paint("dim", `${where}  ${f.rule}`)}`];
    if (place !== undefined && position !== null) {
      const gutter = `${position.line} |`.padStart(INDENT - 1);
      const { line: row, mark } = excerpt(text, place, width - gutter.length - 1);
      lines.push(`${paint("dim", gutter)} ${row}`.trimEnd(), `${"|".padStart(gutter.length)} ${mark}`);
    }
    lines.push(...line(sentence(f)));
    if (f.outcome === "fail") lines.push(...line(f.danger, "danger"));
    const clause = clauseOf(f);
    if (clause !== "") lines.push(...line(clause, "by"));
    if (f.waived !== null) lines.push(...line(waiverOf(f.waived), "waiver"));
    return i === 0 ? lines : ["", ...lines];
  });
}

/**
 * What cannot be told, by the fact that is missing: one line each, with the things that lack it and how many rules wait for it. What has a
 * finding of its own, since the plan marks it as unknown, is not said again.
 */
export function printUntold(findings: readonly Finding[], width: number): string[] {
  const told = new Set(findings.flatMap((f) => (f.rule === "record/unknown-fact" ? [f.about] : [])));
  const lacking = new Map<string, { readonly things: Set<string>; count: number; isMust: boolean }>();
  for (const { outcome, severity, needs } of findings) {
    if (outcome !== "cannot tell") continue;
    for (const { fact, about } of needs) {
      if (told.has(about)) continue;
      let group = lacking.get(fact);
      if (group === undefined) lacking.set(fact, (group = { things: new Set(), count: 0, isMust: false }));
      group.things.add(about.replace(/^[a-z]+\./, ""));
      group.count++;
      if (severity === "must") group.isMust = true;
    }
  }
  if (lacking.size === 0) return [];
  return [
    "Cannot be told (`--all` says by which rule)",
    ...[...lacking].flatMap(([fact, { things, count, isMust }]) => {
      const names = [...things];
      const shown = names.length > MOST_NAMED ? [...names.slice(0, MOST_NAMED), "…"] : names;
      const weight = count === 1 ? (isMust ? "a must" : "no must") : isMust ? "musts among them" : "no must among them";
      return wrap(
        `- without ${fact.replace(/,$/, "")}: ${counted(count, "judgement")}, ${weight} (${shown.join(", ")})`,
        width,
        2,
      );
    }),
  ];
}

/** At most so many things are named. */
const MOST_NAMED = 12;

/** What is, and in which other states. */
const sentence = (f: Finding): string =>
  f.alsoIn.length === 0
    ? f.because
    : `${f.because}; also ${alsoInSays(f.alsoIn, f.positions === undefined ? "" : "`states`")}`;

/** The clause and its trust; empty where there is none. */
export function clauseOf({ clause, trust }: Finding): string {
  const words = isVerified(trust) ? [] : [printTrust(trust)];
  return [...(clause === null ? [] : [printCitation(clause)]), ...words].join(", ");
}

export function waiverOf(waived: NonNullable<Finding["waived"]>): string {
  const parts = [
    waived.lapsed === "no reason" ? "without a reason: it waives nothing" : waived.reason,
    ...(waived.by === null ? [] : [`by ${waived.by}`]),
    ...(waived.date === null ? [] : [`on ${waived.date}`]),
    ...(waived.until === null ? [] : [`until ${waived.until}`]),
    ...(waived.lapsed === "ended" ? ["it has run out"] : []),
    ...(waived.lapsed === "unreadable end" ? ["which is no day: it does not hold"] : []),
  ];
  return parts.join(", ");
}

/** `1 must, 2 shoulds, 1 note fail; 3 cannot be told; 214 pass, 3 of them thin; 87 not applicable; 1 waived` */
export function printJudged(t: JudgementTally): string {
  const fails = [
    ...(t.must > 0 ? [counted(t.must, "must")] : []),
    ...(t.should > 0 ? [counted(t.should, "should")] : []),
    ...(t.note > 0 ? [counted(t.note, "note")] : []),
  ];
  return [
    fails.length === 0 ? "no rule fails" : `rules that fail: ${fails.join(", ")}`,
    ...(t.cannotTell > 0 ? [`${t.cannotTell} cannot be told`] : []),
    `${t.pass} passed${t.thin > 0 ? `, ${t.thin} of them by less than 5 %` : ""}`,
    ...(t.notApplicable > 0 ? [`${t.notApplicable} not applicable`] : []),
    ...(t.waived > 0 ? [`${t.waived} waived`] : []),
  ].join("; ");
}

/** Every pass and what does not apply, for who asks: one line each. */
export function printPasses({ passes, notApplicable }: Judgement, { width, paint }: FindingsOptions): string[] {
  const lines = passes.flatMap((p) => {
    const figures =
      p.measured === null || p.limit === null
        ? ""
        : `  ${printFigure({ value: p.measured, unit: p.unit })} against ${printFigure({ value: p.limit, unit: p.unit })}`;
    const margin = p.margin === null ? "" : `, margin ${printFigure({ value: p.margin, unit: "share" })}`;
    return wrap(`${p.rule}  ${p.about}${figures}${margin}`, width - INDENT).map(
      (row, i) => paint("dim", (i === 0 ? "pass" : "").padEnd(INDENT)) + row,
    );
  });
  const silent = notApplicable.flatMap((n) =>
    wrap(`${n.rule}  ${n.reason}: ${n.about.join(", ")}`, width - INDENT).map(
      (row, i) => paint("dim", (i === 0 ? "silent" : "").padEnd(INDENT)) + row,
    ),
  );
  return [...lines, ...silent];
}
