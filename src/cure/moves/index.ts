import type { CureMove } from "../../rules/index.ts";
import type { Move } from "../case.ts";
import { breakerAtInlet, residualWay } from "./at-the-inlet.ts";
import { aheadOfSwitch, behindSwitch } from "./across-the-switch.ts";
import { anotherUnit } from "./another-unit.ts";
import { asDrawn } from "./as-drawn.ts";
import { anotherCore, fittingGland, fixedCable, ownCable, sameWay, shorterTail, thickerLead } from "./cable-facts.ts";
import { drawnOff, hotterTerminals, moreVolts, oneConductor, outOfTheInsulation, ownTable } from "./conductor-facts.ts";
import { copper } from "./copper.ts";
import { deviceAtSource } from "./device-at-source.ts";
import { deviceMadeForIt } from "./device-made-for-it.ts";
import { deviceNearer } from "./device-nearer.ts";
import { equalLeads } from "./equal-leads.ts";
import {
  arcFaultGuard,
  coolerPlace,
  higherInterrupt,
  surgeArrester,
  thermalProtector,
  withinReach,
} from "./fit-part.ts";
import { fitInsulation } from "./fit-insulation.ts";
import { allPoles, classAOutlet, classAWay, mainGuard, outletGuard, sourceGuard, wayGuard } from "./residual-guards.ts";
import { hotterInsulation } from "./hotter-insulation.ts";
import { largerPart } from "./larger-part.ts";
import { lessCharge, limitedAlternator, rightVolts } from "./less-charge.ts";
import { looserBundle } from "./looser-bundle.ts";
import { matchedUnit } from "./matched-unit.ts";
import { moreCores } from "./more-cores.ts";
import { nameRuleSet } from "./name-rule-set.ts";
import { nextSize } from "./next-size.ts";
import { largerDevice, smallerDevice } from "./other-rating.ts";
import { bothPoles, outOfTheReturn } from "./poles.ts";
import {
  breakFirst,
  earthJoin,
  holdBreaker,
  moveNeutral,
  neverBoth,
  openJoin,
  polarityIndicator,
  protectiveCore,
  unblind,
} from "./neutral-and-earth.ts";
import { ownCircuit } from "./own-circuit.ts";
import { recolour } from "./recolour.ts";
import {
  behindShunt,
  commonConductor,
  earthBond,
  earthRod,
  equalSize,
  failSafeIsolator,
  fitAnode,
  openLoop,
  ownNegative,
  remakeJoints,
} from "./return-conductors.ts";
import { sheathe } from "./sheathe.ts";
import {
  arrayIsolator,
  fewerInSeries,
  higherInputLimit,
  moreInSeries,
  sameConnector,
  stringFuse,
} from "./solar-array.ts";
import { stagger } from "./stagger.ts";
import {
  asItsSystem,
  bondCase,
  chargeBlock,
  closedBox,
  cover,
  coverPosts,
  groundFaultGuard,
  holdByCoil,
  holdDown,
  ignitionLine,
  measureFirst,
  preCharge,
  rapidShutdown,
  shieldFuel,
  surgeClamp,
  temperatureSensor,
  ventOutside,
  warningSignal,
} from "./state-fact.ts";
import { stranded } from "./stranded.ts";
import { upstreamSize } from "./upstream-size.ts";

/** What each way to cure a fault proposes. */
export const moves: Readonly<Record<CureMove, Move>> = {
  "next-size": nextSize,
  "upstream-size": upstreamSize,
  "hotter-insulation": hotterInsulation,
  "fit-insulation": fitInsulation,
  "looser-bundle": looserBundle,
  stranded,
  copper,
  sheathe,
  "as-drawn": asDrawn,
  "more-cores": moreCores,
  "another-core": anotherCore,
  "own-cable": ownCable,
  "same-way": sameWay,
  "shorter-tail": shorterTail,
  "fitting-gland": fittingGland,
  "fixed-cable": fixedCable,
  "thicker-lead": thickerLead,
  "one-conductor": oneConductor,
  "hotter-terminals": hotterTerminals,
  "out-of-the-insulation": outOfTheInsulation,
  "more-volts": moreVolts,
  "own-table": ownTable,
  "drawn-off": drawnOff,
  recolour,
  "smaller-device": smallerDevice,
  "larger-device": largerDevice,
  "device-at-source": deviceAtSource,
  "device-nearer": deviceNearer,
  "device-made-for-it": deviceMadeForIt,
  "thermal-protector": thermalProtector,
  "within-reach": withinReach,
  "surge-arrester": surgeArrester,
  "higher-interrupt": higherInterrupt,
  "cooler-place": coolerPlace,
  "out-of-the-return": outOfTheReturn,
  "both-poles": bothPoles,
  "own-circuit": ownCircuit,
  "ahead-of-switch": aheadOfSwitch,
  "behind-switch": behindSwitch,
  "larger-part": largerPart,
  "equal-leads": equalLeads,
  "matched-unit": matchedUnit,
  "another-unit": anotherUnit,
  stagger,
  "hold-down": holdDown,
  "cover-posts": coverPosts,
  cover,
  "vent-outside": ventOutside,
  "closed-box": closedBox,
  "shield-fuel": shieldFuel,
  "charge-block": chargeBlock,
  "warning-signal": warningSignal,
  "hold-by-coil": holdByCoil,
  "pre-charge": preCharge,
  "as-its-system": asItsSystem,
  "less-charge": lessCharge,
  "limited-alternator": limitedAlternator,
  "surge-clamp": surgeClamp,
  "right-volts": rightVolts,
  "temperature-sensor": temperatureSensor,
  "fewer-in-series": fewerInSeries,
  "more-in-series": moreInSeries,
  "higher-input-limit": higherInputLimit,
  "string-fuse": stringFuse,
  "same-connector": sameConnector,
  "array-isolator": arrayIsolator,
  "rapid-shutdown": rapidShutdown,
  "ground-fault-guard": groundFaultGuard,
  "ignition-line": ignitionLine,
  "own-negative": ownNegative,
  "remake-joints": remakeJoints,
  "open-loop": openLoop,
  "equal-size": equalSize,
  "earth-bond": earthBond,
  "bond-case": bondCase,
  "behind-shunt": behindShunt,
  "common-conductor": commonConductor,
  "fail-safe-isolator": failSafeIsolator,
  "fit-anode": fitAnode,
  "earth-rod": earthRod,
  "breaker-at-inlet": breakerAtInlet,
  "residual-way": residualWay,
  "measure-first": measureFirst,
  "earth-join": earthJoin,
  "open-join": openJoin,
  "never-both": neverBoth,
  "break-first": breakFirst,
  "move-neutral": moveNeutral,
  "all-poles": allPoles,
  "main-guard": mainGuard,
  "source-guard": sourceGuard,
  unblind,
  "way-guard": wayGuard,
  "class-a-way": classAWay,
  "outlet-guard": outletGuard,
  "class-a-outlet": classAOutlet,
  "protective-core": protectiveCore,
  "polarity-indicator": polarityIndicator,
  "hold-breaker": holdBreaker,
  "arc-fault-guard": arcFaultGuard,
  "name-rule-set": nameRuleSet,
};
