import { deviceDistance, exemptionFor, type RuleSet, type DeviceDistanceLimit } from "../../ruleset/index.ts";
import { needed } from "../report.ts";
import type { Needed } from "../finding.ts";
import { wireNeeded } from "../wire-needed.ts";
import type { EndName, FeedingPoint, Guard, GuardedCircuit, Guards, Span } from "./guards.ts";

/** How one end of a live conductor stands to what can push into it there. */
export type LookedAtEnd =
  /** Nothing pushes there. */
  | { readonly is: "unfed" }
  /** What pushes there limits itself to what the conductor may carry. */
  | { readonly is: "limited"; readonly amps: number; readonly iz: number }
  /** Devices behind it let no more through than the conductor may carry. */
  | { readonly is: "within"; readonly amps: number; readonly iz: number }
  /** It goes on from the device behind it, which is then its own. */
  | { readonly is: "goes on"; readonly amps: number; readonly guard: Guard | null }
  /** The rule set asks for no device there. */
  | { readonly is: "exempt"; readonly says: string }
  /** More can come than it may carry, and no device stands in it. */
  | { readonly is: "bare"; readonly push: FedBy }
  /** More can come than it may carry; this is its first device. */
  | {
      readonly is: "guarded";
      readonly push: FedBy;
      readonly guard: Guard;
      /** From where it is fed to the device. */
      readonly metres: Span;
      readonly point: FeedingPoint;
    }
  | { readonly is: "untold"; readonly needs: readonly Needed[] };

/** What pushes more than a conductor may carry. */
export interface FedBy {
  /** Infinity: without limit. */
  readonly amps: number;
  readonly sources: readonly string[];
}

/** Rounding in the ninth digit is no overload. */
const SLACK = 1e-9;

/** Looks at one end of a circuit: what can push into it there, and what stands in its way. */
export function lookAtEnd(guards: Guards, c: GuardedCircuit, end: EndName): LookedAtEnd {
  const { design, ruleSet } = c.view;
  const own = nearest(c, end);
  // What comes through a panel way or a device part has come through that device: no need to ask what is behind it.
  // Of a device part further along the same path the stretch before it may be guarded from behind.
  const comesThrough = own?.placed === null ? own.metres.high === 0 : own?.placed.way !== undefined;
  if (own?.end === end && comesThrough) {
    const point = guards.back(c, end);
    return {
      is: "guarded",
      push: { amps: own.rating?.high ?? Infinity, sources: [] },
      guard: own,
      metres: own.metres,
      point,
    };
  }
  const push = guards.push(c.node[end], c.edge[end], "sure");
  if (push.sources.length === 0) return { is: "unfed" };
  // As long as the wire is not known, it may carry nothing or anything.
  const iz: Span =
    design.ampacityA === null ? { low: 0, high: Infinity } : { low: design.ampacityA, high: design.ampacityA };
  const fedBy: FedBy = { amps: push.amps, sources: [...new Set(push.sources)] };
  const limited = push.sources.every((s) => push.limited.includes(s));
  const untoldOutput = push.limited.filter((s) => guards.untoldOutput.has(s));
  const guarded = (guard: Guard): LookedAtEnd => {
    const point = guards.back(c, end);
    const along = alongFrom(c, guard, end);
    const metres = { low: along.low + point.metres.low, high: along.high + point.metres.high };
    // Of a conductor whose device stands at its very start nothing lies ahead of the device.
    const placed = along.high === 0 ? { ...point, sheathed: point.ahead } : point;
    return { is: "guarded", push: fedBy, guard, metres, point: placed };
  };

  if (limited && untoldOutput.length > 0 && push.amps <= iz.high + SLACK) {
    return { is: "untold", needs: untoldOutput.map((s) => needed(`the output of ${s}`, `parts.${s}`)) };
  }
  if (push.amps <= iz.low + SLACK) {
    return { is: limited ? "limited" : "within", amps: push.amps, iz: iz.low };
  }
  if (own?.end === end) return guarded(own);
  const rated = ruleSet === null ? null : exemptionFor(ruleSet.deviceDistance, "rated for the output");
  const isRated = rated !== null && own !== undefined;
  if (isRated && ratedOutput(guards, push.sources) <= iz.low + SLACK) return RATED;
  if (Number.isFinite(push.amps)) {
    const point = guards.back(c, end);
    if (point.guardedBy !== null) return { is: "goes on", amps: push.amps, guard: point.guardedBy };
    if (push.amps <= iz.high + SLACK && own === undefined) {
      return { is: "untold", needs: [wireNeeded(c.view)] };
    }
  } else if (Number.isFinite(push.leastAmps) && push.leastAmps <= iz.high + SLACK) {
    // Only sources that may limit themselves push there without an end.
    if (isRated && push.leastAmps <= iz.low + SLACK) return RATED;
    if (own !== undefined) {
      const stands = guarded(own);
      if (stands.is === "guarded" && isNear(c, stands.metres, stands.point) === true) return stands;
    }
    const needs = push.unsure.map((s) => needed(`whether ${s} limits its own output`, `parts.${s}`));
    return {
      is: "untold",
      needs: [...needs, ...(design.ampacityA === null ? [wireNeeded(c.view)] : [])],
    };
  }
  if (own !== undefined) return guarded(own);
  const perhaps = guards.push(c.node[end], c.edge[end], "perhaps");
  if (!Number.isFinite(push.amps) && Number.isFinite(perhaps.amps)) {
    return {
      is: "untold",
      needs: guards.untold.filter((u) => u !== c).map((u) => needed(`the fuse of ${u.view.id}`, u.view.subject)),
    };
  }
  return { is: "bare", push: fedBy };
}

