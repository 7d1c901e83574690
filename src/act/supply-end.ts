import type { CircuitView } from "../rules/index.ts";
import type { Stand } from "./stand.ts";

/** Which end of a path. */
export type End = "from" | "to";

/** Whether a path is written from its load: then its supply side is its end. */
export const isTurned = ({ build }: Stand, { circuit }: CircuitView): boolean =>
  build.part(circuit.from.part)?.part.traits.load === true && build.part(circuit.to.part)?.part.traits.load !== true;

/**
 * The end of a circuit from which a fault is fed: where its device belongs, and from where a distance along it is counted.
 *
 * Never the end at a load. Where something gives a limited current to a battery, or to a bar that one feeds (the output of a charger), it is that other
 * end.
 * Does not look at what a device at the other end would have to answer for.
 */
export function supplyEnd(stand: Stand, view: CircuitView): End {
  if (isTurned(stand, view)) return "to";
  const ends = new Set(view.devices?.devices.flatMap(({ end, given }) => (given === null ? [end] : [])));
  if (ends.size === 1) return ends.has("to") ? "to" : "from";
  const { from, to } = view.circuit;
  const traitsOf = (part: string) => stand.build.part(part)?.part.traits;
  if (traitsOf(from.part)?.store === true) return "from";
  if (traitsOf(to.part)?.store === true) return "to";
  return traitsOf(to.part)?.load !== true && isOutput(stand, from) && !isOutput(stand, to) ? "to" : "from";
}

/** Whether a point is where a converter pushes. */
function isOutput({ build }: Stand, { part, port }: CircuitView["circuit"]["from"]): boolean {
  const converter = build.part(part)?.elements.find((e) => e.is === "converter");
  return converter?.is === "converter" && converter.outPlus.startsWith(`${part}:${port}:`);
}
