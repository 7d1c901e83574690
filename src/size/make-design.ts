import { alternatingSide } from "./alternating-side.ts";
import { ampacity } from "../ampacity/index.ts";
import type { Trust } from "../explain/index.ts";
import { celsius } from "../quantity/index.ts";
import type { Run, Runs } from "../route/index.ts";
import type { System, SystemCircuit } from "../system/index.ts";
import type { CircuitDesign, Design, LoadDesign, StateDesign } from "./design.ts";
import { describeStates } from "./describe-states.ts";
import { boughtOnPaper } from "./bought-wire.ts";
import { proposedColours } from "./colour-scheme.ts";
import { ampacityAt, temperatureAt, type Ladder, type Rungs } from "./ladder.ts";
import { farText, type CircuitModel } from "./model.ts";
import { labelsOf, type Labels } from "./labels-on-paper.ts";
import { ownAssumptions } from "./own-assumptions.ts";
import { printDevices } from "./print-devices.ts";
import { runToEnd } from "./run-to-end.ts";
import { settleInRounds } from "./settle.ts";
import type { Settled, Sides, SizeLeads } from "./settled.ts";
import type { JudgedWorst } from "./weigher.ts";
import { onPaper, weighConstraints, type Weighed } from "./weigh-constraints.ts";

/** A design, and what it was settled with: the tools to ask more of it, which are no plain data. */
export interface SettledDesign {
  readonly design: Design;
  /** Of direct current. */
  readonly settled: Settled;
  /** Of alternating current, told in the words of the direct side; null: nothing alternates. */
  readonly alternating: Settled | null;
}

/**
 * Chooses conductors and devices for the whole build and says what everything then comes to.
 *
 * Without `sizeLeads` bonds and earth conductors are as thick as strength asks and no thicker. Circuits of no known rule set, and circuits with a missing length or size are listed with what cannot be told; the rest is worked out as if they were there.
 *
 * @source `docs/method.md`
 */
export const settleDesign = (system: System, runs: Runs, sizeLeads?: SizeLeads): SettledDesign =>
  runToEnd(settleDesignInSteps(system, runs, sizeLeads));

/** The same, with a halt before each round of settling and before the design is made. */
export function* settleDesignInSteps(
  system: System,
  runs: Runs,
  sizeLeads?: SizeLeads,
): Generator<void, SettledDesign> {
  const first = yield* settleInRounds(system, runs);
  yield;
  const side = alternatingSide(system);
  const sides: Sides = { settled: first, alternating: side === null ? null : yield* settleInRounds(side, runs) };
  if (side !== null) yield;
  const { settled, alternating } = sizeLeads === undefined ? sides : yield* sizeLeads(runs, sides);
  const weighed = weighConstraints(settled, runs);
  const weighedToo = alternating === null ? [] : weighConstraints(alternating, runs);
  const proposed = proposedColours(system.supplies);
  // What bonds has the colour of that, and not of the pole that it lands on.
  const bonds = new Set(settled.leads?.map((l) => l.lead.index));
  const circuits = system.circuits.map((circuit, index): CircuitDesign => {
    const i = settled.model.at[index] ?? -1;
    const model = settled.model.circuits[i];
    const run = runs.runs[index];
    const labels = labelsOf(circuit, proposed, bonds.has(index));
    if (model !== undefined && run !== undefined) return sized(settled, weighed[i], model, i, run, labels);
    const k = alternating?.model.at[index] ?? -1;
    const twin = alternating?.model.circuits[k];
    if (alternating === null || twin === undefined || run === undefined) return noCircuit(circuit, run, labels);
    const row = sized(alternating, weighedToo[k], twin, k, run, labels);
    return { ...row, current: "AC", supply: circuit.supply ?? null };
  });
  const both = alternating === null ? [settled] : [settled, alternating];

  const design: Design = {
    name: system.name,
    circuits,
    states: withAlternating(system, describeStates(settled), alternating === null ? [] : describeStates(alternating)),
    assumptions: [...system.assumptions, ...ownAssumptions(settled, runs)],
    missing: system.missing,
    copperMm2M: sum(both, (s) => sum(s.model.circuits, (c, i) => copper(s, c, i))),
    aim: settled.model.aim.choose,
    price: settled.model.aim.choose === "least cost" ? sum(both, (s) => s.chosen.sum) : null,
    settled: both.every((s) => s.unsettled.length === 0),
    rounds: Math.max(...both.map((s) => s.rounds)),
    unsettled: both.flatMap((s) => s.unsettled),
    leastCopperProved: both.every((s) => s.chosen.proved),
  };
  return { design, settled, alternating };
}

