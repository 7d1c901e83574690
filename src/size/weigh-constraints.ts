import { freed } from "./freed.ts";
import { printCitation, type Citation, type Trust } from "../explain/index.ts";
import { isNoThinner, type RuleSet } from "../ruleset/index.ts";
import { rungsFor, runOhms, steadyAt, type Rungs, type SetRungs } from "./ladder.ts";
import { leastBy, lesserRungs } from "./lesser-of-sets.ts";
import { constraintIds, type Constraint, type ConstraintId, type SizeOnPaper } from "./design.ts";
import type { CircuitModel } from "./model.ts";
import { devicesAllow, mostAllowedAt } from "./devices-allow.ts";
import { isEnough, type Settled } from "./settled.ts";
import type { JudgedWorst } from "./weigher.ts";
import type { Runs } from "../route/index.ts";

/** What each constraint alone asks of each circuit, every other circuit as it is. */
export interface Weighed {
  readonly constraints: readonly Constraint[];
  readonly decidedBy: ConstraintId | null;
  /** How its loads stand at their worst with the sizes that were chosen. */
  readonly worst: readonly JudgedWorst[];
}

type VoltKind = "drop" | "start" | "least-volts";

/**
 * Finds for each circuit the least size that each constraint alone would ask for. In trees that is arithmetic on what was solved; in the core
 * the network is solved again with thinner wire until a load no longer has enough.
 */
