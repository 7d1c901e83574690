import type { Rule } from "../rule.ts";
import { adapterUpsizedSupply } from "./adapter-upsized-supply.ts";
import { longInletRun } from "./long-inlet-run.ts";
import { openFailingIsolator } from "./open-failing-isolator.ts";
import { overloadedInlet } from "./overloaded-inlet.ts";
import { starvedSupplyLead } from "./starved-supply-lead.ts";
import { undersizedGalvanicIsolator } from "./undersized-galvanic-isolator.ts";
import { untestedSupply } from "./untested-supply.ts";
import { overloadedSharedNeutral } from "./overloaded-neutral.ts";
import { slowFaultDisconnection } from "./slow-fault-disconnection.ts";
import { sourceThatCannotTrip } from "./source-that-cannot-trip.ts";
import { undersizedProtectiveConductor } from "./undersized-protective-conductor.ts";
import { wireBurntByAShort } from "./wire-burnt-by-a-short.ts";
import { weakShoreInterruptRating } from "./weak-shore-interrupt-rating.ts";

/** What is measured of alternating current: amps, volts, metres, sizes and times. */
export const alternatingNumericRules: readonly Rule[] = [
  longInletRun,
  adapterUpsizedSupply,
  overloadedInlet,
  undersizedGalvanicIsolator,
  openFailingIsolator,
  starvedSupplyLead,
  weakShoreInterruptRating,
  wireBurntByAShort,
  overloadedSharedNeutral,
  undersizedProtectiveConductor,
  slowFaultDisconnection,
  sourceThatCannotTrip,
  untestedSupply,
];
