import { describe, test } from "vitest";
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { compile, type Compiled } from "../../src/compile.ts";
import { explainWhy, type Explanation } from "../../src/why/index.ts";
import { halfUnit, redoWorking } from "./redo-working.ts";

/** Every number of a schedule answers why: its explanation comes to the same figure, and each of its sums can be done again from print. */

/** And how many sums and ways there are at least, so that no example falls silent. Of the hut little can be told. */
const examples = [
  ["sloop", 900, 150],
  ["sloop-us", 900, 150],
  ["sloop-audit", 700, 130],
  ["van", 100, 20],
  ["hut", 20, 10],
] as const;
const read = (name: string): Compiled =>
  compile(readFileSync(join(import.meta.dirname, "../../examples", `${name}.yaml`), "utf8"));

/**
 * The design holds its currents at rest to a millionth, and a source that holds its volts gives way by a millionth: what is worked out anew
 * differs by no more than a few of those.
 */
const CLOSE = 1e-5;

function close(given: unknown, wanted: number, what: string): void {
  assert.ok(typeof given === "number", `${what}: ${String(given)} for ${wanted}`);
  assert.ok(
    Math.abs(given - wanted) <= CLOSE * Math.max(1, Math.abs(wanted)),
    `${what}: explained ${given}, scheduled ${wanted}`,
  );
}

function explained(built: Compiled, asked: string): Explanation {
  const found = explainWhy(built, asked);
  assert.ok(found.ok, `${asked}: ${found.ok ? "" : found.problem}`);
  return found.explanation;
}

const valuesOf = ({ figures }: Explanation, name: string): readonly unknown[] =>
  figures.filter((f) => f.name === name).map((f) => f.value);

/** Each figure of the schedule with the question that it answers. */
function* figuresOf({
  design,
}: Compiled): Generator<readonly [asked: string, figure: string, nth: number, wanted: number | string]> {
  for (const c of design.circuits) {
    if (c.lengthM.origin !== "unknown") yield [`${c.id}.length`, "lengthM", 0, c.lengthM.high];
    if (c.outcome === "cannot tell") continue;
    const one = function* (topic: string, figures: Readonly<Record<string, number | null>>) {
      for (const [name, wanted] of Object.entries(figures))
        if (wanted !== null) yield [`${c.id}.${topic}`, name, 0, wanted] as const;
    };
    if (c.size !== null) yield [c.id, "size", 0, c.size.label];
    yield* one("current", { steadyA: c.steadyA });
    yield* one("start", { startA: c.startA });
    yield* one("ampacity", { ampacityA: c.ampacityA });
    yield* one("temperature", { conductorC: c.conductorC });
    yield* one("drop", { dropV: c.dropV, dropShare: c.dropShare, dropLimitShare: c.dropLimitShare });
    yield* one("volts", { leastVolts: c.leastVolts, startVolts: c.startVolts });
    for (const [k, d] of c.devices.entries()) {
      const { ratingA, leastA, mostA, distanceM } = d;
      for (const [name, wanted] of Object.entries({ ratingA, leastA, mostA, distanceM })) {
        if (wanted !== null) yield [`${c.id}.device`, name, k, wanted];
      }
    }
    for (const load of c.loads) {
      const { part, leastVolts, runsAbove, startVolts, startsAbove } = load;
      for (const [name, wanted] of Object.entries({ leastVolts, runsAbove, startVolts }))
        if (wanted !== null) yield [part, name, 0, wanted];
      if (startVolts !== null && startsAbove !== null) yield [part, "startsAbove", 0, startsAbove];
      for (const name of ["dropV", "dropShare", "dropLimitShare"] as const) {
        const wanted = load[name];
        if (wanted !== null) yield [`${part}.drop`, name, 0, wanted];
      }
    }
  }
  for (const state of design.states) {
    for (const x of [...state.loads, ...state.sources]) {
      if (x.volts === null || x.condition === "collapsed" || x.condition === "off") continue;
      yield [`${x.part}@${state.id}`, "volts", 0, x.volts];
      yield [`${x.part}@${state.id}`, "amps", 0, x.amps];
    }
    for (const { id, amps } of state.circuits) yield [`${id}@${state.id}`, "amps", 0, amps];
  }
  yield ["copper", "copperMm2M", 0, design.copperMm2M];
}

