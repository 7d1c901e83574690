import { auNzVehicle } from "./au-nz-vehicle.ts";
import { iecCabin } from "./iec-cabin.ts";
import { iecCaravan } from "./iec-caravan.ts";
import { isoSmallCraft } from "./iso-small-craft.ts";
import type { RuleSet } from "./rule-set.ts";
import { usCabin } from "./us-cabin.ts";
import { usRv } from "./us-rv.ts";
import { usSmallCraft } from "./us-small-craft.ts";
import { vehiclePractice } from "./vehicle-practice.ts";

/** Every rule set that a plan can name. A new one is a file and a line here. */
export const ruleSets: readonly RuleSet[] = [
  usSmallCraft,
  isoSmallCraft,
  usCabin,
  usRv,
  iecCabin,
  iecCaravan,
  auNzVehicle,
  vehiclePractice,
];
