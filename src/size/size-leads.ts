import { findEarthLeads, type CurrentKind, type EarthLead, type System } from "../system/index.ts";
import type { RuleSet } from "../ruleset/index.ts";
import { stockedSizes } from "../wire/index.ts";
import { costOf, isFixed } from "./cost.ts";
import { alternating as askAlternating, direct as askDirect, type Followed, type LeadAsk } from "./lead-asks.ts";
import type { CircuitModel } from "./model.ts";
import { settleInRounds } from "./settle.ts";
import { isEnough, type LeadAnswer, type Settled, type Sides, type SizeLeads } from "./settled.ts";

/**
 * Gives the bonds and earth conductors of a settled build the size that their rule sets ask for. What they follow from, live conductors and devices, was chosen before, and
 * nothing that was chosen follows from them: they carry nothing, so that one of its own size is thickened where it stands. Only where sizes are chosen together, or current
 * divides between a bond and a return, a side is settled again with what is asked.
 *
 * Ignores what a fault leaves in the wire: the studies of faults tell that.
 *
 * @source docs/method.md section 8
 */
export const sizeLeads: SizeLeads = function* (runs, sides) {
  const leads = findEarthLeads(sides.settled.model.system);
  if (leads.length === 0) return sides;
  const rest = function* (side: Settled, others: (side: Settled) => Sides): Generator<void, Settled> {
    const answered = (s: Settled): Settled => ({ ...s, leads: answersOf(s, leads, others(s)) });
    const first = answered(side);
    if (first.leads?.every((a) => isIdle(first, a)) === true) return thickened(first);
    const again = yield* settleInRounds(side.model.system, runs, undefined, (s) => {
      const asked = answered(s);
      const rungs = new Int32Array(s.model.circuits.length);
      for (const a of asked.leads ?? []) rungs[a.position] = rungOf(asked, a);
      return rungs;
    });
    return thickened(answered(again));
  };
  const settled = yield* rest(sides.settled, (s) => ({ ...sides, settled: s }));
  if (sides.alternating === null) return { settled, alternating: null };
  return { settled, alternating: yield* rest(sides.alternating, (s) => ({ settled, alternating: s })) };
};

/** Whether a build has bonds or earth conductors of its own. */
export const hasLeads = (system: System): boolean => findEarthLeads(system).length > 0;

/** What is asked of the leads among the circuits of a side. */
const answersOf = (side: Settled, leads: readonly EarthLead[], sides: Sides): readonly LeadAnswer[] =>
  leads.flatMap((lead): LeadAnswer[] => {
    const c = side.model.circuits[side.model.at[lead.index] ?? -1];
    return c === undefined ? [] : [{ lead, position: c.position, ...answerOf(c, lead, sides, leads) }];
  });

function answerOf(
  c: CircuitModel,
  lead: EarthLead,
  { settled, alternating }: Sides,
  leads: readonly EarthLead[],
): Pick<LeadAnswer, "asks" | "untold"> {
  const asks: LeadAsk[] = [];
  const untold: string[] = [];
  const { circuit } = c;
  // Of the same metal as what they follow, but for the tables that have a column of its own.
  const metal = circuit.metal === "aluminium" ? "aluminium" : "copper";
  const own: CurrentKind = settled.model.circuits.includes(c) ? "DC" : "AC";
  for (const [side, current, ask] of [
    [settled, "DC", askDirect],
    [alternating, "AC", askAlternating],
  ] as const) {
    if (side === null || (current === "DC" ? !lead.onMinus : !lead.onProtective)) continue;
    const { circuits } = side.model;
    const live = circuits.filter(
      (k) => k.circuit.conductors.some((w) => w.role === "live") && !leads.some((l) => l.index === k.index),
    );
    const atCase =
      lead.to !== "case" ? [] : live.filter((k) => [k.circuit.from.part, k.circuit.to.part].includes(lead.part));
    const followed = atCase.length > 0 ? atCase : live;
    const { largest, unknown } = largestOf(side, followed);
    untold.push(...unknown);
    if (largest === null) continue;
    const sets: readonly (RuleSet | null)[] =
      current !== own ? [live[0]?.ruleSet ?? null] : c.bySet.length > 0 ? c.bySet.map((s) => s.ruleSet) : [c.ruleSet];
    for (const ruleSet of sets) {
      if (ruleSet === null) continue;
      const found = ask({
        lead,
        ruleSet,
        largest,
        rating: ratingOf(side, followed),
        metal,
        isGuarded: circuit.sheathed === true || circuit.cable !== undefined || circuit.method === "raceway",
        electrode: electrodeOf(lead, side),
        shelf: shelfOf(side).map((size) => size.areaMm2),
      });
      const isNec = ruleSet.id === "us-cabin" || ruleSet.id === "us-rv";
      asks.push(...(metal === "copper" || isNec ? found : found.map(inAluminium)));
    }
  }
  return { asks: asks.sort((a, b) => b.areaMm2 - a.areaMm2), untold };
}

