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

test("what devices in the ways of a board break is asked of the board, where only their usual grade would fault them", () => {
  const board = (more: string) => {
    const { findings, passes } = judged(
      "chemistry: LFP, capacity: 280 Ah, short-circuit: 6 kA",
      "class T",
      "iso-small-craft",
      `  P: { kind: panel, ways: 3, device: breaker${more} }\n  M: { kind: load, running: 5 A }\n  N: { kind: load, running: 5 A }\n`,
      `  W4: { path: BP → P, length: 0.3 m, wire: 35 mm² }\n  W5: { path: P:1 → M, length: 3 m, wire: 2.5 mm² }\n  W6: { path: P:2 → N, length: 3 m, wire: 2.5 mm² }`,
    );
    return ["circuits.W5", "circuits.W6"].map((about) => {
      const finding = findings.find((f) => f.rule === RULE && f.about === about);
      if (finding === undefined) return passes.some((p) => p.rule === RULE && p.about === about) ? "pass" : "silent";
      return [finding.outcome, ...finding.needs.map((n) => `${n.about}: ${n.fact}`)].join(" ");
    });
  };
  const asked = "cannot tell parts.P: what its breakers break at 14.6 V (`interrupt`)";
  assert.deepEqual(board(""), [asked, asked]);
  assert.deepEqual(board(", interrupt: 10 kA"), ["pass", "pass"]);
  // What is stated can fault.
  assert.deepEqual(board(", interrupt: 1 kA"), ["fail", "fail"]);
});
