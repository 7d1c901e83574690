import type { CureMove } from "../../src/rules/index.ts";

/** A plan, laid over the plain boat, in which a move cures something. */
export interface Cured {
  readonly move: CureMove;
  readonly plan: string;
  readonly rule: string;
  readonly about: string;
  /** `thing: now ⇒ then` of every change of the cure. */
  readonly changes: readonly string[];
}

/** What cures faults of batteries and of what charges them. */
export const curedBanks: readonly Cured[] = [
  {
    move: "less-charge",
    plan: "parts:\n  B1: { kind: battery, chemistry: LFP, nominal: 12.8 V, capacity: 200 Ah, short-circuit: 3 kA, management: { continuous: 200 A, peak: 400 A }, charge limit: 80 A }\n  CHG: { kind: charger, output: 60 A }\n  MPPT: { kind: solar controller, output: 40 A }\n  PV: { kind: solar module, Voc: 40 V, Vmp: 33 V, Isc: 12 A, rated: 400 W }\ncircuits:\n  W20: { path: CHG:out → BP, length: 1 m }\n  W21: { path: MPPT:out → BP, length: 1 m }\n  W22: { path: PV → MPPT:in, length: 4 m }",
    rule: "battery/excess-charge-current",
    about: "parts.B1",
    changes: ["CHG: output 60 A ⇒ output 30 A"],
  },
  {
    move: "as-its-system",
    plan: "parts:\n  B1: { kind: battery, chemistry: LFP, nominal: 25.6 V, capacity: 200 Ah, short-circuit: 3 kA }",
    rule: "battery/wrong-voltage-load",
    about: "parts.B1",
    changes: ["B1: nominal 25.6 V ⇒ nominal 12.8 V"],
  },
  {
    move: "cover",
    plan: "systems:\n  DC: { kind: DC, nominal: 72 V, return: BN }\nrules: { DC: iec-cabin 2009 }\nparts:\n  B1: { kind: battery, chemistry: AGM, nominal: 72 V, capacity: 100 Ah }\n  BP: { kind: bus bar, rated: 250 A, covered: no }\n  BN: { kind: bus bar, rated: 250 A, covered: yes }\n  PNL: { kind: panel, ways: 12, device: breaker, negative bar: yes, covered: yes }\n  fridge: { kind: load, running: 1 A }",
    rule: "battery/touchable-dc-part",
    about: "systems.DC",
    changes: ["BP: covered no ⇒ covered yes"],
  },
  {
    move: "charge-block",
    plan: "parts:\n  B1: { kind: battery, chemistry: LFP, nominal: 12.8 V, capacity: 200 Ah, short-circuit: 3 kA, management: { continuous: 200 A }, heater: 50 W }\n  CHG: { kind: charger, output: 20 A }\ncircuits:\n  W20: { path: CHG:out → BP, length: 1 m }",
    rule: "battery/cold-charging",
    about: "parts.B1",
    changes: ["B1: management charging above not stated ⇒ management charging above 0 °C"],
  },
  {
    move: "vent-outside",
    plan: "parts:\n  B1: { kind: battery, chemistry: flooded, capacity: 200 Ah, vents: { to: none } }",
    rule: "battery/unvented-battery",
    about: "parts.B1",
    changes: [
      "B1: vents to none, vents low not stated, vents high not stated ⇒ vents to outside, vents low 1200 mm², vents high 1200 mm²",
    ],
  },
  {
    move: "closed-box",
    plan: "rules: { DC: au-nz-vehicle 2022 }\nparts:\n  B1: { kind: battery, chemistry: LFP, nominal: 12.8 V, capacity: 200 Ah, short-circuit: 3 kA, in living space: yes, box: none }",
    rule: "battery/battery-in-the-living-space",
    about: "parts.B1",
    changes: ["B1: box none ⇒ box sealed"],
  },
  {
    move: "hold-down",
    plan: "parts:\n  B1: { kind: battery, chemistry: AGM, capacity: 200 Ah, held down: no }",
    rule: "battery/unrestrained-battery",
    about: "parts.B1",
    changes: ["B1: held down no ⇒ held down yes"],
  },
  {
    move: "shield-fuel",
    plan: "parts:\n  B1: { kind: battery, chemistry: AGM, capacity: 200 Ah, fuel: { where: straight below, shielded: no } }",
    rule: "battery/battery-by-fuel",
    about: "parts.B1",
    changes: ["B1: fuel shielded no ⇒ fuel shielded yes"],
  },
  {
    move: "cover-posts",
    plan: "parts:\n  B1: { kind: battery, chemistry: AGM, capacity: 200 Ah, posts covered: no }",
    rule: "battery/shortable-post",
    about: "parts.B1",
    changes: ["B1: posts covered no ⇒ posts covered yes"],
  },
  {
    move: "hold-by-coil",
    plan: "rules: { DC: us-small-craft 2021 }\nparts:\n  REL: { kind: relay, rated: 200 A, remote: yes, held by: message }\ncircuits:\n  W01: { path: B1 → REL → BP, legs: [0.4 m, 0.4 m], sheathed: yes }\n  W02: { path: SW1:in → SW1:out, length: 0.4 m }",
    rule: "battery/soft-switched-contactor",
    about: "parts.REL",
    changes: ["REL: held by message ⇒ held by coil supply"],
  },
  {
    move: "pre-charge",
    plan: "systems:\n  DC: { kind: DC, nominal: 24 V, return: BN }\nparts:\n  B1: { kind: battery, chemistry: LFP, nominal: 25.6 V, capacity: 200 Ah, short-circuit: 3 kA, management: { continuous: 200 A, peak: 400 A } }\n  INV: { kind: inverter, rated: 2 kVA, surge: 3 kVA }\n  fridge: { kind: load, running: 2 A }\ncircuits:\n  W20: { path: BP → INV:in, length: 1 m }",
    rule: "battery/missing-pre-charge",
    about: "parts.INV",
    changes: ["INV: pre-charge not stated ⇒ pre-charge yes"],
  },
  {
    move: "warning-signal",
    plan: "parts:\n  B1: { kind: battery, chemistry: LFP, nominal: 12.8 V, capacity: 200 Ah, short-circuit: 3 kA, management: { continuous: 200 A, warns: no } }",
    rule: "battery/silent-shutdown",
    about: "parts.B1",
    changes: ["B1: management warns no ⇒ management warns yes"],
  },
  {
    move: "limited-alternator",
    plan: "parts:\n  ALT: { kind: alternator, rated: 80 A }\ncircuits:\n  W20: { path: ALT → BP, length: 1 m }",
    rule: "charging/overworked-alternator",
    about: "parts.ALT",
    changes: ["ALT: limit not stated ⇒ limit 60 A"],
  },
  {
    move: "surge-clamp",
    plan: "parts:\n  ALT: { kind: alternator, rated: 60 A, limit: 40 A }\ncircuits:\n  W20: { path: ALT → BP, length: 1 m }",
    rule: "charging/unbuffered-alternator",
    about: "parts.ALT",
    changes: ["ALT: clamp not stated ⇒ clamp yes"],
  },
  {
    move: "right-volts",
    plan: "parts:\n  B1: { kind: battery, chemistry: gel, capacity: 200 Ah }\n  CHG: { kind: charger, output: 20 A, charging volts: 14.8 V }\ncircuits:\n  W20: { path: CHG:out → BP, length: 1 m }",
    rule: "charging/mismatched-charge-voltage",
    about: "parts.CHG",
    changes: ["CHG: charging volts 14.8 V ⇒ charging volts 14.4 V"],
  },
  {
    move: "temperature-sensor",
    plan: "parts:\n  B1: { kind: battery, chemistry: AGM, capacity: 200 Ah, ambient: 0…45 °C }\n  CHG: { kind: charger, output: 20 A, temperature sensor: no }\ncircuits:\n  W20: { path: CHG:out → BP, length: 1 m }",
    rule: "charging/missing-temperature-sensor",
    about: "parts.CHG",
    changes: ["CHG: temperature sensor no ⇒ temperature sensor yes"],
  },
  {
    move: "ignition-line",
    plan: "parts:\n  B3: { kind: battery, chemistry: AGM, capacity: 75 Ah, cranking: 700 A }\n  DCDC: { kind: DC-DC charger, output: 20 A, input: 25 A, ignition line: no }\ncircuits:\n  W21: { path: B3 → DCDC:in, length: 1 m }\n  W22: { path: DCDC:out → BP, length: 1 m }\n  W23: { path: B3:− → BN, length: 1 m }",
    rule: "charging/drained-start-battery",
    about: "parts.DCDC",
    changes: ["DCDC: ignition line no ⇒ ignition line yes"],
  },
];
