import type { Case, Move, Series } from "../case.ts";
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

/** What opens on 30 mA, in the way that the circuit begins at: it says so there and no longer in its line. */
export const residualWay: Move = ({ document, circuits }: Case) =>
  circuits.flatMap(({ id, circuit, design }): readonly Series[] => {
    const way = ["parts", circuit.from.part, "ways", circuit.from.port];
    const rating = design.devices.find((d) => d.end === "from")?.ratingA ?? null;
    if (rating === null || textOf(document, way) === null) return [];
    return [
      [
        {
          edits: [
            ...takeOff(document, ["circuits", id, "breaker"]),
            put(document, way, `breaker ${rating} A 30 mA 2-pole`),
          ],
        },
      ],
    ];
  });
