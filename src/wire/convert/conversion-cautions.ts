import type { Conversion, ConvertedSize } from "./conversion.ts";
import { percentSays } from "./percent.ts";
import type { ConductorKind } from "./size-resistance.ts";

/** A gain or loss below this is rounding. */
const HALF_PERCENT = 0.005;

/** Sizes that metric labels of vehicle cable have and IEC 60228 does not. */
const isVehicleLabel = (areaMm2: number): boolean =>
  [0.8, 2, 3, 5, 8, 12, 13, 19, 20, 30, 32, 40, 60].includes(areaMm2);

/** What misleads in a conversion, graver first, each a sentence. */
export function cautionsOf(
  { from, to, by, direction, otherPairs }: Omit<Conversion, "cautions">,
  candidates: readonly ConvertedSize[],
  given: ConductorKind,
  taken: Partial<ConductorKind>,
): readonly string[] {
  if (to === null) return [];
  const cautions: string[] = [];
  const { size } = from;
  const enough = candidates.find((each) => each.areaChange >= -1e-6);
  if (to.areaChange < -HALF_PERCENT && by !== "resistance") {
    const what = `${to.size.label} has ${percentSays(to.areaChange, "area")} than ${size.label}`;
    cautions.push(enough === undefined ? what : `${what}; not smaller is ${enough.size.label}`);
  }
  if (direction === "nearest" && by === "resistance" && to.resistanceChange > HALF_PERCENT)
    cautions.push(
      `${to.size.label} has ${percentSays(to.resistanceChange, "resistance")} than ${size.label}: its voltage drop is as much more`,
    );
  if (by === "area" && to.areaChange >= -HALF_PERCENT && to.resistanceChange > HALF_PERCENT) {
    const less = candidates.find((each) => each.resistanceChange <= 1e-6);
    const next = less === undefined ? "" : `; by resistance it takes ${less.size.label}`;
    cautions.push(`not less area, yet ${percentSays(to.resistanceChange, "resistance")}${next}`);
  }
  if (given.metal !== (taken.metal ?? given.metal) && by !== "resistance")
    cautions.push(
      `${given.metal} and ${taken.metal ?? ""} differ in resistance: compare by resistance, not ${by === "area" ? "by area" : "by name"}`,
    );
  // Metal that is bought as a label may turn out less; the other way round the gain only grows.
  const label = to.size.basis === "label" ? to.size : size;
  if (size.basis !== to.size.basis && by === "area" && (label === to.size || to.areaChange < 0))
    cautions.push(
      `${label.label} is a label of resistance: the copper in it may be up to 14 % less, so compare resistances for voltage drop`,
    );
  if (by === "resistance" && label.basis === "label")
    cautions.push(
      `${label.label} is compared at the greatest resistance that its class allows; what is bought may have less`,
    );
  if (by === "table")
    cautions.push(
      "a pair of names serves terminals and tables; voltage drop and ampacity follow the size that is bought",
    );
  if (otherPairs.length > 0 && by === "table")
    cautions.push(`published lists disagree: ${otherPairs.map(({ says }) => says).join("; ")}`);
  if (size.system === "SAE" || to.size.system === "SAE")
    cautions.push("an SAE size has 3 to 11 % less copper than the AWG size of the same number");
  if (size.system === "mm²" && isVehicleLabel(size.areaMm2))
    cautions.push(
      `${size.label} is no size of IEC 60228: it is a vehicle size, and as the label of an SAE gauge it may hold less copper`,
    );
  if (size.system === "vehicle diameter" || to.size.system === "vehicle diameter")
    cautions.push("the number of this vehicle cable is the diameter over its insulation, not an area");
  if (to.size.system === "SWG") cautions.push("British gauge is withdrawn and is not sold any more");
  if (to.size.label === "1 AWG") cautions.push("1 AWG is seldom on the shelf; the next is 1/0 AWG");
  else if (!to.isStocked && to.size.system !== "SWG") cautions.push(`${to.size.label} is no size that stockists keep`);
  cautions.push("lug, gland, fuse and ampacity are checked again with the size that is bought");
  return cautions;
}
