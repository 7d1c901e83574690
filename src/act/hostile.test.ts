import { test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import { applySplices, invertSplices } from "../plan/text/index.ts";
import { compiledExample, newTroubles } from "../../test/fixtures/compiled-example.ts";
import { act } from "./act.ts";
import { readAsk } from "./ask/read-ask.ts";
import { readLoadSentence } from "./read-load-sentence.ts";
import { emptyPlan, newPlan } from "./new-plan.ts";
import { diagnose } from "../../test/fixtures/compiled-example.ts";
import type { ActRequest } from "./request.ts";

/** What nobody types by accident, and everything that means something in a plan. */
const nasty = [
  '"', "'", "a: b", "a # b", "#", "#10", "{", "}", "[a, b]", "a, b", "- a", "? x", "&a", "*a", "!t", "|", ">", "%x", "@", "`",
  "a\nb", "a\r\nparts: {}", "\tx", "\u0000", "\u202eabc", "\ud800", "<b>x</b>", "]]>", "--", "---", "...", "→", "a → b", "a + b",
  "a:b", "a.b", ":x", "x:", "unknown", "?", "none", "on", "like", "__proto__", "constructor", "x".repeat(3000), "é 錨 👍", "-1 m",
  "1e9 m", "1,000 m", "NaN", "Infinity A", "0 A", "9".repeat(60) + " A", "5 m", "3 A", "6 mm²", "12/3", "4/0", "10 A at BP", "10 A at nowhere", "",
]; // prettier-ignore

const sign = fc.constantFrom(...Array.from("ab1 :#\"'{}[],-→+\\\n\t.&*!|>%@`?=<é錨\u0000\u202e"));
const typed = fc.oneof(
  fc.constantFrom(...nasty),
  fc.array(sign, { maxLength: 30 }).map((signs) => signs.join("")),
  fc.tuple(fc.constantFrom(...nasty), fc.constantFrom(...nasty)).map((two) => two.join(" ")),
);

const names = (() => {
  const { plan } = compiledExample("sloop").compiled;
  return [
    ...plan.parts.map(({ key }) => `parts.${key}`),
    ...plan.circuits.map(({ key }) => `circuits.${key}`),
    ...plan.states.map(({ key }) => `states.${key}`),
    "systems.DC",
    "zones.deck",
    "stock",
    "plan",
  ];
})();
const about = fc.oneof({ weight: 9, arbitrary: fc.constantFrom(...names) }, { weight: 1, arbitrary: typed });
const field = fc.constantFrom("length", "size", "device", "load", "starting", "name", "note", "rated", "path", "zone", "designation", "volts", "rules", "then", "return", "fuse"); // prettier-ignore

/** Acts that write what was typed. What they break may be told; what was typed never breaks the plan. */
const writing: fc.Arbitrary<ActRequest> = fc.oneof(
  fc.record({ do: fc.constant("set-figure" as const), about, field, text: typed }),
  fc.record({ do: fc.constant("rename" as const), about, to: typed }),
  fc.record({ do: fc.constant("pin" as const), about, text: typed, what: fc.constantFrom("wire" as const, "device" as const) }),
  fc.record({ do: fc.constant("add-load" as const), at: about, text: fc.tuple(typed, fc.constantFrom(" 4 A, 2 m", "")).map((t) => t.join("")) }),
  fc.record({ do: fc.constant("insert-device" as const), circuit: about, text: typed, distance: typed }),
  fc.record({ do: fc.constant("add-state" as const), name: typed, like: typed }),
  fc.record({ do: fc.constant("switch" as const), about, state: fc.constantFrom("motoring", "alongside"), to: typed }),
  fc.record({ do: fc.constant("flip" as const), about, state: fc.constantFrom("motoring", "hauling the anchor", "at anchor") }),
  fc.record({ do: fc.constant("set-state-figure" as const), state: typed, figure: fc.constantFrom("battery" as const, "engine" as const), text: typed }),
  fc.record({ do: fc.constant("move-way" as const), circuit: about, way: typed }),
  fc.record({ do: fc.constant("feed" as const), circuit: about, from: about }),
); // prettier-ignore

const removing: fc.Arbitrary<ActRequest> = fc.oneof(
  fc.record({ do: fc.constant("remove" as const), about }),
  fc.record({ do: fc.constant("unpin" as const), about, what: fc.constantFrom("wire" as const, "device" as const) }),
);

test("whatever is typed, an act is done and can be undone to the byte, or is asked back", () => {
  const { text, compiled, memory } = compiledExample("sloop");
  fc.assert(
    fc.property(fc.oneof({ weight: 5, arbitrary: writing }, { weight: 1, arbitrary: removing }), (request) => {
      const result = act(text, compiled, request, memory);
      if (!result.ok) {
        assert.ok(result.message !== "" && !/[\n\0]/.test(result.message));
        return;
      }
      assert.equal(applySplices(text, result.splices), result.text);
      assert.equal(applySplices(result.text, invertSplices(text, result.splices)), text);
      assert.ok(result.step.length < 200 && !/[\n\0]/.test(result.step), result.step);
      // What it broke is told, each with a remark of its own or in a count.
      const troubles = newTroubles(text, result.text);
      assert.ok(troubles.length === 0 || result.remarks.some((r) => r.startsWith("now ")), troubles.join("; "));
    }),
    { numRuns: 400 },
  );
});

test("names and reasons of any kind never break the plan", () => {
  const { text, compiled, memory } = compiledExample("sloop-audit");
  const [finding] = compiled.judgement.findings;
  assert.ok(finding !== undefined);
  const errors = (plan: string) => diagnose(plan).filter(({ level }) => level === "error").length;
  const before = errors(text);
  fc.assert(
    fc.property(typed, (words) => {
      const requests: ActRequest[] = [
        { do: "rename", about: "parts.BP", to: words },
        { do: "rename", about: "circuits.W13", to: words },
        { do: "rename", about: "states.at anchor", to: words },
        { do: "set-figure", about: "parts.BP", field: "name", text: words },
        { do: "set-figure", about: "circuits.W13", field: "note", text: words },
        { do: "add-load", at: "parts.BP", text: `${words} 4 A, 2 m` },
        { do: "waive", finding, reason: words },
      ];
      for (const request of requests) {
        const result = act(text, compiled, request, memory);
        if (result.ok) assert.equal(errors(result.text), before, `${request.do}: ${result.step}`);
      }
    }),
    { numRuns: 60 },
  );
});

test("a new plan holds any name and any country, and reads without an error", () => {
  fc.assert(
    fc.property(typed, typed, typed, (name, country, load) => {
      const made = newPlan({ what: "boat", battery: "AGM 12 V 100 Ah", name, country, load: `${load} 4 A, 2 m` });
      for (const text of [made.ok ? made.text : "", emptyPlan(name)]) {
        assert.deepEqual(diagnose(text).filter(({ level }) => level === "error").map(({ message }) => message), []); // prettier-ignore
      }
    }),
    { numRuns: 150 },
  );
});

test("the ask field and the load reader answer to any text", () => {
  const { compiled } = compiledExample("sloop");
  fc.assert(
    fc.property(fc.constantFrom("", "why ", "add ", "pin ", "turn ", "feed ", "battery ", "set ", "insert "), typed, typed, (verb, a, b) => {
      const offers = readAsk(`${verb}${a} ${b}`, compiled, { selected: "circuits.W13", state: "at anchor" });
      assert.ok(offers.length <= 8);
      for (const { says } of offers) assert.ok(says !== "" && !/[\n\0]/.test(says), says);
      const read = readLoadSentence(`${a}, ${b}`);
      if (!read.ok) assert.ok(read.problems.length > 0);
    }),
    { numRuns: 500 },
  ); // prettier-ignore
});
