import { cite } from "../../explain/index.ts";
import type { Build } from "../build.ts";
import { below, needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, saysYes } from "../stated.ts";
import { guardsOf, partOfTerminal } from "./guards.ts";

/** m of line between the modules and what they feed. */
const SHORT = 10;

const array = (metres: number, controller = ""): string =>
  `parts:\n  PV1: { kind: solar module, rated: 175 W, Voc: 24.4 V, Vmp: 20.2 V, Isc: 9.2 A }\n  MPPT: { kind: solar controller, output: 30 A${controller} }\ncircuits:\n  W20: { path: PV1 → MPPT:in, length: ${metres} m, wire: 6 mm², fuse: none }\n  W21: { path: MPPT:out → BP, length: 1 m }`;

export const missingSurgeArrester = defineRule({
  id: "protection/missing-surge-arrester",
  title: "Missing surge arrester",
  severity: { otherwise: "note", sets: { "us-cabin": "should", "iec-cabin": "should" } },
  danger: "lightning nearby kills controllers at the end of a long line",
  why: `Modules that stand further than 10 m of line from the controller that they feed pick up what lightning nearby induces. An arrester (type 2) stands at
    the controller, in it or in the box in which the strings meet.`,
  silent: ["modules within 10 m of line", "lines to masts and to the grid, which a plan does not tell"],
  sources: [
    { cite: cite("nfpa-70-2023", "242", "memory"), sets: ["us-cabin", "us-rv"] },
    { cite: cite("trade-practice", "IEC 60364-4-44 443 and 7-712", "memory") },
  ],
  messages: { missing: "{place} stands {measured} of line from {controller}, and no arrester is fitted there" },
  cures: ["surge-arrester"],
  examples: {
    good: [
      { says: "a short line", plan: array(7) },
      { says: "an arrester at the controller", plan: array(20, ", surge arrester: yes") },
    ],
    bad: [
      { says: "a long line", plan: array(20), fails: "missing", about: "parts.PV1" },
      {
        says: "nobody has looked",
        plan: array(20, ", surge arrester: unknown"),
        fails: "cannot tell",
        about: "parts.PV1",
      },
    ],
  },
  judge(build, report) {
    for (const { element, plus } of guardsOf(build).grid.feeds) {
      const view = build.part(element.part);
      if (view === undefined || element.runsWith !== "sun") continue;
      judgeArray(build, view.subject, plus, report);
    }
  },
});

function judgeArray(build: Build, subject: Build["whole"], plus: number, report: Report<"missing">): void {
  const { grid } = guardsOf(build);
  const metresOf = lineFrom(build, plus);
  const inputs = grid.converters.flatMap(({ element, in: input }) => {
    const metres = input === null ? undefined : metresOf.get(input.plus);
    return metres === undefined ? [] : [{ part: element.part, ...metres }];
  });
  const nearest = inputs.sort((a, b) => a.high - b.high)[0];
  if (nearest === undefined) {
    report.notApplicable(subject, "it feeds no controller");
    return;
  }
  const parts = new Set([...metresOf.keys()].map((n) => partOfTerminal(grid.nodeNames[n] ?? "")));
  const fitted = [...parts].flatMap((id) => {
    const view = build.part(id);
    return view === undefined ? [] : [saysYes(factsOf(view), "surge arrester")];
  });
  const { low, high, part } = nearest;
  const said = { measured: high, limit: SHORT, unit: "m" } as const;
  if (fitted.includes(true)) report.pass(subject);
  else if (high <= SHORT) report.pass(subject, { ...said, margin: below(high, SHORT) });
  else if (fitted.includes("unknown")) {
    report.cannotTell(subject, [needed("whether an arrester is fitted at its controller", `parts.${part}`)]);
  } else if (low <= SHORT) report.cannotTell(subject, [needed("the length of its line", subject)]);
  else
    report.fail(subject, "missing", {
      measured: low,
      limit: SHORT,
      unit: "m",
      margin: below(low, SHORT),
      words: { controller: part },
    });
}

/** Metres of live line from a node to every other that metal leads to, by the shortest way. */
function lineFrom(build: Build, start: number): ReadonlyMap<number, { readonly low: number; readonly high: number }> {
  const { grid } = guardsOf(build);
  const circuits = build.system.circuits;
  const met = new Map([[start, { low: 0, high: 0 }]]);
  for (const [node, so] of met) {
    for (const e of grid.at[node] ?? []) {
      const edge = grid.edges[e];
      const next = edge?.a === node ? edge.b : edge?.a;
      if (edge === undefined || next === undefined) continue;
      const length = circuits[edge.circuit]?.conductors[edge.conductor]?.length;
      const unknown = length?.origin === "unknown" ? Infinity : (length?.high ?? 0);
      const sum = edge.contact === null ? { low: so.low + (length?.low ?? 0), high: so.high + unknown } : so;
      if ((met.get(next)?.high ?? Infinity) <= sum.high && met.has(next)) continue;
      met.delete(next);
      met.set(next, sum);
    }
  }
  return met;
}
