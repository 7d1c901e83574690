import type { CircuitFaults, EndFaults } from "../../size/index.ts";
import type { Build, CircuitView } from "../build.ts";
import type { Needed } from "../finding.ts";
import { wireNeeded } from "../wire-needed.ts";
import { worstThrough, type WorstThrough } from "./opens-in-time.ts";
import { KIND_ASKED_THERE, possibleDevice } from "./possible-devices.ts";

/** Whether the conductors of a circuit bear the shorts in it until they are cleared; `share`: what is let through, of what they bear. */
export type Borne =
  | { readonly is: "borne"; readonly share: number }
  | {
      readonly is: "burnt";
      readonly share: number;
      readonly through: { readonly amps: number; readonly seconds: number };
    }
  | { readonly is: "not known"; readonly needs: Needed }
  | { readonly is: "not proven"; readonly why: string };

/** Of a fault's current a device that carries so much of it carries all. */
const ALL = 0.99;

/**
 * What shorts let through the conductors of a circuit within 5 s, against what these bear: by the greatest times that the standards of its devices allow at every
 * current between the least short and the greatest.
 *
 * @param shorts those in it, or those that come back through it
 * @source IEC 60364-4-43 434.5.2
 */
export function borneOf(
  build: Build,
  study: EndFaults,
  view: CircuitView,
  faults: CircuitFaults,
  shorts: CircuitFaults["ends"],
): Borne {
  const { subject } = view;
  // A short in one of several in parallel, near its source, goes through that one alone.
  const limits = faults.conductors.map((c) => c.withstand.leg);
  if (limits.includes(null)) return { is: "not known", needs: wireNeeded(view) };
  const limit = Math.min(...limits.map((l) => l ?? Infinity));
  const ends = shorts.flatMap((e) => e.greatest ?? []);
  const most = Math.max(0, ...ends.map((g) => g.amps.high));
  const least = Math.min(most, ...shorts.flatMap((e) => e.least.map((l) => l.amps.low)));
  const greatest = ends.find((g) => g.amps.high === most);
  const seen = (greatest?.course.sees ?? [])
    .filter(({ amps }) => amps >= ALL * most)
    .map(({ device }) => possibleDevice(build, study, device))
    .filter(({ kinds }) => kinds.length > 0);
  if (seen.length === 0)
    return { is: "not proven", why: "no device sees the whole of a fault in it, or it is not known what it is" };
  const named = seen.flatMap(({ kinds, needs }) => (needs === null ? kinds : []));
  const [unnamed, ...others] = seen
    .filter(({ needs }) => needs !== null)
    .sort((x, y) => (x.kinds[0]?.rating ?? 0) - (y.kinds[0]?.rating ?? 0));
  const sets = unnamed === undefined ? [named] : unnamed.kinds.map((kind) => [...named, kind]);
  const worst = sets.map((devices) => worstThrough(devices, { low: least, high: most }));
  // Left out, a further fuse of no stated kind can only have made it worse: what passes without it passes.
  const isBurnt = ({ allowed }: WorstThrough) => allowed !== null && allowed.amps ** 2 * allowed.seconds > limit;
  const isBorne = (w: WorstThrough) => w.atMost !== null && w.atMost <= limit && !isBurnt(w);
  const needs = unnamed?.needs ?? null;
  const isSure = worst.every(isBorne) || (worst.every(isBurnt) && others.length === 0);
  if (needs !== null && !isSure) {
    return needs.about === subject.path ? { is: "not known", needs } : { is: "not proven", why: KIND_ASKED_THERE };
  }
  const { allowed = null, atMost = null } = worst[0] ?? {};
  const through = allowed === null ? 0 : allowed.amps ** 2 * allowed.seconds;
  if (allowed !== null && through > limit) return { is: "burnt", share: through / limit, through: allowed };
  if (atMost !== null && atMost <= limit) return { is: "borne", share: atMost / limit };
  return { is: "not proven", why: "nothing is published of what its devices let through" };
}
