import { heatBeside, temperatureAfter, type DutyStep, type HeatBeside } from "../ampacity/thermal/index.ts";
import { amps, celsius, type Celsius } from "../quantity/index.ts";
import type { Runs } from "../route/index.ts";
import type { Design } from "./design.ts";
import { heatAt, heatedWires, heatPlaces, type HeatPlace } from "./heat-places.ts";
import { ampacityAt } from "./ladder.ts";
import type { CircuitModel } from "./model.ts";
import type { Settled } from "./settled.ts";

/** Temperature of metal between two bounds: with neighbours that nobody names idle, and with them carrying the same, °C. */
export interface HeatRange {
  readonly lowC: number;
  readonly highC: number;
}

/** A circuit in one state. */
export interface HeatInState extends HeatRange {
  readonly state: string;
  readonly amps: number;
}

/** What the heat of a circuit comes to. Plain data. */
export interface CircuitHeat {
  readonly id: string;
  /** In the order of the design's states. */
  readonly states: readonly HeatInState[];
  /** The state in which its metal is hottest; null: the plan has none. */
  readonly worst: HeatInState | null;
  /** At its design current, which may belong to no state (its loads alone, a source at its rating); circuits of its cable as in the worst state. */
  readonly atDesign: HeatRange & { readonly amps: number };
  /** Temperature that its insulation bears, as far as the table's column stands for it, °C. */
  readonly ratingC: number;
  /** Conductors that carry current together in the stretch where it is hottest, and how many of them no circuit of the plan is known to have. */
  readonly together: number;
  readonly unnamed: number;
  /** Zone of that stretch; null: it has no name. */
  readonly zone: string | null;
  /** One conductor's ampacity in the stretch that decides it, beside the modelled one; null where no table rates it. */
  readonly beside: HeatBeside | null;
}

/** The heat of a settled build. */
export interface HeatStudy {
  /** Of a circuit, by its position in the model; null where its size is not known. Worked out when it is first asked for. */
  readonly circuit: (position: number) => CircuitHeat | null;
  /**
   * Temperature of a circuit's metal after a pulse, in its hottest stretch and among its neighbours, each of which carries the same.
   *
   * @param pulse what flows in the circuit, and for how long
   * @param fromC before it; the air's where left out
   * @returns °C; null where its size is not known
   */
  readonly afterPulse: (position: number, pulse: DutyStep, fromC?: Celsius) => Celsius | null;
}

const studies = new WeakMap<Settled, HeatStudy>();

/**
 * Temperature of every conductor in every state of the plan by the balance of heat, with the circuits that it shares a cable with at what they carry
 * at the same time.
 *
 * Where the plan tells how many lie together and not which, the others are taken once as idle and once as carrying the same. Worked out at the first asking and kept
 * with the settled build. Alternating current is not studied. The published table decides; this tells how near it is.
 *
 * @param design of the same build: its states as they were solved
 * @accuracy as `bundledTemperatures`: about ±20 K at a rise of 100 K
 */
export function studyHeat(settled: Settled, runs: Runs, design: Pick<Design, "states">): HeatStudy {
  let study = studies.get(settled);
  if (study === undefined) studies.set(settled, (study = makeStudy(settled, runs, design)));
  return study;
}