const RATED: LookedAtEnd = { is: "exempt", says: "it carries the whole rated output of what charges there" };

/** What alternators are rated for together, A, whether or not they limit themselves; Infinity where another source is among them. */
function ratedOutput({ grid }: Guards, sources: readonly string[]): number {
  let amps = 0;
  for (const source of new Set(sources)) {
    const feed = grid.feeds.find(({ element }) => element.part === source);
    if (feed?.element.runsWith !== "engine" || feed.element.amps.origin === "unknown") return Infinity;
    amps += feed.element.amps.high;
  }
  return amps;
}

/** Whether more can come to an end than the conductor may carry, whatever stands in it. */
export const isFedBeyond = (guards: Guards, c: GuardedCircuit, end: EndName): boolean =>
  guards.push(c.node[end], c.edge[end], "sure").amps > (c.view.design.ampacityA ?? 0) + SLACK;

/** The device that comes first from an end. */
export function nearest(c: GuardedCircuit, end: EndName): Guard | undefined {
  let best: Guard | undefined;
  for (const guard of c.guards) {
    if (best === undefined || alongFrom(c, guard, end).high < alongFrom(c, best, end).high) best = guard;
  }
  return best;
}

/** Metres along the live conductor from an end to a device. */
export function alongFrom(c: GuardedCircuit, guard: Guard, end: EndName): Span {
  if (guard.end === end) return guard.metres;
  return { low: Math.max(0, c.metres.low - guard.metres.high), high: Math.max(0, c.metres.high - guard.metres.low) };
}

/** How far a device may stand from where a conductor is fed; two where it is not known whether it lies in a sheath. */
export function distanceLimits(c: GuardedCircuit, point: FeedingPoint): readonly (DeviceDistanceLimit | null)[] {
  const { ruleSet } = c.view;
  return ruleSet === null ? [] : limitsIn(ruleSet.deviceDistance, point);
}

type Limits = readonly (DeviceDistanceLimit | null)[];

/** A set has one answer for each of a handful of cases: looked up once, not for every conductor. */
const limitsOf = new WeakMap<RuleSet["deviceDistance"], Map<string, Limits>>();

function limitsIn(rules: RuleSet["deviceDistance"], { from, sheathed }: FeedingPoint): Limits {
  let byPoint = limitsOf.get(rules);
  if (byPoint === undefined) limitsOf.set(rules, (byPoint = new Map<string, Limits>()));
  const key = `${from} ${sheathed}`;
  let limits = byPoint.get(key);
  if (limits === undefined) {
    const sheaths = sheathed === "unknown" ? [true, false] : [sheathed];
    limits = sheaths.map((one) => deviceDistance(rules, { from, current: "DC", sheathed: one }));
    byPoint.set(key, limits);
  }
  return limits;
}

/** Whether a device stands near enough; null: it cannot be told. */
export function isNear(c: GuardedCircuit, metres: Span, point: FeedingPoint): boolean | null {
  const limits = distanceLimits(c, point);
  if (limits.every((l) => metres.high <= (l?.limit ?? Infinity) + SLACK)) return true;
  return limits.every((l) => metres.low > (l?.limit ?? Infinity) + SLACK) ? false : null;
}

/** Sources as people read them: `B1, B2 and CHG`. */
export function sourcesInWords(sources: readonly string[]): string {
  const named = sources.slice(0, 4);
  const more = sources.length - named.length;
  const last = more > 0 ? `${more} more` : named.pop();
  return named.length === 0 ? (last ?? "") : `${named.join(", ")} and ${last ?? ""}`;
}
