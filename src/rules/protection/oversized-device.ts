import { conventional, deviceFamily, type DeviceFamilyId } from "../../device/index.ts";
import { cite } from "../../explain/index.ts";
import { amps, volts } from "../../quantity/index.ts";
import { deviceLimit, type DeviceLimit } from "../../ruleset/index.ts";
import type { PlacedDevice } from "../../size/index.ts";
import { bestAmpacity } from "../best-ampacity.ts";
import type { Build, CircuitView } from "../build.ts";
import { lacksNumbers, unrated } from "../lacks-numbers.ts";
import { figure } from "../figure.ts";
import type { Needed } from "../finding.ts";
import { below, needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, saysYes } from "../stated.ts";
import { wireNeeded } from "../wire-needed.ts";
import { guardsOf, type EndName, type Guard, type GuardedCircuit, type Guards, type Span } from "./guards.ts";
import { lookAtEnd } from "./look-at-end.ts";
import { guardedOrTold } from "./not-asked.ts";

/** What guards a conductor at one end. */
interface AtEnd {
  readonly rating: Span;
  readonly family: DeviceFamilyId | null;
  /** In words: the device itself, those behind, or one ahead of the current that a return brings back. */
  readonly is: "device" | "behind" | "back";
  /** Rating of its own device, where a smaller one ahead of it counts. */
  readonly own?: number;
  /** Not in the plan: chosen for it. */
  readonly isProposed?: boolean;
  /** The greatest device for the conductor; undefined where it was not looked up, null where there is none. */
  readonly most?: DeviceLimit | null;
}

/** Rounding in the ninth digit is no excess. */
const SLACK = 1e-9;

export const oversizedDevice = defineRule({
  id: "protection/oversized-device",
  title: "Oversized device",
  severity: "must",
  danger: "the wire is the fuse",
  why: `A device is rated no higher than its conductor may carry in its hottest stretch, or the next standard rating above that where the rule set
    allows it. At each end the smallest device counts. A conductor that only goes on from a device behind it, after a switch say, is guarded by
    that one. A return that is a circuit of its own is guarded by the device ahead of what it brings back, as the return of a pair is; one that
    several loads share, by a device ahead of them all, or it carries what those ahead of each let through (common practice). The IEC sets ask as well that it opens by 1.45 times what the conductor may carry: where its kind opens later, it is the smaller, and
    where nothing is published it cannot be told. Under us-small-craft the standard decides; what the law alone would allow is told beside it.`,
  silent: [
    "alternating-current circuits, which are not studied yet",
    "circuits without a device of their own that do not go on from one: protection/unprotected-conductor",
    "motors with an overload protector of their own, whose device opens shorts alone, in buildings and caravans",
    "the main cable of a starter, links between units of one string",
  ],
  alternating: true,
  sources: [
    { cite: cite("abyc-e-11", "11.10", "article"), sets: ["us-small-craft"] },
    { cite: cite("iso-13297-2020", "13.1.5", "memory"), sets: ["iso-small-craft"] },
    { cite: cite("nfpa-70-2023", "240.4", "read"), sets: ["us-cabin", "us-rv"] },
    { cite: cite("iec-60364-4-43", "433.1", "read"), sets: ["iec-cabin", "iec-caravan", "au-nz-vehicle"] },
    { cite: cite("trade-practice", "a device no larger than its wire", "practice") },
  ],
  messages: {
    oversized: "{place}: its device of {measured} is more than the {limit} that {size} may have",
    lawful:
      "{place}: its device of {measured} is more than the {limit} that {size} may have; the law alone would allow {law}",
    back: "{place}: the device ahead of what it brings back lets {measured} through, more than the {limit} that {size} may have",
    behind: "{place}: the devices ahead of it let {measured} through, more than the {limit} that {size} may have",
  },
  cures: ["smaller-device", "next-size", "looser-bundle", "hotter-insulation", "copper"],
  examples: {
    good: [
      {
        says: "15 A on 2.5 mm²",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 2.5 mm², breaker: 15 A at PNL }",
      },
      {
        says: "35 A on 31.5 A, the next standard rating",
        plan: "rules: { DC: us-small-craft ABYC E-11 }\nstock: { sizes: AWG, insulation: 105 °C }\ncircuits:\n  W04: { path: BP → PNL, length: 1.5 m, demand: 20 A, wire: 12 AWG, fuse: 35 A at BP }",
      },
    ],
    bad: [
      {
        says: "30 A on 1.5 mm²",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 1.5 mm², breaker: 30 A at PNL }",
        fails: "oversized",
        about: "circuits.W10",
      },
      {
        says: "40 A on 14 AWG by the American set",
        plan: "rules: { DC: us-small-craft ABYC E-11 }\nstock: { sizes: AWG, insulation: 105 °C }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 14 AWG, breaker: 40 A at PNL }",
        fails: "lawful",
        about: "circuits.W10",
      },
      {
        says: "thin wire behind the switch",
        plan: "circuits:\n  W01: { path: B1 → SW1, length: 0.8 m, wire: 50 mm², sheathed: yes, fuse: 100 A at B1 }\n  W02: { path: SW1 → BP, length: 0.4 m, wire: 10 mm² }",
        fails: "behind",
        about: "circuits.W02",
      },
      {
        says: "a return that is a circuit of its own is thinner than its plus",
        plan: "circuits:\n  W10: { path: BP → lamp, length: 2 m, wire: 2.5 mm², fuse: 25 A blade at BP, return: none }\n  W11: { path: lamp:− → BN, length: 2 m, wire: 1 mm² }",
        fails: "back",
        about: "circuits.W11",
      },
      {
        says: "the rating is not known",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 1.5 mm², breaker: unknown A at PNL }",
        fails: "cannot tell",
        about: "circuits.W10",
      },
    ],
  },
  judge(build, report) {
    const guards = guardsOf(build);
    for (const view of build.circuits) {
      if (judgeReturn(build, view, report)) continue;
      const c = guardedOrTold(build, view, report);
      if (c !== null) judgeCircuit(build, guards, c, report);
    }
  },
});

