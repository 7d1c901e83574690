import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "vitest";
import { compile, createMemory } from "../../compile.ts";
import { cureMoves, rules, type CureMove, type Finding } from "../../rules/index.ts";
import { curedBanks, type Cured } from "../../../test/rules/cured-banks.ts";
import { curedDevices } from "../../../test/rules/cured-devices.ts";
import { curedAlternating } from "../../../test/rules/cured-alternating.ts";
import { curedReturns } from "../../../test/rules/cured-returns.ts";
import { curedSolar } from "../../../test/rules/cured-solar.ts";
import { layOver } from "../../../test/rules/lay-over.ts";
import { openCase } from "../case.ts";
import { findCures } from "../find-cures.ts";
import { standOf } from "../try-edits.ts";
import { moves } from "./index.ts";

/** Each move has a plan, laid over the plain boat, in which it cures something; said are all changes that it makes. */
const boat = readFileSync(new URL("../../../test/rules/plain-boat.yaml", import.meta.url), "utf8");
// Its mains are pinned, so that what is chosen for them does not decide what cures.
const mains =
  "circuits:\n  W01: { path: B1 → SW1, length: 0.8 m, sheathed: yes, wire: 25 mm² }\n  W02: { path: SW1 → BP, length: 0.4 m, wire: 25 mm² }\n  W04: { path: BP → PNL, length: 1.5 m, demand: 30 A, wire: 16 mm² }";
const plain = layOver(boat, mains);

