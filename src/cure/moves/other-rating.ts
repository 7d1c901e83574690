import type { Case, Move, Proposal } from "../case.ts";
import { devicesIn, ratingsFor, writeRating, type WrittenDevice } from "../written-devices.ts";

const STEPS = 3;

/** The next smaller devices on sale, and the largest that the rule set and the maker of the load allow. */
export const smallerDevice: Move = (at) =>
  at.circuits.flatMap((c) =>
    devicesIn(at, c).map((device) => {
      const now = device.ratingA;
      if (now === null) return [];
      const most = Math.min(device.mostA ?? Infinity, device.makerA ?? Infinity);
      const smaller = ratingsFor(device)
        .filter((amps) => amps < now)
        .reverse();
      const allowed = most === Infinity ? undefined : smaller.find((amps) => amps <= most);
      return rated(at, device, pick(smaller, allowed));
    }),
  );

/** The next larger devices on sale, and the least that the load asks for. */
export const largerDevice: Move = (at) =>
  at.circuits.flatMap((c) =>
    devicesIn(at, c).map((device) => {
      const now = device.ratingA;
      if (now === null) return [];
      const larger = ratingsFor(device).filter((amps) => amps > now);
      const asked = larger.find((amps) => amps >= device.leastA);
      return rated(at, device, pick(larger, asked));
    }),
  );

/** The next steps, and the one that is asked for where it lies beyond them. */
const pick = (steps: readonly number[], asked: number | undefined): readonly number[] => {
  const next = steps.slice(0, STEPS);
  return asked === undefined || next.includes(asked) ? next : [...next, asked];
};

const rated = (at: Case, device: WrittenDevice, ratings: readonly number[]): Proposal[] =>
  ratings.flatMap((amps) => {
    const edit = writeRating(at, device, amps);
    return edit === null ? [] : [{ edits: [edit] }];
  });