export function weighConstraints(settled: Settled, runs: Runs): Weighed[] {
  const { model, weigher, chosen } = settled;
  const worst = model.circuits.map((c) => weigher.worst(c));
  const room = roomBelow(settled, worst);
  const coreAlone = aloneInCore(settled, runs);
  weigher.solveCore(chosen.rungs);

  return model.circuits.map((c, i): Weighed => {
    // A return that is a circuit of its own is judged by the loads of the circuit that it belongs to.
    const judged = model.circuits[c.returnOf] ?? c;
    const loads = worst[judged.position] ?? [];
    if (c.rungs === null) return { constraints: [], decidedBy: null, worst: worst[i] ?? [] };
    const { circuit } = c;
    const sets: readonly SetRungs[] = c.rungs.bySet ?? [{ ruleSet: c.rungs.ruleSet, rungs: c.rungs }];
    const ladder = stocked(settled, runs, c) ?? c.rungs;
    const top = ladder.ladder.makes.length;
    const amps = settled.currents[i]?.steady ?? 0;
    const first = (passes: (rung: number) => boolean): number => {
      for (let r = 0; r < top; r++) if (passes(r)) return r;
      return top;
    };
    const here = chosen.rungs[i] ?? 0;
    const drawn = c.rungs;
    const devices = settled.devices.circuits[i];
    const unknownLength = circuit.length.origin === "unknown";

    const mate = model.circuits[c.leader] ?? model.circuits[c.follower];
    /** All conductors of this size on the way to its loads and back, without joints and devices. */
    const outAndBack = (own: Rungs, r: number): number => {
      const ohms = sharesOf(c) * runOhms(own, r, amps);
      return mate?.rungs == null ? ohms : ohms + sharesOf(mate) * runOhms(mate.rungs, r, amps);
    };
    const volts = (kind: VoltKind): { rung: number | null; met: boolean; stated: boolean } => {
      const mine = room[judged.position];
      const met = mine?.met[kind] ?? true;
      const own = mine?.stated[kind] ?? false;
      const alone = c.radial ? 0 : (coreAlone[i]?.[kind] ?? 0);
      const stated = own || alone > 0;
      if (!stated) return { rung: null, met: true, stated };
      if (!c.radial) return { rung: alone, met, stated };
      const allowed = outAndBack(drawn, here) + (mine?.[kind] ?? Infinity);
      return { rung: first((r) => outAndBack(ladder, r) <= allowed * (1 + 1e-12)), met, stated };
    };

    const answers: Record<ConstraintId, Answer> = {
      ampacity: {
        rung: first((r) => amps <= steadyAt(ladder, r) + 1e-9),
        outcome: amps <= steadyAt(drawn, here) + 1e-9 ? "met" : "not met",
        ...by(
          c,
          leastBy(sets, ({ rungs }) => steadyAt(rungs, here)),
          (set) => set.ampacity.table.source,
        ),
      },
      drop: overloaded("overload") ?? told(volts("drop"), unknownLength, dropSource(judged, loads)),
      start: overloaded("startOverload") ?? told(volts("start"), unknownLength, startSource(judged)),
      "least-volts": told(volts("least-volts"), unknownLength, PLAN),
      device: deviceAnswer(),
      mechanical: mechanicalAnswer(),
      bond: bondAnswer(),
      withstand: NOT_JUDGED,
      terminal: terminalAnswer(),
      "earth-loop": NOT_JUDGED,
      stock: { rung: 0, outcome: "met", source: "stock of the plan", trust: null },
    };

    /** A load that asks for more than what feeds it can give collapses, whatever the wire. */
    function overloaded(kind: "overload" | "startOverload"): Answer | null {
      const w = loads.find((x) => x[kind] !== null);
      const source = w?.[kind];
      if (w === undefined || source === undefined || source === null) return null;
      const says = `${w.judged.part} collapses: ${source.part} gives no more than ${Number(source.most.toPrecision(3))} A`;
      return { rung: null, outcome: "not met", source: says, trust: null };
    }

    function deviceAnswer(): Answer {
      const family = (devices?.devices[0] ?? devices?.guards[0])?.family ?? null;
      const strictest = leastBy(sets, (set) => mostAllowedAt(c, set.rungs, here, family));
      const source = by(c, strictest, (set) => set.deviceSize.DC.source);
      if (devices === undefined || devices.unknown) return { rung: null, outcome: "cannot tell", ...source };
      if (devices.devices.length + devices.guards.length === 0 && devices.answersFor === 0) {
        return { rung: null, outcome: "not stated", ...source };
      }
      return {
        rung: first((r) => devicesAllow(c, devices, ladder, r)),
        outcome: devicesAllow(c, devices, drawn, here) ? "met" : "not met",
        ...source,
      };
    }

    /** Of a conductor that carries current only in a fault. */
    function bondAnswer(): Answer {
      const ask = settled.leads?.find((l) => l.position === i)?.asks[0];
      if (ask === undefined) return { rung: null, outcome: "not stated", ...NO_SOURCE };
      const reaches = (own: Rungs, r: number): boolean => isEnough(ask, (own.ladder.areas[r] ?? 0) * own.parallel);
      return {
        rung: first((r) => reaches(ladder, r)),
        outcome: reaches(drawn, here) ? "met" : "not met",
        ...from(ask.source),
        trust: ask.trust,
      };
    }

    /** A part of what `ampacity` asks: alone it says whether the terminals are what holds the wire down. */
    function terminalAnswer(): Answer {
      const capped = (rungs: Rungs, r: number): number => (rungs.terminalAmps[r] ?? Infinity) * rungs.parallel;
      const strictest = leastBy(sets, ({ rungs }) => capped(rungs, here));
      const rules = strictest?.ruleSet.ampacity.terminals ?? null;
      if (rules === null || strictest === undefined || capped(drawn, here) === Infinity) {
        return { rung: null, outcome: "not stated", ...NO_SOURCE };
      }
      return {
        rung: first((r) => amps <= capped(ladder, r) + 1e-9),
        outcome: amps <= capped(drawn, here) + 1e-9 ? "met" : "not met",
        ...by(c, strictest, () => rules.source),
      };
    }

    function mechanicalAnswer(): Answer {
      const rule = ladder.leastSize;
      const make = c.rungs?.ladder.makes[here];
      const met = rule === null || make === undefined || isNoThinner(make, rule.size, rule.strands);
      // What the stock asks for above the rule is the plan's own wish.
      const ofStock = rule === null || ladder.least > ladder.leastByRule;
      return {
        rung: Math.max(ladder.leastByRule, ladder.least),
        outcome: met ? "met" : "not met",
        ...(ofStock
          ? { source: "stock of the plan", trust: null }
          : by(
              c,
              leastBy(sets, ({ rungs }) => -rungs.leastByRule),
              () => rule.source,
            )),
      };
    }

    let decidedBy: ConstraintId | null = null;
    let largest = -1;
    const constraints = constraintIds.map((id): Constraint => {
      const { rung, outcome, source, trust } = answers[id];
      if (rung !== null && rung > largest) {
        largest = rung;
        decidedBy = id;
      }
      return { id, outcome, alone: rung === null ? null : onPaper(ladder, rung), source, trust };
    });
    return { constraints, decidedBy: unknownLength ? null : decidedBy, worst: worst[i] ?? [] };
  });
}

