import { deviceFamily, judgeStart, START_MARGIN } from "../../device/index.ts";
import { cite } from "../../explain/index.ts";
import type { Build, CircuitView } from "../build.ts";
import { figure } from "../figure.ts";
import { above, needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import type { GuardedCircuit } from "./guards.ts";
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
    nothing: where no limits are published it cannot be told.`,
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
  },
  cures: ["larger-device", "device-made-for-it"],
  examples: {
    good: [
      {
        says: "a start that its breaker bears",
        plan: pump("starting: 18 A, start time: 0.5 s", "breaker: 15 A at PNL"),
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

function judgeCircuit(build: Build, view: CircuitView, c: GuardedCircuit, report: Report<"trips">): void {
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
    else if (verdict.answer === "cannot tell") {
      report.cannotTell(subject, [needed(`how long its ${name} bears ${Number(start.toPrecision(3))} A`, subject)]);
    } else if (judgeStart(family, rating.high, start, startSeconds).answer === "yes") {
      report.cannotTell(subject, [needed("the rating of its device", subject)]);
    } else {
      report.fail(subject, "trips", {
        ...said,
        trust: verdict.trust,
        words: {
          amps: figure(start, "A"),
          time: figure(startSeconds, "s"),
          device: name,
          rating: figure(rating.high, "A"),
        },
      });
    }
  }
}