/** What a set that asks when a device is sure to open lacks of one that is small enough; null: nothing. */
function opensNeeded(
  { view }: Pick<GuardedCircuit, "view">,
  rating: number,
  family: DeviceFamilyId | null,
): Needed | null {
  const opensBy = view.ruleSet?.deviceSize.opensBy;
  if (opensBy === undefined || family === null || conventional(family, rating).trip !== null) return null;
  const { name } = deviceFamily(family);
  return needed(
    `whether its ${name} is sure to open by ${String(opensBy)} times what its wire may carry`,
    view.subject,
  );
}

type Message = "oversized" | "lawful" | "behind" | "back";

/**
 * Judges a return that is a circuit of its own by the device ahead of what it brings back.
 *
 * @returns false: it is none, or nothing stands ahead of it
 */
function judgeReturn(build: Build, view: CircuitView, report: Report<Message>): boolean {
  const { devices, subject, model } = view;
  if (devices === null || model === null || devices.guardedBy.length === 0) return false;
  if (lacksNumbers(build, view, report)) return true;
  if (devices.unknown) {
    report.cannotTell(subject, [needed(`the device of ${devices.guardedBy.join(", ")}`, subject)]);
    return true;
  }
  const rated = devices.guards.filter((d) => d.rating !== null);
  const least = rated.reduce<PlacedDevice | null>((a, b) => ((a?.rating ?? Infinity) <= (b.rating ?? 0) ? a : b), null);
  if (least?.rating == null) return judgeSum(view, report);
  const rating = { low: least.rating, high: least.given?.rating === "unknown" ? Infinity : least.rating };
  const isProposed = least.given === null;
  judgeEnd(build, { view }, { rating, family: least.family, is: "back", isProposed }, report);
  return true;
}

/** Where no one device stands ahead of all that it brings back, it carries what all of them let through. */
function judgeSum(view: CircuitView, report: Report<Message>): boolean {
  const { subject, design, devices } = view;
  const answersFor = devices?.answersFor ?? 0;
  if (answersFor === 0 || design.ampacityA === null) return false;
  const said = {
    measured: answersFor,
    limit: design.ampacityA,
    unit: "A",
    margin: below(answersFor, design.ampacityA),
  } as const;
  if (answersFor <= design.ampacityA + SLACK) report.pass(subject, said);
  else {
    report.fail(subject, "back", {
      ...said,
      severity: "should",
      source: cite("trade-practice", "a return carries what the devices ahead of it let through", "practice"),
      words: { size: design.size?.label ?? "its wire" },
    });
  }
  return true;
}

function judgeCircuit(build: Build, guards: Guards, c: GuardedCircuit, report: Report<Message>): void {
  const { subject } = c.view;
  if (c.untold) {
    report.cannotTell(subject, [needed("its fuse", subject)]);
    return;
  }
  if (c.view.design.ampacityTrust === "missing" && c.guards.length > 0) {
    report.cannotTell(subject, [unrated(build, c.view)]);
    return;
  }
  const from = atEnd(guards, c, "from");
  const to = atEnd(guards, c, "to");
  if (from !== null) judgeEnd(build, c, from, report);
  if (to !== null) judgeEnd(build, c, to, report);
  if (from === null && to === null) {
    const isOpen = c.guards.length > 0;
    report.notApplicable(
      subject,
      isOpen ? "no device on sale for it: protection/undersized-device" : "it has no device of its own",
    );
  }
}

