import { faultAmps, notStudied, whenRead, type LaidFaults } from "../fault/index.ts";
import { guardOf, listDevices } from "./fault-devices.ts";
import { layCases, unknownBy } from "./fault-cases.ts";
import { faultEdges } from "./fault-edges.ts";
import { endPlaces, MOST_PIECES, otherPoles } from "./fault-places.ts";
import type {
  CircuitFaults,
  ConductorFault,
  DeviceFault,
  EndFault,
  EndFaults,
  FaultStudy,
  OpenFault,
  TerminalFault,
} from "./fault-study.ts";
import type { CircuitModel } from "./model.ts";
import { noteWithstand } from "./note-withstand.ts";
import type { Settled } from "./settled.ts";
import { MOST_ALONE, studyEnd, type Studying } from "./study-end.ts";

/** What is worked out at the ends of conductors, and what all of it is studied with. */
interface EndsStudied {
  readonly study: Studying;
  readonly ends: EndFaults;
}

const knownEnds = new WeakMap<Settled, EndsStudied>();
const known = new WeakMap<Settled, FaultStudy>();

/**
 * Studies every fault of a build: what a short at any place draws at most and at least, which devices see it and from which side, in which order they open,
 * what goes on feeding it, and whether every conductor on its way bears that.
 *
 * Only direct current. Ignores loads, the inductance of sources, arcs, capacitors and motors (which add milliseconds), the sag of a source while
 * the fault lasts, and the heating of wires during it. Of what is not known nothing is told.
 *
 * @returns plain data; asked for again, the same
 * @accuracy hand calculations at five points of the demo sloop agree within 2 %; what rests on batteries that declare nothing is a range
 * @source `docs/method.md`, Faults
 */
export function studyFaults(settled: Settled): FaultStudy {
  let study = known.get(settled);
  if (study === undefined) known.set(settled, (study = makeStudy(settled)));
  return study;
}

function makeStudy(settled: Settled): FaultStudy {
  const { study, ends } = endsOf(settled);
  const { stores, limited, devices, deviceFaults, circuits } = ends;
  const terminals = terminalFaults(study, otherPoles(settled.model));
  const open = circuits.flatMap((c) => c?.ends ?? []).flatMap(openOf);
  return {
    stores,
    limited,
    devices,
    deviceFaults,
    circuits,
    terminals,
    open,
    notStudied: [...notStudied(settled.model.system), ...bounded(settled)],
  };
}

/** The part of the study that rules judge by: faults at the ends of conductors, without those at every terminal in every state. */
export const studyEnds = (settled: Settled): EndFaults => endsOf(settled).ends;

function endsOf(settled: Settled): EndsStudied {
  let studied = knownEnds.get(settled);
  if (studied === undefined) knownEnds.set(settled, (studied = makeEnds(settled)));
  return studied;
}

function makeEnds(settled: Settled): EndsStudied {
  const { model } = settled;
  const { grid, system } = model;
  const devices = listDevices(settled);
  const edges = faultEdges(settled, devices);
  const cases = layCases(settled, edges);
  const at: number[][] = [];
  devices.forEach(({ edge }, d) => (at[edge] ??= []).push(d));
  const withstand = noteWithstand(edges.limit, edges.parallel);
  const unknownAt = unknownBy(grid, cases.sources);
  const study: Studying = { unknownAt, grid, edges, cases, devices, guards: devices.map(guardOf), at, withstand };

  const byCircuit = new Map<string, EndFault[]>();
  for (const place of endPlaces(model)) {
    const { id } = place.c.circuit;
    const list = byCircuit.get(id);
    const end = studyEnd(study, place);
    if (list === undefined) byCircuit.set(id, [end]);
    else list.push(end);
  }
  const circuits = system.circuits.map((circuit, index): CircuitFaults | null => {
    const c = model.circuits[model.at[index] ?? -1];
    if (c === undefined) return null;
    const ends = byCircuit.get(circuit.id) ?? [];
    const carries = carriedBack(
      study,
      c,
      (position) => byCircuit.get(model.circuits[position]?.circuit.id ?? "") ?? [],
    );
    const conductors = c.edges.map((e) => conductorFault(study, e, [...ends, ...carries]));
    return { circuit: circuit.id, ends, carries, conductors };
  });
  const { stores, limited } = cases.sources;
  const found = deviceFaults(study, [...byCircuit.values()].flat(), otherPoles(model));
  return { study, ends: { stores, limited, devices, deviceFaults: found, circuits } };
}

/** Faults of other circuits that come back through a return of its own: a fault that draws more than ever goes through it goes past it. */
function carriedBack(
  { withstand }: Studying,
  { edges, returnOf, bringsBack }: CircuitModel,
  endsOf: (position: number) => readonly EndFault[],
): EndFault[] {
  const most = Math.max(0, ...edges.map((e) => withstand.of(e).through)) * (1 + 1e-9);
  return [...new Set([returnOf, ...bringsBack.map((b) => b.position)])]
    .flatMap(endsOf)
    .filter(({ to, greatest }) => to === "return" && greatest !== null && greatest.amps.high <= most);
}

