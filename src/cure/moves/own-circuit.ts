import { known } from "../../plan/index.ts";
import type { CircuitView } from "../../rules/index.ts";
import type { Case, Move, Series } from "../case.ts";
import { ratingsFor } from "../written-devices.ts";
import { copyOf, freeName, namesIn, takeOff, textsOf } from "../write.ts";

/** A load that is chained behind others gets a circuit of its own, with the largest device that its maker allows. */
export const ownCircuit: Move = (at) =>
  at.circuits.flatMap((c) => {
    const chained = textsOf(at.document, ["circuits", c.id, "then"]);
    return chained.map((load, i) => withOwn(at, c, load, chained.length === 1 ? null : i));
  });

/** @param place of the load in the list; null: it is the only one */
function withOwn(at: Case, c: CircuitView, load: string, place: number | null): Series {
  const { build, document } = at;
  const part = build.part(load) ?? build.parts.find((p) => p.id.toLowerCase() === load.toLowerCase());
  const most = part?.part.largestDevice;
  if (part === undefined || most === undefined || most === "unknown") return [];
  const rating = ratingsFor({ family: null, kind: "fuse", named: false }).findLast((amps) => amps <= most.low);
  const start = build.circuits.find((f) => f.circuit.to.part === c.circuit.from.part && f.model !== null);
  // The ways of a panel are counted: a new circuit starts at the bar that feeds it.
  const from = part.supply === undefined || start === undefined ? c.circuit.from.part : start.circuit.from.part;
  if (rating === undefined) return [];
  const entry = copyOf(document, ["circuits", c.id], {
    path: `${from} → ${part.id}`,
    fuse: `${rating} A at ${from}`,
    breaker: null,
    wire: null,
    then: null,
    name: null,
    note: null,
  });
  const key = freeName(namesIn(document, ["circuits"]), c.id);
  const list = ["circuits", c.id, "then"];
  return known(c.plan?.facts.then) === undefined
    ? []
    : [
        {
          edits: [
            ...takeOff(document, place === null ? list : [...list, place]),
            { do: "add", path: ["circuits"], key, value: entry, after: c.plan?.key ?? c.id },
          ],
        },
      ];
}
