import type { Diagnostic } from "../diagnostic.ts";
import type { PlanMemory } from "../plan/index.ts";
import { applyEdits, readDocument, type Edit, type PlanDocument, type Splice } from "../plan/text/index.ts";
import {
  viewBuild,
  type Build,
  type Computed,
  type Finding,
  type JudgeOptions,
  type Judgement,
  type Severity,
} from "../rules/index.ts";
import type { FindingName } from "./cure.ts";
import type { Stand } from "./describe-changes.ts";

/** A plan compiled, as far as cures ask. */
export interface CompiledPlan extends Computed {
  readonly judgement: Judgement;
  readonly diagnostics: readonly Diagnostic[];
}

/** The compiler of whole plans. */
export type CompilePlan = (text: string, memory: PlanMemory, options: JudgeOptions) => CompiledPlan;

/** A plan with all that is known of it. */
export interface Tried extends Stand {
  readonly text: string;
  readonly compiled: CompiledPlan;
  readonly document: PlanDocument;
  readonly build: Build;
}

/** What came of some edits, against the plan before them. */
export interface Trial {
  readonly edits: readonly Edit[];
  readonly tried: Tried;
  readonly clears: readonly FindingName[];
  readonly raises: readonly FindingName[];
  readonly lines: number;
  readonly addedMm2M: number;
}

/** Compiles a text and lays out what it comes to. */
export function standOf(
  text: string,
  compile: CompilePlan,
  memory: PlanMemory,
  { compiled: known, ...options }: JudgeOptions & { readonly compiled?: CompiledPlan },
): Tried {
  const compiled = known?.plan.text === text ? known : compile(text, memory, options);
  return { text, compiled, document: readDocument(text, memory.document).value, build: viewBuild(compiled) };
}

/**
 * Makes edits, compiles, and compares what the rules say.
 *
 * @returns null: the edits cannot be made, the plan then has an error that it had not, or a load that nothing feeds any more
 */
export function tryEdits(
  before: Tried,
  edits: readonly Edit[],
  compile: CompilePlan,
  memory: PlanMemory,
  options: JudgeOptions,
): Trial | null {
  const { value, diagnostics } = applyEdits(before.text, edits, memory.document);
  if (diagnostics.length > 0 || value.text === before.text) return null;
  const tried = standOf(value.text, compile, memory, options);
  if (hasNewError(before.compiled, tried.compiled) || leavesDead(before.compiled, tried.compiled)) return null;
  return {
    edits,
    tried,
    ...compareFindings(before.compiled, tried.compiled),
    lines: linesOf(before.text, value.splices),
    addedMm2M: tried.compiled.design.copperMm2M - before.compiled.design.copperMm2M,
  };
}

/** Findings that are gone, and those that have come and that nobody answers for. */
export function compareFindings(
  { judgement: before }: Pick<CompiledPlan, "judgement">,
  { judgement: after }: Pick<CompiledPlan, "judgement">,
): { readonly clears: readonly FindingName[]; readonly raises: readonly FindingName[] } {
  return {
    clears: without(before.findings, after.findings),
    raises: without(after.findings.filter(isOpen), before.findings),
  };
}

const isOpen = ({ waived }: Finding): boolean => waived === null || waived.lapsed !== null;

/** A finding that is told otherwise, or more gravely, counts as another one. */
const keyOf = (f: Finding): string => `${f.rule} ${f.about} ${f.outcome} ${f.severity} ${String(isOpen(f))}`;

function without(some: readonly Finding[], others: readonly Finding[]): readonly FindingName[] {
  const there = new Set(others.map(keyOf));
  return some
    .filter((f) => !there.has(keyOf(f)))
    .map(({ rule, about, outcome, severity, title }) => ({ rule, about, outcome, severity, title }));
}

function hasNewError(before: CompiledPlan, after: CompiledPlan): boolean {
  const errorsOf = ({ diagnostics }: CompiledPlan): string[] =>
    diagnostics.filter((d) => d.level === "error").map((d) => `${d.id} ${d.about} ${d.message}`);
  const known = new Set(errorsOf(before));
  return errorsOf(after).some((e) => !known.has(e));
}

function leavesDead(before: CompiledPlan, after: CompiledPlan): boolean {
  const was = new Map(before.design.states.map((s) => [s.id, new Set(s.dead)]));
  return after.design.states.some((s) => s.dead.some((load) => was.get(s.id)?.has(load) === false));
}

/** Lines of the old text that splices touch, and lines that they add. */
function linesOf(text: string, splices: readonly Splice[]): number {
  const lines = new Set<number>();
  let added = 0;
  let at = 0;
  let line = 0;
  for (const { start, end, text: put } of splices) {
    for (; at < start; at++) if (text.charAt(at) === "\n") line++;
    const breaks = put.split("\n").length - 1;
    const isWhole = breaks > 0 && start === end;
    if (!isWhole) lines.add(line);
    for (; at < end; at++) {
      if (text.charAt(at) === "\n" && at < end - 1) lines.add(++line);
      else if (text.charAt(at) === "\n") line++;
    }
    added += breaks;
  }
  return lines.size + added;
}

const graveness: Readonly<Record<Severity, number>> = { must: 3, should: 2, note: 1 };

/** What the record lacks is no fault of the build: naming it brings to light what was there before. */
export const isOfTheRecord = ({ rule }: Pick<FindingName, "rule">): boolean => rule.startsWith("record/");

/** Fails that come in the place of a finding: faults of the build at least as grave. */
export const inItsPlace = (raises: readonly FindingName[], finding: FindingName): readonly FindingName[] =>
  isOfTheRecord(finding)
    ? []
    : raises.filter(
        (f) => f.outcome === "fail" && !isOfTheRecord(f) && graveness[f.severity] >= graveness[finding.severity],
      );
