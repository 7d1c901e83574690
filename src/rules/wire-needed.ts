import type { CircuitView } from "./build.ts";
import type { Needed } from "./finding.ts";
import { needed } from "./report.ts";

/**
 * The wire of a circuit, where it is the fact that is missing, and why it is where its label cannot be read.
 *
 * @param called as the sentence names it
 */
export const wireNeeded = ({ circuit, subject }: CircuitView, called = "its wire"): Needed =>
  needed(circuit.unreadWire === undefined ? called : `${called}: ${circuit.unreadWire}`, subject);
