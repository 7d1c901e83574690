import { cite } from "../../explain/index.ts";
import type { IslandJoin } from "../../switching/index.ts";
import { nameSome } from "../battery/name-some.ts";
import type { Build, Subject } from "../build.ts";
import { defineRule } from "../rule.ts";
import { oneSource, shoreAndInverter } from "./example-plans.ts";
import { fedBy, sourcesOf, takersOf } from "./fed.ts";
import { unsureOf } from "./missing-neutral-earth-join.ts";
import { alternatingPart, statesOf, switchingOf } from "./switching-of.ts";
import { alternates, tellStates, verdictOn, type StateVerdict } from "./tell-states.ts";

type Word = "doubled" | "brought";

const BOARD =
  "kind: consumer unit, neutral–earth join: always, main: { residual device: 30 mA, poles: 2, rated: 16 A }, ways: { 1: breaker 10 A 2-pole }";

/** A supply straight to a board that joins neutral and earth. */
const service = (set: string, feed: string, inlet = ""): string =>
  oneSource({
    set,
    parts: { INL: `kind: shore inlet, rated: 16 A${inlet}`, CU: BOARD },
    circuits: { W20: `path: INL → CU:in, length: 1 m${feed}` },
  });

export const doubledNeutralEarthJoin = defineRule({
  id: "ac/doubled-neutral-earth-join",
  title: "Doubled neutral–earth join",
  severity: "must",
  danger:
    "current of the neutral runs through protective conductors, hull, skin and water, corrodes what it passes, and keeps residual devices from working",
  why: `With a second join the neutral's current has a second way: through every piece of metal that is bonded. Every state that the switches can be set to is looked at; the join ashore is counted while the plug is in,
    one in a source that gives nothing as long as its neutral is not switched off. A join on the far side of an isolation transformer belongs to a source of its own.
    A supply of a house that brings a neutral and no protective conductor (PEN, TN-C-S; the service of the American code) has to be joined at the house's board: with the supplier's own earth at his transformer that is one arrangement,
    not two joins. On boats and vehicles, and where the supply is TT, it stays a second one. What a house's board may be joined to is for the supplier, the local code and a licensed electrician to decide.`,
  silent: ["what is joined twice in no state in which it feeds something"],
  sources: [
    { cite: cite("iso-13297-2020", "6.8", "read"), sets: ["iso-small-craft"] },
    { cite: cite("nfpa-70-2023", "250.24(A) and (B), 250.142, 551.54(C)", "memory"), sets: ["us-cabin", "us-rv"] },
    { cite: cite("iec-60364-5-54", "543.4", "memory"), sets: ["iec-cabin"] },
    { cite: cite("trade-practice", "one join of neutral and earth for each live source", "practice") },
  ],
  messages: {
    doubled:
      "with {state}, neutral and earth are joined {measured} times, {joins}; {place} has one of them; the way there: {steps}",
    brought:
      "with {state}, neutral and earth are joined {measured} times, {joins}, and the feed from {feed} brings a protective conductor beside the neutral; if it brings none, its `cores` say so and {place} is where the two are joined; the way there: {steps}",
  },
  cures: ["open-join"],
  examples: {
    good: [
      {
        says: "a relay in the inverter/charger that is closed while it inverts, and open on shore power",
        plan: shoreAndInverter({
          parts: {
            INV: "kind: inverter/charger, rated: 1200 VA, charging: 30 A, neutral–earth join: closed when inverting",
            TS: null,
          },
          circuits: {
            W21: "path: CU:1 → INV:in, length: 2 m",
            W22: null,
            W23: "path: INV:out → sockets, length: 3 m",
          },
        }),
      },
      {
        says: "a join on the far side of an isolation transformer",
        plan: oneSource({
          parts: {
            INL: "kind: shore inlet, rated: 16 A",
            T1: "kind: isolation transformer, rated: 3600 VA, neutral–earth join: always",
          },
          circuits: { W20: "path: INL → T1:in, length: 1 m", W21: "path: T1:out → CU:in, length: 1 m" },
        }),
      },
      { says: "both poles move between two sources that have a join each", plan: shoreAndInverter() },
      ...(["us-cabin NEC 2023", "iec-cabin IEC 60364"] as const).map((set) => ({
        says: `${set}: the supply brings a neutral and no protective conductor, and the board joins them`,
        plan: service(set, ", cores: [L, N]"),
      })),
    ],
    bad: [
      {
        says: "a join in the board of shore power",
        plan: shoreAndInverter({ parts: { CU: BOARD } }),
        fails: "doubled",
        about: "parts.CU",
      },
      {
        says: "an inverter whose neutral stays on while shore feeds",
        plan: shoreAndInverter({
          parts: { TS: "kind: transfer switch, poles: 1, rated: 16 A, inputs: [shore, inverter], off: yes" },
        }),
        fails: "doubled",
        about: "parts.INV",
      },
      {
        says: "a house whose feed brings a protective conductor too",
        plan: service("us-cabin NEC 2023", ""),
        fails: "brought",
        about: "parts.CU",
      },
      {
        says: "a house whose supply has an electrode of its own and no metal to it (TT)",
        plan: service("iec-cabin IEC 60364", ", cores: [L, N]", ", earthing: TT"),
        fails: "doubled",
        about: "parts.CU",
      },
      {
        says: "a boat whose feed brings no protective conductor: the water does",
        plan: service("iso-small-craft 2020+A1:2022", ", cores: [L, N]"),
        fails: "doubled",
        about: "parts.CU",
      },
      {
        says: "a board of which nobody knows whether it joins them",
        plan: shoreAndInverter({ parts: { CU: BOARD.replace("always", "unknown") } }),
        fails: "cannot tell",
        about: "parts.CU",
      },
    ],
  },
  judge(build, report) {
    if (!alternates(build, report)) return;
    const verdicts = new Map<string, StateVerdict<Word>>();
    const on = (part: string): StateVerdict<Word> => {
      let verdict = verdicts.get(part);
      if (verdict === undefined) verdicts.set(part, (verdict = verdictOn(alternatingPart(build, part))));
      return verdict;
    };
    const takers = takersOf(build);
    // What is joined twice feeds something in some state; the way is told to the nearest state in which the metal is so.
    const feeding = new Set<string>();
    for (const { part } of ownJoins(build)) on(part);
    for (const state of statesOf(build)) {
      for (const island of state.islands) {
        if (island.joinsHigh < 2) continue;
        const feeds = fedBy(state, island, takers).length > 0;
        const sure = island.joins.filter((j) => j.certain);
        if (sure.length > 1) {
          const words = { joins: nameSome(sure.map(sayJoin)) };
          for (const { part } of atFault(sure)) {
            if (feeds) feeding.add(part);
            const verdict = on(part);
            const feed = broughtBeside(build, sure, verdict.subject);
            const said = { measured: sure.length, limit: 1, words: { ...words, ...(feed === null ? {} : { feed }) } };
            verdict.faults.push({ message: feed === null ? "doubled" : "brought", state, said });
          }
        } else if (feeds)
          for (const join of island.joins) if (!join.certain) on(join.part).needs.push(unsureOf(build, join.part));
      }
    }
    for (const [part, { faults }] of verdicts) if (!feeding.has(part)) faults.length = 0;
    tellStates(build, report, verdicts.values());
  },
});

