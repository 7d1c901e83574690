import { createPlanMemory, type PlanMemory } from "../plan/index.ts";
import type { Edit } from "../plan/text/index.ts";
import { cureMoves, rules, type CureMove, type Finding, type JudgeOptions } from "../rules/index.ts";
import { openCase, type Case, type Proposal } from "./case.ts";
import type { Cure, CureSearch } from "./cure.ts";
import { describeChanges } from "./describe-changes.ts";
import { moves } from "./moves/index.ts";
import { touchesPinned } from "./touches-pinned.ts";
import {
  inItsPlace,
  isOfTheRecord,
  standOf,
  tryEdits,
  type CompiledPlan,
  type CompilePlan,
  type Trial,
  type Tried,
} from "./try-edits.ts";

export interface CureOptions extends JudgeOptions {
  /** Plans to compile at most; the plan itself is not counted. */
  readonly most?: number;
  /** Asked before each plan; true ends the search with what there is. */
  readonly isCancelled?: () => boolean;
  /** Of the plan, as the compiler keeps it between two texts. */
  readonly memory?: PlanMemory;
  /** The plan itself, where it is compiled already. */
  readonly compiled?: CompiledPlan;
}

/** Which finding is to go. */
export type Wanted = Pick<Finding, "rule" | "about">;

/** Without another word so many plans are compiled; the longest list of one finding in the tests has about forty. */
export const MOST_TRIED = 80;
/** So many cures are offered. */
const OFFERED = 3;

/** A proposal that is to be tried, and what it comes from. */
interface Step extends Proposal {
  readonly moves: readonly CureMove[];
  readonly touchesPinned: boolean;
  /** The series that it belongs to: of each the best is offered. */
  readonly series: string;
}

interface Found extends Step {
  readonly trial: Trial;
}

/**
 * Looks for changes of a plan that make a finding go, by making them and compiling again.
 *
 * First what the finding's rule proposes, change by change; then, where none of these is enough, changes of pinned or found things beside the one
 * that the finding is about; then two changes together. A change counts as a cure when the finding is gone, no fail as grave has come, no load is
 * left without a source and the plan has no new error. The same plan gives the same cures.
 *
 * @param text the plan
 * @param wanted the finding, by its identity
 * @param compile the compiler of whole plans
 * @returns at most three cures, of each kind of change the best: fewest new fails (musts before others), fewest lines, least copper
 */
export function findCures(text: string, wanted: Wanted, compile: CompilePlan, options: CureOptions = {}): CureSearch {
  const search = searchCures(text, wanted, compile, options);
  for (;;) {
    const step = search.next();
    if (step.done === true) return step.value;
  }
}

/** The same, one plan at a time: it yields how many were compiled, so that a host can do other things in between or give up. */
export function* searchCures(
  text: string,
  wanted: Wanted,
  compile: CompilePlan,
  options: CureOptions = {},
): Generator<number, CureSearch, undefined> {
  const { most = MOST_TRIED, isCancelled = () => false, memory = createPlanMemory() } = options;
  const before = standOf(text, compile, memory, options);
  const finding = findIn(before, wanted);
  const refusal = refusalOf(finding);
  if (finding === undefined || refusal !== null) return { is: "not searched", why: refusal ?? "" };
  const series = seriesOf(finding, before);

  const found: Found[] = [];
  /** What makes it go and brings another fault as grave. */
  const halfway: Found[] = [];
  const known = new Set<string>();
  let tried = 0;
  let complete = true;

  /** Tries one step. @returns whether it is clean: nothing came in its place */
  const attempt = (step: Step): boolean => {
    tried++;
    const trial = tryEdits(before, step.edits, compile, memory, options);
    if (trial === null || findIn(trial.tried, wanted) !== undefined) return false;
    const isCure = inItsPlace(trial.raises, finding).length === 0;
    (isCure ? found : halfway).push({ ...step, trial });
    return isCure && trial.raises.every(isOfTheRecord);
  };

  /** @param enough cures with which the rest need not be tried */
  function* attemptAll(list: Iterable<readonly Step[]>, enough = Infinity): Generator<number, void, undefined> {
    for (const steps of list) {
      for (const step of steps) {
        const key = JSON.stringify(step.edits);
        if (step.edits.length === 0 || known.has(key) || found.length >= enough) continue;
        known.add(key);
        if (tried >= most || isCancelled()) {
          complete = false;
          return;
        }
        const clean = attempt(step);
        yield tried;
        if (clean) break; // what comes behind it is more of the same
      }
    }
  }

  const isFree = (step: Step): boolean => !step.touchesPinned;
  yield* attemptAll(series.map((steps) => steps.filter(isFree)));
  if (found.length === 0)
    yield* attemptAll(
      [...halfway].sort((a, b) => a.trial.lines - b.trial.lines).flatMap((half) => secondSteps(half, finding)),
      OFFERED,
    );
  if (found.length === 0) yield* attemptAll(series.map((steps) => steps.filter((s) => !isFree(s))));
  if (found.length === 0) yield* attemptAll(pairsOf(series), OFFERED);

  const cures = best(found).map((f) => cureOf(before, f));
  const why =
    cures.length > 0
      ? ""
      : series.length === 0
        ? "no change of the plan does it: a fact has to be found out, or the build to be laid out anew"
        : "nothing that was tried makes it go without another fault as grave";
  return { is: cures.length > 0 ? "edits" : "none", cures, tried, complete, why };
}

