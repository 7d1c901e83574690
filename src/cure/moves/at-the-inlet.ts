import type { Case, Move } from "../case.ts";
import { put, takeOff, textOf } from "../write.ts";
import { ampsBelow } from "./part-ratings.ts";

/** A breaker of all live poles in each inlet that the finding speaks of: of the rating of the inlet, or the next ones below. */
export const breakerAtInlet: Move = (at: Case) =>
  inletsAt(at).flatMap(({ id, amps }) => [
    [amps, ...ampsBelow(amps)].map((a) => ({
      edits: [put(at.document, ["parts", id, "breaker"], `${a} A 2-pole`)],
    })),
  ]);

/** The inlet itself; of an adapter all that it may be plugged into. */
function inletsAt({ build, part }: Case): readonly { readonly id: string; readonly amps: number }[] {
  const isInlet = (p: NonNullable<Case["part"]>): boolean => p.part.kind === "shore inlet";
  const all = part !== undefined && isInlet(part) ? [part] : build.parts.filter(isInlet);
  return all.flatMap((p) => {
    const { gives } = p.part;
    return gives === undefined || gives === "unknown" || gives.unit !== "A"
      ? []
      : [{ id: p.id, amps: gives.value.low }];
  });
}

/** A main that opens all live poles on 30 mA, in the board that the circuit begins at. */
export const residualMain: Move = ({ document, build, circuits }: Case) =>
  circuits.flatMap(({ circuit }) => {
    const board = build.part(circuit.from.part);
    if (board?.part.current !== "AC") return [];
    const record = ["parts", board.id, "main"];
    const written = textOf(document, record);
    return [[{ edits: [...(written === undefined ? [] : takeOff(document, record)), put(document, record, "{ residual device: 30 mA, poles: 2 }")] }]]; // prettier-ignore
  });
