import { cite } from "../../explain/index.ts";
import type { Island, TakerState } from "../../switching/index.ts";
import type { Build } from "../build.ts";
import type { Needed } from "../finding.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { nameSome } from "../battery/name-some.ts";
import { oneSource, shoreAndInverter } from "./example-plans.ts";
import { fedBy, sourcesOf, takersOf } from "./fed.ts";
import { singlePoleWays } from "./single-pole-ways.ts";
import { alternatingPart, statesOf } from "./switching-of.ts";
import { alternates, tellStates, verdictOn, type StateVerdict } from "./tell-states.ts";

type Word = "none";

const GENERATOR = { W20: "path: GEN → CU:in, length: 1 m" };

export const missingNeutralEarthJoin = defineRule({
  id: "ac/missing-neutral-earth-join",
  title: "Missing neutral–earth join",
  severity: "must",
  danger:
    "a case that has become live stays live: no breaker trips on it, and the first to touch it closes the circuit",
  why: `Breakers and residual devices clear a fault to earth because it comes back to its source by the one place where neutral and the protective conductor are joined. Every state that the switches can be set to is
    looked at: whatever feeds a load in it has its neutral joined to earth at one place, the join ashore counted while the plug is in. A supply from
    ashore that is stated to be IT has none on purpose, and a monitor of its insulation in place of it, of which no plan speaks. Where that place has to be, is for local code and a licensed electrician to decide.`,
  silent: [
    "a state in which a source feeds nothing",
    "iso-small-craft: an isolation transformer whose branches open both poles",
    "a floating generator that feeds one load of class II, and no residual device that would depend on a join",
  ],
  sources: [
    { cite: cite("iso-13297-2020", "6.8", "read"), sets: ["iso-small-craft"] },
    { cite: cite("nfpa-70-2023", "250.30, 250.34", "article"), sets: ["us-cabin", "us-rv"] },
    { cite: cite("abyc-e-11", "neutral grounded at the live source", "article"), sets: ["us-small-craft"] },
    { cite: cite("trade-practice", "one join of neutral and earth for each live source", "practice") },
  ],
  messages: {
    none: "with {state}, nothing joins neutral and earth of {place}, which feeds {fed}; the way there: {steps}",
  },
  cures: ["earth-join"],
  examples: {
    good: [
      { says: "no join aboard on shore power: the one ashore is counted", plan: shoreAndInverter() },
      {
        says: "a floating generator behind a board that has its own join",
        plan: oneSource({
          set: "us-cabin NEC 2023",
          parts: {
            GEN: "kind: generator, rated: 2 kVA, neutral: floating",
            CU: "kind: panel, neutral–earth join: always, main: breaker 16 A, ways: { 1: breaker 10 A }",
          },
          circuits: GENERATOR,
        }),
      },
      {
        says: "a floating generator with one tool of class II",
        plan: oneSource({
          parts: {
            GEN: "kind: generator, rated: 2 kVA, neutral: floating",
            CU: null,
            sockets: null,
            drill: "kind: load, running: 3 A, class: II",
          },
          circuits: { W20: null, W23: "path: GEN → drill, length: 3 m" },
        }),
      },
      { says: "nothing alternates", plan: "" },
    ],
    bad: [
      {
        says: "an inverter that never joins them",
        plan: shoreAndInverter({ parts: { INV: "kind: inverter, rated: 1200 VA, neutral–earth join: never" } }),
        fails: "none",
        about: "parts.INV",
      },
      {
        says: "a floating generator on a board without a join",
        plan: oneSource({ parts: { GEN: "kind: generator, rated: 2 kVA, neutral: floating" }, circuits: GENERATOR }),
        fails: "none",
        about: "parts.GEN",
      },
      {
        says: "an inverter of which nobody says when it joins them",
        plan: shoreAndInverter({ parts: { INV: "kind: inverter, rated: 1200 VA" } }),
        fails: "cannot tell",
        about: "parts.INV",
      },
    ],
  },
  judge(build, report) {
    if (!alternates(build, report)) return;
    tellStates(build, report, verdictsOf(build).values());
  },
});

