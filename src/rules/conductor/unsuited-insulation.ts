import { cite } from "../../explain/index.ts";
import { isUnknown, known } from "../../plan/index.ts";
import type { Build, CircuitView } from "../build.ts";
import { lacksNumbers } from "../lacks-numbers.ts";
import { above, needed } from "../report.ts";
import { zoneKinds } from "../zone-kinds.ts";
import { defineRule } from "../rule.ts";
import { isStated, unstated } from "./stated-make.ts";

type Fitness = "wet" | "oil" | "sun" | "buried" | "moving";

/** What a zone of each kind does to insulation. Engine spaces: E-11 and ISO 13297 ask for oil-resistant insulation; the rest is practice. */
const DEMANDS: Readonly<Partial<Record<string, Fitness>>> = {
  engine: "oil",
  wet: "wet",
  bilge: "wet",
  outside: "wet",
  sun: "sun",
  buried: "buried",
  moving: "moving",
};

/** How each demand reads after "fit for". */
const READS: Readonly<Record<Fitness, string>> = {
  wet: "wet places",
  oil: "oil",
  sun: "sunlight",
  buried: "the ground",
  moving: "being bent",
};

export const unsuitedInsulation = defineRule({
  id: "conductor/unsuited-insulation",
  title: "Unsuited insulation",
  severity: "must",
  danger: "insulation that cannot bear its place goes soft or cracks, and the bare copper finds another",
  why: `The rating of the insulation has to reach what the rule set asks for where the wire lies: more in engine spaces than elsewhere. Where the plan
    says what the insulation of a wire that is pinned or found is fit for, that has to cover every zone it crosses: wet, oil, sun. A wire that is chosen
    is bought to fit; what it has to be bought for is listed with it. A wire whose insulation nobody knows is taken at both ends of what is sold.`,
  silent: ["alternating-current circuits, which are not studied yet"],
  alternating: true,
  sources: [
    { cite: cite("abyc-e-11", "conductors in engine spaces", "article"), sets: ["us-small-craft"] },
    { cite: cite("iso-10133-2012", "7", "memory"), sets: ["iso-small-craft"] },
  ],
  messages: {
    cool: "{place} has insulation for {measured} in {where}, where {limit} is asked for",
    unfit: "{place} lies in {zones}; what the plan says of its insulation leaves out {lacking}",
  },
  cures: ["fit-insulation", "hotter-insulation"],
  examples: {
    good: [
      {
        says: "90 °C in the engine space",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, zone: engine space, insulation: 90 °C, wire: 2.5 mm² }",
      },
      {
        says: "fit for the deck",
        plan: "zones:\n  deck: { kind: [outside, sun] }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, zone: deck, wire: 2.5 mm², fit for: [sun, wet] }",
      },
      {
        says: "chosen, so bought to fit",
        plan: "zones:\n  deck: { kind: [outside, sun] }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, zone: deck }",
      },
    ],
    bad: [
      {
        says: "60 °C in the engine space",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, zone: engine space, insulation: 60 °C, wire: 2.5 mm² }",
        fails: "cool",
        about: "circuits.W10",
      },
      {
        says: "fit for wet places and not for the sun",
        plan: "zones:\n  deck: { kind: [outside, sun] }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, zone: deck, wire: 2.5 mm², fit for: wet }",
        fails: "unfit",
        about: "circuits.W10",
      },
      {
        says: "nobody knows the insulation in the engine space",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, zone: engine space, insulation: unknown, wire: 2.5 mm² }",
        fails: "cannot tell",
        about: "circuits.W10",
      },
    ],
  },
  judge(build, report) {
    for (const c of build.circuits) {
      const { subject, ruleSet, circuit } = c;
      if (c.model === null) report.notApplicable(subject, "alternating current is not studied yet");
      else if (lacksNumbers(build, c, report) || ruleSet === null) continue;
      else {
        const inEngineSpace = c.run.stretches.some((s) => s.engineSpace);
        const { engineInsulationC, leastInsulationC } = ruleSet.conductor;
        const asked = inEngineSpace ? engineInsulationC : leastInsulationC;
        // Nothing poorer than what is sold is lawful anywhere, so an unknown rating has known ends.
        const { low, high } = isStated(build, c, "insulation") ? circuit.insulationC : POOREST_TO_BEST;
        const fitness = fitnessOf(build, c);
        const said = {
          measured: low,
          limit: asked.value,
          unit: "°C",
          margin: above(low, asked.value),
        } as const;
        if (high < asked.value)
          report.fail(subject, "cool", {
            ...said,
            source: asked.source,
            words: { where: inEngineSpace ? "an engine space" : "any place" },
          });
        else if (fitness.lacking.length > 0)
          report.fail(subject, "unfit", {
            source: inEngineSpace && fitness.lacking.includes("oil") ? asked.source : PRACTICE,
            words: { zones: fitness.zones.join(", "), lacking: fitness.lacking.map((f) => READS[f]).join(" and ") },
          });
        else if (low < asked.value) report.cannotTell(subject, [unstated(c, "insulation")]);
        else if (fitness.isOpen)
          report.cannotTell(subject, [
            needed(isUnknown(c.plan?.facts.insulation) ? "its insulation" : "what its insulation is fit for", subject),
          ]);
        else report.pass(subject, said);
      }
    }
  },
});

const PRACTICE = cite("trade-practice", "insulation made for wet, sunlit and moving places", "practice");

const POOREST_TO_BEST = { low: 60, high: 105 } as const;

interface FitnessFound {
  readonly zones: readonly string[];
  /** What its zones ask for and the plan leaves out. */
  readonly lacking: readonly Fitness[];
  /** Its zones ask for something, and nobody knows. */
  readonly isOpen: boolean;
}

const FINE: FitnessFound = { zones: [], lacking: [], isOpen: false };

/** What is said of the fitness of a wire that is pinned or found, beside what its zones ask for. */
function fitnessOf(build: Build, c: CircuitView): FitnessFound {
  if (c.circuit.size === undefined && !c.circuit.asFound) return FINE;
  const fact = c.plan?.facts["fit for"];
  // What was found was bought by nobody who can say for what: silence is no answer there.
  const isOpen = isUnknown(fact) || (fact === undefined && (c.circuit.asFound || isUnknown(c.plan?.facts.insulation)));
  if (fact === undefined && !isOpen) return FINE;
  const demands = new Set([...zoneKinds(build, c)].flatMap((kind) => DEMANDS[kind] ?? []));
  if (demands.size === 0) return FINE;
  if (isOpen) return { ...FINE, isOpen: true };
  const fit = new Set((known(fact) ?? []).map((one) => one.value));
  if (fit.has("unknown")) return { ...FINE, isOpen: true };
  return {
    zones: [...new Set(c.run.stretches.flatMap((s) => s.zone ?? []))],
    lacking: [...demands].filter((d) => !fit.has(d)),
    isOpen: false,
  };
}