/** Metres of all its conductors over those of its run; one where it has none. */
const sharesOf = ({ shares }: CircuitModel): number => shares.reduce((sum, s) => sum + s, 0) || 1;

/** What a circuit is measured against: the stock, also where its size is pinned, as if it were still to be chosen. */
export function stocked({ model }: Settled, runs: Runs, c: CircuitModel): Rungs | null {
  const run = runs.runs[c.index];
  if (c.circuit.size === undefined || c.rungs === null || run === undefined) return c.rungs;
  const rungsOf = (ruleSet: RuleSet): SetRungs => ({
    ruleSet,
    rungs: rungsFor(freed(c.circuit), run, ruleSet, model.system.stock, c.leastAmps > 0),
  });
  const [first, ...others] = c.rungs.bySet?.map((each) => each.ruleSet) ?? [];
  return lesserRungs(first === undefined ? [rungsOf(c.rungs.ruleSet)] : [rungsOf(first), ...others.map(rungsOf)]);
}

export function onPaper(rungs: Rungs, rung: number): SizeOnPaper | null {
  const size = rungs.ladder.makes[rung]?.size;
  return size === undefined ? null : { label: size.label, areaMm2: size.areaMm2 };
}

/** A constraint's answer before it is printed. */
interface Answer {
  readonly rung: number | null;
  readonly outcome: Constraint["outcome"];
  readonly source: string;
  readonly trust: Trust | null;
}

type Source = Pick<Answer, "source" | "trust">;

const NOT_JUDGED: Answer = { rung: null, outcome: "not judged yet", source: "", trust: null };
/** What the plan itself says of a load or circuit. */
const PLAN: Source = { source: "the plan", trust: null };

const NO_SOURCE: Source = { source: "", trust: null };
const printed = new WeakMap<Citation, Source>();

/** Citations are those of rule sets, so each is put into words once. */
function from(citation: Citation | undefined): Source {
  if (citation === undefined) return NO_SOURCE;
  let source = printed.get(citation);
  if (source === undefined) {
    printed.set(citation, (source = { source: printCitation(citation), trust: citation.trust }));
  }
  return source;
}

/** The source of a rule set, and its name where the circuit follows several. */
function by({ bySet }: CircuitModel, set: SetRungs | undefined, sourceIn: (set: RuleSet) => Citation): Source {
  const source = from(set === undefined ? undefined : sourceIn(set.ruleSet));
  return bySet.length === 0 || set === undefined
    ? source
    : { ...source, source: `${set.ruleSet.id}: ${source.source}` };
}

function told(
  answer: { rung: number | null; met: boolean; stated: boolean },
  unknownLength: boolean,
  source: Source,
): Answer {
  if (!answer.stated) return { rung: null, outcome: "not stated", ...source };
  if (unknownLength) return { rung: null, outcome: "cannot tell", ...source };
  return { rung: answer.rung, outcome: answer.met ? "met" : "not met", ...source };
}

function dropSource(c: CircuitModel, worst: readonly JudgedWorst[]): Source {
  if (c.circuit.dropLimit !== undefined) return PLAN;
  const found = worst.find((w) => w.judged.dropClass !== null)?.judged.dropClass;
  if (found !== undefined && found !== null) {
    const asking = c.bySet.find(({ judged }) => judged.some(({ dropClass }) => dropClass === found));
    return asking === undefined ? from(found.source) : by(c, asking, () => found.source);
  }
  return c.charging === null ? PLAN : { source: "charging circuits lose 3 % at most", trust: "practice" };
}

/** A motor that states nothing is judged at a share of its volts. */
function startSource(c: CircuitModel): Source {
  const assumed = c.judged.some((j) => j.draw >= 0 && j.startsAssumed);
  return assumed ? { source: "motors start at 0.75 of their volts", trust: "practice" } : PLAN;
}

interface Room extends Record<VoltKind, number> {
  readonly met: Record<VoltKind, boolean>;
  readonly stated: Record<VoltKind, boolean>;
}

