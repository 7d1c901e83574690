import { caseName } from "../size/index.ts";
import type { CircuitModel, Judged } from "../size/model.ts";
import type { Built } from "./built.ts";
import type { WorkedSection, WorkedStep } from "./explanation.ts";
import { currentBetween, currentOfPower, inverterPower } from "./laws.ts";
import { flowIn, judgedStandpoint, plainCase, type Standpoint } from "./standpoint.ts";
import { saidAt } from "./plan-place.ts";
import { figureText } from "./print-number.ts";
import { figure, summed, taken, work } from "./work.ts";
import type { Part } from "./why-ampacity.ts";

/** A load and what it takes. */
interface Taking {
  readonly draw: number;
  readonly amps: number;
  /** Volts that it then has; decides for a load of constant power. */
  readonly volts: number;
  /** Amps that it states. */
  readonly stated: number;
}

/** The greatest steady current of a circuit: when it flows, and what it is made of. */
export function workCurrent(built: Built, c: CircuitModel): Part {
  const { settled, plan } = built;
  const weigher = built.settled.weigher;
  const current = settled.currents[c.position];
  const steps: WorkedStep[] = [];
  const at = current?.steadyCase ?? settled.weigher.base;
  const by = settled.model.circuits[current?.steadyBy ?? -1];
  let says: string;
  let amps: number;
  if (at === -3) {
    amps = c.leastAmps;
    says = `the circuit of a solar module carries at least what the module gives in full sun`;
    steps.push(taken("short-circuit current", amps, "A", saidAt(plan, "parts", c.circuit.from.part, "Isc")));
  } else if (
    at === -2 ||
    (at === -1 && by !== undefined && by === c && c.demand !== null && c.demand === current?.steady)
  ) {
    amps = c.demand ?? 0;
    const isOfSource = c.circuit.demand?.origin === "derived";
    says = isOfSource
      ? "all that the source at its end may give for long, carried to its far end"
      : "the demand that the plan gives it, carried to its far end";
    steps.push(
      isOfSource
        ? taken("rating of its source", amps, "A", "the source's rating over its volts")
        : taken("demand", amps, "A", saidAt(plan, "circuits", c.circuit.id, "demand")),
    );
  } else if (at >= 0) {
    says = `greatest in ${caseSays(built, c, at)}`;
    const part = workCurrentIn(built, c, judgedStandpoint(built, plainCase(at)));
    steps.push(...part.section.steps);
    amps = typeof part.figures[0]?.value === "number" ? part.figures[0].value : 0;
    if (c.charging !== null) {
      says += `: ${c.circuit.from.part} pushes it`;
      steps.unshift(...ratedStep(built, c.circuit.from.part));
    }
  } else {
    const base = judgedStandpoint(built, plainCase(weigher.base));
    const owner = by ?? c;
    const isDemand = owner.demand !== null && owner.judged.every((j) => j.draw < 0);
    says = isDemand
      ? `greatest while ${owner.circuit.toText} takes its demand, nothing charging`
      : `greatest while ${owner.circuit.toText} runs alone with what is always on, batteries at their lowest, nothing charging`;
    const judged = owner.judged[0];
    const over =
      judged === undefined ? base : judgedStandpoint(built, weigher.look.judgedIn(owner, judged, isDemand ? -2 : -1));
    if (c.radial) {
      const edge = busiest(built, c, base);
      amps = addUp(built, [...takings(built, edge, base), ...alone(built, owner)], steps);
    } else {
      for (const taking of alone(built, owner)) takingStep(built, taking, steps);
      amps = across(built, over, busiest(built, c, over), steps);
    }
  }
  return {
    section: { title: `What ${c.circuit.id} carries for long`, says, steps, way: [] },
    figures: [figure("steadyA", amps, "A", figureText.amps)],
  };
}

/** The current of a circuit in a case that is solved in full. */
export function workCurrentIn(built: Built, c: CircuitModel, at: Standpoint): Part {
  const steps: WorkedStep[] = [];
  const edge = busiest(built, c, at);
  const amps = c.radial ? addUp(built, takings(built, edge, at), steps) : across(built, at, edge, steps);
  return {
    section: { title: `What ${c.circuit.id} carries in ${caseSays(built, c, at.case)}`, says: "", steps, way: [] },
    figures: [figure("amps", amps, "A", figureText.amps)],
  };
}

/** A load that starts: alone, or while a state lasts. */
interface Starting {
  readonly owner: CircuitModel;
  readonly judged: Judged;
  /** With what its start adds laid over the case; and the case as it is. */
  readonly over: Standpoint;
  readonly before: Standpoint;
  readonly edge: number;
  readonly amps: number;
}

