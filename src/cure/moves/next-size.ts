import type { Move } from "../case.ts";
import { thickerSizes } from "../conductor-sizes.ts";
import { put } from "../write.ts";

/** Thicker wire for the circuit itself: the next sizes on sale, and the one that its constraints ask for. */
export const nextSize: Move = (at) =>
  at.circuits.map((c) =>
    thickerSizes(at, c).map((label) => ({ edits: [put(at.document, ["circuits", c.id, "wire"], label)] })),
  );
