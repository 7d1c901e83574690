import { JOINT_OHMS } from "../size/model.ts";
import type { Pair } from "../size/standing.ts";
import type { Built } from "./built.ts";
import type { WayElement } from "./explanation.ts";
import type { Standpoint } from "./standpoint.ts";

/** Below this an edge is a piece of metal: what flows in it is told by its neighbours. */
const NO_OHMS = 1e-8;

/**
 * Every element between a source and a load, out and back, with what is lost in it. What is lost adds up to the drop, whichever of several
 * ways is walked, since all of them end at the same two terminals.
 *
 * @param load terminals of the load
 * @param source terminals that the drop is counted from
 * @returns out from the source first; empty where no closed way leads there
 */
export function wayTo({ settled }: Pick<Built, "settled">, at: Standpoint, load: Pair, source: Pair): WayElement[] {
  const out = walk(settled, at, source.plus, load.plus, "out");
  const back = walk(settled, at, load.minus, source.minus, "back");
  return out === null || back === null ? [] : [...out, ...back];
}

/** The elements of the shortest closed way from one node to another; null where there is none. */
export function walk(
  settled: Built["settled"],
  at: Standpoint,
  from: number,
  to: number,
  pole: WayElement["pole"],
): WayElement[] | null {
  const edges = shortest(settled, at.case, from, to);
  if (edges === null) return null;
  let here = from;
  let amps = 0;
  return edges.flatMap((e) => {
    const edge = settled.model.grid.edges[e];
    if (edge === undefined) return [];
    const next = edge.a === here ? edge.b : edge.a;
    const volts = at.voltsAt(here) - at.voltsAt(next);
    const ohms = settled.weigher.ohmsOf(e, settled.chosen.rungs);
    if (ohms > NO_OHMS) amps = volts / ohms;
    here = next;
    return elementsOf(settled, e, pole, amps, ohms);
  });
}

/** What an edge of the grid is made of: a wire with its joints and devices, or a contact. */
function elementsOf(
  { model, devices }: Built["settled"],
  e: number,
  pole: WayElement["pole"],
  amps: number,
  ohms: number,
): WayElement[] {
  const edge = model.grid.edges[e];
  if (edge === undefined) return [];
  const device = devices.ohms[e] ?? 0;
  const element = (what: WayElement["what"], part: number): WayElement[] =>
    part <= 0 ? [] : [{ element: edge.id, what, pole, amps, ohms: part, volts: amps * part }];
  if (edge.contact !== null) {
    const contact = edge.contact.ohms.high;
    return [...(contact === 0 && device > 0 ? [] : element("contact", contact)), ...element("device", device)];
  }
  const joints = JOINT_OHMS * (2 + 2 * (devices.count[e] ?? 0));
  return [...element("wire", ohms - joints - device), ...element("joints", joints), ...element("device", device)];
}

function shortest({ model, cases }: Built["settled"], caseIndex: number, from: number, to: number): number[] | null {
  const { grid } = model;
  const edgeOn = cases[caseIndex]?.edgeOn;
  const came = new Map<number, number>([[from, -1]]);
  const queue = [from];
  for (let i = 0; i < queue.length && !came.has(to); i++) {
    const n = queue[i] ?? 0;
    for (const e of grid.at[n] ?? []) {
      const edge = grid.edges[e];
      if (edge === undefined || edgeOn?.[e] === 0) continue;
      const next = edge.a === n ? edge.b : edge.a;
      if (came.has(next)) continue;
      came.set(next, e);
      queue.push(next);
    }
  }
  if (!came.has(to)) return null;
  const edges: number[] = [];
  for (let n = to; n !== from;) {
    const e = came.get(n) ?? -1;
    const edge = grid.edges[e];
    if (edge === undefined) break;
    edges.push(e);
    n = edge.a === n ? edge.b : edge.a;
  }
  return edges.reverse();
}

/** Volts that a way loses in all. */
export const lostOn = (way: readonly WayElement[]): number => way.reduce((sum, { volts }) => sum + volts, 0);