/** States of the plan with what alternates in them; what was made up beside them is nobody's state. */
function withAlternating(
  system: System,
  states: readonly StateDesign[],
  others: readonly StateDesign[],
): StateDesign[] {
  const byId = new Map(others.map((s) => [s.id, s]));
  const chargers = new Set(
    system.elements.flatMap((e) => (e.is === "converter" && e.inCurrent === "AC" ? [e.part, `${e.part}:charger`] : [])),
  );
  return states.map((state): StateDesign => {
    const other = byId.get(state.id);
    if (other === undefined) return state;
    return {
      ...state,
      // A charger is told as the source that it is.
      loads: [...state.loads, ...other.loads.filter(({ part }) => !chargers.has(part))],
      circuits: [...state.circuits, ...other.circuits],
      dead: [...state.dead, ...other.dead],
      collapses: [...state.collapses, ...other.collapses],
      converged: state.converged && other.converged,
    };
  });
}

const sum = <T>(list: readonly T[], of: (one: T, i: number) => number): number =>
  list.reduce((all, one, i) => all + of(one, i), 0);

function copper({ chosen }: Settled, c: CircuitModel, i: number): number {
  return (c.rungs?.ladder.makes[chosen.rungs[i] ?? 0]?.size.areaMm2 ?? 0) * c.metres;
}

/** What is said of a circuit whatever can be told of it. Written out key by key: spreading so many keys costs more than finding them. */
function head(circuit: SystemCircuit, run: Run | undefined) {
  return {
    conductors: circuit.conductors.map((c) => c.id),
    lengthM: run?.lengthM ?? circuit.length,
    make: {
      metal: circuit.metal,
      strands: circuit.strands,
      insulationC: circuit.insulationC.low,
      parallel: circuit.parallel,
    },
  };
}

interface Known {
  readonly steadyA: number | null;
  readonly steadyIn: string | null;
  readonly startA: number | null;
}

/** A circuit of which no more can be told than what flows in it, if that. */
function untoldCircuit(
  circuit: SystemCircuit,
  run: Run | undefined,
  { steadyA, steadyIn, startA }: Known,
  cannotTell: readonly string[],
  labels: Labels,
): CircuitDesign {
  const { conductors, lengthM, make } = head(circuit, run);
  return {
    id: circuit.id,
    current: circuit.current,
    supply: circuit.supply ?? null,
    from: circuit.fromText,
    to: circuit.toText,
    conductors,
    lengthM,
    make,
    nothingIsEnough: false,
    bought: labels.bought,
    cable: labels.cable,
    colours: labels.colours,
    steadyA,
    steadyIn,
    startA,
    ampacityA: null,
    ampacityTrust: null,
    ampacityZone: null,
    conductorC: null,
    devices: [],
    bareEnds: [],
    loads: [],
    notBorne: [],
    dropV: null,
    dropShare: null,
    dropLimitShare: null,
    dropIn: null,
    leastVolts: null,
    startVolts: null,
    constraints: [],
    decidedBy: null,
    outcome: "cannot tell",
    cannotTell,
    size: pinnedSize(circuit),
  };
}

const NOTHING_FLOWS: Known = { steadyA: null, steadyIn: null, startA: null };

/** What has no conductor is sized by nothing here. */
const noCircuit = (circuit: SystemCircuit, run: Run | undefined, labels: Labels): CircuitDesign =>
  untoldCircuit(circuit, run, NOTHING_FLOWS, ["it has no conductor of its own"], labels);

