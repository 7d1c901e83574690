import type { Move } from "../case.ts";
import { put, takeOff, textOf } from "../write.ts";

/** Copper of the same size; and, where a size is written, copper of the size that is then asked for. */
export const copper: Move = (at) =>
  at.circuits
    .filter((c) => c.circuit.metal === "aluminium")
    .map((c) => {
      const stock = textOf(at.document, ["stock", "metal"]);
      const metal = stock === null || /alumin/i.test(stock) ? "tinned copper" : stock;
      const edit = put(at.document, ["circuits", c.id, "metal"], metal);
      const free = c.circuit.asFound ? [] : takeOff(at.document, ["circuits", c.id, "wire"]);
      return [{ edits: [edit] }, ...(free.length === 0 ? [] : [{ edits: [edit, ...free] }])];
    });
