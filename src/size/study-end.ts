import {
  clearFault,
  faultAmps,
  timeConstant,
  whenRead,
  type Guard,
  type ManagementOpening,
  type SolvedFault,
} from "../fault/index.ts";
import type { Grid } from "../system/index.ts";
import { contributionsOf, courseOf } from "./course-of.ts";
import type { FaultCases, StoreGroup } from "./fault-cases.ts";
import type { FaultEdges } from "./fault-edges.ts";
import { placeIn, type EndPlace } from "./fault-places.ts";
import type { EndFault, FaultDevice, GreatestFault, LeastFault } from "./fault-study.ts";
import { liveMetal } from "./live-metal.ts";
import type { WithstandNotes } from "./note-withstand.ts";

/** Of more batteries than these only those that give least at a place are followed alone; what the others feed past every fuse shows in the greatest fault. */
export const MOST_ALONE = 6;

/** What every place is studied with. */
export interface Studying {
  readonly grid: Grid;
  readonly edges: FaultEdges;
  readonly cases: FaultCases;
  readonly devices: readonly FaultDevice[];
  readonly guards: readonly Guard[];
  /** Devices by edge. */
  readonly at: readonly (readonly number[] | undefined)[];
  readonly withstand: WithstandNotes;
  /** By node: parts on its metal of which nobody knows how much they give. */
  readonly unknownAt: (node: number) => readonly string[];
}

/** A fault at an end of a conductor: the most and the least that it can draw, and what each comes to. */
export function studyEnd(study: Studying, place: EndPlace): EndFault {
  const { grid } = study;
  const conductor = grid.edges[place.edge]?.id ?? "";
  const unknown: { says: string | null } = { says: null };
  const greatest = greatestAt(study, place, `${conductor} at ${place.end}`);
  const least = leastAt(study, place, `${conductor} at ${place.end}`, unknown);
  return {
    circuit: place.c.circuit.id,
    conductor,
    end: place.end,
    against: grid.nodeNames[place.against] ?? "",
    to: place.to,
    greatest,
    least: unknown.says === null ? least : [],
    cannotTell: unknown.says,
  };
}

/** Whether a node is one piece of metal with a place, every contact closed. */
function nearTo(grid: Grid, place: EndPlace): (node: number | undefined) => boolean {
  const pieces = liveMetal(grid);
  const own = pieces[grid.edges[place.edge]?.a ?? -1];
  return (node) => node !== undefined && pieces[node] === own;
}

function greatestAt(study: Studying, place: EndPlace, at: string): GreatestFault | null {
  const { cases, edges, guards, devices, grid, withstand } = study;
  const point = placeIn(place, edges.cold);
  const isNear = nearTo(grid, place);
  withstand.begin(at, place.edge, place.end);
  const cleared = clearFault(cases.greatest, point, guards, study.at, withstand.phase);
  withstand.end(cleared.outcome);
  const { fault } = cleared;
  if (fault.amps === 0) return null;
  const low = Math.abs(faultAmps(cases.greatestLow, point));
  const high = Math.abs(fault.amps);
  return {
    amps: { low: Math.min(low, high), high },
    unknown: study.unknownAt(grid.edges[place.edge]?.a ?? -1),
    volts: fault.openVolts,
    ohms: fault.ohms,
    timeConstant: timeConstant(fault, edges.metres),
    from: contributionsOf(fault, cases.sources, isNear),
    course: courseOf(cleared, cases.sources, devices, grid, isNear),
  };
}

function leastAt(study: Studying, place: EndPlace, at: string, unknown: { says: string | null }): LeastFault[] {
  const { cases, edges, guards, devices, grid, withstand } = study;
  const { sources } = cases;
  const point = placeIn(place, edges.hot);
  const isNear = nearTo(grid, place);
  const list: LeastFault[] = [];
  const alone = cases.alone.flatMap(({ group, in: positions }) => {
    let least: (typeof positions)[number] | null = null;
    let amps = Infinity;
    for (const position of positions) {
      const here = Math.abs(faultAmps(position.low, point));
      if (here > 0 && here < amps) [least, amps] = [position, here];
    }
    return least === null ? [] : [{ group, least, amps }];
  });
  if (alone.length > MOST_ALONE) alone.sort((a, b) => a.amps - b.amps);
  for (const { group, least, amps } of alone.slice(0, MOST_ALONE)) {
    withstand.begin(at, place.edge, place.end);
    const cleared = clearFault(least.low, point, guards, study.at, withstand.phase);
    withstand.end(cleared.outcome);
    unknown.says ??= unknownIn(study, cleared.fault);
    list.push({
      amps: whenRead(amps, () => Math.abs(faultAmps(least.high(), point))),
      sources: group.flatMap((s) => sources.stores[s]?.part ?? []),
      state: least.state,
      opens: openingOf(study, group, amps),
      course: courseOf(cleared, sources, devices, grid, isNear),
    });
  }
  if (list.length === 0) {
    // No battery reaches it: what its limited sources give is all there is.
    const cleared = clearFault(cases.limitedAlone(), point, guards, study.at);
    const amps = Math.abs(cleared.fault.amps);
    if (amps === 0) return [];
    unknown.says ??= unknownIn(study, cleared.fault);
    list.push({
      amps: { low: amps, high: amps },
      sources: contributionsOf(cleared.fault, sources, isNear).map(({ part }) => part),
      state: "",
      opens: null,
      course: courseOf(cleared, sources, devices, grid, isNear),
    });
  }
  return list.sort((a, b) => a.amps.low - b.amps.low);
}

/** The first wire on its way of which nobody knows what it is; null: all are known. */
function unknownIn({ edges, grid }: Studying, fault: SolvedFault): string | null {
  const found = fault.flows.find(({ edge }) => edges.isUnknown[edge] === 1);
  return found === undefined ? null : `the wire or the length of ${grid.edges[found.edge]?.id ?? ""} is not known`;
}

/** A management that may open at a current: one that is known to let it through stays closed. */
function openingOf({ cases }: Studying, group: StoreGroup, amps: number): ManagementOpening | null {
  for (const s of group) {
    const opens = cases.sources.stores[s]?.opens ?? null;
    if (opens !== null && (opens.aboveAmps === null || amps > opens.aboveAmps)) return opens;
  }
  return null;
}
