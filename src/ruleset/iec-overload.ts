import { conventional, deviceFamilies } from "../device/index.ts";
import { cite } from "../explain/index.ts";
import { amps } from "../quantity/index.ts";
import type { DeviceSizeRule, LateOpening } from "./device-limit.ts";

/** I2 ≤ 1.45 × Iz: by so many times the ampacity of its conductor a device is sure to open. */
export const IEC_OPENS_BY = 1.45;

/** In ≤ Iz, where the device is sure to open at 1.45 × Iz. */
export const iecDevice: DeviceSizeRule = {
  upTo: "ampacity",
  ceiling: 1,
  source: cite("iec-60364-4-43", "433.1", "read"),
};

/** Every device that opens later than that, by what its own standard promises: I2 ≤ 1.45 Iz is In ≤ Iz ÷ (I2/In ÷ 1.45). */
export const iecLate: readonly LateOpening[] = deviceFamilies.flatMap(({ id, standardRatings }) => {
  const steps: LateOpening[] = [];
  for (const rating of standardRatings) {
    const multiple = conventional(id, rating).trip?.multiple ?? 0;
    const divisor = Math.max(1, multiple / IEC_OPENS_BY);
    if (divisor === (steps.at(-1)?.divisor ?? 1)) continue;
    const clause = `IEC 60364-4-43 433.1 with the conventional current of ${String(multiple)} × In`;
    steps.push({ family: id, from: amps(rating), divisor, source: cite("own-derivation", clause, "derived") });
  }
  return steps;
});
