import type { SystemCircuit } from "../system/index.ts";
import { cableOnPaper } from "./cable-on-paper.ts";
import type { proposedColours } from "./colour-scheme.ts";
import { coloursOnPaper } from "./colours-on-paper.ts";
import type { CircuitDesign } from "./design.ts";

/** No size is known that the bought one could be held against. */
const NOT_COMPARED = { says: null, size: null, question: null, follows: [] } as const;

/** What the labels of a circuit say, as a schedule prints it. */
export type Labels = Pick<CircuitDesign, "bought" | "cable" | "colours">;

/**
 * What stands on the labels of a circuit.
 *
 * @param isLead it carries current only in a fault
 */
export const labelsOf = (
  circuit: SystemCircuit,
  proposed: ReturnType<typeof proposedColours>,
  isLead: boolean,
): Labels => ({
  bought: circuit.boughtAs === undefined ? null : { label: circuit.boughtAs, ...NOT_COMPARED },
  cable: cableOnPaper(circuit),
  colours: coloursOnPaper(circuit, proposed, isLead),
});
