import type { Move } from "../case.ts";
import { deviceWords, devicesIn } from "../written-devices.ts";

/** The device moves to its end of the conductor. */
export const deviceNearer: Move = (at) =>
  at.circuits.flatMap((c) =>
    devicesIn(at, c)
      .filter((d) => d.distanceM > 0 && (at.end === null || d.end === at.end))
      .map(({ path, part, words, end, ratingA, family, named }) => {
        if (path === null || part !== null || words === null || ratingA === null) return [];
        const value = deviceWords(ratingA, named ? family : null, c.circuit[end].part);
        return [{ edits: [{ do: "set", path, value } as const] }];
      }),
  );
