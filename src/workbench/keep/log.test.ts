import { test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import { applySplices, type Splice } from "../../plan/text/splice.ts";
import { leadsTo, namesOf, newLog, pushStep, redo, textOf, undo, undoTo, type Log } from "./log.ts";

const put = (at: number, text: string): Splice[] => [{ start: at, end: at, text }];
const typed = (log: Log, at: number, text: string, when: number): Log =>
  pushStep(log, { name: `typed ${text}`, splices: put(at, text), at: when, typed: true });
const done = (log: Log, at: number, text: string): Log => pushStep(log, { name: text, splices: put(at, text), at: 0 });

type Deed =
  | { readonly is: "undo" }
  | { readonly is: "redo" }
  | { readonly is: "to"; readonly done: number }
  | {
      readonly is: "push";
      readonly cuts: readonly number[];
      readonly put: string;
      readonly wait: number;
      readonly typed: boolean;
    };

const deeds: fc.Arbitrary<readonly Deed[]> = fc.array(
  fc.oneof(
    { weight: 1, arbitrary: fc.constantFrom({ is: "undo" as const }, { is: "redo" as const }) },
    { weight: 1, arbitrary: fc.record({ is: fc.constant("to" as const), done: fc.integer({ min: -2, max: 30 }) }) },
    {
      weight: 4,
      arbitrary: fc.record({
        is: fc.constant("push" as const),
        cuts: fc.array(fc.nat(1000), { minLength: 2, maxLength: 4 }),
        put: fc.string({ maxLength: 4 }),
        wait: fc.nat(1500),
        typed: fc.boolean(),
      }),
    },
  ),
  { maxLength: 30 },
);

/** Splices that fit a text, made of any numbers. */
function splicesOf(length: number, cuts: readonly number[], text: string): Splice[] {
  const at = cuts.map((cut) => cut % (length + 1)).sort((a, b) => a - b);
  return at.flatMap((start, i) =>
    i % 2 === 0 && at[i + 1] !== undefined ? [{ start, end: at[i + 1] ?? 0, text }] : [],
  );
}

test("whatever is done, undone and typed: the text is what was made of it, and every step leads there and back", () => {
  fc.assert(
    fc.property(fc.string({ maxLength: 20 }), deeds, (base, list) => {
      let log = newLog(base);
      let now = 0;
      for (const deed of list) {
        const before = log;
        if (deed.is === "undo") {
          log = undo(log);
          if (before.done > 0) assert.equal(textOf(redo(log)), textOf(before));
        } else if (deed.is === "redo") {
          log = redo(log);
          if (log !== before) assert.equal(textOf(undo(log)), textOf(before));
        } else if (deed.is === "to") {
          log = undoTo(log, deed.done);
          assert.equal(log.done, Math.min(Math.max(deed.done, 0), log.steps.length));
          assert.equal(textOf(undoTo(log, before.done)), textOf(before));
        } else {
          now += deed.wait;
          const text = textOf(log);
          const splices = splicesOf(text.length, deed.cuts, deed.put);
          log = pushStep(log, { name: "step", splices, at: now, typed: deed.typed });
          assert.equal(textOf(log), applySplices(text, splices));
        }
        // As it comes back from the store, where nothing is remembered.
        const copy = structuredClone(log);
        assert.equal(textOf(copy), textOf(log));
        assert.ok(leadsTo(copy, textOf(log)));
        assert.equal(textOf(undoTo(copy, 0)), base);
      }
    }),
    { numRuns: 500 },
  );
});

test("keys in one place within a second are one step, with the name of the last", () => {
  let log = typed(typed(typed(newLog("a: "), 3, "1", 0), 4, "2", 900), 5, "3", 1800);
  assert.deepEqual(namesOf(log), ["typed 3"]);
  assert.equal(textOf(log), "a: 123");
  log = undo(log);
  assert.equal(textOf(log), "a: ");
});

test("keys a second apart, or elsewhere, or after another deed, are steps of their own", () => {
  const one = typed(newLog("a: \nb: "), 3, "1", 0);
  assert.equal(typed(one, 4, "2", 1000).steps.length, 2, "later");
  assert.equal(typed(one, 8, "2", 10).steps.length, 2, "elsewhere");
  assert.equal(done(one, 4, "2").steps.length, 2, "no key");
  assert.equal(typed(done(newLog(""), 0, "1"), 1, "2", 0).steps.length, 2, "after no key");
  assert.equal(typed(undo(typed(one, 8, "x", 10)), 4, "2", 20).steps.length, 2, "after an undo");
});

test("what is typed and rubbed out in one go leaves no step", () => {
  const log = typed(newLog("a"), 1, "b", 0);
  const rubbed = pushStep(log, { name: "rubbed out", splices: [{ start: 1, end: 2, text: "" }], at: 10, typed: true });
  assert.deepEqual(rubbed.steps, []);
  assert.equal(textOf(rubbed), "a");
});

test("a step that changes nothing is none, and keeps what can be redone", () => {
  const log = undo(done(newLog("a"), 1, "b"));
  assert.equal(pushStep(log, { name: "same", splices: [{ start: 0, end: 1, text: "a" }], at: 0 }), log);
});

test("a new step after an undo drops what was undone", () => {
  const log = done(undo(done(done(newLog(""), 0, "a"), 1, "b")), 1, "c");
  assert.deepEqual(namesOf(log), ["a", "c"]);
  assert.equal(redo(log), log);
});

test("of more than 2000 steps the oldest become the base", () => {
  let log = newLog("");
  for (let i = 0; i < 2005; i++) log = done(log, i, "x");
  assert.equal(log.steps.length, 2000);
  assert.equal(log.folded, 5);
  assert.equal(log.base, "xxxxx");
  assert.equal(textOf(log).length, 2005);
  assert.equal(textOf(undoTo(log, 0)), "xxxxx");
});

test("large steps are folded sooner, the last never", () => {
  const large = "x".repeat(900_000);
  let log = newLog("");
  for (const name of ["a", "b", "c"]) log = pushStep(log, { name, splices: put(0, large), at: 0 });
  assert.deepEqual(namesOf(log), ["b", "c"]);
  const huge = pushStep(log, { name: "d", splices: put(0, "y".repeat(3_000_000)), at: 0 });
  assert.deepEqual(namesOf(huge), ["d"]);
  assert.equal(undo(huge).base.length, 2_700_000);
});

test("a damaged log is known", () => {
  const log = done(done(newLog("a"), 1, "b"), 2, "c");
  assert.ok(leadsTo(log, "abc"));
  const [first, last] = log.steps;
  assert.ok(first !== undefined && last !== undefined);
  const damaged: unknown[] = [
    { ...log, base: "b" },
    { ...log, base: null },
    { ...log, done: 3 },
    { ...log, done: 1 },
    { ...log, steps: null },
    { ...log, steps: [first, null] },
    { ...log, steps: [last, first] },
    { ...log, steps: [first, { ...last, inverse: [] }] },
    { ...log, steps: [first, { ...last, splices: [{ start: 9, end: 9, text: "c" }] }] },
    { ...log, steps: [first, { ...last, splices: [null] }] },
  ];
  for (const one of damaged) assert.equal(leadsTo(one as Log, "abc"), false, JSON.stringify(one)); // damaged on purpose
});
