import type { Citation, Trust } from "../explain/index.ts";
import { seconds, type Seconds } from "../quantity/index.ts";
import { deviceFamily, type DeviceFamilyId } from "./family.ts";
import { preArcing } from "./melting-energy.ts";
import { gatesOf, greatestOpeningTime, leastOpeningTime } from "./opening-time.ts";

/** One edge of the band in which a device opens. */
export interface OpeningBound {
  readonly s: Seconds;
  readonly trust: Trust;
  readonly source: Citation;
}

/** What the edges of a band rest on. */
export type BandMethod = "gates" | "trip band" | "I2t" | "gates and I2t" | "nothing";

/** The times between which any device of a kind opens at a steady current. */
export interface OpeningBand {
  /** It stays closed until then; null: it may open at once. */
  readonly min: OpeningBound | null;
  /** It has opened by then; null: it may never open. */
  readonly max: OpeningBound | null;
  readonly how: BandMethod;
  /** What is not published of it at any current, in words; null: both edges are. */
  readonly notProven: string | null;
  /**
   * Edges for which nothing is published at any current: a null there is ignorance. A null of an edge that is not named here is a fact:
   * the standard lets it stay closed at so little current, or open at once at so much.
   */
  readonly lacks: readonly ("min" | "max")[];
}

/**
 * The times between which a device opens at a steady current, from cold.
 *
 * Gates and trip bands as stated, never a typical curve: between gates the safe neighbour holds and nothing is interpolated. Where the least
 * melting energy is known, the least time is never below that energy over the square of the current. More current never raises an edge. Ignores
 * the interrupt rating, a warm device, an ambient above 20 °C and the rise of the current.
 *
 * @param rating A, of the device
 * @param current A, steady, above 0
 * @accuracy bounds, not typical times; the pre-arcing energy is stated at 0.01 s and taken as the same below
 * @source `reference/device/opening_gates.csv`, `gg_gates.csv` and `prearcing.csv`: see the result
 * @example
 * openingBand("blade_type_E", 40, 100).min.s //=> 0.2
 * openingBand("blade_type_E", 40, 100).max.s //=> 50
 * openingBand("blade_type_E", 40, 50).max //=> null
 * openingBand("blade_type_E", 40, 50).lacks //=> []
 * openingBand("anl_limiter", 300, 3000).lacks //=> ["min", "max"]
 */
export function openingBand(family: DeviceFamilyId, rating: number, current: number): OpeningBand {
  const min = leastEdge(family, rating, current);
  const late = greatestOpeningTime(family, rating, current);
  const max = late === null ? null : { s: late.value, trust: late.trust, source: late.source };
  const lacks = lackingEdges(family, rating);
  return {
    // Two sources could cross: what has certainly opened cannot certainly be closed.
    min: min.edge !== null && max !== null && min.edge.s > max.s ? { ...min.edge, s: max.s } : min.edge,
    max,
    how: methodOf(family, min.how, max !== null),
    notProven: notProvenWords(family, lacks),
    lacks,
  };
}

function leastEdge(
  family: DeviceFamilyId,
  rating: number,
  current: number,
): { edge: OpeningBound | null; how: "gates" | "I2t" | null } {
  const gate = leastOpeningTime(family, rating, current);
  const energy = preArcing(family, rating).min;
  const melts = energy === null ? 0 : energy.value / (current * current);
  if (gate !== null && gate.value >= melts)
    return { edge: { s: gate.value, trust: gate.trust, source: gate.source }, how: "gates" };
  if (energy === null) return { edge: null, how: null };
  return { edge: { s: seconds(melts), trust: energy.trust, source: energy.source }, how: "I2t" };
}

function methodOf(family: DeviceFamilyId, min: "gates" | "I2t" | null, hasMax: boolean): BandMethod {
  const gates = deviceFamily(family).kind === "breaker" ? "trip band" : "gates";
  if (min === "I2t") return hasMax ? "gates and I2t" : "I2t";
  return min === null && !hasMax ? "nothing" : gates;
}

function lackingEdges(family: DeviceFamilyId, rating: number): OpeningBand["lacks"] {
  const gates = gatesOf(family, rating);
  const lacks: ("min" | "max")[] = [];
  if (!gates.some((gate) => gate.minS !== null) && preArcing(family, rating).min === null) lacks.push("min");
  if (!gates.some((gate) => gate.maxS !== null)) lacks.push("max");
  return lacks;
}

function notProvenWords(family: DeviceFamilyId, lacks: OpeningBand["lacks"]): string | null {
  const { name } = deviceFamily(family);
  if (lacks.length === 2) return `no opening times are published for the ${name}`;
  if (lacks[0] === "min") return `no least opening time is published for the ${name}`;
  if (lacks[0] === "max") return `no greatest opening time is published for the ${name}`;
  return null;
}
