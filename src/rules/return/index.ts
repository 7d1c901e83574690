import type { Rule } from "../rule.ts";
import { bondingCarriesLoadCurrent } from "./bonding-carries-load-current.ts";
import { galvanicLoop } from "./galvanic-loop.ts";
import { missingCaseBond } from "./missing-case-bond.ts";
import { missingCrankConductor } from "./missing-crank-conductor.ts";
import { missingDcAcBond } from "./missing-dc-ac-bond.ts";
import { missingEarthElectrode } from "./missing-earth-electrode.ts";
import { negativeThinnerThanPositive } from "./negative-thinner-than-positive.ts";
import { parallelReturn } from "./parallel-return.ts";
import { secondEarthPoint } from "./second-earth-point.ts";
import { shuntBypass } from "./shunt-bypass.ts";
import { structureAsConductor } from "./structure-as-conductor.ts";
import { undersizedBond } from "./undersized-bond.ts";
import { undersizedDcCaseConductor } from "./undersized-dc-case-conductor.ts";
import { undersizedJointNegative } from "./undersized-joint-negative.ts";
import { unpreparedChassisJoint } from "./unprepared-chassis-joint.ts";

/** Returns, bonds and earth. */
export const returnRules: readonly Rule[] = [
  structureAsConductor,
  unpreparedChassisJoint,
  bondingCarriesLoadCurrent,
  parallelReturn,
  undersizedJointNegative,
  negativeThinnerThanPositive,
  secondEarthPoint,
  missingDcAcBond,
  undersizedBond,
  undersizedDcCaseConductor,
  missingCaseBond,
  shuntBypass,
  missingCrankConductor,
  galvanicLoop,
  missingEarthElectrode,
];
