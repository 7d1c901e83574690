import type { Cured } from "./cured-banks.ts";

/** What cures faults of protective devices and of what they stand on. */
export const curedDevices: readonly Cured[] = [
  {
    move: "surge-arrester",
    plan: "parts:\n  PV1: { kind: solar module, rated: 175 W, Voc: 24.4 V, Vmp: 20.2 V, Isc: 9.2 A }\n  MPPT: { kind: solar controller, output: 30 A }\ncircuits:\n  W20: { path: PV1 → MPPT:in, length: 20 m, wire: 6 mm², fuse: none }\n  W21: { path: MPPT:out → BP, length: 1 m }",
    rule: "protection/missing-surge-arrester",
    about: "parts.PV1",
    changes: ["MPPT: surge arrester not stated ⇒ surge arrester yes"],
  },
  {
    move: "out-of-the-return",
    plan: "systems:\n  DC: { kind: DC, nominal: 12 V, return: BN, earthed at: BN }\ncircuits:\n  W03: { path: B1:− → BN, length: 0.6 m, fuse: 250 A class T at B1 }",
    rule: "protection/fused-earthed-conductor",
    about: "circuits.W03",
    changes: ["W03: B1:− → BN, fuse 250 A class T at B1 ⇒ B1:− → BN, fuse none"],
  },
  {
    move: "both-poles",
    plan: "systems:\n  DC: { kind: DC, nominal: 12 V, return: BN, earthed at: none }\nparts:\n  SW1: { kind: switch, rated: 300 A, poles: 2 }\ncircuits:\n  W10: { path: BP → lamp, length: 4 m, breaker: 5 A at BP }",
    rule: "protection/missing-pole",
    about: "circuits.W10",
    changes: ["W10: BP → lamp, breaker 5 A at BP ⇒ BP → lamp, breaker 5 A 2-pole at BP"],
  },
  {
    move: "both-poles",
    plan: "systems:\n  DC: { kind: DC, nominal: 12 V, return: BN, earthed at: none }\nparts:\n  SW1: { kind: switch, rated: 300 A }\ncircuits:\n  W10: { path: BP → lamp, length: 4 m, breaker: 5 A 2-pole at BP }",
    rule: "protection/missing-pole",
    about: "parts.SW1",
    changes: ["SW1: poles not stated ⇒ poles 2"],
  },
  {
    move: "thermal-protector",
    plan: "parts:\n  pump: { kind: bilge pump, running: 5 A, locked rotor: 12 A }\ncircuits:\n  W20: { path: PNL:3 → pump, length: 3 m, wire: 4 mm², breaker: 15 A thermal breaker at PNL }",
    rule: "protection/unguarded-stalled-motor",
    about: "parts.pump",
    changes: ["pump: thermal protector not stated ⇒ thermal protector yes"],
  },
  {
    move: "within-reach",
    plan: "parts:\n  PNL: { kind: panel, ways: 12, device: breaker, negative bar: yes, reach: with a tool }",
    rule: "protection/unreachable-device",
    about: "parts.PNL",
    changes: ["PNL: reach with a tool ⇒ reach by hand"],
  },
  {
    move: "higher-interrupt",
    plan: "parts:\n  B1: { kind: battery, chemistry: LFP, nominal: 12.8 V, capacity: 200 Ah, short-circuit: 4 kA, vents: { to: outside }, held down: yes, posts covered: yes }\n  F1: { kind: fuse, family: strip fuse, rated: 150 A, interrupt: 2 kA }\ncircuits:\n  W01: { path: B1 → SW1, length: 0.8 m, wire: 50 mm², sheathed: yes, fuse: F1 }",
    rule: "protection/weak-interrupt-rating",
    about: "circuits.W01",
    changes: ["F1: interrupt 2 kA ⇒ interrupt 5 kA"],
  },
  {
    move: "cooler-place",
    plan: "parts:\n  F1: { kind: fuse, family: large blade fuse, rated: 40 A, ambient: 85 °C }\n  heater: { kind: load, running: 31 A }\ncircuits:\n  W20: { path: BP → heater, length: 2 m, wire: 16 mm², fuse: F1 }",
    rule: "protection/heat-sapped-device",
    about: "circuits.W20",
    changes: ["F1: ambient 85 °C ⇒ ambient not stated"],
  },
];