describe.each(examples)("%s", (name, leastSums, leastWays) => {
  const built = read(name);
  const seen = new Map<string, Explanation>();
  const ask = (asked: string): Explanation => {
    let found = seen.get(asked);
    if (found === undefined) seen.set(asked, (found = explained(built, asked)));
    return found;
  };

  test("every figure of the schedule has an explanation that comes to it", () => {
    let count = 0;
    for (const [asked, figure, nth, wanted] of figuresOf(built)) {
      count++;
      const given = valuesOf(ask(asked), figure)[nth];
      if (typeof wanted === "string") assert.equal(given, wanted, `${asked}: ${figure}`);
      else close(given, wanted, `${asked}: ${figure}`);
    }
    assert.ok(count > 50, `${count} figures`);
  });

  test("every sum can be done again from what is printed", () => {
    let count = 0;
    for (const [asked, { sections }] of seen) {
      for (const { steps } of sections) {
        for (const step of steps) {
          if (step.equation === "" || typeof step.value !== "number") continue;
          count++;
          const { value, slack } = redoWorking(step);
          const what = `${asked}, ${step.name}: ${step.working} = ${step.text}`;
          assert.ok(
            Math.abs(value - step.value) <= slack + 1e-9,
            `${what}: done again ${value}, kept ${step.value}, rounding ${slack}`,
          );
          // A sum of large numbers of both signs can lose figures; none here loses more than two of four.
          assert.ok(slack <= 0.02 * Math.max(Math.abs(step.value), 0.01), `${what}: printed too coarsely, ${slack}`);
        }
      }
    }
    assert.ok(count >= leastSums, `${count} sums`);
  });

  test("what is printed of a step is its value", () => {
    for (const { sections } of seen.values()) {
      for (const { steps } of sections) {
        for (const { value, text, unit, name: what } of steps) {
          if (typeof value !== "number") continue;
          const printed =
            Number(/^−?[\d.]+/.exec(text)?.[0]?.replace("−", "-")) *
            (text.includes("mΩ") && unit.startsWith("Ω") ? 1e-3 : 1);
          assert.ok(Math.abs(printed - value) <= halfUnit(value) * 1.0001 + 1e-12, `${what}: ${text} for ${value}`);
        }
      }
    }
  });

  test("what is lost on a way adds up to the drop, and Ohm's law holds in each element", () => {
    let ways = 0;
    for (const [asked, { sections }] of seen) {
      for (const { way, steps } of sections) {
        if (way.length === 0) continue;
        ways++;
        const total = way.reduce((sum, e) => sum + e.volts, 0);
        const lost = steps.find((s) => s.name.startsWith("lost on the way"));
        close(lost?.value, total, `${asked}: lost`);
        for (const { element, amps, ohms, volts } of way) {
          assert.ok(Math.abs(amps * ohms - volts) < 1e-12, `${asked}: ${element}`);
          assert.ok(ohms > 0, `${asked}: ${element} has ${ohms} Ω`);
        }
      }
    }
    assert.ok(ways >= leastWays, `${ways} ways`);
  });

  test("explanations are plain data, and leave the build as they found it", () => {
    for (const one of seen.values()) assert.deepEqual(JSON.parse(JSON.stringify(one)), one);
    assert.deepEqual(read(name).design, built.design);
  });
});

test.each(["sloop", "sloop-us"])(
  "each rung of the ladders of %s is the least: the size below it fails when all is solved again",
  (name) => {
    const built = read(name);
    let count = 0;
    for (const { id, constraints } of built.design.circuits) {
      const { ladder } = explained(built, id);
      for (const { id: constraint, alone } of constraints) {
        if (
          !["drop", "start", "least-volts", "ampacity", "device"].includes(constraint) ||
          alone === null ||
          alone.areaMm2 < 0.8
        )
          continue;
        const rung = ladder.find((r) => r.id === constraint);
        // Nothing on sale, or nothing in the table, stands below the least sizes.
        if (name === "sloop-us" && alone.label === "18 AWG") continue;
        count++;
        assert.match(
          rung?.thinner ?? "",
          /would lose|would have|may carry/,
          `${id}: ${constraint} asks for ${alone.label}`,
        );
      }
    }
    assert.ok(count > 50, `${count} rungs`);
  },
);