const list: readonly Cured[] = [
  {
    move: "next-size",
    plan: "parts:\n  lamp: { kind: navigation light, running: 2 A }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 5 m, wire: 1.5 mm² }",
    rule: "conductor/excess-voltage-drop",
    about: "circuits.W10",
    changes: ["W10: PNL:1 → lamp, 1.5 mm² ⇒ PNL:1 → lamp, 2.5 mm²"],
  },
  {
    move: "upstream-size",
    plan: "parts:\n  fridge: { kind: load, running: 4 A, runs above: 12.4 V }\ncircuits:\n  W04: { path: BP → PNL, length: 12 m, wire: 6 mm², demand: 4 A }\n  W11: { path: PNL:2 → fridge, length: 0.2 m, wire: 240 mm² }",
    rule: "conductor/starved-load",
    about: "parts.fridge",
    changes: ["W04: BP → PNL, 6 mm² ⇒ BP → PNL, 10 mm²"],
  },
  {
    move: "hotter-insulation",
    plan: "parts:\n  lamp: { kind: light, running: 24 A, runs above: 9 V }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 0.5 m, wire: 1.5 mm² }",
    rule: "conductor/overloaded-conductor",
    about: "circuits.W10",
    changes: ["W10: PNL:1 → lamp, insulation not stated ⇒ PNL:1 → lamp, insulation 105 °C"],
  },
  {
    move: "fit-insulation",
    plan: "zones:\n  bilge: { kind: [bilge, wet] }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, zone: bilge, wire: 1.5 mm², fit for: oil }",
    rule: "conductor/unsuited-insulation",
    about: "circuits.W10",
    changes: ["W10: PNL:1 → lamp, fit for oil ⇒ PNL:1 → lamp, fit for oil, wet"],
  },
  {
    move: "looser-bundle",
    plan: "parts:\n  lamp: { kind: light, running: 14 A, runs above: 9 V }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 0.5 m, wire: 1.5 mm², bundle: 12, breaker: 15 A at PNL }",
    rule: "conductor/overloaded-conductor",
    about: "circuits.W10",
    changes: ["W10: PNL:1 → lamp, bundle 12 ⇒ PNL:1 → lamp, bundle 6"],
  },
  {
    move: "stranded",
    plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 1.5 mm², strands: class 1 }",
    rule: "conductor/solid-wire-where-it-moves",
    about: "circuits.W10",
    changes: ["W10: PNL:1 → lamp, strands class 1 ⇒ PNL:1 → lamp, strands class 5"],
  },
  {
    move: "copper",
    plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 4 mm², metal: aluminium }",
    rule: "conductor/wrong-metal",
    about: "circuits.W10",
    changes: ["W10: PNL:1 → lamp, metal aluminium ⇒ PNL:1 → lamp, metal tinned copper"],
  },
  {
    move: "sheathe",
    plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 0.4 m, wire: 0.75 mm² }",
    rule: "conductor/conductor-below-minimum-size",
    about: "circuits.W10",
    changes: ["W10: PNL:1 → lamp, sheathed not stated ⇒ PNL:1 → lamp, sheathed yes"],
  },
  {
    move: "as-drawn",
    plan: 'circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 4 mm², bought as: "12 SAE, 3 mm²" }',
    rule: "conductor/misread-size",
    about: "circuits.W10",
    changes: ["W10: PNL:1 → lamp, 4 mm², bought as 12 SAE, 3 mm² ⇒ PNL:1 → lamp, 12 SAE, bought as not stated"],
  },
  {
    move: "smaller-device",
    plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 1.5 mm², breaker: 25 A at PNL }",
    rule: "protection/oversized-device",
    about: "circuits.W10",
    changes: ["W10: PNL:1 → lamp, panel breaker 25 A at PNL:1 ⇒ PNL:1 → lamp, panel breaker 20 A at PNL:1"],
  },
  {
    // No step down from what stands there reaches what the maker allows.
    move: "smaller-device",
    plan: "parts:\n  radio: { kind: load, running: 3 A, largest fuse: 5 A }\ncircuits:\n  W20: { path: PNL:3 → radio, length: 2 m, wire: 6 mm², breaker: 30 A at PNL }",
    rule: "protection/device-above-appliance-limit",
    about: "parts.radio",
    changes: ["W20: PNL:3 → radio, panel breaker 30 A at PNL:3 ⇒ PNL:3 → radio, panel breaker 5 A at PNL:3"],
  },
  {
    move: "larger-device",
    plan: "parts:\n  lamp: { kind: light, running: 8 A, runs above: 9 V }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 2 m, wire: 4 mm², breaker: 5 A at PNL }",
    rule: "protection/undersized-device",
    about: "circuits.W10",
    changes: ["W10: PNL:1 → lamp, panel breaker 5 A at PNL:1 ⇒ PNL:1 → lamp, panel breaker 10 A at PNL:1"],
  },
  {
    move: "device-at-source",
    plan: "parts:\n  USB: { kind: outlet, running: 5 A }\ncircuits:\n  W20: { path: BP → USB, length: 3 m, wire: 1 mm², fuse: none }",
    rule: "protection/unprotected-conductor",
    about: "circuits.W20",
    changes: ["W20: BP → USB, no device ⇒ BP → USB, blade fuse 7.5 A at BP"],
  },
  {
    move: "device-at-source",
    plan: "parts:\n  radio: { kind: load, running: 4.5 A, largest fuse: 5 A }\ncircuits:\n  W20: { path: BP → radio, length: 3 m, wire: 1 mm², fuse: none }",
    rule: "protection/unprotected-conductor",
    about: "circuits.W20",
    changes: ["W20: BP → radio, no device ⇒ BP → radio, blade fuse 5 A at BP"],
  },
  {
    move: "device-nearer",
    plan: "circuits:\n  W01: { path: B1 → SW1, length: 0.8 m, wire: 25 mm², fuse: 80 A class T 310 mm from B1 }",
    rule: "protection/distant-device",
    about: "circuits.W01.from",
    changes: ["W01: B1 → SW1, class T fuse 80 A 0.31 m from B1 ⇒ B1 → SW1, class T fuse 80 A at B1"],
  },
  {
    move: "device-made-for-it",
    plan: "parts:\n  F9: { kind: breaker, rated: 10 A, reset: automatic }\n  USB: { kind: outlet, running: 5 A }\ncircuits:\n  W20: { path: BP → USB, length: 3 m, wire: 2.5 mm², breaker: F9 }",
    rule: "protection/self-resetting-breaker",
    about: "circuits.W20",
    changes: ["F9: reset automatic ⇒ reset manual"],
  },
  {
    // Another device, not the old one with another word on it: what was marked for alternating current does not hold for it.
    move: "device-made-for-it",
    plan: "parts:\n  F9: { kind: breaker, rated: 10 A, for: AC, AC volts: 230 V, made to: IEC 60898, interrupt: 6 kA }\n  USB: { kind: outlet, running: 5 A }\ncircuits:\n  W20: { path: BP → USB, length: 3 m, wire: 2.5 mm², breaker: F9 }",
    rule: "protection/ac-only-device-on-dc",
    about: "circuits.W20",
    changes: [
      "F9: for AC, AC volts 230 V, made to IEC 60898, interrupt 6 kA, DC volts not stated ⇒ for DC, AC volts not stated, made to not stated, interrupt unknown, DC volts 32 V",
    ],
  },
  {
    move: "own-circuit",
    plan: "parts:\n  lamp: { kind: light, running: 1.5 A }\n  AIS: { kind: electronics, running: 0.2 A, largest fuse: 2 A }\ncircuits:\n  W10: { path: PNL:1 → lamp, then: AIS, length: 4 m, breaker: 5 A at PNL }",
    rule: "protection/device-above-appliance-limit",
    about: "parts.AIS",
    changes: [
      "W10: PNL:1 → lamp, then AIS ⇒ PNL:1 → lamp, then not stated",
      "W12: not there ⇒ BP → AIS, 1 mm², blade fuse 2 A at BP",
    ],
  },
  {
    move: "ahead-of-switch",
    plan: "parts:\n  pump: { kind: bilge pump, running: 4 A, always on: yes, critical: yes }\ncircuits:\n  W20: { path: BP → pump, length: 3 m, fuse: 7.5 A at BP }",
    rule: "battery/switched-off-always-on-load",
    about: "parts.pump",
    changes: ["W20: BP → pump, blade fuse 7.5 A at BP ⇒ SW1:in → pump, blade fuse 7.5 A at SW1"],
  },
  {
    move: "behind-switch",
    plan: "circuits:\n  W10: { path: B1 → lamp, length: 2 m, wire: 2.5 mm², fuse: 5 A at B1 }",
    rule: "battery/missing-disconnect",
    about: "parts.B1",
    changes: ["W10: B1 → lamp, blade fuse 5 A at B1 ⇒ BP → lamp, blade fuse 5 A at BP"],
  },
  {
    move: "larger-part",
    plan: "parts:\n  PNL: { kind: panel, ways: 12, rated: 20 A, device: breaker, negative bar: yes }",
    rule: "protection/overdrawn-feeder",
    about: "parts.PNL",
    changes: ["PNL: rated 20 A ⇒ rated 30 A"],
  },
  {
    move: "equal-leads",
    plan: "circuits:\n  W02: { path: SW1 → BP, length: 0.4 m, wire: 50 mm² }\n  W05: { path: SW1 → BP, length: 0.9 m, wire: 50 mm² }",
    rule: "conductor/uneven-parallel-conductors",
    about: "circuits.W02",
    changes: ["W02: SW1 → BP, length 0.4 m ⇒ SW1 → BP, length 0.9 m"],
  },
  {
    move: "matched-unit",
    plan: "parts:\n  B2: { like: B1, capacity: 100 Ah }\ncircuits:\n  W05: { path: B2 → SW1, length: 0.8 m, sheathed: yes }\n  W06: { path: B2:− → BN, length: 0.6 m }",
    rule: "battery/mixed-string",
    about: "parts.B1",
    changes: ["B2: capacity 100 Ah ⇒ capacity not stated"],
  },
  {
    move: "another-unit",
    plan: "parts:\n  B1: { kind: battery, chemistry: LFP, nominal: 12.8 V, capacity: 200 Ah, short-circuit: 3 kA, management: { continuous: 60 A, peak: 400 A, peak time: 5 s } }\n  INV: { kind: inverter, rated: 800 VA, surge: 1000 VA, surge time: 5 s }\ncircuits:\n  W20: { path: BP → INV, length: 0.5 m }",
    rule: "battery/current-above-management-limit",
    about: "parts.B1",
    changes: ["B2: not there ⇒ like B1"],
  },
  {
    move: "more-cores",
    plan: 'circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, cable: 2-core 2.5 mm² H07RN-F, cores: ["+", "−", PE] }',
    rule: "cable/missing-core",
    about: "circuits.W10",
    changes: ["W10: PNL:1 → lamp, cable 2-core 2.5 mm² H07RN-F ⇒ PNL:1 → lamp, cable 3G2.5 H07RN-F"],
  },
  {
    move: "recolour",
    plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, colour: [red, red] }",
    rule: "label/colour-clash",
    about: "parts.PNL",
    changes: ["W10: PNL:1 → lamp, colour red, red ⇒ PNL:1 → lamp, colour red, yellow"],
  },
  {
    move: "another-core",
    plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, colour: [green-yellow, yellow] }",
    rule: "cable/protective-core-in-service",
    about: "circuits.W10",
    changes: ["W10: PNL:1 → lamp, colour green-yellow, yellow ⇒ PNL:1 → lamp, colour red, yellow"],
  },
  {
    move: "own-cable",
    plan: "systems:\n  AC: { kind: AC, nominal: 230 V, cores: [L, N, PE] }\nparts:\n  INL: { kind: shore inlet, rated: 16 A }\n  kettle: { kind: load, rated: 900 W }\ncircuits:\n  W50: { path: INL → kettle, length: 2 m, in cable: C1 }\n  W10: { path: PNL:1 → lamp, length: 2 m, cable: 5G1.5 H07RN-F, in cable: C1 }",
    rule: "cable/mixed-ac-and-dc-cable",
    about: "circuits.W10",
    changes: ["W50: INL → kettle, 1.5 mm², in cable C1 ⇒ INL → kettle, size not known, in cable not stated"],
  },
  {
    move: "same-way",
    plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, ways: port, return ways: starboard }",
    rule: "cable/split-circuit",
    about: "circuits.W10",
    changes: ["W10: PNL:1 → lamp, return ways starboard ⇒ PNL:1 → lamp, return ways not stated"],
  },
  {
    move: "shorter-tail",
    plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 0.75 mm², sheathed: yes, tail: 1 m }",
    rule: "cable/long-bare-tail",
    about: "circuits.W10",
    changes: ["W10: PNL:1 → lamp, tail 1 m ⇒ PNL:1 → lamp, tail 0.5 m"],
  },
  {
    move: "fitting-gland",
    plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, outside diameter: 12 mm, gland: M16 }",
    rule: "cable/outside-diameter-off-its-gland",
    about: "circuits.W10",
    changes: ["W10: PNL:1 → lamp, gland M16 ⇒ PNL:1 → lamp, gland M20"],
  },
  {
    move: "fixed-cable",
    plan: "rules: { DC: iso-small-craft 2020+A1:2022, AC: us-cabin }\nsystems:\n  AC: { kind: AC, nominal: 120 V, cores: [L, N, PE] }\nparts:\n  INL: { kind: shore inlet, rated: 15 A }\n  kettle: { kind: load, rated: 900 W }\ncircuits:\n  W50: { path: INL → kettle, length: 2 m, cable: 14/3 SJTOW, laid: concealed }",
    rule: "cable/cord-used-as-fixed-wiring",
    about: "circuits.W50",
    changes: ["W50: INL → kettle, cable 14/3 SJTOW ⇒ INL → kettle, cable 14/2 w/G NM-B"],
  },
  {
    move: "thicker-lead",
    plan: "rules: { DC: iso-small-craft 2020+A1:2022, AC: iec-caravan }\nsystems:\n  AC: { kind: AC, nominal: 230 V, cores: [L, N, PE] }\nparts:\n  INL: { kind: shore inlet, rated: 16 A, lead: 20 m, lead cable: 3G1.5 H05VV-F }\n  kettle: { kind: load, rated: 900 W }\ncircuits:\n  W50: { path: INL → kettle, length: 2 m }",
    rule: "cable/cord-used-as-fixed-wiring",
    about: "parts.INL",
    changes: ["INL: lead cable 3G1.5 H05VV-F, lead 20 m ⇒ lead cable 3G2.5 H07RN-F, lead 25 m"],
  },
  {
    move: "more-volts",
    plan: "parts:\n  PV: { kind: solar module, rated: 400 W, Voc: 40 V, Vmp: 33 V, Isc: 12 A, Voc per kelvin: -0.28 %, in series: 2 }\n  MPPT: { kind: solar controller, output: 30 A, input limit: 150 V }\ncircuits:\n  W20: { path: PV → MPPT:in, length: 6 m, wire: 4 mm², voltage: 60 V }\n  W21: { path: MPPT:out → BP, length: 1 m }",
    rule: "conductor/insulation-voltage-too-low",
    about: "circuits.W20",
    changes: ["W20: PV → MPPT:in, voltage 60 V ⇒ PV → MPPT:in, voltage 600 V"],
  },
  {
    move: "own-table",
    plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 2.5 mm², carries: 45 A, carries by: us-small-craft }",
    rule: "conductor/foreign-ampacity-table",
    about: "circuits.W10",
    changes: [
      "W10: PNL:1 → lamp, carries 45 A, carries by us-small-craft ⇒ PNL:1 → lamp, carries not stated, carries by not stated",
    ],
  },
  {
    move: "drawn-off",
    plan: "parts:\n  lamp: { kind: light, running: 12 A, runs above: 9 V }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 2 m, wire: 1.5 mm², on drum: 3 }",
    rule: "conductor/coiled-lead",
    about: "circuits.W10",
    changes: ["W10: PNL:1 → lamp, on drum 3 ⇒ PNL:1 → lamp, on drum 0"],
  },
  {
    move: "one-conductor",
    plan: "rules: { DC: us-cabin }\ncircuits:\n  W04: { path: BP → PNL, length: 1.5 m, demand: 30 A, wire: 8 AWG, parallel: 2 }",
    rule: "conductor/uneven-parallel-conductors",
    about: "circuits.W04",
    changes: ["W04: BP → PNL, 2 × 8 AWG, parallel 2 ⇒ BP → PNL, 16 mm², parallel not stated"],
  },
  ...curedAlternating,
  ...curedBanks,
  ...curedDevices,
  ...curedReturns,
  ...curedSolar,
  {
    move: "hotter-terminals",
    plan: "parts:\n  lamp: { kind: load, running: 25 A, runs above: 9 V }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 1 m, wire: 2.5 mm², terminals: 60 °C }",
    rule: "conductor/ampacity-above-its-terminal",
    about: "circuits.W10",
    changes: ["W10: PNL:1 → lamp, terminals 60 °C ⇒ PNL:1 → lamp, terminals 75 °C"],
  },
  {
    move: "out-of-the-insulation",
    plan: "rules: { DC: iec-cabin }\nzones:\n  wall: { kind: insulated }\nparts:\n  lamp: { kind: load, running: 18 A, runs above: 9 V }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 2 m, wire: 2.5 mm², zone: wall, breaker: 20 A at PNL }",
    rule: "conductor/smothered-conductor",
    about: "circuits.W10",
    changes: ["W10: PNL:1 → lamp, zone wall ⇒ PNL:1 → lamp, zone not stated"],
  },
  {
    move: "name-rule-set",
    plan: "rules: { AC: iso-small-craft 2020+A1:2022 }",
    rule: "record/unnamed-rule-set",
    about: "systems.DC",
    changes: ["DC: not there ⇒ iso-small-craft 2020+A1:2022"],
  },
];

