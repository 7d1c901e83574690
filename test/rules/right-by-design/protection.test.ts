import assert from "node:assert/strict";
import { describe, test } from "vitest";
import { judgePlain, saidOf } from "../judge-plain.ts";

/**
 * Devices, and places without one, that are right and that a naive check would fault. Each names the rule that has to stay without a finding of weight and
 * the thing that it must speak of all the same.
 */
interface Right {
  readonly says: string;
  readonly rule: string;
  readonly about: string;
  readonly plan: string;
}

const US = "rules: { DC: us-small-craft ABYC E-11 }\nstock: { sizes: AWG, insulation: 105 °C }\n";
const CABIN =
  "rules: { DC: us-cabin NEC 2023 }\nstock: { sizes: AWG, metal: copper, strands: class 2, insulation: 90 °C }\n";
const alternator = (circuit: string): string =>
  `${US}parts:\n  ALT: { kind: alternator, rated: 80 A, self-limited: no }\ncircuits:\n  W20: { path: ALT → B1, ${circuit}, return: B1 }`;
const solar = (strings: number): string =>
  `parts:\n  PV1: { kind: solar module, rated: 175 W, Voc: 24.4 V, Vmp: 20.2 V, Isc: 9.2 A, strings in parallel: ${strings} }\n  MPPT: { kind: solar controller, output: 30 A }\ncircuits:\n  W20: { path: PV1 → MPPT:in, length: 7 m, wire: 6 mm², fuse: none }\n  W21: { path: MPPT:out → BP, length: 1 m, wire: 10 mm², fuse: 40 A class T at BP }`;
const feeders = `parts:
  B2: { kind: battery, chemistry: LFP, nominal: 12.8 V, capacity: 200 Ah, short-circuit: 3 kA }
  BP2: { kind: bus bar }
  pilot: { kind: load, running: 5 A, critical: yes }
circuits:
  W20: { path: B2 → BP2, length: 1 m, wire: 10 mm², fuse: 60 A class T at B2 }
  W21: { path: BP → BP2, length: 1 m, wire: 6 mm², fuse: [40 A class T at BP, 40 A class T at BP2] }
  W22: { path: BP → BP2, length: 1 m, wire: 6 mm², fuse: [40 A class T at BP, 40 A class T at BP2] }
  W23: { path: BP2 → pilot, length: 1 m, fuse: 10 A class T at BP2 }
  W24: { path: B2:− → BN, length: 1 m }`;

