import { cite } from "../../explain/index.ts";
import { nameSome } from "../battery/name-some.ts";
import type { Build } from "../build.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, saysCount } from "../stated.ts";
import { oneSource, shoreAndInverter } from "./example-plans.ts";
import { fedBy, sourcesOf, takersOf } from "./fed.ts";
import { alternatingPart, statesOf, switchingOf } from "./switching-of.ts";
import { alternates, tellStates, verdictOn } from "./tell-states.ts";

const transfer = (poles: string): string =>
  `kind: transfer switch, poles: ${poles}, rated: 16 A, inputs: [shore, inverter], off: yes`;

export const unswitchedNeutral = defineRule({
  id: "ac/unswitched-neutral",
  title: "Unswitched neutral",
  severity: "must",
  danger:
    "the neutral of one source runs through the join of the other: residual devices trip for no fault or not at all, and earth carries current",
  why: `Where two sources that a switch chooses between each join their neutral to earth, the neutral has to be switched with the lines. A source whose neutral floats needs no switched neutral: then the one join, in the
    board, serves them all.`,
  silent: ["switches that move the neutral", "sources of which at most one has a join of its own"],
  sources: [
    { cite: cite("nfpa-70-2023", "250.20(D), 250.34(C)", "article"), sets: ["us-cabin", "us-rv"] },
    { cite: cite("abyc-e-11", "transfer of all poles", "article"), sets: ["us-small-craft"] },
    { cite: cite("trade-practice", "neutral switched between two sources with a join each", "practice") },
  ],
  messages: {
    left: "{place} leaves the neutral whole, and with {state} it is joined to earth by {sources}; the way there: {steps}",
  },
  cures: ["move-neutral"],
  examples: {
    good: [
      { says: "both poles move", plan: shoreAndInverter() },
      {
        says: "the neutral stays, and the inverter never joins its own",
        plan: shoreAndInverter({
          parts: { INV: "kind: inverter, rated: 1200 VA, neutral–earth join: never", TS: transfer("1") },
        }),
      },
      { says: "nothing that chooses", plan: oneSource({ parts: { INL: "kind: shore inlet, rated: 16 A" } }) },
    ],
    bad: [
      {
        says: "one pole between two sources with a join each",
        plan: shoreAndInverter({ parts: { TS: transfer("1") } }),
        fails: "left",
        about: "parts.TS",
      },
      {
        says: "nobody counted its poles",
        plan: shoreAndInverter({ parts: { TS: transfer("unknown") } }),
        fails: "cannot tell",
        about: "parts.TS",
      },
    ],
  },
  judge(build, report) {
    if (!alternates(build, report)) return;
    const takers = takersOf(build);
    const { terminals } = switchingOf(build);
    const ofSource = new Set([...sourcesOf(build).values()].map((s) => s.part));
    const verdicts = transfersOf(build).map(({ part, neutral, moved }) => {
      const verdict = verdictOn<"left">(alternatingPart(build, part));
      const view = build.part(part);
      if (view !== undefined && saysCount(factsOf(view), "poles") === "unknown")
        verdict.needs.push(needed("how many poles it moves", verdict.subject));
      if (moved) verdict.exempt = "its neutral moves with the lines";
      const node = moved ? -1 : terminals.findIndex((t) => t.includes(neutral));
      // It feeds something in some state; the way is told to the nearest state in which the metal is so.
      let feeds = false;
      for (const state of node < 0 ? [] : statesOf(build)) {
        for (const island of state.islands) {
          if (!island.neutralNodes.includes(node)) continue;
          const owners = new Set(island.joins.flatMap((j) => (ofSource.has(j.part) && j.certain ? [j.part] : [])));
          if (owners.size < 2) continue;
          feeds ||= fedBy(state, island, takers).length > 0;
          const words = { sources: nameSome([...owners]) };
          verdict.faults.push({ message: "left", state, said: { words } });
        }
      }
      if (!feeds) verdict.faults.length = 0;
      return verdict;
    });
    if (verdicts.length === 0) report.notApplicable(build.whole, "nothing chooses between sources");
    tellStates(build, report, verdicts);
  },
});

/** What chooses between sources, with the neutral behind it and whether that is moved. */
function transfersOf({ system }: Build): readonly { part: string; neutral: string; moved: boolean }[] {
  return system.elements.flatMap((mover) => {
    if (mover.is !== "mover" || mover.breaksFirst === undefined) return [];
    const contacts = system.elements.filter(
      (e) => e.is === "contact" && e.part === mover.part && (e.mover ?? e.part) === mover.id,
    );
    const neutral = `${mover.part}:out:N`;
    return [{ part: mover.part, neutral, moved: contacts.some((e) => e.is === "contact" && e.b === neutral) }];
  });
}