for (const { move, plan, rule, about, changes } of list) {
  test(`${move} cures ${rule}: ${cureMoves[move]}`, () => {
    const text = layOver(plain, plan);
    const { findings } = compile(text).judgement;
    assert.ok(
      findings.some((f) => f.rule === rule && f.about === about && f.outcome === "fail"),
      `there is something to cure; found: ${findings.map((f) => `${f.outcome} ${f.rule} ${f.about}`).join(", ")}`,
    );
    const search = findCures(text, { rule, about }, compile);
    assert.ok(search.is === "edits", JSON.stringify(search));
    const cure = search.cures.find((c) => c.moves.includes(move));
    assert.ok(cure !== undefined, search.cures.map((c) => c.moves.join("+")).join(", "));
    const made = cure.changes.map(({ name, now, then }) => `${name}: ${now} ⇒ ${then}`);
    assert.deepEqual(made.slice(0, changes.length), changes);
    if (move !== "another-unit") assert.equal(made.length, changes.length);
  });
}

test("stagger takes a load out of the state in which a source gives too much, one at a time, the last one first", () => {
  const text = layOver(plain, "states:\n  evening: { on: [lamp, fridge], charge: 40 % }");
  const { document, build } = standOf(text, compile, createMemory(), {});
  const finding = { about: "parts.B1", state: "evening" } as Finding; // a move reads no more of it
  assert.deepEqual(
    moves.stagger(openCase(finding, build, document)),
    [1, 0].map((i) => [{ edits: [{ do: "remove", path: ["states", "evening", "on", i] }] }]),
  );
});

test("every move is made to cure something here", () => {
  const tested = new Set<CureMove>([...list.map(({ move }) => move), "stagger"]);
  assert.deepEqual(
    Object.keys(moves).filter((move) => !tested.has(move as CureMove)), // keys of a record of moves
    [],
  );
});

test("every rule that names cures names moves that there are, and every move is named by a rule", () => {
  const named = new Set(rules.flatMap(({ cures }) => cures));
  for (const move of named) assert.ok(Object.hasOwn(moves, move), move);
  assert.deepEqual(
    Object.keys(cureMoves).filter((move) => !named.has(move as CureMove)), // as above
    [],
  );
});
