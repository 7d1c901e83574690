import { conventional, openingBand } from "../../device/index.ts";
import { cite } from "../../explain/index.ts";
import type { Build, PartView } from "../build.ts";
import { figure } from "../figure.ts";
import type { Needed } from "../finding.ts";
import { below, needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, saysFigure, saysYes } from "../stated.ts";
import { guardsOf, UNTOLD_AMPS, type Guard, type Span } from "./guards.ts";

const pump = (facts: string, device = "breaker: 15 A thermal breaker at PNL"): string =>
  `parts:\n  pump: { kind: bilge pump, running: 5 A${facts} }\ncircuits:\n  W20: { path: PNL:3 → pump, length: 3 m, wire: 4 mm², ${device} }`;

/** s: a held rotor is left to itself for so long in the test of E-11. */
const SEVEN_HOURS = 7 * 3600;

export const unguardedStalledMotor = defineRule({
  id: "protection/unguarded-stalled-motor",
  title: "Unguarded stalled motor",
  severity: { otherwise: "note", sets: { "us-small-craft": "should", "iso-small-craft": "should" } },
  danger: "a jammed bilge pump smoulders for hours",
  why: `A motor that is held takes many times its running current, yet often less than its fuse opens at. Something opens it: a device on its circuit
    that at the current of its held rotor has certainly opened within seven hours, or a protector in the motor itself. What the device does at
    that current is read from the limits of its family.`,
  silent: [
    "motors whose maker states no current with the rotor held",
    "motors that are protected by themselves, or that their own impedance protects",
    "alternating current, which is not studied yet",
  ],
  sources: [
    { cite: cite("abyc-e-11", "motors with a held rotor, seven hours", "article"), sets: ["us-small-craft"] },
    { cite: cite("iso-13297-2020", "13.1.4", "read"), sets: ["iso-small-craft"] },
    { cite: cite("nfpa-70-2023", "430.32", "read"), sets: ["us-cabin", "us-rv"] },
    { cite: cite("trade-practice", "a held rotor is opened", "practice") },
  ],
  messages: {
    held: "{place} takes {measured} with its rotor held, and its device of {rating} need not open below {limit}",
    none: "{place} takes {measured} with its rotor held, and no device stands before it",
  },
  cures: ["smaller-device", "thermal-protector"],
  examples: {
    good: [
      { says: "a current that opens its breaker", plan: pump(", locked rotor: 30 A", "fuse: 10 A blade at PNL") },
      { says: "a protector in the motor", plan: pump(", locked rotor: 12 A, thermal protector: yes") },
      { says: "nothing stated", plan: pump("") },
    ],
    bad: [
      { says: "held at less than its rating", plan: pump(", locked rotor: 12 A"), fails: "held", about: "parts.pump" },
      {
        says: "no device at all",
        plan: "parts:\n  B2: { kind: battery, chemistry: AGM, capacity: 75 Ah }\n  pump: { kind: bilge pump, running: 5 A, locked rotor: 20 A }\ncircuits:\n  W20: { path: B2 → pump, length: 3 m, wire: 4 mm², fuse: none, return: B2 }",
        fails: "none",
        about: "parts.pump",
      },
      { says: "nobody knows", plan: pump(", locked rotor: unknown"), fails: "cannot tell", about: "parts.pump" },
    ],
  },
  judge(build, report) {
    const guards = guardsOf(build);
    const plusOf = new Map(guards.grid.draws.map((d) => [d.element.part, d.plus]));
    for (const view of build.parts) {
      if (view.part.traits.load !== true) continue;
      const { subject } = view;
      const facts = factsOf(view);
      const held = saysFigure(facts, "locked rotor");
      const isProtected = saysYes(facts, "thermal protector");
      const plus = plusOf.get(view.id);
      if (view.part.current === "AC") report.notApplicable(subject, "alternating current is not studied yet");
      else if (isProtected === true) report.notApplicable(subject, "it protects itself");
      else if (held === undefined) report.notApplicable(subject, "its maker states no current with its rotor held");
      else if (plus === undefined) report.notApplicable(subject, "it stands in no circuit");
      else if (held === "unknown") report.cannotTell(subject, [needed("its current with the rotor held", subject)]);
      else judgeMotor(build, view, held, plus, isProtected === "unknown", report);
    }
  },
});

function judgeMotor(
  build: Build,
  view: PartView,
  held: Span,
  plus: number,
  perhaps: boolean,
  report: Report<"held" | "none">,
): void {
  const { subject } = view;
  const own = devicesBefore(build, view.id);
  const needs: Needed[] = perhaps ? [needed("whether it protects itself", subject)] : [];
  let rating = Infinity;
  let opensFrom = Infinity;
  for (const guard of own) {
    const family = guard.placed?.family ?? guard.family;
    if (guard.rating === null || (family === null && held.high > guard.rating.low)) {
      needs.push(needed(`the device of ${view.id}`, subject));
      continue;
    }
    rating = Math.min(rating, guard.rating.high);
    const trip = family === null ? null : conventional(family, guard.rating.high).trip;
    opensFrom = Math.min(opensFrom, trip?.current ?? guard.rating.high);
    const { max = null, lacks = [] } = family === null ? {} : openingBand(family, guard.rating.high, held.low);
    if (max !== null && max.s <= SEVEN_HOURS) {
      report.pass(subject, { measured: max.s, limit: SEVEN_HOURS, unit: "s", margin: below(max.s, SEVEN_HOURS) });
      return;
    }
    if (lacks.includes("max") && held.high > guard.rating.low)
      needs.push(needed(`the current at which the device of ${view.id} opens`, subject));
  }
  if (own.length === 0) {
    const behind = guardsOf(build).push(plus, -1, "sure");
    if (behind.sources.length === 0) {
      report.notApplicable(subject, "no source reaches it");
      return;
    }
    if (behind.amps < UNTOLD_AMPS && behind.amps < held.high)
      needs.push(needed("what the device ahead of it is", subject));
    rating = opensFrom = behind.amps;
  }
  if (needs.length > 0) report.cannotTell(subject, needs);
  else if (!Number.isFinite(rating)) report.fail(subject, "none", { measured: held.low, unit: "A" });
  else {
    report.fail(subject, "held", {
      measured: held.low,
      limit: opensFrom,
      unit: "A",
      words: { rating: figure(rating, "A") },
    });
  }
}

/** Devices of the circuits that bring a load its current. */
function devicesBefore(build: Build, part: string): readonly Guard[] {
  const guards = guardsOf(build);
  return build.circuits.flatMap((view) => {
    const { from, to, draws } = view.circuit;
    const isOwn = to.part === part || from.part === part || draws.includes(part);
    return isOwn ? (guards.of(view)?.guards ?? []) : [];
  });
}