/** The greatest current of a circuit while something behind it starts; null where nothing does. */
export function workStart(built: Built, c: CircuitModel): Part | null {
  const { weigher } = built.settled;
  let most: Starting | null = null;
  for (const owner of c.radial ? behind(built, c) : built.settled.model.circuits) {
    for (const judged of owner.judged) {
      if (judged.draw < 0 || Number.isNaN(judged.startExtra)) continue;
      for (const overlay of weigher.look.startsOf(owner, judged)) {
        const over = judgedStandpoint(built, overlay);
        const before = judgedStandpoint(built, plainCase(overlay.case));
        const edge = busiest(built, c, c.radial ? before : over);
        const now = flowIn(built, before, edge);
        const amps = c.radial ? now + overlay.amps : flowIn(built, over, edge);
        // In the core a start may relieve a wire: then what flows anyway is no start.
        const isStart = c.radial || overlay.case === weigher.base || amps > now + 1e-6;
        if (isStart && amps > (most?.amps ?? 0)) most = { owner, judged, over, before, edge, amps };
      }
    }
  }
  if (most === null) return null;
  const { judged, over, edge } = most;
  const steps: WorkedStep[] = [];
  let { amps } = most;
  if (c.radial) amps = addUp(built, startTakings(built, most), steps);
  else {
    for (const taking of startTakings(built, most)) if (taking.draw === judged.draw) takingStep(built, taking, steps);
    amps = across(built, over, edge, steps);
  }
  const seconds = Number(judged.startSeconds.toPrecision(3));
  const when = over.case === weigher.base ? "the rest of its circuit running" : `in ${caseSays(built, c, over.case)}`;
  const section: WorkedSection = {
    title: `What ${c.circuit.id} carries while something starts`,
    says: `${judged.part} starts for ${seconds} s, ${when}`,
    steps,
    way: [],
  };
  return { section, figures: [figure("startA", amps, "A", figureText.amps)] };
}

/** All that flows in a branch while one load starts. */
function startTakings(built: Built, { owner, judged, over, before, edge }: Starting): Taking[] {
  const flowing = takings(built, edge, before);
  if (over.case === built.settled.weigher.base) {
    const others = alone(built, owner).filter((t) => t.draw !== judged.draw);
    return [...flowing, ...others, ...alone(built, owner, judged).filter((t) => t.draw === judged.draw)];
  }
  const own = takingIn(built, judged.draw, before);
  const amps = own.amps + over.overlay.amps;
  const starting = { ...own, amps, stated: own.amps > 0 ? (own.stated * amps) / own.amps : amps };
  return [...flowing.filter((t) => t.draw !== judged.draw), starting];
}

const caseSays = (built: Built, c: CircuitModel, at: number): string => {
  const one = built.settled.cases[at];
  return one?.kind === "given" ? `the state "${one.name}"` : `the case "${caseName(built.settled, c, at)}"`;
};

/** The most that a charging source gives. */
function ratedStep({ settled, plan }: Built, part: string): WorkedStep[] {
  const { feeds, converters } = settled.model.grid;
  const element =
    feeds.find((f) => f.element.part === part)?.element ?? converters.find((k) => k.element.part === part)?.element;
  return element === undefined
    ? []
    : [taken(`${part} gives at most`, element.amps.high, "A", saidAt(plan, "parts", part, "output", "rated", "Isc"))];
}

/** What a load takes in a case that is solved in full. */
export function workTaking(built: Built, draw: number, at: Standpoint): { steps: readonly WorkedStep[]; amps: number } {
  const steps: WorkedStep[] = [];
  return { steps, amps: takingStep(built, takingIn(built, draw, at), steps) };
}

const takingIn = ({ settled }: Built, draw: number, at: Standpoint): Taking => ({
  draw,
  amps: at.taken(draw),
  volts: at.drawVolts(draw),
  stated: settled.cases[at.case]?.drawAmps[draw] ?? 0,
});

/** The circuit and all that hangs on it. */
function behind({ settled }: Built, c: CircuitModel): CircuitModel[] {
  // What hangs on a return that shares a size hangs on the circuit that it belongs to.
  const found = [settled.model.circuits[c.leader] ?? c];
  for (let i = 0; i < found.length; i++) {
    for (const child of found[i]?.children ?? []) {
      const next = settled.model.circuits[child];
      if (next !== undefined) found.push(next);
    }
  }
  return found;
}

/** The conductor of a circuit that carries most. */
function busiest(built: Built, c: CircuitModel, at: Standpoint): number {
  let best = c.edges[0] ?? -1;
  for (const e of c.edges) if (flowIn(built, at, e) > flowIn(built, at, best) + 1e-9) best = e;
  return best;
}

