import { test } from "vitest";
import assert from "node:assert/strict";
import { judgePlain, saidOf } from "../../../test/rules/judge-plain.ts";

const said = (rule: string, wire: string, metres: number, fuse: string) =>
  saidOf(
    judgePlain(
      `parts:\n  beacon: { kind: light, running: 0.1 A }\ncircuits:\n  W20: { path: BP → beacon, length: ${String(metres)} m, wire: ${wire}, fuse: ${fuse} at BP }`,
    ),
    `protection/${rule}`,
    "circuits.W20",
  );

test("a fuse of no stated kind is judged as each kind on sale: a class T or a glass fuse has no promise below 5 s", () => {
  const burnt = (fuse: string) => said("cable-burnt-before-clearing", "2.5 mm²", 3, fuse);
  assert.deepEqual(["15 A blade", "15 A small blade", "15 A"].map(burnt), ["pass", "pass", "cannot tell"]);
  const small = (fuse: string, metres: number) => said("fault-too-small-to-clear", "2.5 mm²", metres, fuse);
  assert.deepEqual([small("15 A blade", 10), small("15 A", 10)], ["pass", "cannot tell"]);
  // At 60 m the short draws less than 15 A: no kind of fuse opens.
  assert.deepEqual([small("15 A blade", 60), small("15 A", 60)], ["fail", "fail"]);
});