function judgeEnd(build: Build, c: Pick<GuardedCircuit, "view">, at: AtEnd, report: Report<Message>): void {
  const { subject, design } = c.view;
  const { rating, family, is } = at;
  if (rating.low > UNTOLD) {
    report.cannotTell(subject, [needed("the rating of its device", subject)]);
    return;
  }
  if (design.ampacityA === null) {
    report.cannotTell(subject, [wireNeeded(c.view)]);
    return;
  }
  const most = at.most === undefined ? limitOf(c, design.ampacityA, family) : at.most;
  if (most === null) return;
  const said = (measured: number) =>
    ({ measured, limit: most.upTo, unit: "A", margin: below(measured, most.upTo) }) as const;
  const opens = rating.high <= most.upTo + SLACK ? opensNeeded(c, rating.high, family) : null;
  // Of one that is still to be bought its maker's curve tells, before it is bought.
  if (opens !== null) report.cannotTell(subject, [opens], at.isProposed === true ? { severity: "note" } : {});
  else if (rating.high <= most.upTo + SLACK) report.pass(subject, said(rating.high));
  else if (rating.low <= most.upTo + SLACK) {
    report.cannotTell(subject, [needed("the rating of its device", subject)]);
  } else if (is !== "behind" && isShortCircuitOnly(build, c, rating.low)) {
    report.notApplicable(subject, "a protector at its end guards it against overload; the device opens shorts alone");
  } else if (rating.low <= (limitOf(c, bestAmpacity(build.settled, c.view), family)?.upTo ?? 0) + SLACK) {
    report.cannotTell(subject, [needed("the rating of its insulation", subject)]);
  } else {
    report.fail(subject, is !== "device" ? is : most.law === null ? "oversized" : "lawful", {
      ...said(at.own ?? rating.low),
      source: most.source,
      trust: design.ampacityTrust,
      words: {
        size: design.size?.label ?? "its wire",
        ...(most.law === null ? {} : { law: figure(most.law.upTo, "A") }),
      },
    });
  }
}

/** A breaker may have so many times the current of a motor that has an overload protector of its own: NEC 430.52 (memory). */
const MOTOR_TIMES = 2.5;

/** Whether all that hangs on a circuit are motors that a protector of their own guards against overload, by a set that lets the device be larger then. */
function isShortCircuitOnly(build: Build, { view }: Pick<GuardedCircuit, "view">, rating: number): boolean {
  const { set } = view.subject;
  const isBuilding =
    set === "us-cabin" || set === "us-rv" || set === "iec-cabin" || set === "iec-caravan" || set === "au-nz-vehicle";
  const { draws } = view.circuit;
  return (
    isBuilding &&
    draws.length > 0 &&
    rating <= MOTOR_TIMES * (view.design.steadyA ?? 0) &&
    draws.every((d) => {
      const part = build.part(d);
      return part !== undefined && saysYes(factsOf(part), "thermal protector") === true;
    })
  );
}

/** A rating beyond this stands for one that is not known. */
const UNTOLD = 1e8;

/** What guards an end: its smallest device, or what it goes on from. */
function atEnd(guards: Guards, c: GuardedCircuit, end: EndName): AtEnd | null {
  const { design } = c.view;
  let hasOwn = false;
  let isRated = true;
  let least: Guard | null = null;
  let leastRating: Span | null = null;
  for (const g of c.guards) {
    if (g.end !== end || isNothingOnSale(g)) continue;
    hasOwn = true;
    if (g.rating === null) isRated = false;
    else if (leastRating === null || leastRating.high > g.rating.high) [least, leastRating] = [g, g.rating];
  }
  if (hasOwn) {
    const family = least?.family ?? least?.placed?.family ?? null;
    const rating = { low: isRated ? (leastRating?.low ?? 0) : 0, high: leastRating?.high ?? Infinity };
    if (design.ampacityA === null) return { rating, family, is: "device" };
    const most = limitOf(c, design.ampacityA, family);
    const isProposed = least?.placed?.given === null;
    if (rating.high <= (most?.upTo ?? 0) + SLACK) return { rating, family, is: "device", most, isProposed };
    // A smaller device behind it opens first.
    const push = guards.push(c.node[end], c.edge[end], "sure");
    if (push.sources.length === 0 || push.amps >= rating.high) return { rating, family, is: "device", most };
    return {
      rating: { low: Math.min(rating.low, push.amps), high: push.amps },
      family: null,
      is: "device",
      own: rating.low,
    };
  }
  if (c.guards.length > 0) return null;
  const look = lookAtEnd(guards, c, end);
  if (look.is !== "goes on" && look.is !== "within") return null;
  const { guardedBy } = guards.back(c, end);
  if (guardedBy === null) return null;
  const single = guardedBy.rating?.high === look.amps;
  return {
    rating: { low: look.amps, high: look.amps },
    family: single ? (guardedBy.family ?? guardedBy.placed?.family ?? null) : null,
    is: "behind",
    isProposed: guardedBy.placed?.given === null,
  };
}

/** What was proposed and is not on sale has no rating to judge. */
const isNothingOnSale = (g: Guard): boolean => g.placed !== null && g.placed.given === null && g.rating === null;

function limitOf(
  { view }: Pick<GuardedCircuit, "view">,
  ampacity: number,
  family: DeviceFamilyId | null,
): DeviceLimit | null {
  const { ruleSet, supply, model, design } = view;
  if (ruleSet === null) return null;
  const { makes = [], small = [] } = model?.rungs?.ladder ?? {};
  return deviceLimit(ruleSet.deviceSize, {
    ampacity: amps(ampacity),
    current: "DC",
    nominal: volts(supply?.nominal ?? 12),
    ratings: family === null ? [] : deviceFamily(family).standardRatings,
    family,
    small: small[makes.findIndex(({ size }) => size.label === design.size?.label)] ?? null,
  });
}
