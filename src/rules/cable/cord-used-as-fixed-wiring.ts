import { cite } from "../../explain/index.ts";
import { isUnknown, known, type Measure, type WrittenCable } from "../../plan/index.ts";
import type { Build, CircuitView, PartView } from "../build.ts";
import { namedSet } from "../named-set.ts";
import { above, below, needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { zoneKinds } from "../zone-kinds.ts";
import { speaksForCable } from "./in-cable.ts";

const HOOK_UP = cite("bs-7671-2018", "section 721, hook-up lead", "article");
/** Longest lead of a caravan with its tolerance, m. Source: section 721, as a trade page tells it. */
const LONGEST_LEAD = 27;
/** Least area of a lead by the rating of its inlet: section 721, as a trade page tells it. */
const LEAD_AREAS = [
  { upToA: 16, areaMm2: 2.5 },
  { upToA: 32, areaMm2: 6 },
  { upToA: 63, areaMm2: 16 },
] as const;

type Message = "concealed" | "thin" | "long";

export const cordUsedAsFixedWiring = defineRule<Message>({
  id: "cable/cord-used-as-fixed-wiring",
  title: "Cord used as fixed wiring",
  severity: { otherwise: "should", sets: { "us-cabin": "must" } },
  danger: "a thin lead gets hot inside a wall, where nobody sees it",
  why: `A flexible cord is made to be seen and moved: it is not run behind linings, and under the American code for buildings not as fixed wiring at all. Heavy
    rubber cable such as H07RN-F may be fixed; light flexes may not. On boats hard-service cord is allowed. The lead from a pitch to a caravan is
    no household lead: at most 25 m with 2 m to spare, and at least 2.5 mm² for 16 A, 6 mm² for 32 A, 16 mm² for 63 A.`,
  silent: [
    "boats",
    "cables that are no cords",
    "leads that are not those of a caravan or that the plan does not describe",
  ],
  sources: [
    { cite: cite("trade-practice", "cords are seen and moved", "practice") },
    { cite: cite("nfpa-70-2023", "400.12", "memory"), sets: ["us-cabin", "us-rv"] },
    { cite: HOOK_UP, sets: ["iec-caravan"] },
  ],
  messages: {
    concealed: "{place} is of {type}, a cord, and lies {how}",
    thin: "the lead of {place} has {measured}; an inlet of {rated} asks for {limit}",
    long: "the lead of {place} is {measured} long; up to {limit} is allowed",
  },
  cures: ["fixed-cable", "thicker-lead"],
  examples: {
    good: [
      { says: "a cord in the open", plan: mains("us-cabin", "cable: 14/3 SJTOW, laid: loose") },
      { says: "hard-service cord on a boat", plan: mains("us-small-craft", "cable: 14/3 SOOW, laid: concealed") },
      {
        says: "a hook-up lead of 2.5 mm²",
        plan: lead("{ kind: shore inlet, rated: 16 A, lead: 25 m, lead cable: 3G2.5 H07RN-F }"),
      },
    ],
    bad: [
      {
        says: "a cord behind the lining",
        plan: mains("us-cabin", "cable: 14/3 SJTOW, laid: concealed"),
        fails: "concealed",
        about: "circuits.W50",
      },
      {
        says: "a garden lead at the inlet",
        plan: lead("{ kind: shore inlet, rated: 16 A, lead: 20 m, lead cable: 3G1.5 H05VV-F }"),
        fails: "thin",
        about: "parts.INL",
      },
      {
        says: "two leads in a row",
        plan: lead("{ kind: shore inlet, rated: 16 A, lead: 40 m, lead cable: 3G2.5 H07RN-F }"),
        fails: "long",
        about: "parts.INL",
      },
      {
        says: "a cord of which nobody says how it lies",
        plan: mains("us-cabin", "cable: 14/3 SJTOW"),
        fails: "cannot tell",
        about: "circuits.W50",
      },
    ],
  },
  judge(build, report) {
    for (const c of build.circuits) judgeCord(build, c, report);
    for (const p of build.parts)
      if (p.plan?.kindFacts["lead"] !== undefined || p.plan?.kindFacts["lead cable"] !== undefined)
        judgeLead(p, report);
  },
});

/** A cord that is not run out of sight, and not fixed where the set forbids that too; null: none. */
function cordOf({ make }: WrittenCable): "cord" | "flex" | null {
  if (make.family === "flexible cord") return "cord";
  // 300/300 and 300/500: what hangs on lamps and kettles.
  const isLight = make.type !== null && /^[HA]0[35]/.test(make.type) && make.fitness.flexible === true;
  return make.family === "harmonised cable" && isLight ? "flex" : null;
}

function judgeCord(build: Build, c: CircuitView, report: Report<Message>): void {
  const { subject, circuit } = c;
  const label = circuit.cable?.label;
  const cord = label == null ? null : cordOf(label);
  const set = namedSet(c);
  if (circuit.cable === undefined) report.notApplicable(subject, "the plan names no cable");
  else if (!speaksForCable(c)) report.notApplicable(subject, "it is judged with the first circuit of its cable");
  else if (cord === null) report.notApplicable(subject, "its cable is no cord");
  else if (set === "us-small-craft" || set === "iso-small-craft")
    report.notApplicable(subject, "boats may be wired with hard-service cord");
  else {
    const fact = c.plan?.facts.laid;
    const kinds = zoneKinds(build, c);
    const hidden = known(fact) === "concealed" || kinds.has("inaccessible") || kinds.has("insulated");
    const isFixed = known(fact) === "fixed" && set === "us-cabin";
    if (hidden || isFixed)
      report.fail(subject, "concealed", {
        words: { type: label?.make.type ?? "flexible cord", how: hidden ? "out of sight" : "fixed to the building" },
      });
    else if (fact === undefined || isUnknown(fact)) report.cannotTell(subject, [needed("how it lies", subject)]);
    else report.pass(subject);
  }
}

function judgeLead({ subject, part, plan, supply }: PartView, report: Report<Message>): void {
  if (namedSet({ ruleSet: null, supply }) !== "iec-caravan") {
    report.notApplicable(subject, "only the set of caravans asks something of the lead");
    return;
  }
  const length = known(plan?.kindFacts["lead"]) as Measure | undefined; // read by the rules of the inlet
  const label = known(plan?.kindFacts["lead cable"]) as WrittenCable | undefined; // as above
  const rated =
    part.gives === undefined || part.gives === "unknown" || part.gives.unit !== "A" ? null : part.gives.value.high;
  const asked = rated === null ? undefined : LEAD_AREAS.find(({ upToA }) => rated <= upToA);
  if (length !== undefined && length.low > LONGEST_LEAD)
    report.fail(subject, "long", {
      measured: length.low,
      limit: LONGEST_LEAD,
      unit: "m",
      margin: below(length.low, LONGEST_LEAD),
    });
  else if (length !== undefined)
    report.pass(subject, {
      measured: length.high,
      limit: LONGEST_LEAD,
      unit: "m",
      margin: below(length.high, LONGEST_LEAD),
    });
  const area = label?.size?.areaMm2;
  if (area === undefined) report.cannotTell(subject, [needed("the size of its lead", subject)]);
  else if (asked === undefined || rated === null) report.cannotTell(subject, [needed("its rating", subject)]);
  else if (area < asked.areaMm2)
    report.fail(subject, "thin", {
      measured: area,
      limit: asked.areaMm2,
      unit: "mm²",
      margin: above(area, asked.areaMm2),
      words: { rated: `${rated} A` },
    });
  else report.pass(subject, { measured: area, limit: asked.areaMm2, unit: "mm²", margin: above(area, asked.areaMm2) });
}

/** A kettle on mains under a rule set. */
function mains(set: string, more: string): string {
  return `rules: { DC: iso-small-craft 2020+A1:2022, AC: ${set} }\nsystems:\n  AC: { kind: AC, nominal: 120 V, cores: [L, N, PE] }\nparts:\n  INL: { kind: shore inlet, rated: 16 A }\n  kettle: { kind: load, rated: 900 W }\ncircuits:\n  W50: { path: INL → kettle, length: 2 m, ${more} }`;
}

/** A caravan with an inlet. */
function lead(inlet: string): string {
  return `rules: { DC: iso-small-craft 2020+A1:2022, AC: iec-caravan }\nsystems:\n  AC: { kind: AC, nominal: 230 V, cores: [L, N, PE] }\nparts:\n  INL: ${inlet}\n  kettle: { kind: load, rated: 900 W }\ncircuits:\n  W50: { path: INL → kettle, length: 2 m }`;
}
