import { applySplices, composeSplices, invertSplices, type Splice } from "../../plan/text/splice.ts";

/** One thing a person did to the plan. */
export interface Step {
  /** `W13 1.5 → 2.5 mm²`. */
  readonly name: string;
  readonly splices: readonly Splice[];
  /** What takes the step back; offsets into the text after it. */
  readonly inverse: readonly Splice[];
  /** When, in ms since 1970; of typing, the last key. */
  readonly at: number;
  /** Keys in the text: may grow by the next key. */
  readonly typed: boolean;
}

/** A step that is about to be made. */
export interface NewStep {
  readonly name: string;
  /** In the order of the text, none overlapping; offsets into the text before. */
  readonly splices: readonly Splice[];
  readonly at: number;
  readonly typed?: boolean;
}

/** The one undo list of a plan: where it began, what was done, and how much of that stands. */
export interface Log {
  readonly base: string;
  /** Steps that are too old to be undone, and part of `base` now. Step i is the step number `folded + i` of the plan's life. */
  readonly folded: number;
  readonly steps: readonly Step[];
  /** How many of the steps stand; the others were undone and can be redone. */
  readonly done: number;
}

/** Older steps than these many become part of the base. */
const MOST_STEPS = 2000;
/** And so do those beyond this much text, put in and taken out: pasted plans would fill a browser's store. */
const MOST_CHARACTERS = 2_000_000;
/** Keys that follow one another faster than this, in ms, in one place, are one step. */
const ONE_GO = 1000;

/** Texts that are known, so that asking again costs nothing; a log from the store is replayed once. */
const texts = new WeakMap<Log, string>();

function withText(log: Log, text: string): Log {
  texts.set(log, text);
  return log;
}

/** An undo list with nothing in it. */
export function newLog(text: string): Log {
  return withText({ base: text, folded: 0, steps: [], done: 0 }, text);
}

/**
 * The text as it stands.
 *
 * @example
 * textOf(pushStep(newLog("length: 5 m"), { name: "5 → 6 m", splices: [{ start: 8, end: 9, text: "6" }], at: 0 })) //=> "length: 6 m"
 */
export function textOf(log: Log): string {
  let text = texts.get(log);
  if (text === undefined) {
    text = log.steps.slice(0, log.done).reduce((before, step) => applySplices(before, step.splices), log.base);
    texts.set(log, text);
  }
  return text;
}

/**
 * Does one thing. What was undone before it can no longer be redone.
 *
 * Keys in one place within a second of each other join into one step, which goes by the name of the last.
 *
 * @returns the same log if the step changes nothing
 */
export function pushStep(log: Log, step: NewStep): Log {
  const before = textOf(log);
  const after = applySplices(before, step.splices);
  if (after === before) return log;
  const kept = log.steps.slice(0, log.done);
  const last = kept.at(-1);
  if (last !== undefined && log.done === log.steps.length && goesOn(last, step)) {
    const start = applySplices(before, last.inverse);
    const others = kept.slice(0, -1);
    // Typed and rubbed out again in one go: nothing is left that could be undone.
    if (start === after) return withText({ ...log, steps: others, done: others.length }, after);
    const splices = composeSplices(start.length, last.splices, step.splices);
    const joined = makeStep(start, { ...step, splices });
    return fold(withText({ ...log, steps: [...others, joined], done: others.length + 1 }, after));
  }
  const steps = [...kept, makeStep(before, step)];
  return fold(withText({ ...log, steps, done: steps.length }, after));
}

function makeStep(before: string, { name, splices, at, typed = false }: NewStep): Step {
  return { name, splices, inverse: invertSplices(before, splices), at, typed };
}

function goesOn(last: Step, step: NewStep): boolean {
  if (!last.typed || step.typed !== true || Math.abs(step.at - last.at) >= ONE_GO) return false;
  const [from, to] = hull(last.inverse);
  const [start, end] = hull(step.splices);
  return start <= to && end >= from;
}

function hull(splices: readonly Splice[]): [start: number, end: number] {
  return [splices[0]?.start ?? 0, splices.at(-1)?.end ?? 0];
}

/** Keeps the list in bounds. Only what stands can be folded, so the list ends where it is done. */
function fold(log: Log): Log {
  const sizes = log.steps.map((step) => weight(step.splices) + weight(step.inverse));
  let size = sizes.reduce((sum, one) => sum + one, 0);
  let first = 0;
  let base = log.base;
  for (const step of log.steps.slice(0, -1)) {
    if (log.steps.length - first <= MOST_STEPS && size <= MOST_CHARACTERS) break;
    base = applySplices(base, step.splices);
    size -= sizes[first] ?? 0;
    first++;
  }
  if (first === 0) return log;
  const steps = log.steps.slice(first);
  return withText({ base, folded: log.folded + first, steps, done: steps.length }, textOf(log));
}

function weight(splices: readonly Splice[]): number {
  return splices.reduce((sum, splice) => sum + splice.text.length, 0);
}

/** Takes the last step back; the same log if there is none. */
export function undo(log: Log): Log {
  const step = log.steps[log.done - 1];
  if (step === undefined) return log;
  return withText({ ...log, done: log.done - 1 }, applySplices(textOf(log), step.inverse));
}

/** Does again what was taken back last; the same log if there is nothing. */
export function redo(log: Log): Log {
  const step = log.steps[log.done];
  if (step === undefined) return log;
  return withText({ ...log, done: log.done + 1 }, applySplices(textOf(log), step.splices));
}

/**
 * Undoes or redoes until so many steps stand.
 *
 * @param done 0 … number of steps; beyond that as far as it goes
 */
export function undoTo(log: Log, done: number): Log {
  let now = log;
  while (now.done > Math.max(0, done)) now = undo(now);
  while (now.done < Math.min(now.steps.length, done)) now = redo(now);
  return now;
}

/** Names of all steps, oldest first. The first `done` of them stand. */
export function namesOf(log: Log): string[] {
  return log.steps.map((step) => step.name);
}

/**
 * Whether a log that comes from outside is one, and leads to the text that it is said to lead to.
 *
 * A store may be damaged; the text then counts and its history is given up.
 */
export function leadsTo(log: Log, text: string): boolean {
  if (typeof log.base !== "string" || !isList(log.steps) || !Number.isInteger(log.folded)) return false;
  if (!Number.isInteger(log.done) || log.done < 0 || log.done > log.steps.length) return false;
  let now = log.base;
  let reached = log.done === 0 ? now : null;
  for (const [i, step] of log.steps.entries()) {
    const before = now;
    if (typeof step?.name !== "string" || !fits(step.splices, before.length)) return false;
    now = applySplices(before, step.splices);
    if (!fits(step.inverse, now.length) || applySplices(now, step.inverse) !== before) return false;
    if (i + 1 === log.done) reached = now;
  }
  return reached === text;
}

function fits(splices: readonly Splice[], length: number): boolean {
  let at = 0;
  return (
    isList(splices) &&
    splices.every((splice) => {
      const sound = splice?.start >= at && splice.end >= splice.start && splice.end <= length;
      at = splice?.end;
      return sound && typeof splice.text === "string";
    })
  );
}

const isList = (value: unknown): boolean => Array.isArray(value);
