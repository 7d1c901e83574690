import { cite } from "../../explain/index.ts";
import type { Build } from "../build.ts";
import { below, needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { lacksNumbers } from "../lacks-numbers.ts";
import { guardsOf, type EndName, type GuardedCircuit, type Guards } from "./guards.ts";
import { distanceLimits, isFedBeyond, isNear, lookAtEnd, type LookedAtEnd } from "./look-at-end.ts";
import { whyNotAsked } from "./not-asked.ts";

const POINTS = {
  "battery post": "from a battery post",
  "charging source": "from a charging source",
  "other source": "from where it joins",
} as const;

type Guarded = Extract<LookedAtEnd, { is: "guarded" }>;

export const distantDevice = defineRule({
  id: "protection/distant-device",
  title: "Device too far from its source",
  severity: { otherwise: "must", sets: { "vehicle-practice": "should" } },
  danger: "the stretch before the device is the one that chafes, and nothing opens a short circuit in it",
  why: `Up to its first device nothing opens a short circuit in a conductor, so that stretch must be too short to be damaged, or enclosed so that
    it cannot be. Metres are counted along the conductor from the battery post, from the charging source, or from where the conductor joins
    other metal; conductors before it that only lead on, through a switch say, and have no device, count as well.`,
  silent: [
    "alternating-current circuits, which are not studied yet",
    "ends that nothing feeds, or only what limits itself to what the conductor carries",
    "conductors without any device: protection/unprotected-conductor",
    "cables fed from both ends with the device at the other one: protection/one-ended-two-source-cable",
    "the main cable of a starter, returns of the earthed pole, links between units of one string",
  ],
  sources: [
    { cite: cite("33-cfr-183", "183.455(b)", "read"), sets: ["us-small-craft"] },
    { cite: cite("iso-13297-2020", "12.1", "memory"), sets: ["iso-small-craft"] },
    { cite: cite("trade-practice", "device near its source", "practice") },
  ],
  messages: {
    tooFar:
      "{place}: its first device stands {measured} along the conductor from {source}; {limit} is the most {point}",
  },
  cures: ["device-nearer", "sheathe", "device-at-source"],
  examples: {
    good: [
      {
        says: "a fuse on the bar",
        plan: "circuits:\n  W04: { path: BP → PNL, length: 1.5 m, demand: 30 A, fuse: 40 A at BP }",
      },
      {
        says: "150 mm from the bar",
        plan: "circuits:\n  W04: { path: BP → PNL, length: 1.5 m, demand: 30 A, fuse: 40 A 150 mm from BP }",
      },
      {
        says: "900 mm from the post, sheathed up to the switch",
        plan: "circuits:\n  W01: { path: B1 → SW1, length: 0.9 m, wire: 25 mm², sheathed: yes, fuse: 80 A at SW1 }",
      },
    ],
    bad: [
      {
        says: "310 mm from the post without a sheath",
        plan: "circuits:\n  W01: { path: B1 → SW1, length: 0.8 m, wire: 25 mm², fuse: 80 A 310 mm from B1 }",
        fails: "tooFar",
        about: "circuits.W01.from",
      },
      {
        says: "a lead and a switch before the fuse",
        plan: "circuits:\n  W01: { path: B1 → SW1, length: 0.8 m, wire: 25 mm², fuse: none }\n  W02: { path: SW1 → BP, length: 0.4 m, wire: 25 mm², fuse: 80 A at SW1 }",
        fails: "tooFar",
        about: "circuits.W02.from",
      },
      {
        says: "it is not known whether it is sheathed",
        plan: "circuits:\n  W01: { path: B1 → SW1, length: 0.8 m, wire: 25 mm², sheathed: unknown, fuse: 80 A 310 mm from B1 }",
        fails: "cannot tell",
        about: "circuits.W01.from",
      },
    ],
  },
  judge(build, report) {
    const guards = guardsOf(build);
    for (const view of build.circuits) {
      const c = whyNotAsked(build, view);
      for (const end of ["from", "to"] as const) {
        if (typeof c === "string") report.notApplicable(view.ends[end], c);
        else judgeEnd(build, guards, c, end, report);
      }
    }
  },
});

function judgeEnd(build: Build, guards: Guards, c: GuardedCircuit, end: EndName, report: Report<"tooFar">): void {
  const about = c.view.ends[end];
  const other = end === "from" ? "to" : "from";
  if (c.guards.length === 0) {
    if (!c.untold || !isFedBeyond(guards, c, end)) report.notApplicable(about, "it has no device of its own");
    else if (!lacksNumbers(build, c.view, report, about)) {
      report.cannotTell(about, [needed("its fuse", c.view.subject)]);
    }
    return;
  }
  const look = lookAtEnd(guards, c, end);
  switch (look.is) {
    case "unfed":
      report.notApplicable(about, "no source feeds this end");
      return;
    case "limited":
      report.notApplicable(about, "what feeds it limits itself to what it may carry");
      return;
    case "within":
    case "goes on":
      report.notApplicable(about, "the devices behind it guard it");
      return;
    case "exempt":
      report.notApplicable(about, look.says);
      return;
    case "bare":
      return;
    case "untold":
      if (!lacksNumbers(build, c.view, report, about)) report.cannotTell(about, look.needs);
      return;
    case "guarded":
      if (look.guard.end === end || !isFedBeyond(guards, c, other)) {
        if (!lacksNumbers(build, c.view, report, about)) measure(c, end, look, report);
      } else if (isNear(c, look.metres, look.point) === true) measure(c, end, look, report);
      else report.notApplicable(about, "it is fed from both ends: protection/one-ended-two-source-cable");
  }
}

function measure(c: GuardedCircuit, end: EndName, look: Guarded, report: Report<"tooFar">): void {
  const about = c.view.ends[end];
  const { metres, point } = look;
  const limits = distanceLimits(c, point);
  const told = limits.filter((l) => l !== null);
  if (told.length === 0) {
    report.notApplicable(about, "its rule set says nothing of such a conductor");
    return;
  }
  // Where a sheath is all that is asked, there is no number.
  const tightest = told.reduce((a, b) => ((b.limit ?? Infinity) < (a.limit ?? Infinity) ? b : a));
  const limit = tightest.limit ?? undefined;
  const isNearEnough = isNear(c, metres, point);
  if (isNearEnough === true) {
    const margin = limit === undefined ? undefined : below(metres.high, limit);
    report.pass(about, { measured: metres.high, limit, unit: "m", margin });
  } else if (point.doubt !== null) {
    report.cannotTell(about, [needed(`the fuse of ${point.doubt.view.id}`, point.doubt.view.subject)]);
  } else if (isNearEnough === false) {
    report.fail(about, "tooFar", {
      measured: metres.low,
      limit,
      unit: "m",
      margin: limit === undefined ? undefined : below(metres.low, limit),
      source: tightest.source,
      words: {
        source: point.part,
        point: `${POINTS[point.from]}, ${point.sheathed === true ? "in a sheath" : "without a sheath"}`,
      },
    });
  } else {
    const doubtful = told.length > 1 && point.sheathed === "unknown";
    report.cannotTell(about, [
      ...(doubtful ? [needed("whether it lies in a sheath", c.view.subject)] : []),
      ...(metres.low < metres.high ? [needed("how far along it the device stands", c.view.subject)] : []),
    ]);
  }
}
