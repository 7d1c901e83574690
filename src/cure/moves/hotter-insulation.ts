import type { Move } from "../case.ts";
import { put } from "../write.ts";

/** Wire whose insulation bears more heat: the next columns of the rule set's table, up to what is sold for boats and vehicles. */
const HOTTEST = 125;

export const hotterInsulation: Move = (at) =>
  at.circuits.map((c) => {
    // What nobody knows has to be found out first, and what was found does not change by what the plan says of it.
    if (c.circuit.insulationC.origin === "unknown" || c.circuit.asFound) return [];
    const now = c.circuit.insulationC.low;
    const columns = c.ruleSet?.ampacity.table.columns.map((column) => Number(column.to)) ?? [75, 90, 105];
    return columns
      .filter((celsius) => celsius > now && celsius <= HOTTEST)
      .map((celsius) => ({ edits: [put(at.document, ["circuits", c.id, "insulation"], `${celsius} °C`)] }));
  });