const FEEDS_NOTHING = "it feeds nothing";

function verdictsOf(build: Build): ReadonlyMap<string, StateVerdict<Word>> {
  const sources = sourcesOf(build);
  const takers = takersOf(build);
  const found = new Map<string, StateVerdict<Word>>();
  const on = (part: string): StateVerdict<Word> => {
    let verdict = found.get(part);
    if (verdict === undefined) found.set(part, (verdict = verdictOn(alternatingPart(build, part))));
    return verdict;
  };
  const states = statesOf(build);
  // To begin with one for each source: what cannot be followed must not go unsaid.
  for (const { id, part } of sources.values()) {
    const verdict = on(part);
    if (states.some((s) => s.gives.includes(id))) verdict.exempt = FEEDS_NOTHING;
  }
  for (const state of states) {
    for (const island of state.islands) {
      const fed = fedBy(state, island, takers);
      if (fed.length === 0) continue;
      for (const id of island.sources) {
        const verdict = on(sources.get(id)?.part ?? id);
        const why = exemption(build, island, fed);
        const [unsure] = island.joins;
        if (verdict.exempt === FEEDS_NOTHING) verdict.exempt = null;
        if (why !== null) verdict.exempt = why;
        else if (island.joinsLow > 0) continue;
        else if (isUnearthed(sources, island)) verdict.needs.push(needed(MONITOR, verdict.subject));
        else if (unsure !== undefined) verdict.needs.push(unsureOf(build, unsure.part));
        else {
          const names = nameSome(fed.map((t) => takers.get(t.taker)?.part ?? t.taker));
          verdict.faults.push({ message: "none", state, said: { words: { fed: names } } });
        }
      }
    }
  }
  return found;
}

const MONITOR = "whether a monitor watches its insulation, since its supply ashore is stated to be IT";

const isUnearthed = (sources: ReturnType<typeof sourcesOf>, { sources: own, joinsHigh }: Island): boolean =>
  joinsHigh === 0 && own.some((id) => sources.get(id)?.kind === "shore" && sources.get(id)?.joined === false);

/** What is asked of a part that may or may not join neutral and earth. */
export const unsureOf = (build: Build, part: string): Needed =>
  needed(`when ${part} joins neutral and earth`, alternatingPart(build, part));

/** Whether what feeds is an isolation transformer that its set lets float: both poles open in every branch. */
export function mayFloat(build: Build, feeding: readonly string[]): boolean {
  const sources = sourcesOf(build);
  const own = feeding.flatMap((id) => sources.get(id) ?? []);
  const { set } = alternatingPart(build, own[0]?.part ?? "");
  const isTransformer = own.length > 0 && own.every((s) => s.kind === "transformer");
  return set === "iso-small-craft" && isTransformer && singlePoleWays(build).length === 0;
}

function exemption(build: Build, island: Island, fed: readonly TakerState[]): string | null {
  if (!island.hasNeutral) return "it has no neutral";
  if (island.joinsHigh > 0) return null;
  const sources = sourcesOf(build);
  const own = island.sources.flatMap((id) => sources.get(id) ?? []);
  if (mayFloat(build, island.sources)) return "an isolation transformer, and both poles open in every branch";
  const [only, more] = fed;
  const load = build.part(takersOf(build).get(only?.taker ?? "")?.part ?? "");
  const isClassTwo = load?.elements.some((e) => e.is === "draw" && e.alternating?.protection === "II") === true;
  const isSeparated = own.length > 0 && own.every((s) => s.kind === "generator");
  return isSeparated && more === undefined && isClassTwo && only?.guards.length === 0
    ? "a floating generator that feeds one load of class II"
    : null;
}
