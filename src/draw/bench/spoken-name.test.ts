import { describe, expect, test } from "vitest";
import assert from "node:assert/strict";
import { compile } from "../../compile.ts";
import type { OneLineBuild } from "../one-line/index.ts";
import { sayDrawing, spokenName, spokenNames } from "./index.ts";

const text = `
wireworthy: 1
name: Small boat
rules: { DC: iso-small-craft 2020 }
systems: { DC: { kind: DC, nominal: 12 V, return: B1 } }
parts:
  B1: { kind: battery, chemistry: LFP, capacity: 100 Ah, short-circuit: 3 kA }
  SW: { kind: switch, rated: 100 A }
  PNL: { kind: panel, name: nav panel, ways: 4, device: breaker, negative bar: yes }
  fridge: { kind: load, running: 4.3 A, starting: 8 A }
  lamp: { kind: light, running: 1 A }
circuits:
  W1: { path: B1 → SW, length: 1 m }
  W2: { path: SW → PNL, length: 1 m, demand: 10 A }
  W3: { path: PNL:1 → fridge, length: 5.2 m, wire: 2.5 mm², breaker: 10 A }
  W4: { path: PNL:2 → lamp, length: unknown }
states:
  at anchor: { on: [fridge] }
  laid up: { SW: off, on: [fridge] }
`;
const compiled = compile(text);
const build: OneLineBuild = {
  ...compiled,
  findings: [
    { rule: "a/b", outcome: "fail", severity: "must", about: "circuits.W3", title: "May not start", because: "" },
    { rule: "a/c", outcome: "pass", severity: "must", about: "parts.fridge", title: "well", because: "" },
  ],
};

describe("what is heard of a thing", () => {
  test.each([
    [
      "parts.fridge",
      "at anchor",
      "fridge, load, on; 4.3 amps, start 8. Fed by W3, 2 by 2.5 square millimetres, pinned, 5.2 metres one way, breaker 10 amps, way 1. 1 fail: may not start.",
    ],
    [
      "parts.lamp",
      "at anchor",
      "lamp, light, off; 1 amp. Fed by W4, size not known, length not known, breaker 3 amps, way 2.",
    ],
    [
      "parts.fridge",
      "laid up",
      "fridge, load, on, and nothing feeds it; 4.3 amps, start 8. Fed by W3, 2 by 2.5 square millimetres, pinned, 5.2 metres one way, breaker 10 amps, way 1. 1 fail: may not start.",
    ],
    ["parts.SW", "laid up", "SW, switch, off; 100 amps. 2 circuits."],
    ["parts.PNL", "at anchor", "PNL, nav panel, panel. 3 circuits."],
    ["parts.nothing", "at anchor", "nothing"],
  ])("%s, %s", (about, state, says) => {
    const heard = spokenName(build, about, state);
    // Which size is chosen where the plan leaves it open is not for this test.
    assert.equal(heard.replace(/(W4), 2 by [\d.]+ square millimetres?/, "$1, size not known"), says);
  });

  test("names only, in brief, in full", () => {
    assert.equal(spokenName(build, "parts.PNL", null, "names"), "PNL, nav panel");
    assert.equal(spokenName(build, "parts.fridge", null, "brief"), "fridge, load; 4.3 amps, start 8. 1 fail.");
    assert.equal(
      spokenName(build, "circuits.W3", "at anchor", "brief"),
      "W3, nav panel to fridge, on; 4.3 amps. 1 fail.",
    );
  });

  test("all at once are the same as one by one", () => {
    const all = spokenNames(build, "at anchor");
    assert.equal(Object.keys(all).length, 9);
    for (const [about, says] of Object.entries(all)) assert.equal(says, spokenName(build, about, "at anchor"));
  });
});

test("of the whole is heard first what feeds it, its bars, its circuits, and how they stand", () => {
  expect(sayDrawing(build, "at anchor")).toBe(
    "One-line of Small boat, at anchor. 1 source: B1. 1 bar: PNL. 4 circuits, 3 on. 1 fail, 0 should be mended, 0 notes, 0 cannot be told.",
  );
  assert.match(sayDrawing(build), /^One-line of Small boat, contacts at rest\..* 4 circuits\. /);
});