const list: readonly Right[] = [
  // 2: below 50 V the law itself passes 1.5 times the ampacity; the standard passes it where it is the next rating on sale
  {
    says: "35 A on wire that carries 31.5 A, at 12 V",
    rule: "protection/oversized-device",
    about: "circuits.W04",
    plan: `${US}circuits:\n  W04: { path: BP → PNL, length: 1.5 m, demand: 20 A, wire: 12 AWG, fuse: 35 A class T at BP }`,
  },
  // 3: no rating lies between 25 and 30 A
  {
    says: "30 A on wire that carries a little less",
    rule: "protection/oversized-device",
    about: "circuits.W10",
    plan: `${US}circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 12 AWG, breaker: 30 A at PNL }`,
  },
  // 4: what limits itself pushes no more than its cable carries
  {
    says: "a charger's cable with its device at the bar alone",
    rule: "protection/one-ended-two-source-cable",
    about: "circuits.W20",
    plan: "parts:\n  CHG: { kind: charger, output: 30 A }\ncircuits:\n  W20: { path: CHG:out → BP, length: 2 m, wire: 10 mm², fuse: 40 A class T at BP }",
  },
  // 5: the cable carries the whole rated output, whether or not the machine limits itself
  {
    says: "no fuse at the alternator",
    rule: "protection/one-ended-two-source-cable",
    about: "circuits.W20",
    plan: alternator("length: 2 m, wire: 2 AWG, fuse: 90 A class T at B1"),
  },
  {
    says: "no fuse at the alternator, and none to measure to",
    rule: "protection/distant-device",
    about: "circuits.W20.from",
    plan: alternator("length: 2 m, wire: 2 AWG, fuse: 90 A class T at B1"),
  },
  // 6: a second string pushes 11.5 A into the first, which its wire carries
  ...[1, 2].map((n) => ({
    says: `${n === 1 ? "one string" : "two strings"} of modules without fuses`,
    rule: "protection/unprotected-conductor",
    about: "circuits.W20",
    plan: solar(n),
  })),
  // 7: straight from the post, in a sheath, 72 in
  {
    says: "a main fuse 1.5 m from the post in a sheath",
    rule: "protection/distant-device",
    about: "circuits.W01.from",
    plan: `${US}circuits:\n  W01: { path: B1 → SW1, length: 1.7 m, wire: 2/0 AWG, sheathed: yes, fuse: 150 A class T 1.5 m from B1 }`,
  },
  // 13: the breaker opens shorts alone, the protector in the motor guards against overload
  {
    says: "a motor's breaker at 2.5 times its current",
    rule: "protection/oversized-device",
    about: "circuits.W20",
    plan: `${CABIN}parts:\n  pump: { kind: load, motor: DC, running: 20 A, thermal protector: yes }\ncircuits:\n  W20: { path: BP → pump, length: 3 m, wire: 10 AWG, fuse: 50 A class T at BP }`,
  },
  // 14: thick for its drop, guarded for its load
  {
    says: "50 A on 70 mm²",
    rule: "protection/undersized-device",
    about: "circuits.W10",
    plan: "circuits:\n  W10: { path: BP → lamp, length: 20 m, wire: 70 mm², fuse: 50 A class T at BP }",
  },
  // 15: what is on together counts, not what the branches sum to
  {
    says: "180 A of branches behind 40 A",
    rule: "protection/overdrawn-feeder",
    about: "circuits.W04",
    plan: `circuits:\n  W04: { path: BP → PNL, length: 1.5 m, demand: 30 A, wire: 16 mm², fuse: 40 A class T at BP }\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 16 mm², breaker: 90 A at PNL }\n  W11: { path: PNL:2 → fridge, length: 5 m, wire: 16 mm², breaker: 90 A at PNL }`,
  },
  // 16: a plan may say that two loads never run together
  {
    says: "two heaters that never run together",
    rule: "protection/overdrawn-feeder",
    about: "circuits.W04",
    plan: "parts:\n  lamp: { kind: load, running: 25 A }\n  fridge: { kind: load, running: 25 A }\ncircuits:\n  W04: { path: BP → PNL, length: 1.5 m, wire: 16 mm², fuse: 40 A class T at BP }\nstates:\n  at anchor: { on: [lamp], charge: 60 % }\n  never together: [lamp, fridge]",
  },
  // 17: the way to its terminals leaves less than it breaks
  {
    says: "a blade fuse behind metres of thin wire",
    rule: "protection/weak-interrupt-rating",
    about: "circuits.W20",
    plan: "parts:\n  FB: { kind: fuse block, ways: { 1: 5 A }, negative bar: yes }\n  radio: { kind: light, running: 1 A }\ncircuits:\n  W20: { path: FB:1 → radio, length: 2 m, wire: 2.5 mm² }\n  W21: { path: BP → FB, length: 5 m, wire: 6 mm², demand: 5 A, fuse: 20 A class T at BP }",
  },
  // 18: its maker has tested it behind the fuse that breaks what it cannot
  {
    says: "a small breaker behind the fuse that it was tested with",
    rule: "protection/weak-interrupt-rating",
    about: "circuits.W10",
    plan: "parts:\n  CB1: { kind: breaker, rated: 5 A, interrupt: 0.5 kA, reset: manual, backed up by: F1 }\n  F1: { kind: fuse, family: class T, rated: 30 A }\ncircuits:\n  W10: { path: BP → lamp, length: 4 m, wire: 2.5 mm², breaker: CB1 }",
  },
  // 19: in series volts add, and amps do not
  {
    says: "two batteries in series at a fuse for the current of one",
    rule: "protection/weak-interrupt-rating",
    about: "circuits.W01",
    plan: "systems:\n  DC: { kind: DC, nominal: 24 V, return: BN }\nparts:\n  B1: { kind: battery, chemistry: AGM, nominal: 12 V, capacity: 100 Ah, in series: 2, short-circuit: 4 kA }\ncircuits:\n  W01: { path: B1 → SW1, length: 0.8 m, wire: 50 mm², sheathed: yes, fuse: 150 A ANL at B1 }",
  },
  // 20: nobody declares what 1200 Ah of lithium give, and 20 kA at 125 V is taken for enough
  {
    says: "20 kA at lithium that declares nothing",
    rule: "protection/weak-interrupt-rating",
    about: "circuits.W01",
    plan: `${US}parts:\n  B1: { kind: battery, chemistry: LFP, nominal: 12.8 V, capacity: 1200 Ah }\ncircuits:\n  W01: { path: B1 → SW1, length: 0.8 m, wire: 2/0 AWG, sheathed: yes, fuse: 250 A class T at B1 }`,
  },
  // 30: the earthed pole has neither fuse nor switch
  ...["protection/fused-earthed-conductor", "protection/unprotected-conductor"].map((rule) => ({
    says: "a bare return of the earthed pole",
    rule,
    about: "circuits.W03",
    plan: "systems:\n  DC: { kind: DC, nominal: 12 V, return: BN, earthed at: BN }",
  })),
  // 47: either feeder alone keeps the bar alive
  {
    says: "two feeders to one bar that people depend on",
    rule: "protection/one-ended-two-source-cable",
    about: "circuits.W21",
    plan: feeders,
  },
  {
    says: "two feeders to one bar that people depend on",
    rule: "protection/unselective-pair",
    about: "circuits.W23",
    plan: feeders,
  },
];

describe("right by design", () => {
  for (const { says, rule, about, plan } of list) {
    test(`${says}: ${rule} stays quiet`, () => {
      const compiled = judgePlain(plan);
      assert.deepEqual(
        compiled.diagnostics.filter(({ level }) => level === "error").map(({ message }) => message),
        [],
      );
      assert.notEqual(saidOf(compiled, rule, about), undefined, "the rule speaks of it");
      const found = compiled.judgement.findings.filter(
        (f) => f.rule === rule && f.about === about && f.severity !== "note",
      );
      assert.deepEqual(
        found.map(({ because }) => because),
        [],
      );
    });
  }
});