function makeStudy(settled: Settled, runs: Runs, { states }: Pick<Design, "states">): HeatStudy {
  const { circuits } = settled.model;
  const positions = new Map(circuits.map((c) => [c.circuit.id, c.position]));
  const flows = states.map(({ id, circuits: list }) => {
    const byPosition = new Float64Array(circuits.length);
    for (const one of list) {
      const position = positions.get(one.id);
      if (position !== undefined) byPosition[position] = one.amps;
    }
    return { state: id, amps: byPosition };
  });
  const wires = circuits.map((c) => heatedWires(settled, c, runs.runs[c.index]));
  const placesOf = (position: number): readonly HeatPlace[] => {
    const c = circuits[position];
    const own = wires[position];
    const run = runs.runs[c?.index ?? -1];
    if (c === undefined || own == null || run === undefined) return [];
    const named = (c.circuit.cable?.circuits ?? []).flatMap((id) => {
      const mate = wires[positions.get(id) ?? -1];
      return mate == null || mate === own ? [] : [mate];
    });
    return heatPlaces(run, own, named);
  };
  const heats: (CircuitHeat | null | undefined)[] = [];
  return {
    circuit(position) {
      const c = circuits[position];
      if (c === undefined) return null;
      let heat = heats[position];
      if (heat === undefined) heats[position] = heat = heatOf(settled, c, placesOf(position), flows);
      return heat;
    },
    afterPulse(position, pulse, fromC) {
      let hottest: Celsius | null = null;
      for (const { alike, around, own } of placesOf(position)) {
        const one = { ...pulse, amps: amps(pulse.amps / own.parallel) };
        const from = celsius(Math.max(around.ambientC, fromC ?? -Infinity));
        const after = temperatureAfter(alike.conductor, alike.lies, around, one, from);
        if (hottest === null || after > hottest) hottest = after;
      }
      return hottest;
    },
  };
}

/** What flows in each circuit of the model in one state. */
interface Flows {
  readonly state: string;
  readonly amps: Float64Array;
}

function heatOf(
  settled: Settled,
  c: CircuitModel,
  places: readonly HeatPlace[],
  flows: readonly Flows[],
): CircuitHeat | null {
  const { rungs, position } = c;
  if (places.length === 0 || rungs === null) return null;
  const states = flows.map(({ state, amps: by }): HeatInState => {
    const { heat } = hottestOf(places, (p) => by[p] ?? 0);
    return { state, amps: by[position] ?? 0, ...heat };
  });
  const worst = states.reduce<HeatInState | null>((a, b) => (a === null || b.highC > a.highC ? b : a), null);
  const beside = flows.find(({ state }) => state === worst?.state);
  const steady = settled.currents[position]?.steady ?? 0;
  const design = hottestOf(places, (p) => (p === position ? steady : (beside?.amps[p] ?? 0)));
  const { place } = design;
  return {
    id: c.circuit.id,
    states,
    worst,
    atDesign: { amps: steady, ...design.heat },
    ratingC: rungs.ratingC,
    together: place.together,
    unnamed: place.unnamed,
    zone: place.zone,
    beside: besideTable(settled, c, places),
  };
}

function hottestOf(
  places: readonly HeatPlace[],
  flowIn: (position: number) => number,
): { readonly heat: HeatRange; readonly place: HeatPlace } {
  const [first, ...rest] = places;
  if (first === undefined) throw new RangeError("a run needs at least one stretch");
  let found = { heat: heatAt(first, flowIn), place: first };
  for (const place of rest) {
    const heat = heatAt(place, flowIn);
    const isHotter = heat.highC > found.heat.highC;
    // Each bound is that of the stretch where it is greatest.
    found = {
      heat: { lowC: Math.max(heat.lowC, found.heat.lowC), highC: Math.max(heat.highC, found.heat.highC) },
      place: isHotter ? place : found.place,
    };
  }
  return found;
}

/** The rule set's ampacity of one conductor beside the modelled one, in the stretch that decides. */
function besideTable({ chosen }: Settled, c: CircuitModel, places: readonly HeatPlace[]): HeatBeside | null {
  const { rungs, position } = c;
  if (rungs === null) return null;
  const rung = chosen.rungs[position] ?? 0;
  const make = rungs.ladder.makes[rung];
  const place = places[rungs.worstStretch];
  if (make === undefined || place === undefined) return null;
  const { alike, around, together } = place;
  // A factor for two or three is made for three.
  const { ruleSet } = rungs;
  const step = ruleSet.ampacity.bundle.find(({ from, to }) => from <= together && (to === null || to >= together));
  const count = together === 2 && step?.to === 3 ? 3 : together;
  return heatBeside({
    published: amps(ampacityAt(rungs, rung) / rungs.parallel),
    cell: { table: ruleSet.ampacity.table.id, row: make.size.name, columnC: rungs.ratingC },
    conductor: alike.conductor,
    lies: alike.lies.way === "bundle" ? { ...alike.lies, count } : alike.lies,
    around,
    ratingC: celsius(rungs.ratingC),
  });
}
