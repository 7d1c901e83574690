import assert from "node:assert/strict";
import { test } from "vitest";
import { judgePlain, saidOf } from "../judge-plain.ts";

/**
 * Builds that are right and that a naive check would find fault with. Each names the rule that has to stay without a finding of weight: it passes, does not
 * apply, or is a note.
 */
interface Right {
  readonly says: string;
  readonly rule: string;
  readonly about: string;
  readonly plan: string;
}

const lamp = (load: string, circuit: string, set = "iso-small-craft 2020+A1:2022"): string =>
  `rules: { DC: ${set} }\nparts:\n  lamp: { ${load} }\ncircuits:\n  W10: { path: PNL:1 → lamp, ${circuit} }`;

const list: readonly Right[] = [
  // 1: the main cable of a starter has no device; nobody makes one that would bear its start and guard it
  {
    says: "no fuse in the main cable of a starter",
    rule: "protection/unprotected-conductor",
    about: "circuits.W20",
    plan: "parts:\n  M1: { kind: load, running: 400 A }\ncircuits:\n  W20: { path: B1 → M1, length: 1 m, wire: 70 mm², fuse: none, cranking: yes }",
  },
  // 9: water that a pump lifts does not need 3 %: the American class of a bilge pump is 10 %
  {
    says: "8 % to a bilge pump on an American boat",
    rule: "conductor/excess-voltage-drop",
    about: "circuits.W10",
    plan: lamp("kind: bilge pump, running: 5 A", "length: 5.6 m, wire: 14 AWG", "us-small-craft"),
  },
  // 10: the American code advises on drop, and demands nothing
  {
    says: "7 % on a cabin's branch",
    rule: "conductor/excess-voltage-drop",
    about: "circuits.W10",
    plan: lamp("kind: light, running: 2 A", "length: 30 m, wire: 12 AWG", "us-cabin"),
  },
  // 11: a hut with its own supply has 8 % where one on the public network has 5
  {
    says: "7 % in a hut on its own supply",
    rule: "conductor/excess-voltage-drop",
    about: "circuits.W10",
    plan: lamp("kind: load, running: 2 A", "length: 12 m, wire: 1.5 mm²", "iec-cabin"),
  },
  // 12: a windlass that pulls for seconds may exceed the American table
  {
    says: "a windlass above its table",
    rule: "conductor/overloaded-conductor",
    about: "circuits.W10",
    plan: lamp(
      "kind: load, motor: DC, running: 60 A, duty: intermittent",
      "length: 0.5 m, wire: 10 AWG",
      "us-small-craft",
    ),
  },
  // 14: wire may be as thick as its drop asks, and its fuse as small as its load
  {
    says: "a 50 A fuse on 2/0",
    rule: "protection/undersized-device",
    about: "circuits.W10",
    plan: lamp("kind: load, running: 30 A", "length: 6 m, wire: 2/0 AWG, breaker: 50 A at PNL", "us-small-craft"),
  },
  // 34: under the American code direct and alternating current share a conduit where all insulation bears the higher volts
  {
    says: "mains beside direct current in a conduit of a cabin",
    rule: "cable/mixed-ac-and-dc-cable",
    about: "circuits.W10",
    plan: "rules: { DC: us-cabin, AC: us-cabin }\nsystems:\n  AC: { kind: AC, nominal: 120 V, cores: [L, N, PE] }\nways:\n  riser: { kind: conduit }\nparts:\n  INL: { kind: shore inlet, rated: 15 A }\n  kettle: { kind: load, rated: 900 W }\ncircuits:\n  W50: { path: INL → kettle, length: 2 m, ways: riser }\n  W10: { path: PNL:1 → lamp, length: 4 m, ways: riser, wire: 12 AWG, voltage: 600 V }",
  },
  // 36: in a loom of twelve two carry current, and two are counted
  {
    says: "a loom in which ten wires idle",
    rule: "conductor/overloaded-conductor",
    about: "circuits.W10",
    plan: lamp("kind: load, running: 24 A", "length: 0.5 m, wire: 2.5 mm², bundle: 2"),
  },
  // 37: up to 600 mm side by side wires are not counted with each other
  {
    says: "ten loaded wires together for half a metre in a cabin",
    rule: "conductor/overloaded-conductor",
    about: "circuits.W10",
    plan: lamp("kind: load, running: 15.5 A, runs above: 9 V", "length: 0.5 m, wire: 12 AWG, bundle: 10", "us-cabin"),
  },
  // 38: thin wire to a small instrument
  {
    says: "18 AWG to electronics of less than an ampere",
    rule: "conductor/conductor-below-minimum-size",
    about: "circuits.W10",
    plan: lamp("kind: electronics, running: 0.4 A", "length: 4 m, wire: 18 AWG", "us-small-craft"),
  },
  // 39: vehicle gauge is thinner than the American gauge of its number, and sized by its own copper
  {
    says: "SAE wire drawn as SAE wire",
    rule: "conductor/misread-size",
    about: "circuits.W10",
    plan: lamp(
      "kind: light, running: 2 A",
      'length: 4 m, wire: 12 SAE, strands: type 2, bought as: "12 SAE 19/25"',
      "us-small-craft",
    ),
  },
  // 40: 2 AWG has less metal than 35 mm² on its label, and less resistance
  {
    says: "2 AWG for 35 mm²",
    rule: "conductor/shrunken-substitute",
    about: "circuits.W10",
    plan: lamp("kind: light, running: 2 A", "length: 4 m, wire: 35 mm², bought as: 2 AWG"),
  },
  // 41: nothing moves in a house
  {
    says: "solid wire in a fixed cabin",
    rule: "conductor/solid-wire-where-it-moves",
    about: "circuits.W10",
    plan: lamp("kind: light, running: 2 A", "length: 4 m, wire: 12 AWG, strands: solid", "us-cabin"),
  },
  // 50: the legs of a run round a mast step explain its length
  {
    says: "a long way round that is drawn",
    rule: "conductor/impossible-length",
    about: "circuits.W10",
    plan: "parts:\n  PNL: { kind: panel, ways: 12, device: breaker, negative bar: yes, at: [0 m, 0 m, 0 m] }\n  lamp: { kind: light, running: 2 A, at: [3 m, 0 m, 0 m] }\ncircuits:\n  W10: { path: PNL:1 → lamp, legs: [12 m] }",
  },
  // 36: of a loom only the conductors that carry current are counted, whatever lies in it beside them
  {
    says: "a loom of twelve wires of which two are loaded",
    rule: "conductor/overloaded-conductor",
    about: "circuits.W10",
    plan: lamp("kind: load, running: 35 A", "length: 0.5 m, wire: 10 AWG, bundle: 2", "us-small-craft"),
  },
  // 37: for 600 mm wires may lie together without being counted
  {
    says: "twenty-four loaded wires together through one stud",
    rule: "conductor/overloaded-conductor",
    about: "circuits.W10",
    plan: `zones:\n  stud: { kind: dry }\n${lamp("kind: load, running: 15 A", "length: 3 m, wire: 12 AWG, zones: { stud: 0.4 m, dry: rest }, bundle: { stud: 24 }", "us-cabin")}`,
  },
  // 37: a short hot stretch gives its heat to the rest of the run
  {
    says: "a metre of sixteen under a hot roof",
    rule: "conductor/overloaded-conductor",
    about: "circuits.W10",
    plan: `zones:\n  attic: { kind: dry, ambient: 76 °C }\n${lamp("kind: load, running: 15 A", "length: 16 m, wire: 12 AWG, zones: { attic: 1 m, dry: rest }", "us-cabin")}`,
  },
];

for (const { says, rule, about, plan } of list) {
  test(`${says}: ${rule} stays quiet`, () => {
    const compiled = judgePlain(plan);
    assert.deepEqual(
      compiled.diagnostics.filter((d) => d.level === "error").map((d) => d.message),
      [],
    );
    const said = saidOf(compiled, rule, about);
    assert.notEqual(said, undefined, "the rule speaks of it");
    const found = compiled.judgement.findings.filter(
      (f) => f.rule === rule && f.about === about && f.severity !== "note",
    );
    assert.deepEqual(
      found.map((f) => f.because),
      [],
    );
  });
}