const findIn = ({ compiled }: Tried, { rule, about }: Wanted): Finding | undefined =>
  compiled.judgement.findings.find((f) => f.rule === rule && f.about === about);

/** Why nothing is looked for; null: something is. */
function refusalOf(finding: Finding | undefined): string | null {
  if (finding === undefined) return "the plan has no such finding";
  if (finding.outcome === "fail") return null;
  const facts = finding.needs.map((n) => n.fact).join(", ");
  return `it cannot be told whether anything is wrong: ${facts === "" ? "a fact" : facts} is not known`;
}

/** What the rule of a finding proposes, in its order. */
function seriesOf(finding: Finding, stand: Tried): readonly (readonly Step[])[] {
  const at = openCase(finding, stand.build, stand.document);
  const rule = rules.find(({ id }) => id === finding.rule);
  return (rule?.cures ?? []).flatMap((move) =>
    moves[move](at)
      .filter((steps) => steps.length > 0)
      .map((steps, i) => steps.map((p) => stepOf(at, move, p, `${move} ${i}`))),
  );
}

const stepOf = (at: Case, move: CureMove, { edits }: Proposal, series: string): Step => ({
  edits,
  series,
  moves: [move],
  touchesPinned: touchesPinned(at, move, edits),
});

/** What may cure the fault that came in the place of the first. */
function secondSteps(half: Found, first: Finding): readonly (readonly Step[])[] {
  const [worst] = inItsPlace(half.trial.raises, first);
  const next = worst === undefined ? undefined : findIn(half.trial.tried, worst);
  if (next === undefined) return [];
  return seriesOf(next, half.trial.tried).map((steps) => steps.map((step) => together(half, step)));
}

/** The ends of all series, two and two, those that the rule names first before others. */
function* pairsOf(series: readonly (readonly Step[])[]): Generator<readonly Step[], void, undefined> {
  const ends = series.flatMap((steps) => {
    const last = steps.at(-1);
    return last === undefined ? [] : [last];
  });
  for (let sum = 1; sum < 2 * ends.length; sum++) {
    for (let i = 0; i < sum - i; i++) {
      const [a, b] = [ends[i], ends[sum - i]];
      if (a !== undefined && b !== undefined && !overlap(a.edits, b.edits)) yield [together(a, b)];
    }
  }
}

const together = (a: Step, b: Step): Step => ({
  edits: [...a.edits, ...b.edits],
  series: `${a.series}, ${b.series}`,
  moves: [...new Set([...a.moves, ...b.moves])],
  touchesPinned: a.touchesPinned || b.touchesPinned,
});

/** Two changes that speak of the same place do not go together. */
function overlap(a: readonly Edit[], b: readonly Edit[]): boolean {
  const placeOf = (e: Edit): string => JSON.stringify(e.do === "add" ? [...e.path, e.key] : e.path);
  const there = new Set(a.map(placeOf));
  return b.some((e) => there.has(placeOf(e)));
}

/** The best of each kind of change, in order. */
function best(found: readonly Found[]): readonly Found[] {
  const count = ({ trial }: Found, is: (f: Trial["raises"][number]) => boolean): number =>
    trial.raises.filter(is).length;
  const rank = (f: Found): readonly number[] => [
    count(f, (r) => r.outcome === "fail" && r.severity === "must"),
    count(f, (r) => r.outcome === "fail"),
    f.trial.lines,
    Number.isFinite(f.trial.addedMm2M) ? f.trial.addedMm2M : 0,
    count(f, () => true),
  ];
  const sorted = found
    .map((f, order) => ({ f, order, rank: rank(f) }))
    .sort((a, b) => compare(a.rank, b.rank) || a.order - b.order);
  const offered = new Set<string>();
  return sorted
    .map(({ f }) => f)
    .filter(({ series }) => !offered.has(series) && offered.add(series))
    .slice(0, OFFERED);
}

function compare(a: readonly number[], b: readonly number[]): number {
  for (const [i, x] of a.entries()) {
    const d = x - (b[i] ?? 0);
    // Copper that differs by rounding is the same copper.
    if (Math.abs(d) > 1e-6) return d;
  }
  return 0;
}

function cureOf(before: Tried, { moves: taken, edits, trial, touchesPinned }: Found): Cure {
  const { clears, raises, lines, addedMm2M, tried } = trial;
  return {
    moves: taken,
    says: taken.map((move) => cureMoves[move]).join(", and "),
    edits,
    text: tried.text,
    ...describeChanges(before, tried, edits),
    clears,
    raises,
    touchesPinned,
    lines,
    // Of a plan with endless lengths nobody can say how much more copper it takes.
    addedMm2M: !Number.isFinite(addedMm2M) || Math.abs(addedMm2M) < 1e-9 ? 0 : Number(addedMm2M.toPrecision(6)),
  };
}