/** Whatever can join neutral and earth, or comes with a join. */
function ownJoins(build: Build): readonly { readonly part: string }[] {
  const { problem } = switchingOf(build);
  return [...problem.joins, ...[...sourcesOf(build).values()].filter((s) => s.joined !== false && s.neutral !== null)];
}

/** The supply of a house that brings its own protective conductor to the one board that joins it; null: it is no such case. */
function broughtBeside(build: Build, joins: readonly IslandJoin[], { set }: Subject): string | null {
  const ashore = joins.find((j) => j.where === "ashore");
  if (ashore === undefined || joins.length !== 2 || (set !== "us-cabin" && set !== "iec-cabin")) return null;
  const source = sourcesOf(build).get(ashore.id);
  return source?.earth != null && build.system.elements.some((e) => e.is === "source" && e.id === ashore.id && e.earthedApart === false) ? ashore.part : null; // prettier-ignore
}

/** Of several joins those that somebody aboard can take away; where all are of one sort, all but the first. */
function atFault(joins: readonly IslandJoin[]): readonly IslandJoin[] {
  const aboard = joins.filter((j) => j.where === "aboard");
  if (aboard.length > 0 && aboard.length < joins.length) return aboard;
  const inside = joins.filter((j) => j.where !== "ashore");
  return inside.length < joins.length && inside.length > 0 ? inside : joins.slice(1);
}

const sayJoin = ({ part, where }: IslandJoin): string => (where === "ashore" ? `ashore of ${part}` : `in ${part}`);
