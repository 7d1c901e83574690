import assert from "node:assert/strict";
import { describe, test } from "vitest";
import { judgePlain, saidOf } from "../judge-plain.ts";

/** Returns and bonds that are right and that a naive check would fault, and the rule that must stay silent. */
interface Right {
  readonly says: string;
  readonly rule: string;
  readonly about: string;
  readonly plan: string;
  /** What it says instead. */
  readonly said: string;
}

const OWN = "it brings back only what belongs to its engine or vehicle";

const list: readonly Right[] = [
  // 30: the earthed pole has no fuse and no switch
  {
    says: "an unfused, unswitched negative as thick as its plus",
    rule: "return/negative-thinner-than-positive",
    about: "circuits.W03",
    plan: "systems:\n  DC: { kind: DC, nominal: 12 V, return: BN, earthed at: BN }\ncircuits:\n  W01: { path: B1 → SW1, length: 0.8 m, sheathed: yes, wire: 35 mm², fuse: 100 A class T at B1 }\n  W03: { path: B1:− → BN, length: 0.6 m, wire: 35 mm², fuse: none }",
    said: "pass",
  },
  // 43: what a vehicle's or an engine's maker built returns as its maker built it
  {
    says: "a sender of the engine that returns through its block",
    rule: "return/structure-as-conductor",
    about: "parts.engine",
    plan: "parts:\n  engine: { kind: structure, is: engine, joints: { stud: 0.3 mΩ, block: 0.3 mΩ } }\n  sender: { kind: load, running: 0.2 A }\ncircuits:\n  W20: { path: BN → engine:stud, length: 1 m, wire: 35 mm² }\n  W21: { path: PNL:3 → sender, length: 3 m, return: engine:block, factory: yes }",
    said: OWN,
  },
  {
    says: "the horn of a camper on the chassis of its vehicle",
    rule: "return/structure-as-conductor",
    about: "parts.chassis",
    plan: "rules: { DC: iec-caravan 2018 }\nparts:\n  chassis: { kind: chassis, is: chassis, joints: { rear: 0.3 mΩ, front: 0.3 mΩ } }\n  horn: { kind: load, running: 5 A }\ncircuits:\n  W20: { path: BN → chassis:rear, length: 1 m, wire: 35 mm² }\n  W21: { path: PNL:3 → horn, length: 3 m, return: chassis:front, factory: yes }",
    said: OWN,
  },
  {
    says: "an alternator and a starter on their engine",
    rule: "return/structure-as-conductor",
    about: "parts.engine",
    plan: "parts:\n  engine: { kind: structure, joints: { stud: 0.1 mΩ, bracket: 0.1 mΩ } }\n  ALT: { kind: alternator, rated: 50 A }\n  STM: { kind: starter, running: 0 A, starting: 200 A, start time: 2 s }\ncircuits:\n  W20: { path: BN → engine:stud, length: 1 m, wire: 50 mm² }\n  W21: { path: ALT → SW1:in, length: 1 m, return: engine:bracket }\n  W22: { path: SW1:out → STM, length: 1 m, wire: 50 mm², fuse: none, cranking: yes, return: engine:bracket }",
    said: OWN,
  },
  // many bonds lead from one point
  {
    says: "three bonds from one bar",
    rule: "return/second-earth-point",
    about: "systems.DC",
    plan: "systems:\n  DC: { kind: DC, nominal: 12 V, return: BN, earthed at: BN }\nparts:\n  hull: { kind: structure, is: hull }\n  mast: { kind: structure, is: frame }\n  plate: { kind: earth electrode, is: plate }\ncircuits:\n  W20: { path: BN → hull, length: 1 m, cores: [PE], wire: 10 mm² }\n  W21: { path: BN → mast, length: 1 m, cores: [PE], wire: 10 mm² }\n  W22: { path: BN → plate, length: 1 m, cores: [PE], wire: 10 mm² }",
    said: "pass",
  },
  // a charger with one minus for both sides lies between two returns, and neither gets more than it is made for
  {
    says: "a charger between two banks whose sides share their minus",
    rule: "return/parallel-return",
    about: "circuits.W22",
    plan: "parts:\n  B2: { kind: battery, chemistry: AGM, capacity: 90 Ah }\n  DCDC: { kind: DC-DC charger, output: 20 A, input: 25 A }\ncircuits:\n  W20: { path: B2 → DCDC:in, length: 2 m, wire: 10 mm², fuse: 40 A class T at B2 }\n  W21: { path: DCDC:out → BP, length: 1 m, wire: 10 mm², fuse: 40 A class T at BP }\n  W22: { path: B2:− → BN, length: 1 m, wire: 10 mm², fuse: none }",
    said: "pass",
  },
  // a thick positive by its drop, a negative that its fuse guards
  {
    says: "a negative that is thinner and that the fuse in the plus guards",
    rule: "return/negative-thinner-than-positive",
    about: "circuits.W03",
    plan: "circuits:\n  W01: { path: B1 → SW1, length: 0.8 m, sheathed: yes, wire: 50 mm², fuse: 60 A class T at B1 }\n  W03: { path: B1:− → BN, length: 0.6 m, wire: 25 mm², fuse: none }",
    said: "pass",
  },
];

describe("returns and bonds that are right are left in peace", () => {
  for (const { says, rule, about, plan, said } of list) {
    test(`${says}: ${rule}`, () => {
      const compiled = judgePlain(plan);
      const found = compiled.judgement.findings.filter((f) => f.rule === rule).map((f) => `${f.about}: ${f.because}`);
      assert.deepEqual(found, []);
      assert.equal(saidOf(compiled, rule, about), said);
    });
  }
});

test("a windlass whose negative is open sends all of its current through the second way, and shares it by conductance before", () => {
  const plan = (second: string): string =>
    `parts:\n  windlass: { kind: load, motor: DC, running: 80 A }\ncircuits:\n  W20: { path: BP → windlass, length: 3 m, wire: 35 mm², fuse: 100 A class T at BP }\n  W22: { path: windlass:− → BN, length: 3 m, wire: ${second}, fuse: none }`;
  const { judgement } = judgePlain(plan("1.5 mm²"));
  const found = judgement.findings.find((f) => f.rule === "return/parallel-return");
  // Kirchhoff: with the one way open, what the windlass takes has only the other.
  assert.ok(Math.abs((found?.measured?.value ?? 0) - 80) < 1e-6, JSON.stringify(found?.measured));
  assert.equal(found?.about, "circuits.W22");
});

test("a bond beside a negative takes its share by conductance", () => {
  const plan = `parts:
  B2: { kind: battery, chemistry: AGM, capacity: 80 Ah, cranking: 500 A }
  pump: { kind: load, running: 20 A }
circuits:
  W20: { path: B2:− → BN, length: 2 m, wire: 10 mm², fuse: none }
  W21: { path: B2 → pump, length: 2 m, wire: 6 mm², fuse: 30 A at B2, return: BN }
  W23: { path: B2:− → BN, length: 2 m, cores: [PE], wire: 10 mm² }`;
  const finding = judgePlain(plan).judgement.findings.find((f) => f.rule === "return/bonding-carries-load-current");
  // Alike in length and size: half each, less what the joints of the negative (two of 0.1 mΩ beside 2 m × 1.95 mΩ/m) and its warmth drive over to the bond.
  const amps = finding?.measured?.value ?? 0;
  assert.ok(amps > 10 && amps < 11.5, String(amps));
});
