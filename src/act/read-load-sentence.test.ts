import { test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import type { LoadSentence } from "./load-sentence.ts";
import { readLoadSentence } from "./read-load-sentence.ts";

/** What a sentence says, without what it does not. */
function said(text: string): Partial<LoadSentence> {
  const read = readLoadSentence(text);
  assert.ok(read.ok, JSON.stringify(read));
  const { remarks, ...load } = read.load;
  assert.ok(remarks.length < 3);
  return Object.fromEntries(Object.entries(load).filter(([, value]) => value !== null && value !== false));
}

test("a name, amps or watts, and the rest in any order", () => {
  const cases: [string, Partial<LoadSentence>][] = [
    ["fridge 45 W, start 8 A, 3 m", { name: "fridge", kind: "load", running: "45 W", starting: "8 A", length: "3 m" }],
    ["kettle socket 8 A, 4.2 m", { name: "kettle socket", kind: "outlet", running: "8 A", length: "4.2 m" }],
    ["kettle socket 8 A 4,2 m", { name: "kettle socket", kind: "outlet", running: "8 A", length: "4.2 m" }],
    ["fridge takes 45 W and starts with 8 A", { name: "fridge", kind: "load", running: "45 W", starting: "8 A" }],
    ["cabin light 2, 0.4 A, 11 ft", { name: "cabin light 2", kind: "light", running: "0.4 A", length: "11 ft" }],
    ["5 × reading light 0.2 A, 3 m", { name: "reading light", kind: "light", count: 5, running: "0.2 A", length: "3 m" }], // prettier-ignore
    ["bilge pump always on 4 A, 16' 4\"", { name: "bilge pump", kind: "bilge pump", alwaysOn: true, running: "4 A", length: "16 ft 4 in" }], // prettier-ignore
    ["toilet 18 A, 6.6 m, critical, motor, start 30 A for 2 s", { name: "toilet", kind: "load", running: "18 A", starting: "30 A", startTime: "2 s", length: "6.6 m", critical: true, motor: true }], // prettier-ignore
    ["heater 1.3 A, least 10.8 V, starts above 11.5 V", { name: "heater", kind: "load", running: "1.3 A", runsAbove: "10.8 V", startsAbove: "11.5 V" }], // prettier-ignore
    ["fridge 4 A 12 V, note the white one: 2024", { name: "fridge", kind: "load", running: "4 A", volts: "12 V", note: "the white one: 2024" }], // prettier-ignore
    ["fan 8.4 m there and back, 2 A", { name: "fan", kind: "load", running: "2 A", length: "4.2 m" }],
  ];
  for (const [text, expected] of cases) assert.deepEqual(said(text), expected, text);
});

test("what is not understood is told with its place, never dropped", () => {
  const cases: [string, string, string, string][] = [
    ["fridge 45 W, strat 8 A", "strat", "`strat` was not understood", "did you mean `start`?"],
    ["fridge 45 W, blue, 3 m", "blue", "`blue` was not understood", "leave it out, or put `note` before it"],
    ["fridge 45 W, 8 A", "8 A", "`8 A` is a second figure of that kind", "say which is the start: `start 8 A`"],
    ["fridge 45 W, 1,000 m", "1,000", "`1,000` can mean 1.000 or 1000", "write `1.000` or `1000`"],
    ["fridge 45 W, 3", "3", "`3` has no unit that is known here", "write `3 A`, `3 W`, `3 m` or `3 ft`"],
    ["fridge 45, 3 m", "fridge 45", "`45` has no unit", "write `45 W`, `45 A` or `45 m`"],
    ["45 W, 3 m", "4", "the load has no name", "begin with one, as in `fridge 45 W, 3 m`"],
    ["windlass", "windlass", "what it takes is missing", "add amps or watts, as in `45 W` or `4 A`"],
  ];
  for (const [text, at, message, hint] of cases) {
    const read = readLoadSentence(text);
    assert.ok(!read.ok, text);
    const [problem] = read.problems;
    assert.deepEqual(
      [problem && text.slice(...problem.at), problem?.message, problem?.hint],
      [at, message, hint],
      text,
    );
  }
});

test("every word of a sentence is in what was read, or in a problem", () => {
  const words = fc.array(fc.constantFrom<string[]>("fridge", "blue", "start", "8 A", "45 W", "3 m", ",", "always on", "12 V", "xyz", "motor", "7"), { maxLength: 9 }); // prettier-ignore
  fc.assert(
    fc.property(words, (parts) => {
      const text = parts.join(" ");
      const read = readLoadSentence(text);
      if (!read.ok) {
        for (const { at } of read.problems) assert.ok(at[0] >= 0 && at[1] <= text.length && at[0] <= at[1]);
        return;
      }
      for (const word of ["blue", "xyz"]) {
        if (parts.includes(word)) assert.ok(read.load.name.includes(word), `${text}: ${word} was dropped`);
      }
    }),
    { numRuns: 2000 },
  );
});
