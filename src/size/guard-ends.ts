import { findPush, type Push } from "../protect/index.ts";
import { deviceDistance, exemptionFor, type RuleSet } from "../ruleset/index.ts";
import type { Grid } from "../system/index.ts";
import type { CircuitModel, Model } from "./model.ts";
import { edgeOf, type Draft, type End, type NoDevice, type PlacedDevice } from "./placed-device.ts";

/** An end that may be guarded by what stands around it. */
export interface OpenEnd {
  readonly d: Draft;
  readonly end: End;
  /** Its part shares current out. */
  readonly divides: boolean;
  /** What it gets if it is not. */
  readonly device: () => PlacedDevice;
  /** It has one that must stay. */
  readonly stands: boolean;
}

/** Rounds in which a device may go again; then they are only added, so that it ends. */
const FREE_ROUNDS = 8;
/** Equalities count as met. */
const ROUNDING = 1e-9;

/**
 * Gives the open ends a device or the reason why they have none. Each is asked with the devices that the others had in the round before, all at once, until
 * none changes: whoever is asked first has no say.
 *
 * @param ratingIn what the devices let through that stand already, by edge; Infinity: none does
 */
export function guardEnds(
  model: Model,
  open: readonly OpenEnd[],
  ratingIn: Float64Array,
  ampacity: Float64Array,
): void {
  let now: readonly (PlacedDevice | NoDevice)[] = open.map(() => NO_SOURCE);
  for (let round = 0; ; round++) {
    const ratings = ratingIn.slice();
    const deviceIn = (e: number): number | undefined => {
      const rating = ratings[e] ?? Infinity;
      return rating === Infinity ? undefined : rating;
    };
    open.forEach(({ d }, i) => {
      const device = now[i];
      if (device === undefined || isNone(device) || device.rating === null) return;
      const edge = edgeOf(d, device);
      ratings[edge] = Math.min(ratings[edge] ?? Infinity, device.rating);
    });
    const others = new Map<Draft, PlacedDevice[]>();
    for (const [i, { d }] of open.entries()) {
      const device = now[i];
      if (device !== undefined && !isNone(device)) others.set(d, [...(others.get(d) ?? []), device]);
    }
    const atLeaf = new Map<number, Push>();
    const last = now;
    now = open.map((each, i) => {
      const before = last[i];
      const keeps = each.stands || (round >= FREE_ROUNDS && before !== undefined && !isNone(before));
      if (keeps) return each.device();
      const { d, end } = each;
      const leaf = model.trees.isTree[d.edge[end]] === 1;
      let push = leaf ? atLeaf.get(d.node[end]) : undefined;
      if (push === undefined) {
        push = findPush(model.grid, model.trees, d.node[end], d.edge[end], deviceIn);
        if (leaf) atLeaf.set(d.node[end], push);
      }
      const hasOther = [...d.devices, ...(others.get(d) ?? [])].some((x) => x.end !== end);
      return guardEnd(model, each, push, ampacity[d.c.position] ?? 0, hasOther);
    });
    if (now.every((x, i) => isNone(x) === isNone(last[i] ?? NO_SOURCE))) break;
  }
  open.forEach(({ d, end }, i) => {
    const result = now[i] ?? NO_SOURCE;
    if (!isNone(result)) {
      d.devices.push(result);
      return;
    }
    d[end] = result;
    if (result.why === "guarded from behind") d.answersFor = Math.max(d.answersFor, result.amps);
  });
}

const NO_SOURCE: NoDevice = { why: "no source" };
const isNone = (x: PlacedDevice | NoDevice): x is NoDevice => "why" in x;

/** One end, by what can be pushed into it. @param hasOther a device stands at the other end */
function guardEnd(
  model: Model,
  { d, end, divides, device }: OpenEnd,
  push: Push,
  ampacity: number,
  hasOther: boolean,
): PlacedDevice | NoDevice {
  const iz = ampacity * (1 + ROUNDING);
  if (push.amps === 0) return NO_SOURCE;
  if (push.sources.every((s) => push.limited.includes(s)) && push.amps <= iz) {
    return { why: "self-limited", amps: push.amps };
  }
  // Behind a switch a conductor goes on; at its far end on one it arrives. Neither is where current divides: its size answers for what comes.
  const arrives = !divides && !d.c.startsAt[end];
  const goesOn = arrives || standsAlone(model, d.node[end], d.edge[end]);
  if (Number.isFinite(push.amps) && (goesOn || push.amps <= iz)) {
    return { why: "guarded from behind", amps: push.amps };
  }
  return spare(model, d, iz, push, hasOther) ?? device();
}

/** A charging source need not have a device at its own end where the rule set lets another do. */
function spare({ grid }: Model, { c }: Draft, iz: number, push: Push, hasOther: boolean): NoDevice | null {
  const charging = push.sources.every((s) => push.unsure.includes(s) || push.limited.includes(s));
  if (c.ruleSet === null || push.unsure.length === 0 || !charging) return null;
  const sets = c.bySet.length === 0 ? [c.ruleSet] : c.bySet.map((each) => each.ruleSet);
  const spared = sets.map((set) => sparedBy(grid, c, set, iz, push, hasOther));
  // What one set spares, another may ask for.
  const [first] = spared;
  return first === undefined || spared.includes(null)
    ? null
    : spared.reduce((a, b) => (reach(b) < reach(a) ? b : a), first);
}

const reach = (why: NoDevice | null): number => (why?.why === "device within reach" ? why.limit : Infinity);

function sparedBy(
  grid: Grid,
  { circuit }: CircuitModel,
  ruleSet: RuleSet,
  iz: number,
  push: Push,
  hasOther: boolean,
): NoDevice | null {
  const sheathed = circuit.sheathed === true;
  const limit =
    deviceDistance(ruleSet.deviceDistance, { from: "charging source", current: "DC", sheathed })?.limit ?? null;
  const metres = circuit.length.high;
  if (hasOther && limit !== null && metres <= limit) return { why: "device within reach", metres, limit };
  const output = grid.feeds.reduce(
    (sum, f) => (push.sources.includes(f.element.part) ? sum + f.element.amps.high : sum),
    0,
  );
  if (exemptionFor(ruleSet.deviceDistance, "rated for the output") !== null && output <= iz) {
    return { why: "rated for the output", amps: output };
  }
  return null;
}

/** Whether a conductor is the only one on its terminal: it then goes on what comes through the part. */
function standsAlone({ grid }: Model, node: number, edge: number): boolean {
  return (grid.at[node] ?? []).every((e) => e === edge || grid.edges[e]?.contact !== null);
}
