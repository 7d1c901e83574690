import { cite } from "../../explain/index.ts";
import { nameSome } from "../battery/name-some.ts";
import { defineRule } from "../rule.ts";
import { oneSource, shoreAndInverter } from "./example-plans.ts";
import { isFed, sourcesOf, takersOf } from "./fed.ts";
import {
  blindedAt,
  demandAhead,
  guardsOf,
  isGuarded,
  BORROWS,
  borrows,
  SEES_NOTHING,
  standingOf,
  THIRTY,
  unsureGuard,
} from "./guarded.ts";
import { alternatingPart, statesOf } from "./switching-of.ts";
import { alternates, tellStates, verdictOn } from "./tell-states.ts";

export const residualDeviceSkippedByASource = defineRule({
  id: "ac/residual-device-skipped-by-a-source",
  title: "Residual device skipped by a source",
  severity: "must",
  danger: "the same outlet that is guarded ashore kills on the inverter, and nobody expects it",
  why: `What lies behind a residual device of at most 30 mA with one source has to lie behind one with every source that can feed it, and behind one that sees leakage there: its neutral through it, the join of neutral and
    earth ahead of it.`,
  silent: [
    "what no residual device guards with any source: missing-residual-device tells it",
    "what one source feeds alone",
  ],
  sources: [
    { cite: cite("nfpa-70-2023", "551.4", "memory"), sets: ["us-rv"] },
    { cite: cite("trade-practice", "a residual device on the way of each source", "practice") },
  ],
  messages: {
    skipped:
      "with {state}, no residual device that works lies on the way from {sources} to {place}; the way there: {steps}",
    blind:
      "with {state}, {device} lies on the way from {sources} to {place} and sees no fault: neutral and earth are joined behind it, in {joins}; open that join, or move it into the source; the way there: {steps}",
  },
  cures: ["unblind", "source-guard", "way-guard", "outlet-guard"],
  examples: {
    good: [
      { says: "one on the way of each source", plan: shoreAndInverter() },
      { says: "none at all", plan: oneSource({ parts: { INL: "kind: shore inlet, rated: 16 A" } }) },
    ],
    bad: [
      {
        says: "a join in the board, behind the 30 mA of one of two sources",
        plan: shoreAndInverter({
          parts: {
            CU: "kind: consumer unit, neutral–earth join: always, main: { poles: 2, rated: 16 A, residual device: 30 mA }, ways: { 1: breaker 10 A 2-pole }",
          },
        }),
        fails: "blind",
        about: "parts.sockets",
      },
      {
        says: "guarded on shore power, bare on the inverter",
        plan: shoreAndInverter({ circuits: { W22: "path: INV:out → TS:inverter, length: 1 m" } }),
        fails: "skipped",
        about: "parts.sockets",
      },
    ],
  },
  judge(build, report) {
    if (!alternates(build, report)) return;
    const guards = guardsOf(build);
    const sources = sourcesOf(build);
    for (const [id, taker] of takersOf(build)) {
      const verdict = verdictOn<"skipped" | "blind">(alternatingPart(build, taker.part));
      const { set } = verdict.subject;
      // On an American boat the supply alone is the shore's; of every other source a device inside an outlet does.
      const demand = set === "us-small-craft" ? null : demandAhead(set);
      const standing = demand === null ? undefined : standingOf(demand);
      let some = false;
      let unseen: string | null = null;
      for (const state of statesOf(build)) {
        const at = state.takers.find((t) => t.taker === id);
        if (at === undefined || !isFed(at, taker)) continue;
        const is = isGuarded(at, guards, THIRTY, standing);
        // Neither guarded nor skipped.
        const borrowed = is === false && borrows(at, guards, THIRTY);
        if (is === "no join" || borrowed) {
          unseen ??= borrowed ? BORROWS : SEES_NOTHING;
          continue;
        }
        if (is !== false) some = true;
        if (typeof is === "string") verdict.needs.push(unsureGuard(is, verdict.subject));
        if (is === false) {
          const blinded = blindedAt(state, at, guards, THIRTY, sources);
          const words = { sources: nameSome(at.sources.map((s) => sources.get(s)?.part ?? s)), ...blinded };
          const message = blinded === null ? "skipped" : "blind";
          verdict.faults.push({ message, state, said: { words }, taker: id });
        }
      }
      const isOutlet = build.part(taker.part)?.part.traits.outlet === true;
      // Where a set asks by place, what is wired fast needs none.
      if (set?.startsWith("us-") === true && set !== "us-small-craft" && !isOutlet) some = false;
      // Without one that works with any source none is skipped.
      const told = some
        ? verdict
        : {
            ...verdict,
            faults: [],
            needs: [],
            exempt: unseen ?? "no residual device has to guard it, or none does with any source",
          };
      tellStates(build, report, [told]);
    }
  },
});
