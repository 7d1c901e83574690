import { cite } from "../../explain/index.ts";
import { below, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { severityOf } from "../rule.ts";
import { factsOf, saysFigure, saysYes } from "../stated.ts";
import type { RuleSetId } from "../rule-set-id.ts";
import { askOnce, batteriesOf, type Battery } from "./batteries.ts";

/** How far a battery may move under the test force of its set, m. */
const MOVES: Partial<Record<RuleSetId, number>> = { "us-small-craft": 0.0254, "iso-small-craft": 0.01 };

const held = (more: string): string => `parts:\n  B1: { kind: battery, chemistry: AGM, capacity: 200 Ah${more} }`;

export const unrestrainedBattery = defineRule({
  id: "battery/unrestrained-battery",
  title: "Unrestrained battery",
  severity: {
    otherwise: "should",
    sets: { "us-small-craft": "must", "iso-small-craft": "must", "us-rv": "must", "iec-caravan": "must" },
  },
  danger: "a loose battery tears its cables, spills, or lays its posts against steel",
  why: `Every battery is held down. While it is pulled at, it moves no more than 25.4 mm under us-small-craft (90 lbf, or twice its weight if that is
    less) and no more than 10 mm under iso-small-craft (twice its weight); elsewhere it is fixed.`,
  silent: ["sets that only advise it, where the plan does not say"],
  sources: [
    { cite: cite("33-cfr-183", "183.420(a)", "read"), sets: ["us-small-craft"] },
    { cite: cite("iso-10133-2012", "5.2", "read"), sets: ["iso-small-craft"] },
    { cite: cite("en-1648-2", "4.3.4", "read"), sets: ["iec-caravan"] },
    { cite: cite("trade-practice", "batteries are strapped or bracketed", "practice") },
  ],
  messages: {
    loose: "{place} is not held down",
    moves: "{place} moves by {measured} while it is pulled at; {limit} is the most",
  },
  cures: ["hold-down"],
  examples: {
    good: [
      { says: "strapped", plan: held(", held down: yes") },
      { says: "it hardly moves", plan: held(", moves: 8 mm") },
    ],
    bad: [
      { says: "it stands loose", plan: held(", held down: no"), fails: "loose", about: "parts.B1" },
      { says: "it moves too far", plan: held(", held down: yes, moves: 40 mm"), fails: "moves", about: "parts.B1" },
      { says: "the plan does not say", plan: held(""), fails: "cannot tell", about: "parts.B1" },
    ],
  },
  judge(build, report) {
    const silent: Battery[] = [];
    for (const battery of batteriesOf(build)) {
      const { subject } = battery.view;
      const facts = factsOf(battery.view);
      const isHeld = saysYes(facts, "held down");
      const moves = saysFigure(facts, "moves");
      const limit = subject.set === null ? undefined : MOVES[subject.set];
      if (isHeld === false) report.fail(subject, "loose");
      else if (moves !== undefined && moves !== "unknown" && limit !== undefined) {
        const said = { measured: moves.high, limit, unit: "m", margin: below(moves.high, limit) } as const;
        if (moves.low > limit) report.fail(subject, "moves", said);
        else if (moves.high > limit) report.cannotTell(subject, [needed("how far it moves, closer", subject)], said);
        else report.pass(subject, said);
      } else if (isHeld === true) report.pass(subject);
      else if (isHeld === "unknown" || moves === "unknown")
        report.cannotTell(subject, [needed("how it is held down", subject)]);
      else silent.push(battery);
    }
    askOnce(
      report,
      silent,
      ({ view }) => severityOf(unrestrainedBattery, view.subject.set) === "must",
      (names, verb) => `how ${names} ${verb} held down`,
    );
  },
});
