import type { Model } from "./model.ts";
import type { ApplianceLimit, Draft, End } from "./placed-device.ts";

/** By end of a circuit: what a device there is held to; null: no maker of what it alone feeds states anything. */
export type EndLimits = Readonly<Record<End, ApplianceLimit | null>>;

type Place = Pick<Draft, "c" | "node" | "edge" | "part">;

const ENDS: readonly End[] = ["from", "to"];

/**
 * What the devices of each circuit are held to: of the loads that it alone feeds, at its end, chained, or behind a switch from which one circuit goes on, the least of the
 * limits that their makers state. A feeder, and a device in front of several circuits, is held to none. A limit that a device on the way keeps already binds nothing ahead of
 * it, for of devices in a row the smallest counts.
 *
 * @param ratingIn by edge: rating of a device that is a part of its own; Infinity: none is
 * @param sources nodes of the plus of whatever pushes
 */
export function applianceLimits(
  model: Model,
  places: readonly Place[],
  ratingIn: Float64Array,
  sources: ReadonlySet<number>,
): EndLimits[] {
  const limits = places.map((): Record<End, ApplianceLimit | null> => ({ from: null, to: null }));
  const allowed = new Map(model.system.parts.map((p) => [p.id, p.largestDevice]));
  for (const { element, plus } of model.grid.draws) {
    const stated = allowed.get(element.part);
    if (stated === undefined || stated === "unknown") continue;
    const limit = { part: element.part, amps: stated.low };
    for (const { position, end } of endsAhead({ model, places, ratingIn, sources }, plus, limit.amps)) {
      const own = limits[position];
      if (own !== undefined && limit.amps < (own[end]?.amps ?? Infinity)) own[end] = limit;
    }
  }
  return limits;
}

interface Asked {
  readonly model: Model;
  readonly places: readonly Place[];
  readonly ratingIn: Float64Array;
  readonly sources: ReadonlySet<number>;
}

/** The ends at which a device would guard a load and nothing that does not hang on the same wire, walked from the load towards what feeds it. */
function endsAhead({ model, places, ratingIn, sources }: Asked, plus: number, amps: number): PlaceOfEnd[] {
  const { edges, at } = model.grid;
  const placeAt = (edge: number): Place | undefined => places[model.at[edges[edge]?.circuit ?? -1] ?? -1];
  const leadsAway = (edge: number, node: number): boolean => {
    const startsAt = placeAt(edge)?.c.startsAt;
    if (startsAt === undefined || startsAt.from === startsAt.to) return false;
    return (startsAt.from ? edges[edge]?.a : edges[edge]?.b) === node;
  };
  const found: PlaceOfEnd[] = [];
  let node = plus;
  let walked = -1;
  for (let steps = 0; steps < edges.length && !sources.has(node); steps++) {
    const metal = (at[node] ?? []).filter((e) => edges[e]?.live === true || edges[e]?.contact != null);
    const behind = metal.filter((e) => e === walked || leadsAway(e, node));
    const [ahead, ...more] = metal.filter((e) => !behind.includes(e));
    const edge = edges[ahead ?? -1];
    if (ahead === undefined || edge === undefined || more.length > 0 || behind.length > 1) break;
    if ((ratingIn[ahead] ?? Infinity) <= amps) break;
    node = edge.a === node ? edge.b : edge.a;
    walked = ahead;
    const place = placeAt(ahead);
    if (place === undefined) continue;
    const { c, part } = place;
    const start: End = c.startsAt.from ? "from" : "to";
    if (part[start === "from" ? "to" : "from"]?.traits.distributes === true) break;
    for (const end of ENDS) if (place.edge[end] === ahead) found.push({ position: c.position, end });
    // Where current divides another device stands; one that the plan gives is judged as it is.
    const isBare = c.circuit.devices === "propose" || c.circuit.devices.length === 0;
    if (node === place.node[start] && (part[start]?.traits.distributes === true || !isBare)) break;
  }
  return found;
}

interface PlaceOfEnd {
  readonly position: number;
  readonly end: End;
}