function conductorFault({ grid, withstand }: Studying, e: number, ends: readonly EndFault[]): ConductorFault {
  const edge = grid.edges[e];
  const id = edge?.id ?? "";
  const isLive = edge?.live === true;
  // A return carries the faults of the live conductors that it comes with.
  const own = ends.filter((f) => f.to === "return" && (!isLive || f.conductor === id));
  const greatest = own.flatMap((f) => f.greatest ?? []).sort((a, b) => b.amps.high - a.amps.high)[0];
  const isTold = own.length > 0 && own.every((f) => f.cannotTell === null);
  const least = isTold ? own.flatMap((f) => f.least[0] ?? []).sort((a, b) => a.amps.low - b.amps.low)[0] : undefined;
  const courses = [greatest?.course, ...own.flatMap((f) => f.least.map((l) => l.course))].flatMap((c) => c ?? []);
  return {
    conductor: id,
    role: isLive ? "live" : "return",
    greatest: greatest?.amps ?? null,
    least: least?.amps ?? null,
    guard: least?.course.opened.at(-1)?.device ?? null,
    outcome: least?.course.outcome ?? greatest?.course.outcome ?? "none",
    seconds: whenRead(courses.length === 0 ? 0 : Math.min(...courses.map((c) => c.seconds.low)), () => {
      const highs = courses.map((c) => c.seconds.high);
      return highs.includes(null) ? null : Math.max(0, ...highs.map((s) => s ?? 0));
    }),
    withstand: withstand.of(e),
  };
}

/** Prospective current between two nodes. */
const at = (laid: LaidFaults, plus: number, minus: number): number =>
  Math.abs(faultAmps(laid, { plus: { node: plus }, minus: { node: minus } }));

/** What a build is too large for, in words. */
function bounded({ model: { grid, circuits } }: Settled): string[] {
  const says: string[] = [];
  if (grid.stores.length > MOST_ALONE)
    says.push(
      `of ${grid.stores.length} batteries only the ${MOST_ALONE} that give least at a place are followed alone there`,
    );
  const long = circuits.filter(
    ({ edges }) => edges.filter((e) => grid.edges[e]?.live === true).length > 2 * MOST_PIECES,
  );
  for (const { circuit } of long)
    says.push(`of ${circuit.id} the ${MOST_PIECES} pieces at each end are studied, not those between`);
  return says;
}

function terminalFaults({ grid, cases }: Studying, against: Int32Array): (TerminalFault | null)[] {
  const inStates = cases.states();
  return Array.from(against, (minus, node): TerminalFault | null => {
    if (minus < 0) return null;
    // By positions of the switches; the least is that of whichever battery or string gives least.
    const inPositions = new Map<number, number | null>();
    const leastIn = (positions: number): number | null => {
      let least = inPositions.get(positions);
      if (least === undefined) {
        least = null;
        for (const { in: list } of cases.alone) {
          const laid = list[positions];
          const amps = laid === undefined ? 0 : at(laid.low, node, minus);
          if (amps > 0 && (least === null || amps < least)) least = amps;
        }
        inPositions.set(positions, least);
      }
      return least;
    };
    const byCase = new Map<LaidFaults, number>();
    const states = inStates.map(({ state, greatest, contacts }) => {
      let amps = byCase.get(greatest);
      if (amps === undefined) byCase.set(greatest, (amps = at(greatest, node, minus)));
      return { state, greatest: amps, least: leastIn(contacts) };
    });
    const count = cases.alone[0]?.in.length ?? 0;
    const leasts = Array.from({ length: count }, (_, k) => leastIn(k)).filter((x) => x !== null);
    return {
      terminal: grid.nodeNames[node] ?? "",
      against: grid.nodeNames[minus] ?? "",
      greatest: at(cases.greatest, node, minus),
      least: leasts.length === 0 ? null : Math.min(...leasts),
      states,
    };
  });
}

function deviceFaults(
  { grid, devices, cases, unknownAt }: Studying,
  ends: readonly EndFault[],
  against: Int32Array,
): DeviceFault[] {
  const greatest: DeviceFault["greatest"][] = devices.map(() => null);
  for (const { conductor, end, greatest: most } of ends) {
    if (most === null) continue;
    for (const { device, amps, from } of most.course.sees) {
      if (amps <= (greatest[device]?.amps.high ?? 0)) continue;
      // Its share of the fault stays about the same when sources give less.
      const low = (amps * most.amps.low) / most.amps.high;
      greatest[device] = { amps: { low, high: amps }, from, at: `${conductor} at ${end}` };
    }
  }
  const prospectiveAt = (node: number): number => {
    const minus = against[node] ?? -1;
    return minus < 0 ? 0 : at(cases.greatest, node, minus);
  };
  return devices.map(({ edge, at: side, circuit }, device) => {
    const sides = grid.edges[edge];
    // A device in a conductor has its line side at the conductor's own end; one that is a part by itself, on either.
    const nodes = sides === undefined ? [] : circuit === null ? [sides.a, sides.b] : [sides[side]];
    return {
      device,
      greatest: greatest[device] ?? null,
      prospective: Math.max(0, ...nodes.map(prospectiveAt)),
      unknown: unknownAt(sides?.a ?? -1),
    };
  });
}

/** What goes on at a place, over every source alone and all of them together. */
function openOf({ conductor, end, to, greatest, least }: EndFault): OpenFault[] {
  const at = `${conductor} at ${end}`;
  const list: OpenFault[] = [];
  for (const { course, sources, amps } of least)
    if (course.outcome !== "cleared" && course.outcome !== "none")
      list.push({ at, to, sources, amps: amps.low, outcome: course.outcome });
  if (greatest !== null && greatest.course.outcome !== "cleared") {
    const { outcome, left } = greatest.course;
    const amps = left.reduce((sum, c) => sum + c.amps, 0);
    list.push({ at, to, sources: left.map((c) => c.part), amps, outcome });
  }
  return list;
}
