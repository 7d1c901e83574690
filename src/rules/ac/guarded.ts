import type { SwitchingGroup, TakerState } from "../../switching/index.ts";
import { earthingRules, type ResidualDemand } from "../../ruleset/earthing-rules.ts";
import type { ResidualGuard } from "../../system/index.ts";
import { nameSome } from "../battery/name-some.ts";
import type { Build, Subject } from "../build.ts";
import type { Needed } from "../finding.ts";
import { needed } from "../report.ts";
import type { RuleSetId } from "../rule-set-id.ts";
import type { sourcesOf } from "./fed.ts";

/** Residual devices by their id. */
export const guardsOf = ({ system }: Build): ReadonlyMap<string, ResidualGuard> =>
  new Map(system.elements.flatMap((e) => (e.is === "residual guard" ? [[e.id, e]] : [])));

/** What is not known of a device that may guard: at what it opens, or whether a join lies behind it and blinds it. */
export type Unsure = "opens at" | "join";

const WHAT: Readonly<Record<Unsure, string>> = {
  "opens at": "at what its residual device opens",
  join: "whether neutral and earth are joined behind its residual device, which would then see nothing",
};

/** What is asked of whoever knows. */
export const unsureGuard = (is: Unsure, subject: Subject): Needed => needed(WHAT[is], subject);

/** What a set asks of the device ahead of what mains feeds, or of its outlets, and not by the place of an outlet; null: nothing. */
export const demandAhead = (set: RuleSetId | null): ResidualDemand | null =>
  (set === null ? null : earthingRules({ id: set }))?.residual.find(({ of }) => of !== "places") ?? null;

/** Where a device has to stand to count. */
export type Standing = "ahead" | "ahead or inside";

/** One inside an outlet guards what is plugged in there: the cable to it, and all else that the supply feeds, stay bare. */
export const standingOf = ({ of }: Pick<ResidualDemand, "of">): Standing =>
  of === "supply" || of === "final circuits" ? "ahead" : "ahead or inside";

/** Why a device behind a source that is joined to earth nowhere is neither enough nor too little. */
export const SEES_NOTHING =
  "neutral and earth of what feeds it are joined nowhere, or nobody says whether they are: without a join a first fault drives no current, and no residual device sees it; see ac/missing-neutral-earth-join";

/**
 * Whether a taker is guarded against leakage of at most so many amps in a state: by a device that neutral comes back through, with the join of neutral and
 * earth ahead of it.
 *
 * @returns `no join`: a device is there, and where no join of neutral and earth is, or nobody says whether one is, it may see nothing of a first fault; or what is not known, where one is there
 * that may or may not guard
 */
export function isGuarded(
  at: TakerState,
  guards: ReadonlyMap<string, ResidualGuard>,
  mostAmps: number,
  standing: Standing = "ahead or inside",
): boolean | Unsure | "no join" {
  let unsure: Unsure | "no join" | false = false;
  for (const { guard, joinAhead, neutralThrough } of at.guards) {
    const device = guards.get(guard);
    const amps = device?.amps;
    if (amps === undefined || joinAhead === false || neutralThrough === false) continue;
    if (standing === "ahead" && device?.contacts.length === 0) continue;
    if (amps !== "unknown" && amps.high > mostAmps + 1e-9) continue;
    // Of one place all devices have the same joins, so that none of them sees anything.
    if (joinAhead === "no join" || joinAhead === "perhaps none") unsure ||= "no join";
    else if (amps === "unknown") unsure = "opens at";
    else if (joinAhead === "unknown") unsure ||= "join";
    else return true;
  }
  return unsure;
}

/** Whether a device that would guard stands in its line and not in its neutral, which is borrowed: it opens as soon as anything flows. */
export const borrows = (at: TakerState, guards: ReadonlyMap<string, ResidualGuard>, mostAmps: number): boolean =>
  at.guards.some(({ guard, neutralThrough }) => {
    const amps = guards.get(guard)?.amps;
    return neutralThrough === false && amps !== undefined && amps !== "unknown" && amps.high <= mostAmps + 1e-9;
  });

/** Why such a one is not asked for a device. */
export const BORROWS =
  "its residual device has its line and not its neutral, and opens as soon as anything flows: ac/shared-neutral-behind-two-guards tells it";

/** A device that would guard, and what keeps it from seeing a fault; in words. */
export interface Blinded {
  readonly device: string;
  /** Where neutral and earth are joined behind it. */
  readonly joins: string;
}

/** The device that would guard a taker, but that a join behind it keeps, or may keep, from seeing a fault; null: there is none. */
export function blindedAt(
  { islands }: Pick<SwitchingGroup, "islands">,
  at: TakerState,
  guards: ReadonlyMap<string, ResidualGuard>,
  mostAmps: number,
  sources: ReturnType<typeof sourcesOf>,
): Blinded | null {
  const blind = at.guards.find(({ guard, joinAhead, neutralThrough }) => {
    const amps = guards.get(guard)?.amps;
    const would = amps !== undefined && amps !== "unknown" && amps.high <= mostAmps + 1e-9;
    return would && (joinAhead === false || joinAhead === "unknown") && neutralThrough !== false;
  });
  if (blind === undefined) return null;
  const joins = islands.find((i) => i.sources.some((s) => at.sources.includes(s)))?.joins ?? [];
  // What comes with a source that feeds lies ahead.
  const feeding = new Set(at.sources.map((s) => sources.get(s)?.part));
  const inside = joins.filter((j) => j.where !== "ashore");
  const behind = inside.filter((j) => !feeding.has(j.part));
  const own = behind.length > 0 ? behind : inside;
  return { device: guardName(guards.get(blind.guard)), joins: nameSome(own.map((j) => j.part)) };
}

/** Its board and place in it, or its part; in words. */
export function guardName(guard: ResidualGuard | undefined): string {
  const { id = "", part = "" } = guard ?? {};
  const inside = id
    .slice(part.length)
    .replace(/:residual$/, "")
    .slice(1);
  const place = inside === "" ? part : inside === "main" ? `the main of ${part}` : `way ${inside} of ${part}`;
  return `the residual device in ${place}`;
}

/** What guards people: 30 mA. */
export const THIRTY = 0.03;
/** What guards people by class A of UL 943: 4 to 6 mA, sold as 5 mA. */
export const CLASS_A = 0.006;