/**
 * Ohms, out and back, that could be added to each radial circuit before a load at or behind it no longer has enough; negative where one has
 * too little already.
 */
function roomBelow(settled: Settled, worst: readonly (readonly JudgedWorst[])[]): Room[] {
  const { model, weigher } = settled;
  const result: Room[] = model.circuits.map(() => ({
    drop: Infinity,
    start: Infinity,
    "least-volts": Infinity,
    met: { drop: true, start: true, "least-volts": true },
    stated: { drop: false, start: false, "least-volts": false },
  }));
  model.circuits.forEach((c, i) => {
    const mine = result[i];
    const list = worst[i] ?? [];
    if (mine === undefined) return;
    for (const w of list) {
      // Every circuit on the way to the load is asked, with the current that it carries in the load's own case.
      for (let k = i; k >= 0; k = model.circuits[k]?.parent ?? -1) {
        const at = result[k];
        const above = model.circuits[k];
        if (at === undefined || above === undefined) break;
        const rooms = weigher.roomFor(above, c, w.judged);
        const lower = (kind: VoltKind, space: number): void => {
          if (space === Infinity) return;
          at.stated[kind] = true;
          at[kind] = Math.min(at[kind], space);
          if (space < -1e-7) at.met[kind] = false;
        };
        lower("drop", rooms.drop);
        lower("start", rooms.start);
        lower("least-volts", rooms.leastVolts);
        if (!above.radial) break;
      }
    }
    if (c.charging !== null) {
      const { volts } = weigher.chargingDrop(c);
      mine.stated.drop = true;
      if (volts > c.charging.limitVolts + 1e-7) mine.met.drop = false;
    }
  });
  return result;
}

const VOLT_KINDS: readonly VoltKind[] = ["drop", "start", "least-volts"];

/** For each circuit of the core the least rung of the stock at which nothing that could have enough loses it. */
function aloneInCore(settled: Settled, runs: Runs): (Record<VoltKind, number> | undefined)[] {
  const { model, weigher, chosen } = settled;
  const result: (Record<VoltKind, number> | undefined)[] = model.circuits.map(() => undefined);
  const rungs = Int32Array.from(chosen.rungs);
  // Trees stay as they are: what is lost in them is counted from the core.
  weigher.layAll(rungs);
  /** Counts who has too little at each rung, from a thick one down, until every kind has more of them than there. */
  const descend = (from: number, lay: (rung: number) => void): Record<VoltKind, number> => {
    lay(from);
    const enough = shortNow(settled);
    const least: Record<VoltKind, number> = { drop: from, start: from, "least-volts": from };
    const open = new Set(VOLT_KINDS);
    for (let r = from - 1; r >= 0 && open.size > 0; r--) {
      lay(r);
      const now = shortNow(settled);
      for (const kind of [...open]) {
        if (now[kind] > enough[kind]) open.delete(kind);
        else least[kind] = r;
      }
    }
    return least;
  };
  for (const group of model.coreGroups) {
    const chosenOnes = group.filter((i) => model.circuits[i]?.circuit.size === undefined);
    const [head] = chosenOnes;
    if (head !== undefined) {
      const least = descend(chosen.rungs[head] ?? 0, (r) => {
        for (const i of chosenOnes) rungs[i] = r;
        weigher.solveCore(rungs);
      });
      for (const i of chosenOnes) {
        rungs[i] = chosen.rungs[i] ?? 0;
        result[i] = least;
      }
    }
    for (const i of group) {
      const c = model.circuits[i];
      const stock = c === undefined || chosenOnes.includes(i) ? null : stocked(settled, runs, c);
      if (stock === null) continue;
      const amps = settled.currents[i]?.steady ?? 0;
      result[i] = descend(stock.ladder.makes.length - 1, (r) => {
        weigher.solveCore(rungs, { circuit: i, ohms: runOhms(stock, r, amps) });
      });
    }
  }
  return result;
}

/** How many loads have too little, by kind. */
function shortNow({ model, weigher }: Settled): Record<VoltKind, number> {
  const count = { drop: 0, start: 0, "least-volts": 0 };
  for (const c of model.circuits) {
    weigher.countShort(c, count);
    if (c.charging !== null && weigher.chargingDrop(c).volts > c.charging.limitVolts + 1e-7) count.drop++;
  }
  return count;
}
