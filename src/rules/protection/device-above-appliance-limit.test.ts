import { test } from "vitest";
import assert from "node:assert/strict";
import { judgePlain, saidOf } from "../../../test/rules/judge-plain.ts";

const RULE = "protection/device-above-appliance-limit";

test("several parts on one device are each held to their own limit", () => {
  const said = judgePlain(`parts:
  plotter: { kind: electronics, running: 1 A, largest fuse: 5 A }
  AIS: { kind: electronics, running: 1 A, largest fuse: 10 A }
circuits:
  W20: { path: PNL:3 → plotter, then: [AIS], length: 2 m, wire: 1.5 mm², breaker: 7.5 A at PNL }`);
  assert.equal(saidOf(said, RULE, "parts.plotter"), "fail");
  assert.equal(saidOf(said, RULE, "parts.AIS"), "pass");
});

test("a fuse as a part of its own before the radio counts", () => {
  const text = (rated: string) => `parts:
  radio: { kind: electronics, running: 1 A, largest fuse: 5 A }
  F5: { kind: fuse, rated: ${rated} }
circuits:
  W20: { path: PNL:3 → F5 → radio, legs: [2 m, 0.2 m], wire: 1.5 mm², breaker: 15 A at PNL }`;
  assert.equal(saidOf(judgePlain(text("5 A")), RULE, "parts.radio"), "pass");
  assert.equal(saidOf(judgePlain(text("10 A")), RULE, "parts.radio"), "fail");
});

test("a range is told where it decides, a device that nobody saw always", () => {
  const text = (limit: string, device: string) => `parts:
  radio: { kind: electronics, running: 1 A, largest fuse: ${limit} }
circuits:
  W20: { path: PNL:3 → radio, length: 2 m, wire: 1.5 mm², ${device} }`;
  assert.equal(saidOf(judgePlain(text("5…10 A", "breaker: 7.5 A at PNL")), RULE, "parts.radio"), "cannot tell");
  assert.equal(saidOf(judgePlain(text("8…10 A", "breaker: 7.5 A at PNL")), RULE, "parts.radio"), "pass");
  assert.equal(saidOf(judgePlain(text("5 A", "breaker: unknown, as found: yes")), RULE, "parts.radio"), "cannot tell");
});

test("the breaker of a way is ahead of a load whose path is written from it", () => {
  const text = (path: string) => `parts:
  radio: { kind: electronics, running: 1 A, largest fuse: 5 A }
circuits:
  W20: { path: ${path}, length: 2 m, wire: 1.5 mm², breaker: 5 A at PNL }`;
  for (const path of ["PNL:3 → radio", "radio → PNL:3"]) {
    assert.equal(saidOf(judgePlain(text(path)), RULE, "parts.radio"), "pass", path);
  }
});
