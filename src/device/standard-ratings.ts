import type { Amps } from "../quantity/index.ts";
import { deviceFamily, type DeviceFamilyId } from "./family.ts";

/**
 * The least rating on sale that is not below a current.
 *
 * @returns null above the largest
 * @example
 * standardRatingAtLeast("blade_type_C", 11) //=> 15
 * standardRatingAtLeast("blade_type_C", 41) //=> null
 */
export const standardRatingAtLeast = (family: DeviceFamilyId, current: number): Amps | null =>
  deviceFamily(family).standardRatings.find((rating) => rating >= current) ?? null;

/**
 * The greatest rating on sale that is not above a current.
 *
 * @returns null below the smallest
 * @example
 * standardRatingAtMost("blade_type_C", 14) //=> 10
 */
export const standardRatingAtMost = (family: DeviceFamilyId, current: number): Amps | null =>
  deviceFamily(family).standardRatings.findLast((rating) => rating <= current) ?? null;

/**
 * The next rating on sale above one, which need not be on sale itself.
 *
 * @returns null above the largest
 * @example
 * nextStandardRating("blade_type_C", 10) //=> 15
 */
export const nextStandardRating = (family: DeviceFamilyId, rating: number): Amps | null =>
  deviceFamily(family).standardRatings.find((candidate) => candidate > rating) ?? null;
