import type { Cured } from "./cured-banks.ts";
import { curedExample as of } from "./cured-example.ts";

/** What cures faults of alternating current. */
export const curedAlternating: readonly Cured[] = [
  of("breaker-at-inlet", "ac/long-inlet-run", "4 m on an American boat", [
    "INL: breaker not stated ⇒ breaker 30 A 2-pole",
  ]),
  of("breaker-at-inlet", "ac/adapter-upsized-supply", "from 50 A to 30 A, and the main is as large", [
    "INL: breaker not stated ⇒ breaker 30 A 2-pole",
  ]),
  of("measure-first", "ac/untested-supply", "not measured", ["INL: tested first no ⇒ tested first yes"]),
  of("fail-safe-isolator", "ac/open-failing-isolator", "one that fails open", ["GI: fail-safe no ⇒ fail-safe yes"]),
  of("larger-part", "ac/undersized-galvanic-isolator", "one of 10 A behind an inlet of 16 A", [
    "GI: rated 10 A ⇒ rated 20 A",
  ]),
  of("residual-way", "ac/slow-fault-disconnection", "60 m of 1.5 mm² behind 16 A that opens late", [
    "W21: CU:1 → heater, miniature breaker, curve D 16 A at CU:1 ⇒ CU:1 → heater, miniature breaker, curve C 16 A at CU:1",
    "CU: ways 1 breaker ⇒ ways 1 breaker 16 A 30 mA 2-pole",
  ]),
  of("earth-join", "ac/missing-neutral-earth-join", "an inverter that never joins them", [
    "INV: neutral–earth join never ⇒ neutral–earth join closed when inverting",
  ]),
  of("open-join", "ac/doubled-neutral-earth-join", "a join in the board of shore power", [
    "CU: neutral–earth join always ⇒ neutral–earth join never",
  ]),
  of("never-both", "ac/parallel-sources", "an inverter on a way of the board that shore feeds", [
    "interlock: not there ⇒ never CU:main on and CU:2 on",
  ]),
  of("break-first", "ac/overlapping-transfer", "a switch that makes before it breaks", [
    "TS: break before make no ⇒ break before make yes",
  ]),
  of("move-neutral", "ac/unswitched-neutral", "one pole between two sources with a join each", [
    "TS: poles 1 ⇒ poles 2",
  ]),
  of("all-poles", "ac/unfit-residual-device", "one pole in a caravan", [
    "CU: main residual device 30 mA, main poles 1 ⇒ main residual device 30 mA, main poles 2",
  ]),
  of("main-guard", "ac/missing-residual-device", "none", [
    "CU: main residual device not stated ⇒ main residual device 30 mA",
  ]),
  of("unblind", "ac/missing-residual-device", "a join in the board, behind its main of 30 mA", [
    "CU: neutral–earth join always ⇒ neutral–earth join never",
    "GEN: neutral floating ⇒ neutral joined to earth",
  ]),
  of("source-guard", "ac/residual-device-skipped-by-a-source", "guarded on shore power, bare on the inverter", [
    "W22: INV:out → TS:inverter, no device ⇒ INV:out → TS:inverter, miniature breaker, curve C 6 A at INV",
  ]),
  of("outlet-guard", "ac/missing-residual-device", "a bare outlet in a cabin", [
    "sockets: residual device not stated ⇒ residual device 30 mA",
  ]),
  of("way-guard", "ac/missing-residual-device", "a bare outlet in a cabin", [
    "CU: ways 1 breaker 10 A 2-pole ⇒ ways 1 breaker 10 A 30 mA 2-pole",
  ]),
  of("class-a-way", "ac/unguarded-outlet", "a bare outlet in the bath", [
    "CU: ways 1 breaker 10 A ⇒ ways 1 breaker 10 A 5 mA 2-pole",
  ]),
  of("class-a-outlet", "ac/unguarded-outlet", "a bare outlet in the bath", [
    "sockets: residual device not stated ⇒ residual device 5 mA",
  ]),
  of("protective-core", "ac/missing-protective-conductor", "two cores to class I", [
    "W25: CU:2 → heater, cores L, N ⇒ CU:2 → heater, cores not stated",
  ]),
  of("polarity-indicator", "ac/missing-polarity-guard", "single poles and no indicator", [
    "INL: polarity indicator not stated ⇒ polarity indicator yes",
  ]),
  of("larger-part", "ac/overloaded-panel-bus", "a main above the rating", ["CU: rated 20 A ⇒ rated 40 A"]),
  of("arc-fault-guard", "ac/missing-arc-fault-guard", "an outlet in a room", [
    "W23: CU:1 → sockets, arc fault not stated ⇒ CU:1 → sockets, arc fault yes",
  ]),
  of("hold-breaker", "ac/loose-back-fed-breaker", "not held", ["CU: back-fed held no ⇒ back-fed held yes"]),
];
