import assert from "node:assert/strict";
import { test } from "vitest";
import { compile } from "../../compile.ts";

const RULE = "protection/weak-interrupt-rating";
const judged = (battery: string, fuse: string, set = "iso-small-craft", more = "", ways = "") =>
  compile(`wireworthy: 1
rules: { DC: ${set} }
systems: { DC: { kind: DC, nominal: 12 V, return: BN } }
parts:
  B1: { kind: battery, ${battery} }
  BP: { kind: bus bar }
  BN: { kind: bus bar }
  L: { kind: load, running: 5 A }
${more}circuits:
  W1: { path: B1 → BP, length: 1 m, wire: 35 mm², fuse: 100 A ${fuse} at B1 }
  W3: { path: BP → L, length: 3 m, wire: 2.5 mm² }
${ways}`).judgement;
const findings = (of: ReturnType<typeof judged>): [string, readonly string[]][] =>
  of.findings
    .filter((f) => f.rule === RULE && f.about === "circuits.W1")
    .map((f) => [f.outcome, f.needs.map((n) => n.fact)]);

test("knowing less never passes more: of a battery whose size and short-circuit current nobody knows nothing is told", () => {
  const known = "chemistry: AGM, nominal: 12 V, capacity: 100 Ah";
  const hidden = "chemistry: AGM, nominal: 12 V, capacity: unknown, short-circuit: unknown";
  assert.deepEqual(findings(judged(known, "class T")), []);
  const [found] = findings(judged(hidden, "class T"));
  assert.equal(found?.[0], "cannot tell");
  assert.ok(found[1].includes("how much B1 gives into a short"), found[1].join());
});

test("on American boats 20 kA at 125 V are enough for a battery that declares nothing", () => {
  const hidden = "chemistry: AGM, nominal: 12 V, capacity: unknown, short-circuit: unknown";
  assert.deepEqual(findings(judged(hidden, "class T", "us-small-craft")), []);
});

test("an alternator of which nobody knows the rating is named where it may matter: up to 500 A are counted for it", () => {
  const hidden = (fuse: string) =>
    findings(
      judged(
        "chemistry: AGM, nominal: 12 V, short-circuit: 1.9 kA",
        fuse,
        "iso-small-craft",
        "  ALT: { kind: alternator, rated: unknown }\n",
        "  W9: { path: ALT → BP, length: 1 m, wire: 16 mm² }\n",
      ),
    );
  assert.deepEqual(hidden("class T"), []);
  // A strip fuse breaks 2 kA: enough for the battery, not for both.
  assert.deepEqual(hidden("strip fuse"), [["cannot tell", ["how much ALT gives into a short"]]]);
});