function sized(
  settled: Settled,
  weighed: Weighed | undefined,
  c: CircuitModel,
  i: number,
  run: Run,
  labels: Labels,
): CircuitDesign {
  const { circuit } = c;
  const currents = settled.currents[i];
  const rung = settled.chosen.rungs[i] ?? 0;
  const { devices, bareEnds } = printDevices(settled, c, i);
  const known: Known = {
    steadyA: currents?.steady ?? 0,
    steadyIn: steadyName(settled, c, i),
    // Less than a microampere is rounding.
    startA: currents !== undefined && currents.start > 1e-6 ? currents.start : null,
  };
  if (c.rungs === null) return untoldCircuit(circuit, run, known, c.cannotTell, labels);
  const untold = c.cannotTell.length > 0;
  const make = c.rungs.ladder.makes[rung];
  const { amps: iz, trust, zone } = ampacityOf(c, rung, run);
  const worst = untold || weighed === undefined ? [] : weighed.worst;
  const loads = printLoads(settled, c, worst);
  const stops = worst.some((w) => notBorne(w) === "runs");
  const failsToStart = worst.some((w) => notBorne(w) !== null);
  const worstLoad = (stops ? [] : loads).reduce<LoadDesign | null>(
    (a, b) => (a === null || b.dropV > a.dropV ? b : a),
    null,
  );
  const charging = c.charging === null || untold ? null : { ...settled.weigher.chargingDrop(c), ...c.charging };
  const least = (pick: (l: LoadDesign) => number | null): number | null => {
    const values = (stops ? [] : loads).map(pick).filter((v) => v !== null);
    return values.length === 0 ? null : Math.min(...values);
  };
  const { conductors, lengthM, make: madeOf } = head(circuit, run);
  return {
    id: circuit.id,
    current: circuit.current,
    supply: circuit.supply ?? null,
    from: circuit.fromText,
    to: circuit.toText,
    conductors,
    lengthM,
    make: madeOf,
    steadyA: known.steadyA,
    steadyIn: known.steadyIn,
    startA: known.startA,
    outcome: untold ? "cannot tell" : circuit.asFound ? "found" : circuit.size !== undefined ? "pinned" : "chosen",
    cannotTell: c.cannotTell,
    size: untold ? pinnedSize(circuit) : onPaper(c.rungs, rung),
    nothingIsEnough: settled.chosen.short[i] === 1 && !untold,
    bought: boughtOnPaper(c, run, rung, settled.devices.circuits[i]?.devices ?? []),
    cable: labels.cable,
    colours: labels.colours,
    ampacityA: circuit.size === "unknown" || (untold && circuit.size === undefined) ? null : iz,
    ampacityTrust: trust,
    ampacityZone: zone,
    conductorC: untold || make === undefined ? null : hottest(settled, c, i, rung),
    devices,
    bareEnds,
    loads,
    notBorne: worst.flatMap((w) => whyNotBorne(w) ?? []),
    dropV: charging?.volts ?? worstLoad?.dropV ?? null,
    dropShare: charging !== null ? charging.volts / charging.baseVolts : (worstLoad?.dropShare ?? null),
    dropLimitShare: charging !== null ? charging.limitVolts / charging.baseVolts : (worstLoad?.dropLimitShare ?? null),
    dropIn: charging !== null ? caseName(settled, c, charging.case) : (worstLoad?.dropIn ?? null),
    leastVolts: least((l) => l.leastVolts),
    startVolts: failsToStart ? null : least((l) => l.startVolts),
    constraints: weighed?.constraints ?? [],
    decidedBy: untold || circuit.size !== undefined ? null : (weighed?.decidedBy ?? null),
  };
}

function pinnedSize(circuit: SystemCircuit): CircuitDesign["size"] {
  const { size } = circuit;
  return size === undefined || size === "unknown" ? null : { label: size.label, areaMm2: size.areaMm2 };
}

function hottest(settled: Settled, c: CircuitModel, i: number, rung: number): number {
  const { rungs } = c;
  if (rungs === null) return 0;
  const amps = settled.currents[i]?.steady ?? 0;
  return Math.max(...Array.from(rungs.lengths, (_, s) => temperatureAt(rungs, rung, s, amps)));
}

/** By ladder, whose make and rule set are one; then by rung and surroundings. */
const trusts = new WeakMap<Ladder, Map<string, Trust>>();

interface RatedAmps {
  readonly amps: number;
  readonly trust: Trust | null;
  readonly zone: string | null;
}

/** Ampacity at a rung; of several rule sets the lesser. */
function ampacityOf(c: CircuitModel, rung: number, run: Run): RatedAmps {
  const { rungs } = c;
  if (rungs === null) return { amps: 0, trust: null, zone: null };
  const rated = (rungs.bySet ?? [{ rungs }]).map((each) => ampacityIn(c, each.rungs, rung, run));
  return rated.reduce((least, each) => (each.amps < least.amps ? each : least));
}

