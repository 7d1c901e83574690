import { test } from "vitest";
import assert from "node:assert/strict";
import { createMemory } from "../compile.ts";
import { compiledExample, compilerOf } from "../../test/fixtures/compiled-example.ts";
import { act } from "./act.ts";
import type { Acted, ActRequest } from "./request.ts";

/** Of one plan after another, so that only what differs is worked out again. */
const memory = createMemory();
const compile = compilerOf(memory);

const done = (text: string, request: ActRequest): Acted => {
  const result = act(text, compile(text), request, memory);
  assert.ok(result.ok, JSON.stringify(result));
  return result;
};
const lineOf = (text: string, key: string): string =>
  text
    .split("\n")
    .find((line) => line.trim().startsWith(`${key}:`))
    ?.trim() ?? "";
const distant = (text: string): readonly string[] =>
  compile(text).judgement.findings.flatMap(({ rule, outcome, about }) =>
    rule === "protection/distant-device" && outcome === "fail" ? [about] : [],
  );
const sloop = compiledExample("sloop").text;
/** W13 written from its load. */
const turned = sloop.replace("PNL:1 → fridge", "fridge → PNL:1");
const at = (text: string, distance?: string, circuit = "circuits.W13"): ActRequest => ({
  do: "insert-device",
  circuit,
  text,
  ...(distance === undefined ? {} : { distance }),
});

test("a device stands at the supply side, whichever way its path is written", () => {
  for (const [request, words] of [
    [at("fuse 10 A"), "fuse: 10 A at PNL"],
    [at("fuse 10 A", "0.1 m"), "fuse: 10 A 0.1 m from PNL"],
    [{ do: "set-figure", about: "circuits.W13", field: "device", text: "10 A" }, "breaker: 10 A at PNL"],
  ] as const) {
    for (const plan of [sloop, turned]) {
      const { text } = done(plan, request);
      assert.ok(lineOf(text, "W13").includes(words), lineOf(text, "W13"));
      assert.deepEqual(distant(text), distant(plan));
    }
  }
  const bare = turned.replace("fridge → PNL:1, length: 5.2 m", "fridge → PNL:1, length: 5.2 m, fuse: unknown");
  const { text } = done(bare, { do: "set-figure", about: "circuits.W13", field: "device", text: "10 A" });
  assert.ok(lineOf(text, "W13").includes("fuse: 10 A at PNL"), lineOf(text, "W13"));
});

test("what a charger pushes into a bar is guarded at the bar, and what joins a battery at the battery", () => {
  const { text, compiled } = compiledExample("sloop-audit");
  for (const [circuit, words] of [
    ["W05", "A at BP"],
    ["W06", "A at B3"],
  ] as const) {
    const result = act(text, compiled, at("fuse", undefined, `circuits.${circuit}`));
    assert.ok(result.ok && lineOf(result.text, circuit).includes(words), lineOf(result.ok ? result.text : "", circuit));
    const known = distant(text);
    assert.deepEqual(distant(result.text).filter((about) => !known.includes(about)), []); // prettier-ignore
  }
});

test("a switch stands at the supply side, its stretches in the order of the path", () => {
  const near = done(sloop, at("switch 20 A", "0.2 m"));
  assert.ok(lineOf(near.text, "W13").includes("PNL:1 → SW2 → fridge, legs: [0.2 m, 5 m]"), lineOf(near.text, "W13"));
  const far = done(turned, at("switch 20 A", "0.2 m"));
  assert.ok(lineOf(far.text, "W13").includes("fridge → SW2 → PNL:1, legs: [5 m, 0.2 m]"), lineOf(far.text, "W13"));
  assert.equal(compile(far.text).diagnostics.filter(({ level }) => level === "error").length, 0);
});

test("a family keeps its meaning whatever stands behind it", () => {
  const family = (text: string) =>
    compile(text)
      .design.circuits.find(({ id }) => id === "W12")
      ?.devices.map((d) => [d.ratingA, d.family]);
  for (const words of ["fuse 350 A strip 51 mm", "350 A bolt-down strip fuse 51 mm", "fuse strip 51 mm 350 A"]) {
    for (const distance of [undefined, "0.12 m", "1 ft 2 in", "5 1/2 in"]) {
      const { text } = done(sloop, at(words, distance, "circuits.W12"));
      assert.deepEqual(family(text), [[350, "strip_SF51"]], lineOf(text, "W12"));
      const again = done(text, { do: "set-figure", about: "circuits.W12", field: "device", text: "400 A" });
      assert.deepEqual(family(again.text), [[400, "strip_SF51"]], lineOf(again.text, "W12"));
      if (distance !== undefined) assert.ok(lineOf(again.text, "W12").includes(` ${distance} from BP`), again.text);
      const other = done(text, { do: "set-figure", about: "circuits.W12", field: "device", text: "200 A class T" });
      assert.ok(lineOf(other.text, "W12").includes(`200 A class T ${distance === undefined ? "at" : `${distance} from`} BP`), lineOf(other.text, "W12")); // prettier-ignore
    }
  }
});

/** By example: how many are done, and how many refused with which message. Circuits of alternating current are not studied, so nothing is proposed for them. */
const END = "… is beyond the end of …, which is … long";
const RETURN = "… has no live conductor: a device in it guards nothing";
const counts = {
  sloop: { done: 54, [RETURN]: 2 },
  "sloop-us": { done: 54, [RETURN]: 2 },
  "sloop-audit": { done: 58, [RETURN]: 4 },
  van: { done: 38 },
  hut: { done: 23, [END]: 1 },
} as const;

test.each(["sloop", "sloop-us", "sloop-audit", "van", "hut"] as const)(
  "%s: a fuse goes into every circuit, or is refused with the reason",
  (example) => {
    const { text, compiled, memory } = compiledExample(example);
    const errors = (plan: typeof compiled): number => plan.diagnostics.filter(({ level }) => level === "error").length;
    const known = distant(text);
    const came: Record<string, number> = {};
    for (const { id, current } of compiled.system.circuits) {
      if (current !== "DC") continue;
      for (const distance of [undefined, "0.12 m"]) {
        const result = act(text, compiled, at("fuse", distance, `circuits.${id}`), memory);
        const said = result.ok ? "done" : result.message.replace(/`[^`]*`/g, "…").replace(/[\d.]+ (?:m|ft)\b/g, "…");
        came[said] = (came[said] ?? 0) + 1;
        if (!result.ok) continue;
        assert.equal(errors(compile(result.text)), errors(compiled), `${id} ${result.step}`);
        assert.deepEqual(distant(result.text).filter((about) => !known.includes(about)), [], `${id} ${result.step}`); // prettier-ignore
      }
    }
    assert.deepEqual(came, counts[example]);
  },
);
