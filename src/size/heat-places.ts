import {
  bundledTemperatures,
  HOTTEST,
  temperatureLying,
  thermalConductor,
  type HeatWay,
  type LaidWire,
  type Surroundings,
  type ThermalConductor,
} from "../ampacity/thermal/index.ts";
import { bundleDiameter } from "../ampacity/thermal/bundle.ts";
import { amps, celsius, metres, ohmsPerMetre, type Amps } from "../quantity/index.ts";
import type { Run } from "../route/index.ts";
import type { ConductorMake } from "../wire/index.ts";
import type { CircuitModel } from "./model.ts";
import type { Settled } from "./settled.ts";

/** A circuit as others beside it feel it: conductors that carry its current, and how many. */
interface HeatedWires {
  readonly position: number;
  readonly conductor: ThermalConductor;
  readonly count: number;
  readonly parallel: number;
}

/** A stretch of a circuit as its heat sees it. */
export interface HeatPlace {
  readonly zone: string | null;
  readonly around: Surroundings;
  readonly own: HeatedWires;
  /** Circuits that lie in one cable with it. */
  readonly named: readonly HeatedWires[];
  /** Conductors that lie with it of which no circuit of the plan is known. */
  readonly unnamed: number;
  /** All of them. */
  readonly together: number;
  /** Within thermal insulation. */
  readonly insulated: boolean;
  /** As it lies with its neighbours taken as alike. */
  readonly alike: { readonly conductor: ThermalConductor; readonly lies: HeatWay };
}

/** Wool around a run that lies wholly in it, m: more of it changes little. */
const WOOL = metres(0.05);

const conductors = new WeakMap<ConductorMake, ThermalConductor>();

/** Conductor of a make, with the usual wall; made once for each rung of a ladder. */
function conductorOf(make: ConductorMake): ThermalConductor {
  let conductor = conductors.get(make);
  if (conductor === undefined) conductors.set(make, (conductor = thermalConductor(make).conductor));
  return conductor;
}

/** Conductors of a circuit that make heat; null where nobody knows its size. */
export function heatedWires({ chosen }: Settled, c: CircuitModel, run: Run | undefined): HeatedWires | null {
  const make = c.rungs?.ladder.makes[chosen.rungs[c.position] ?? 0];
  const known = c.cannotTell.length === 0 && c.circuit.size !== "unknown";
  if (make === undefined || run === undefined || !known) return null;
  return { position: c.position, conductor: conductorOf(make), count: run.loaded, parallel: c.circuit.parallel };
}

/** One round conductor that stands for all of a group: their heat in their outside. */
function asOne({ conductor, count }: HeatedWires): ThermalConductor {
  const outside = bundleDiameter(count, conductor.outsideDiameter);
  return {
    ...conductor,
    at20: ohmsPerMetre(count * conductor.at20),
    outsideDiameter: metres(outside),
    conductorDiameter: metres((outside * conductor.conductorDiameter) / conductor.outsideDiameter),
  };
}

/** The stretches of a circuit, with what lies beside it there. */
export function heatPlaces(run: Run, own: HeatedWires, named: readonly HeatedWires[]): HeatPlace[] {
  const known = named.reduce((sum, { count }) => sum + count, own.count);
  return run.stretches.map((stretch): HeatPlace => {
    const { zone, ambientC, bundle, insulated } = stretch;
    const together = Math.max(bundle, known);
    const alike: HeatPlace["alike"] = insulated
      ? { conductor: asOne({ ...own, count: together }), lies: { way: "wrapped", thickness: WOOL } }
      : { conductor: own.conductor, lies: together > 1 ? { way: "bundle", count: together } : { way: "free air" } };
    return {
      zone: zone ?? null,
      around: { ambientC: celsius(ambientC) },
      own,
      named,
      unnamed: together - known,
      together,
      insulated,
      alike,
    };
  });
}

/** Amps of each conductor of a group that carries so much together. */
const each = ({ parallel }: HeatedWires, flows: number): Amps => amps(flows / parallel);

/**
 * Temperature of a circuit's metal in one stretch, by what flows in it and in those beside it.
 *
 * @param flowIn amps of a circuit, by position
 * @returns °C with unnamed neighbours idle, and with them carrying the same
 */
export function heatAt(place: HeatPlace, flowIn: (position: number) => number): { lowC: number; highC: number } {
  const { own, named, unnamed, around } = place;
  const current = each(own, flowIn(own.position));
  if (place.insulated || place.together === 1) {
    const { conductor, lies } = place.alike;
    const alone = temperatureLying(conductor, lies, current, around);
    return { lowC: alone, highC: alone };
  }
  const wires: LaidWire[] = [];
  const lay = ({ conductor, count }: HeatedWires, one: Amps): void => {
    const wire = { ...conductor, current: one };
    for (let k = 0; k < count; k++) wires.push(wire);
  };
  lay(own, current);
  let flows = current > 0;
  for (const mate of named) {
    const one = each(mate, flowIn(mate.position));
    flows ||= one > 0;
    lay(mate, one);
  }
  if (!flows) return { lowC: around.ambientC, highC: around.ambientC };
  const at = (neighbours: Amps): number => {
    const all = wires.slice();
    const wire = { ...own.conductor, current: neighbours };
    for (let k = 0; k < unnamed; k++) all.push(wire);
    return bundledTemperatures(all, around).wiresC[0] ?? HOTTEST;
  };
  const lowC = at(amps(0));
  // A heavy current is not helped by neighbours that carry as much: the one bound is never above the other.
  return { lowC, highC: unnamed === 0 ? lowC : Math.max(lowC, at(current)) };
}
