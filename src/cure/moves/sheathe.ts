import type { Move } from "../case.ts";
import { put } from "../write.ts";

/** A sheath around its conductors, all the way. */
export const sheathe: Move = (at) =>
  at.circuits
    .filter((c) => c.circuit.sheathed !== true)
    .map((c) => [{ edits: [put(at.document, ["circuits", c.id, "sheathed"], "yes")] }]);
