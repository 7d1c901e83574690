import { cite } from "../../explain/index.ts";
import { foldName, isUnknown, known } from "../../plan/index.ts";
import { coresOf, type Fn } from "../../system/index.ts";
import type { Build, CircuitView } from "../build.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { waysUnder } from "./ways.ts";

export const splitCircuit = defineRule({
  id: "cable/split-circuit",
  title: "Split circuit",
  severity: { otherwise: "should", sets: { "us-cabin": "must", "us-rv": "must" } },
  danger: "iron around one core heats up, and a wide loop of direct current turns the compass and the radio",
  why: `All conductors of a circuit go the same way, so that their fields cancel: line, neutral and earth in one cable or conduit, plus and minus side by side but for
    their ends. One core of alternating current never goes through steel by itself.`,
  silent: [
    "circuits of one conductor",
    "circuits of which the plan names no ways, unless they lie in a cable or a sheath",
  ],
  sources: [
    { cite: cite("trade-practice", "out and back side by side", "practice") },
    { cite: cite("nfpa-70-2023", "300.3(B)", "article"), sets: ["us-cabin", "us-rv"] },
  ],
  messages: {
    apart: "{place} goes by {ways} and comes back by {back}: its conductors lie apart",
    iron: "{place} is one core of alternating current by itself, in {way}, which is of steel",
  },
  cures: ["same-way"],
  examples: {
    good: [
      { says: "one cable", plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, cable: 14/2 boat duplex }" },
      {
        says: "the same way back",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, ways: [port, fore], return ways: [fore, port] }",
      },
    ],
    bad: [
      {
        says: "the minus along the other side",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, ways: port, return ways: starboard }",
        fails: "apart",
        about: "circuits.W10",
      },
      {
        says: "a line alone in a steel conduit",
        plan: "systems:\n  AC: { kind: AC, nominal: 230 V, cores: [L, N, PE] }\nways:\n  riser: { kind: conduit, metal: steel }\nparts:\n  INL: { kind: shore inlet, rated: 16 A }\n  kettle: { kind: load, rated: 900 W }\ncircuits:\n  W50: { path: INL → kettle, length: 2 m, cores: L, ways: riser }",
        fails: "iron",
        about: "circuits.W50",
      },
      {
        says: "nobody knows how it comes back",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, ways: port, return ways: unknown }",
        fails: "cannot tell",
        about: "circuits.W10",
      },
    ],
  },
  judge(build, report) {
    const steel = steelWays(build);
    for (const c of build.circuits) {
      const { subject, circuit, plan } = c;
      const cores = coresOf(circuit.conductors).filter((fn) => fn !== "PE");
      const facts = plan?.facts;
      const ways = waysUnder(facts, "ways");
      const iron = isLoneLine(c, cores) ? ways?.find((way) => steel.has(way)) : undefined;
      if (iron !== undefined) report.fail(subject, "iron", { words: { way: `\`${iron}\`` } });
      else if (cores.length < 2) report.notApplicable(subject, "it has one conductor that carries current");
      else if (facts?.["return ways"] === undefined) {
        if (circuit.sheathed === true || circuit.cable !== undefined || ways !== null) report.pass(subject);
        else report.notApplicable(subject, "the plan does not say which way its conductors go");
      } else {
        const back = waysUnder(facts, "return ways");
        if (isUnknown(facts["return ways"]) || back === null || ways === null)
          report.cannotTell(subject, [
            needed(ways === null ? "the way that it goes" : "the way that it comes back", subject),
          ]);
        else if (sameNames(ways, back)) report.pass(subject);
        else report.fail(subject, "apart", { words: { ways: listOf(ways), back: listOf(back) } });
      }
    }
  },
});

const listOf = (names: readonly string[]): string => (names.length === 0 ? "no way" : names.join(", "));

const sameNames = (a: readonly string[], b: readonly string[]): boolean => {
  const [one, other] = [new Set(a), new Set(b)];
  return one.size === other.size && [...one].every((name) => other.has(name));
};

/** Ways of steel that go all around what lies in them. */
const steelWays = ({ plan }: Build): ReadonlySet<string> =>
  new Set(
    plan.ways
      .filter(
        ({ facts }) => known(facts.metal) === "steel" && known(facts.kind) !== "open" && known(facts.kind) !== "loom",
      )
      .map(({ key }) => foldName(key)),
  );

/** One live core of alternating current with nothing beside it that carries the current back. */
const isLoneLine = ({ circuit }: CircuitView, cores: readonly Fn[]): boolean =>
  circuit.current === "AC" && cores.length === 1 && cores[0] !== "pole";
