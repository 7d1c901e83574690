import { describe, test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import { deviceFamily, gatesOf, greatestOpeningTime, type DeviceFamilyId } from "../../device/index.ts";
import { FIVE_SECONDS, worstThrough } from "./opens-in-time.ts";

const FAMILIES: readonly DeviceFamilyId[] = [
  "blade_type_C",
  "blade_type_E",
  "strip_SF30",
  "strip_SF51",
  "ul_class_T",
  "mcb_C",
];

describe("the most that is let through", () => {
  test("is let through just below the next promise", () => {
    // ISO 8820-3, a standard blade fuse of 20 A: 5 s from twice its rating, 0.5 s from 3.5 times (memory): just below 70 A it may take 5 s.
    const device = { family: "blade_type_C", rating: 20 } as const;
    const at = gatesOf(device.family, device.rating).filter(({ maxS }) => maxS !== null);
    const i = at.findIndex(({ maxS }) => maxS !== null && maxS <= FIVE_SECONDS);
    const [first, next] = [at[i], at[i + 1]];
    assert.ok(first?.maxS != null && next !== undefined);
    const { allowed, atMost } = worstThrough([device], { low: first.multiple * 20, high: 1000 });
    assert.equal(allowed?.amps, next.multiple * 20);
    assert.equal(allowed.seconds, first.maxS);
    assert.equal(atMost, allowed.amps ** 2 * allowed.seconds);
    // A range that ends below the promise ends there.
    const short = worstThrough([device], { low: first.multiple * 20, high: first.multiple * 20 + 1 });
    assert.equal(short.allowed?.amps, first.multiple * 20 + 1);
  });

  test("is no less than what a device may let through at any current of the range", () => {
    const device = fc
      .constantFrom(...FAMILIES)
      .chain((family) =>
        fc.constantFrom(...deviceFamily(family).standardRatings).map((rating) => ({ family, rating: Number(rating) })),
      );
    fc.assert(
      fc.property(
        device,
        fc.double({ min: 1, max: 20, noNaN: true }),
        fc.double({ min: 1, max: 10, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (one, multiple, times, share) => {
          const low = multiple * one.rating;
          const high = low * times;
          const amps = low + share * (high - low);
          const last = gatesOf(one.family, one.rating).findLast(({ maxS }) => maxS !== null);
          const seconds = greatestOpeningTime(one.family, one.rating, amps)?.value ?? Infinity;
          fc.pre(seconds <= FIVE_SECONDS && last !== undefined);
          // Beyond the last promise a fuse lets no more through.
          const counted = deviceFamily(one.family).kind === "fuse" ? Math.min(amps, last.multiple * one.rating) : amps;
          const energy = counted ** 2 * seconds * (1 - 1e-9);
          const alone = worstThrough([one], { low, high });
          assert.ok(alone.atMost === null || alone.atMost >= energy);
          if (amps < last.multiple * one.rating)
            assert.ok(alone.allowed !== null && alone.allowed.amps ** 2 * alone.allowed.seconds >= energy);
        },
      ),
    );
  });
});