/** Ampacity by one rule set; its trust is worked out once for each make and kind of surroundings. */
export function ampacityIn(c: CircuitModel, rungs: Rungs, rung: number, run: Run): RatedAmps {
  const { ruleSet } = rungs;
  const make = rungs.ladder.makes[rung];
  if (make === undefined) return { amps: 0, trust: null, zone: null };
  let known = trusts.get(rungs.ladder);
  if (known === undefined) trusts.set(rungs.ladder, (known = new Map<string, Trust>()));
  let key = `${rung} ${Object.values(run.installed).join()}`;
  for (const s of run.stretches)
    key += `|${s.engineSpace} ${s.ambientC} ${s.ambientStated} ${s.bundle} ${s.buried} ${s.onRoof} ${s.insulated} ${s.lengthM.high}`;
  let trust = known.get(key);
  if (trust === undefined) {
    trust = ampacity({
      ruleSet,
      make,
      insulationC: celsius(c.circuit.insulationC.low),
      installed: run.installed,
      stretches: run.stretches.map((s) => ({ ...s, ambientC: celsius(s.ambientC) })),
    }).trust;
    if (known.size > 2000) known.clear(); // surroundings come from plans
    known.set(key, trust);
  }
  return { amps: ampacityAt(rungs, rung), trust, zone: run.stretches[rungs.worstStretch]?.zone ?? null };
}

/** Whether more is asked of a load's way than it can bear, while it runs or only while it starts. */
function notBorne({ overload, startOverload, leastVolts, startVolts }: JudgedWorst): "runs" | "starts" | null {
  // Below nothing are no volts: the wire cannot bring that current at all.
  if (overload !== null || leastVolts <= 0) return "runs";
  return startOverload !== null || startVolts <= 0 ? "starts" : null;
}

function whyNotBorne(w: JudgedWorst): string | null {
  const when = notBorne(w);
  if (when === null) return null;
  const source = when === "runs" ? w.overload : w.startOverload;
  const why =
    source === null
      ? "the way to it loses more volts than there are"
      : `${source.part} gives no more than ${Number(source.most.toPrecision(3))} A`;
  return `${w.judged.part} cannot be borne${when === "starts" ? " while it starts" : ""}: ${why}`;
}

function printLoads(settled: Settled, c: CircuitModel, worst: readonly JudgedWorst[]): LoadDesign[] {
  const nominal = c.supply?.nominal ?? 12;
  return worst.flatMap((w): LoadDesign[] => {
    if (w.dropVolts === -Infinity || notBorne(w) === "runs") return [];
    const { judged } = w;
    return [
      {
        part: judged.part,
        dropV: w.dropVolts,
        dropShare: w.dropVolts / nominal,
        dropIn: caseName(settled, c, w.dropCase),
        dropLimitShare: judged.dropVolts / nominal,
        dropClass: judged.dropClass?.because ?? "as the circuit says",
        leastVolts: w.leastVolts,
        leastVoltsIn: caseName(settled, c, w.leastCase),
        runsAbove: judged.runsAbove > 0 ? judged.runsAbove : null,
        startVolts: Number.isNaN(w.startVolts) || notBorne(w) === "starts" ? null : w.startVolts,
        startsAbove: judged.startsAbove > 0 ? judged.startsAbove : null,
      },
    ];
  });
}

/** What the design current flows in, as people read it. */
function steadyName(settled: Settled, c: CircuitModel, i: number): string {
  const currents = settled.currents[i];
  const by = settled.model.circuits[currents?.steadyBy ?? -1];
  if (currents === undefined || by === undefined || currents.steadyCase >= 0) {
    return caseName(settled, c, currents?.steadyCase ?? -1);
  }
  if (isSourceRated(by)) return sourceName(settled, by);
  if (by.demand !== null) return by === c ? "at its demand" : `${farText(by)} at its demand`;
  return `${farText(by)} alone`;
}

/** Of a lead the device that guards it stands where it is plugged in. */
function sourceName({ model: { system } }: Settled, { circuit: { from, to } }: CircuitModel): string {
  const lead = system.parts.find((p) => p.traits.lead === true && (p.id === from.part || p.id === to.part));
  if (lead?.gives === undefined || lead.gives === "unknown") return "at the rating of its source";
  return `at the ${Number(lead.gives.value.high.toPrecision(3))} A of the device ahead of ${lead.id}`;
}

/** Its demand is no word of the plan: it stands at the terminals of a source of alternating current, and carries all that this may give. */
const isSourceRated = ({ circuit }: CircuitModel): boolean => circuit.demand?.origin === "derived";

/** Name of a case as people read it. */
export function caseName(settled: Pick<Settled, "cases">, c: CircuitModel, at: number): string {
  if (at === -1) return c.judged.some((j) => j.draw >= 0) ? `${farText(c)} alone` : "a load alone";
  if (at === -2) return isSourceRated(c) ? "at the rating of its source" : "at its demand";
  if (at === -3) return "full sun";
  const one = settled.cases[at];
  if (one === undefined) return "";
  if (one.kind === "given") return one.name;
  return one.kind === "base" ? "always-on loads only" : `${one.name} at its rating`;
}
