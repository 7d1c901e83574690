import type { Cured } from "./cured-banks.ts";
import { curedExample as of } from "./cured-example.ts";

/** What cures faults of returns, bonds and earth. */
export const curedReturns: readonly Cured[] = [
  of("own-negative", "return/structure-as-conductor", "a deck light that returns through the hull", [
    "W21: BP → flood, return hull:fore ⇒ BP → flood, return not stated",
  ]),
  of("remake-joints", "return/unprepared-chassis-joint", "a joint of 8 mΩ", [
    "chassis: prepared yes, joints fore 0.5 mΩ, joints aft 8 mΩ ⇒ prepared yes, joints fore 0.5 mΩ, joints aft 0.5 mΩ",
  ]),
  of("open-loop", "return/bonding-carries-load-current", "a second join at the start battery", [
    "W23: B2:− → BN, 10 mm², no device ⇒ not there",
  ]),
  of("equal-size", "return/negative-thinner-than-positive", "a thin negative at the battery", [
    "W03: B1:− → BN, 6 mm² ⇒ B1:− → BN, 35 mm²",
  ]),
  of("earth-bond", "return/missing-dc-ac-bond", "no bond", ["W05: not there ⇒ CU:PE → BN, 10 mm², no device"]),
  of("bond-case", "return/missing-case-bond", "a chassis without a bond", ["chassis: bonded not stated ⇒ bonded yes"]),
  of("behind-shunt", "return/shunt-bypass", "a heater whose minus is at the battery", [
    "W20: BP → heater, return B1 ⇒ BP → heater, return BN",
  ]),
  of("common-conductor", "return/missing-common-crank-conductor", "two starters that thin wire joins", [
    "W05: not there ⇒ ST1:− → ST2:−, 2/0 AWG, no device",
  ]),
  of("fail-safe-isolator", "return/galvanic-loop", "an isolator that opens when it fails", [
    "GI: fail-safe no ⇒ fail-safe yes",
  ]),
  of("fit-anode", "return/galvanic-loop", "no anode", [
    "anode: not there ⇒ kind earth electrode, is anode",
    "W05: not there ⇒ shaft → anode, 10 mm², no device",
  ]),
  of("earth-rod", "return/missing-earth-electrode", "no electrode", [
    "ROD: not there ⇒ kind earth electrode",
    "W05: not there ⇒ LC:PE → ROD, 16 mm², no device",
  ]),
];