/** In the core current divides: it is told by the volts between the ends of a conductor, out of the solved network. */
function across(built: Built, at: Standpoint, e: number, steps: WorkedStep[]): number {
  const { settled } = built;
  const edge = settled.model.grid.edges[e];
  if (edge === undefined) return 0;
  const volts = Math.abs(at.voltsAt(edge.a) - at.voltsAt(edge.b));
  const ohms = settled.weigher.ohmsOf(e, settled.chosen.rungs);
  steps.push(taken(`volts between the ends of ${edge.id}`, volts, "V", "the solved network", "derived"));
  steps.push(taken(`${edge.id} with its joints and devices`, ohms, "Ω", "the solved network", "derived"));
  const done = work(() => currentBetween({ volts, ohms }), `current in ${edge.id}`);
  steps.push(...done.steps);
  return done.value;
}

/** Loads beyond an edge of a tree, with what they take in a case. */
function takings(built: Built, e: number, at: Standpoint): Taking[] {
  const { model } = built.settled;
  const { grid, trees } = model;
  const edge = grid.edges[e];
  if (edge === undefined) return [];
  const beyond = new Set<number>();
  // Nodes next to the core come first, so one pass finds all that hang on the edge.
  for (const n of trees.order) {
    const up = trees.up[n] ?? -1;
    if (up === e || beyond.has(trees.above[n] ?? -1)) beyond.add(n);
  }
  return grid.draws.flatMap(({ plus, minus }, d): Taking[] => {
    if (at.taken(d) <= 0 || !(beyond.has(plus) || beyond.has(minus))) return [];
    return [takingIn(built, d, at)];
  });
}

/** What the loads of a circuit take when they run alone, above what is always on; one of them may be starting. */
function alone({ settled }: Built, c: CircuitModel, starting?: Judged): Taking[] {
  const { weigher } = settled;
  return c.judged.flatMap((judged, k): Taking[] => {
    if (judged.draw < 0) return [];
    const element = settled.model.grid.draws[judged.draw]?.element;
    const stated = judged === starting ? judged.startExtra : judged.steadyExtra;
    if (element === undefined || stated <= 0) return [];
    const volts = weigher.aloneVolts(c, k);
    const scale = element.law === "watts" ? element.atVolts / Math.max(volts, element.atVolts / 2) : 1;
    return [{ draw: judged.draw, amps: stated * scale, volts, stated }];
  });
}

/** One step for each load, and their sum. */
function addUp(built: Built, list: readonly Taking[], steps: WorkedStep[]): number {
  const parts = list.map((taking) => ({ value: takingStep(built, taking, steps), says: partOf(built, taking) }));
  if (parts.length === 1) return parts[0]?.value ?? 0;
  if (parts.length === 0) return 0;
  const sum = summed("together", parts, "A", "I");
  steps.push(sum);
  return typeof sum.value === "number" ? sum.value : 0;
}

const partOf = ({ settled }: Built, { draw }: Taking): string => settled.model.grid.draws[draw]?.element.part ?? "";

function takingStep(built: Built, taking: Taking, steps: WorkedStep[]): number {
  const draw = built.settled.model.grid.draws[taking.draw];
  const part = partOf(built, taking);
  const said = saidAt(built.plan, "parts", part, "running", "rated", "starting", "transmitting");
  if (draw?.element.law !== "watts") {
    steps.push(taken(`${part} takes`, taking.amps, "A", said));
    return taking.amps;
  }
  const { atVolts } = draw.element;
  let watts = taking.stated * atVolts;
  if (draw.inverter !== null) {
    const { efficiency, idleWatts } = draw.inverter;
    const rated = draw.element.levels[0]?.amps.high ?? 0;
    const idle = Math.abs(taking.stated - rated) < 1e-9 ? 0 : idleWatts.high;
    const eta = efficiency.low;
    const asked = (watts - idle) * eta;
    const power = work(() => inverterPower({ idle, asked, eta }), `${part} takes from its bank`);
    steps.push(taken(`asked of ${part}`, asked, "W", said), ...power.steps);
    watts = power.value;
  } else steps.push(taken(`${part} takes, whatever the volts`, watts, "W", said));
  // Where sizes are judged, a load on less than half its volts is held at what it takes on half of them.
  const isHeld = Math.abs(watts / taking.volts - taking.amps) > 1e-3 * taking.amps;
  const volts = isHeld ? Math.max(taking.volts, atVolts / 2) : taking.volts;
  const done = work(() => currentOfPower({ watts, volts }), `${part} takes`);
  steps.push(...done.steps);
  return done.value;
}
