import type { Move } from "../case.ts";
import { put, textOf } from "../write.ts";

/** Finer strands: those of the stock first, then finer ones of its trade. */
export const stranded: Move = (at) =>
  at.circuits.map((c) => {
    const now = c.circuit.strands;
    const stock = textOf(at.document, ["stock", "strands"]);
    const trade = at.build.system.stock.system === "mm²" ? ["class 2", "class 5"] : ["type 2", "type 3"];
    const finer = [...(stock === null ? [] : [stock]), ...trade];
    return [...new Set(finer)]
      .filter((strands) => strands !== now && strands !== "class 1")
      .map((strands) => ({ edits: [put(at.document, ["circuits", c.id, "strands"], strands)] }));
  });
