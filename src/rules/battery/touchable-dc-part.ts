import { cite } from "../../explain/index.ts";
import type { Build, PartView, Subject } from "../build.ts";
import { below, needed, type Report } from "../report.ts";
import { defineRule, severityOf } from "../rule.ts";
import { isBoat } from "./batteries.ts";
import { nameSome } from "./name-some.ts";
import { joinedPieces } from "./pieces.ts";

/** Above these direct volts live parts are covered: everywhere, and bare parts on boats. */
const TOUCH = { anywhere: 60, boat: 30 } as const;

const high = (facts: string): string =>
  `systems:\n  DC: { kind: DC, nominal: 72 V, return: BN }\nrules: { DC: iec-cabin 2009 }\nparts:\n  B1: { kind: battery, chemistry: AGM, nominal: 72 V, capacity: 100 Ah }\n  BP: { kind: bus bar, rated: 250 A${facts} }\n  BN: { kind: bus bar, rated: 250 A, covered: yes }\n  PNL: { kind: panel, ways: 12, device: breaker, negative bar: yes, covered: yes }\n  fridge: { kind: load, running: 1 A }`;

export const touchableDcPart = defineRule({
  id: "battery/touchable-dc-part",
  title: "Touchable DC part",
  severity: { otherwise: "should", sets: { "iec-cabin": "must", "iec-caravan": "must", "au-nz-vehicle": "must" } },
  danger: "above 60 V direct current a dry hand can be held to what it touches; a wet one far below",
  why: `Where a system of direct current reaches more than 60 V while it charges, or a string of solar modules in the greatest cold, its bars and boards are
    behind covers that take a tool to open: \`covered: yes\`. On boats a part that is said to be bare counts from 30 V on.`,
  silent: [
    "systems of 60 V and less: 51.2 V banks charged to 58.4 V are below it",
    "parts of which the plan does not say, where it is only advised",
  ],
  sources: [
    { cite: cite("nfpa-70-2023", "110.27", "memory"), sets: ["us-cabin"] },
    { cite: cite("trade-practice", "IEC 60364-4-41 414: 60 V direct current", "memory") },
  ],
  messages: { bare: "{place} reaches {measured}, more than {limit}, and {others} {stand} bare" },
  cures: ["cover"],
  examples: {
    good: [
      { says: "12 V", plan: "" },
      { says: "72 V behind covers", plan: high(", covered: yes") },
    ],
    bad: [
      { says: "a bare bar at 72 V", plan: high(", covered: no"), fails: "bare", about: "systems.DC" },
      { says: "the plan does not say of a bar at 72 V", plan: high(""), fails: "cannot tell", about: "systems.DC" },
    ],
  },
  judge(build, report) {
    for (const supply of build.system.supplies) {
      if (supply.current !== "DC") continue;
      const own = build.parts.filter((p) => p.part.supply === supply.id && isBoard(p));
      judgeAt(report, build.supply(supply), supply.highestVolts, own);
    }
    const cold = build.system.lowestAmbient;
    const lowest = cold === undefined || cold === "unknown" ? null : cold.low;
    const pieces = joinedPieces(build.settled);
    for (const { element, plus } of build.settled.model.grid.feeds) {
      const view = build.part(element.part);
      if (view === undefined || element.runsWith !== "sun") continue;
      const { voltsPerKelvin: slope, volts } = element;
      const atCold = slope === undefined || lowest === null ? volts.high : volts.high * (1 + slope.low * (lowest - 25));
      judgeAt(report, view.subject, Math.max(volts.high, atCold), boardsOn(build, pieces, plus));
    }
  },
});

const isBoard = ({ part }: PartView): boolean => part.traits.distributes === true && part.traits.structure !== true;

/** Bars and boards that metal joins with a node. */
function boardsOn(build: Build, pieces: Int32Array, node: number): readonly PartView[] {
  const ids = new Set<string>();
  build.circuits.forEach(({ circuit }) => {
    for (const c of circuit.conductors) {
      const { nodeOf } = build.settled.model.grid;
      if (circuit.current === "DC" && c.role === "live" && pieces[nodeOf(c.from)] === pieces[node])
        for (const end of [circuit.from.part, circuit.to.part]) ids.add(end);
    }
  });
  return build.parts.filter((p) => ids.has(p.id) && isBoard(p));
}

function judgeAt(report: Report<"bare">, subject: Subject, volts: number, boards: readonly PartView[]): void {
  const covered = (p: PartView): boolean | "unknown" | undefined => p.plan?.facts.covered?.value;
  const bare = boards.filter((p) => covered(p) === false);
  const open = boards.filter((p) => covered(p) === undefined || covered(p) === "unknown");
  const limit = isBoat(subject.set) && bare.length > 0 ? TOUCH.boat : TOUCH.anywhere;
  const said = { measured: volts, limit, unit: "V", margin: below(volts, limit) } as const;
  const isAsked = severityOf(touchableDcPart, subject.set) === "must" || open.some((p) => covered(p) === "unknown");
  if (volts <= limit) report.pass(subject, said);
  else if (bare.length > 0)
    report.fail(subject, "bare", {
      ...said,
      words: { others: nameSome(bare.map((p) => p.id)), stand: bare.length > 1 ? "stand" : "stands" },
    });
  else if (open.length === 0) report.pass(subject);
  else if (isAsked)
    report.cannotTell(subject, [
      needed(`whether the live parts of ${nameSome(open.map((p) => p.id))} are covered`, open[0]?.subject ?? subject),
    ]);
  else report.notApplicable(subject, "the plan does not say what is covered, and it is only advised");
}
