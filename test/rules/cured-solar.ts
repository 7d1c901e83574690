import type { Cured } from "./cured-banks.ts";
import { curedExample as of } from "./cured-example.ts";

/** What cures faults of solar modules and of what they feed. */
export const curedSolar: readonly Cured[] = [
  of("fewer-in-series", "charging/cold-string-overvoltage", "four in series at −32 °C", [
    "PV: in series 4 ⇒ in series 3",
  ]),
  of("higher-input-limit", "charging/cold-string-overvoltage", "four in series at −32 °C", [
    "MPPT: input limit 150 V ⇒ input limit 200 V",
  ]),
  of("more-in-series", "charging/hot-string-undervoltage", "one module of 36 cells glued to the deck", [
    "PV: in series not stated ⇒ in series 2",
  ]),
  of("string-fuse", "protection/unfused-array-string", "four strings", [
    "PV: string fuse not stated ⇒ string fuse { rated: 16 A, DC volts: 600 V }",
  ]),
  of("string-fuse", "protection/misfit-array-fuse", "a fuse for 32 V", [
    "PV: string fuse { rated: 16 A, DC volts: 32 V } ⇒ string fuse { rated: 16 A, DC volts: 600 V }",
  ]),
  of("same-connector", "charging/cross-mated-connector", "two makes", [
    "PV: mated with make B 4 mm ⇒ mated with make A 4 mm",
  ]),
  of("array-isolator", "charging/missing-array-isolator", "straight to the controller", [
    "MPPT: isolator not stated ⇒ isolator { poles: 2, DC volts: 100 V }",
  ]),
  of("array-isolator", "charging/missing-array-isolator", "a switch for 60 V", ["ISO: DC volts 60 V ⇒ DC volts 100 V"]),
  of("rapid-shutdown", "charging/missing-rapid-shutdown", "on a roof, without", [
    "PV: rapid shutdown not stated ⇒ rapid shutdown yes",
  ]),
  of("ground-fault-guard", "charging/missing-array-ground-fault-guard", "a controller without", [
    "MPPT: ground-fault guard not stated ⇒ ground-fault guard yes",
  ]),
];
