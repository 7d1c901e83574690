import { test } from "vitest";
import assert from "node:assert/strict";
import { readPlan } from "../plan/index.ts";
import { kinds, resolveSystem } from "../system/index.ts";
import { compiledExample, compilerOf } from "../../test/fixtures/compiled-example.ts";
import { act } from "./act.ts";
import type { Acted, ActRequest } from "./request.ts";

const sloop = compiledExample("sloop");
const { text: plan } = sloop;
const compile = compilerOf();

function done(text: string, request: ActRequest): Acted {
  const compiled = text === plan ? sloop.compiled : compile(text);
  const result = act(text, compiled, request);
  assert.ok(result.ok, JSON.stringify(result));
  return result;
}
const flip = (about: string, state: string): ActRequest => ({ do: "flip", about, state });
const lineOf = (text: string, state: string): string =>
  text
    .split("\n")
    .find((line) => line.startsWith(`  ${state}:`))
    ?.trim() ?? "";
/** How every part stands in every state: what counts of what the states say. */
const statesOf = (text: string): ReadonlyMap<string, string> =>
  new Map(
    resolveSystem(readPlan(text, kinds).value, kinds).value.states.map(({ id, ...state }) => [
      id,
      JSON.stringify({ ...state, on: [...state.on].sort(), positions: Object.entries(state.positions).sort() }),
    ]),
  );
const refused = (request: ActRequest): string => {
  const result = act(plan, sloop.compiled, request);
  assert.ok(!result.ok, JSON.stringify(result));
  return `${result.message}; ${result.hint}`;
};

test("a switch of two positions goes over and back", () => {
  const off = done(plan, flip("parts.SW1", "alongside"));
  assert.equal(off.step, "SW1 off in alongside");
  assert.ok(lineOf(off.text, "alongside").endsWith("SW1: off }"), lineOf(off.text, "alongside"));
  const on = done(off.text, flip("parts.SW1", "alongside"));
  assert.equal(on.step, "SW1 on in alongside");
  assert.deepEqual(compile(on.text).system.states.at(-1)?.positions["SW1"], "on");
});

test("a transfer switch goes through its positions, and from the last to the first", () => {
  let text = plan;
  const steps = ["off", "shore", "inverter", "off"].map(() => {
    const { step, text: then } = done(text, flip("parts.TS", "at anchor"));
    text = then;
    return step;
  });
  assert.deepEqual(
    steps,
    ["off", "shore", "inverter", "off"].map((position) => `TS ${position} in at anchor`),
  );
  assert.ok(lineOf(text, "at anchor").includes("TS: off"));
});

test("a load goes on and off, and twice comes to what it was", () => {
  const on = done(plan, flip("parts.windlass", "at anchor"));
  assert.equal(on.step, "windlass on in at anchor");
  assert.equal(done(on.text, flip("parts.windlass", "at anchor")).text, plan);
  const inherited = plan.replace("like: at anchor, on: [fridge, VHF, windlass]", "like: at anchor");
  const off = done(inherited, flip("parts.fridge", "hauling the anchor"));
  assert.ok(lineOf(off.text, "hauling the anchor").includes("fridge: off"));
  assert.equal(done(off.text, flip("parts.fridge", "hauling the anchor")).text, inherited);
});

test("what is always on, and what is never turned, says so", () => {
  const { splices, remarks } = done(plan, flip("parts.bilge pump", "at anchor"));
  assert.deepEqual([splices, remarks], [[], ["it is always on: what a state says of it changes nothing"]]);
  assert.equal(
    refused(flip("parts.BP", "at anchor")),
    "`BP` is never turned on or off; choose a load, a switch or a source",
  );
  assert.match(refused(flip("circuits.W13", "at anchor")), /is not a part/);
});

test("a switch answers `on` with the words that it has", () => {
  for (const to of ["on", "left"]) {
    assert.equal(
      refused({ do: "switch", about: "parts.TS", state: "at anchor", to }),
      `\`TS\` has no position \`${to}\`; its positions are \`off\`, \`shore\`, \`inverter\``,
    );
  }
  assert.match(
    refused({ do: "switch", about: "parts.SW1", state: "at anchor", to: "shore" }),
    /its positions are `on`, `off`/,
  );
});

test("what another state takes over is told, also where that state lists its own loads", () => {
  const { remarks } = done(plan, flip("parts.TS", "at anchor"));
  assert.deepEqual(remarks, ["so it is in `hauling the anchor`, which starts from it"]);
  assert.deepEqual(done(plan, flip("parts.fridge", "at anchor")).remarks, []);
});

test.each(["sloop", "sloop-audit", "van", "hut"] as const)(
  "%s: a flip changes the state that is meant and those that are told, and no other",
  (example) => {
    const { text, compiled, memory } = compiledExample(example);
    const before = statesOf(text);
    let flips = 0;
    for (const state of compiled.system.states) {
      for (const part of compiled.system.parts) {
        const result = act(text, compiled, flip(`parts.${part.id}`, state.id), memory);
        if (!result.ok || result.splices.length === 0) continue;
        flips++;
        const after = statesOf(result.text);
        const changed = [...after.keys()].filter((id) => after.get(id) !== before.get(id));
        const told = result.remarks.flatMap((r) => /^so it is in (.*), which/.exec(r)?.[1]?.split(", ") ?? []);
        assert.deepEqual(
          changed.sort(),
          [state.id, ...told.map((name) => name.replaceAll("`", ""))].sort(),
          result.step,
        );
      }
    }
    assert.ok(flips > 0);
  },
);

test("what is taken over through several states is told of each", () => {
  const text = plan.replace(
    "  on passage:",
    "  at night: { like: hauling the anchor }\n  at dawn: { like: at night, TS: off }\n  on passage:",
  );
  assert.deepEqual(done(text, flip("parts.TS", "at anchor")).remarks, [
    "so it is in `hauling the anchor`, `at night`, which start from it",
  ]);
});
