import { deviceFamily, judgeStart, START_MARGIN } from "../../device/index.ts";
import { cite } from "../../explain/index.ts";
import { START_OF_BRANCH_BREAKER } from "../../protect/choose-device.ts";
import type { Build, CircuitView } from "../build.ts";
import { figure } from "../figure.ts";
import { above, below, needed, type Measured, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import type { GuardedCircuit } from "./guards.ts";
import { heldDownTo } from "./held-down.ts";
import { whyNotAsked } from "./not-asked.ts";

const pump = (starts: string, device: string): string =>
  `parts:\n  pump: { kind: load, motor: DC, running: 6 A, ${starts} }\ncircuits:\n  W20: { path: PNL:3 → pump, length: 3 m, wire: 6 mm², ${device} }`;

export const deviceTrippedByStart = defineRule({
  id: "protection/device-tripped-by-start",
  title: "Device tripped by a start",
  severity: "should",
  danger: "people bridge what keeps opening",
  why: `While a load starts its device carries more than its rating. It stays closed at that current for one and a half times as long as the greatest
    start behind it lasts, the other loads flowing as they do, by the least time that the limits of its family promise. Typical curves promise
    nothing: where no limits are published it cannot be told, but for breakers of American make on alternating current: they may be 250 % of the current
    of a motor that starts with six times of it (NEC 430.52 and 430.7(B)), so up to 2.4 times its rating one of them bears a start. Where the maker of a load allows no device that bears its
    start, one that is chosen holds to what he allows, and that is told.`,
  silent: [
    "alternating-current circuits, which are not studied yet",
    "circuits behind which nothing starts, or without a device of their own",
    "the rush into the capacitors of an inverter, of which makers state neither amps nor time",
    "the main cable of a starter",
  ],
  alternating: true,
  sources: [
    { cite: cite("46-cfr-183", "183.380(h)", "read"), sets: ["us-small-craft"] },
    { cite: cite("nfpa-70-2023", "430.52", "memory"), sets: ["us-cabin", "us-rv"] },
    { cite: cite("trade-practice", "a device bears the starts behind it", "practice") },
  ],
  messages: {
    trips:
      "{place}: a start of {amps} for {time} asks that its {device} of {rating} stay closed for {limit}, and it may open after {measured}",
    heldDown:
      "{place}: a start of {amps} for {time} asks that its {device} of {rating} stay closed for {limit}, and it may open after {measured}; {load} allows none above {most} ahead of it",
  },
  cures: ["larger-device", "device-made-for-it"],
  examples: {
    good: [
      {
        says: "a start that its breaker bears",
        plan: pump("starting: 18 A, start time: 0.5 s", "breaker: 15 A at PNL"),
      },
      {
        says: "a start of twice its rating on an American breaker",
        plan: "rules: { DC: iso-small-craft 2020+A1:2022, AC: us-cabin NEC 2023 }\nsystems:\n  AC: { kind: AC, nominal: 120 V, cores: [L, N, PE] }\nparts:\n  INL: { kind: shore inlet, rated: 30 A, prospective current: 1…3 kA }\n  LC: { kind: load centre, ways: { 1: breaker } }\n  pump: { kind: load, motor: AC, rated: 900 W, running: 8 A, starting: 32 A }\ncircuits:\n  W20: { path: INL → LC, length: 1 m }\n  W21: { path: LC:1 → pump, length: 3 m, breaker: 15 A branch breaker at LC }",
      },
      { says: "a start within its rating", plan: pump("starting: 14 A, start time: 5 s", "breaker: 15 A at PNL") },
    ],
    bad: [
      {
        says: "32 A for a second on a breaker of 10 A",
        plan: pump("starting: 32 A, start time: 1 s", "breaker: 10 A thermal breaker at PNL"),
        fails: "trips",
        about: "circuits.W20",
      },
      {
        says: "a pump that starts with 40 A for two seconds, and whose maker allows a device of 10 A",
        plan: "parts:\n  pump: { kind: load, motor: DC, running: 4 A, starting: 40 A, start time: 2 s, duty: intermittent, largest fuse: 10 A }\ncircuits:\n  W20: { path: PNL:3 → pump, length: 3 m, wire: 6 mm² }",
        fails: "heldDown",
        about: "circuits.W20",
      },
      {
        says: "a fuse of which no times are published",
        plan: "parts:\n  winch: { kind: load, motor: DC, running: 60 A, starting: 150 A, start time: 1 s, duty: intermittent }\ncircuits:\n  W20: { path: BP → winch, length: 3 m, wire: 35 mm², fuse: 100 A ANL at BP }",
        fails: "cannot tell",
        about: "circuits.W20",
      },
    ],
  },
  judge(build, report) {
    for (const view of build.circuits) {
      const c = whyNotAsked(build, view);
      if (typeof c === "string") report.notApplicable(view.subject, c);
      else judgeCircuit(build, view, c, report);
    }
  },
});

function judgeCircuit(build: Build, view: CircuitView, c: GuardedCircuit, report: Report<"trips" | "heldDown">): void {
  const { subject } = view;
  const currents = build.settled.currents[build.settled.model.circuits.indexOf(c.model)];
  const { start = 0, startSeconds = 0 } = currents ?? {};
  if (c.guards.length === 0 || start <= 0) {
    if (c.untold && start > 0) report.cannotTell(subject, [needed("its fuse", subject)]);
    else report.notApplicable(subject, start > 0 ? "it has no device of its own" : "nothing behind it starts");
    return;
  }
  for (const guard of c.guards) {
    const family = guard.placed?.family ?? guard.family;
    // A rating that is not known may be as small as it likes.
    const rating = guard.rating ?? { low: 0, high: Infinity };
    if (start <= rating.low) {
      report.pass(subject, { measured: start, limit: rating.low, unit: "A" });
      continue;
    }
    if (family === null || guard.rating === null) {
      report.cannotTell(subject, [
        needed(guard.rating === null ? "the rating of its device" : "what its device is", subject),
      ]);
      continue;
    }
    const verdict = judgeStart(family, rating.low, start, startSeconds);
    const asked = START_MARGIN * startSeconds;
    const least = verdict.leastOpeningS ?? 0;
    const said = { measured: least, limit: asked, unit: "s", margin: above(least, asked) } as const;
    const { name } = deviceFamily(family);
    if (verdict.answer === "yes") report.pass(subject, said);
    else if (family === "branch_breaker" && start <= START_OF_BRANCH_BREAKER * rating.low)
      report.pass(subject, ofBranchBreaker(start, rating.low));
    else if (verdict.answer === "cannot tell") {
      report.cannotTell(subject, [needed(`how long its ${name} bears ${Number(start.toPrecision(3))} A`, subject)]);
    } else if (judgeStart(family, rating.high, start, startSeconds).answer === "yes") {
      report.cannotTell(subject, [needed("the rating of its device", subject)]);
    } else {
      const heldTo = heldDownTo(build, [guard]);
      report.fail(subject, heldTo === null ? "trips" : "heldDown", {
        ...said,
        trust: verdict.trust,
        words: {
          amps: figure(start, "A"),
          time: figure(startSeconds, "s"),
          device: name,
          rating: figure(rating.high, "A"),
          ...heldTo,
        },
      });
    }
  }
}

/** The code itself lets so much of a start pass through one of them. */
function ofBranchBreaker(start: number, rating: number): Measured {
  const limit = START_OF_BRANCH_BREAKER * rating;
  return { measured: start, limit, unit: "A", margin: below(start, limit) };
}