/** Resistivity of aluminium over that of copper. */
const ALUMINIUM = 28.264 / 17.241;
const inAluminium = (ask: LeadAsk): LeadAsk => ({
  ...ask,
  areaMm2: ask.areaMm2 * ALUMINIUM,
  says: `${ask.says}, as much in aluminium`,
});

const shelfOf = ({ model: { system } }: Settled) =>
  system.stock.sizes.length > 0 ? system.stock.sizes : stockedSizes(system.stock.system);

/** The largest of some circuits, and those whose size nobody knows. */
function largestOf({ chosen }: Settled, circuits: readonly CircuitModel[]) {
  let largest: Followed | null = null;
  const unknown: string[] = [];
  for (const { rungs, position, circuit, cannotTell } of circuits) {
    const size = rungs?.ladder.makes[chosen.rungs[position] ?? 0]?.size;
    const isKnown = cannotTell.length === 0 || (circuit.size !== undefined && circuit.size !== "unknown");
    if (size === undefined || !isKnown) {
      unknown.push(circuit.id);
      continue;
    }
    const { parallel, id } = circuit;
    const areaMm2 = size.areaMm2 * parallel;
    const label = parallel > 1 ? `${parallel} × ${size.label}` : size.label;
    if (largest === null || areaMm2 > largest.areaMm2) largest = { circuit: id, areaMm2, label };
  }
  return { largest, unknown };
}

/** The largest device on some circuits, A; null: none is rated. */
function ratingOf({ devices }: Settled, circuits: readonly CircuitModel[]): number | null {
  const all = circuits.flatMap(
    ({ position }) => devices.circuits[position]?.devices.flatMap((d) => d.rating ?? []) ?? [],
  );
  return all.length === 0 ? null : Math.max(...all);
}

function electrodeOf({ part }: EarthLead, { model }: Settled) {
  const is = model.system.parts.find((p) => p.id === part)?.traits.electrodeIs;
  return is === "rod" || is === "plate" ? "rod pipe or plate" : is === "foundation" ? "concrete-encased" : "other";
}

/** The rung that a lead is asked to have: 0, where nothing is asked or the plan says its size; one past the last where nothing on sale is enough. */
function rungOf({ model, chosen }: Settled, { position, asks }: LeadAnswer): number {
  const c = model.circuits[position];
  const [ask] = asks;
  if (c === undefined || c.rungs === null || ask === undefined || isFixed(c)) return 0;
  const { ladder, parallel } = c.rungs;
  const { makes } = ladder;
  const found = makes.findIndex(({ size }, r) => isEnough(ask, size.areaMm2 * parallel) && chosen.open?.[r] !== 0);
  return found < 0 ? makes.length : found;
}

/** Whether a lead can get its size without anything else changing: it has enough, or it carries nothing and has a size to itself. */
function isIdle(side: Settled, answer: LeadAnswer): boolean {
  const { position } = answer;
  const { model, chosen, currents } = side;
  if (rungOf(side, answer) <= (chosen.rungs[position] ?? 0)) return true;
  const flows = currents[position];
  const isTied = [...model.coreGroups, ...model.sizeGroups].some(
    (group) => group.length > 1 && group.includes(position),
  );
  return (
    model.aim.choose !== "fewest sizes" &&
    !isTied &&
    model.circuits[position]?.leader === -1 &&
    model.circuits[position].follower === -1 &&
    Math.max(flows?.steady ?? 0, flows?.start ?? 0) < 1e-6
  );
}

/** A side with its leads as thick as is asked. */
function thickened(side: Settled): Settled {
  const { model, chosen, leads = [] } = side;
  const rungs = chosen.rungs.slice();
  const short = chosen.short.slice();
  let { sum } = chosen;
  for (const answer of leads) {
    const c = model.circuits[answer.position];
    const now = rungs[answer.position] ?? 0;
    const last = (c?.rungs?.ladder.makes.length ?? 1) - 1;
    const asked = rungOf(side, answer);
    if (asked <= now) continue;
    if (asked > last) short[answer.position] = 1;
    const rung = Math.min(asked, last);
    rungs[answer.position] = rung;
    sum += costOf(c, rung) - costOf(c, now);
  }
  return { ...side, chosen: { ...chosen, rungs, short, sum } };
}
