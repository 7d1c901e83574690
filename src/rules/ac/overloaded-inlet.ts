import { cite } from "../../explain/index.ts";
import { givesIn } from "../../system/index.ts";
import { coreOf, followAlternating, momentName } from "../battery/alternating-demand.ts";
import type { Needed } from "../finding.ts";
import { below, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, saysFigure } from "../stated.ts";
import { inletsOf, linesOf, lineVoltsOf, plugsOf } from "./inlets.ts";

const alongside = (inlet: string, loads = "running: 10 A"): string =>
  `rules: { DC: iso-small-craft 2020+A1:2022, AC: iso-small-craft 2020+A1:2022 }\nsystems:\n  AC: { kind: AC, nominal: 230 V, cores: [L, N, PE] }\nparts:\n  INL: { kind: shore inlet, breaker: 16 A 2-pole, ${inlet} }\n  CU: { kind: consumer unit, main: { residual device: 30 mA, poles: 2 }, ways: { 1: breaker 16 A 2-pole } }\n  heater: { kind: load, ${loads} }\ncircuits:\n  W20: { path: INL → CU:in, length: 1 m }\n  W21: { path: CU:1 → heater, length: 3 m }\nstates:\n  alongside: { shore: in, on: [heater], charge: 60 % }`;

/** Share of its rating that a plug carries for hours. */
const FOR_HOURS = 0.8;

export const overloadedInlet = defineRule({
  id: "ac/overloaded-inlet",
  title: "Overloaded inlet",
  severity: "should",
  danger: "worn contacts of plugs char at half of their rating, and small supplies trip again and again",
  why: `All that a state has on, chargers too, counted in amps (watts at the power factor that a load states, else at 1), of several lines on the one that carries most: for hours an inlet carries four fifths of its rating, and on the smallest supply that it is meant to be plugged into it
    asks for no more than that supply gives. The four fifths are of the American code; where plugs are rated for hours as they stand it is a note. That it exceeds its rating outright is told by battery/overloaded-source.`,
  silent: ["inlets that no state plugs in", "the smallest supply, where the plan names none"],
  sources: [
    { cite: cite("nfpa-70-2023", "210.20(A), 551.42", "memory"), sets: ["us-cabin", "us-rv"] },
    { cite: cite("trade-practice", "four fifths of a plug's rating for hours", "practice") },
  ],
  messages: {
    hours: "{place} carries {measured}{on} ({state}); of its {rating} it bears {limit} for hours",
    small: "{place} is asked for {measured}{on} ({state}), and the smallest supply that it is meant for gives {limit}",
  },
  cures: ["stagger", "larger-part"],
  examples: {
    good: [
      { says: "10 A of 16 A", plan: alongside("rated: 16 A") },
      { says: "5 A on a supply of 6 A", plan: alongside("rated: 16 A, smallest supply: 6 A", "running: 5 A") },
    ],
    bad: [
      {
        says: "15 A of 16 A for hours",
        plan: alongside("rated: 16 A", "running: 15 A"),
        fails: "hours",
        about: "parts.INL",
      },
      {
        says: "10 A on a supply of 6 A",
        plan: alongside("rated: 16 A, smallest supply: 6 A"),
        fails: "small",
        about: "parts.INL",
      },
      {
        says: "nobody knows the smallest supply",
        plan: alongside("rated: 16 A, smallest supply: unknown"),
        fails: "cannot tell",
        about: "parts.INL",
      },
    ],
  },
  judge(build, report) {
    const inlets = [...inletsOf(build), ...plugsOf(build)];
    if (inlets.length === 0) return;
    const follow = followAlternating(build.system);
    for (const { view, source, amps } of inlets) {
      const { subject } = view;
      const smallest = saysFigure(factsOf(view), "smallest supply");
      const volts = lineVoltsOf(source);
      const lines = linesOf(source);
      const states = build.system.states.filter((s) => givesIn(s, view.id, build.system));
      // Amps are those of a line, whatever flows in another.
      const moments = states.flatMap((state) => lines.map((line) => ({ state, line })));
      const asks = moments.map(({ state, line }) => {
        const list = follow([line], state).filter((l) => l.isOn);
        const sum = (of: (l: (typeof list)[number]) => number): number =>
          list.reduce((all, l) => all + of(l), 0) / volts;
        return {
          state: momentName(state),
          on: lines.length > 1 ? ` on ${coreOf(line)}` : "",
          least: sum((l) => (l.isSet ? 0 : l.low)),
          most: sum((l) => l.high),
          list,
        };
      });
      const worst = asks.reduce<(typeof asks)[number] | null>(
        (a, b) => (a === null || b.least > a.least ? b : a),
        null,
      );
      if (worst === null) report.notApplicable(subject, "no state plugs it in");
      else if (amps === null) report.cannotTell(subject, [needed("its rating", subject)]);
      else if (worst.least > amps) report.notApplicable(subject, "battery/overloaded-source tells of it");
      else {
        const most = asks.reduce((a, b) => (b.most > a.most ? b : a), worst);
        const open: Needed[] = most.list
          .filter((l) => l.isUnknown || l.isSet || l.low < l.high)
          .map((l) =>
            needed(l.isUnknown ? `what ${l.part} takes` : `the charger input of ${l.part}`, `parts.${l.part}`),
          );
        const limits = [
          { message: "hours", limit: FOR_HOURS * amps },
          ...(smallest === undefined || smallest === "unknown"
            ? []
            : [{ message: "small", limit: smallest.low } as const]),
        ] as const;
        const said = (limit: number, measured: number, state: string) =>
          ({ measured, limit, unit: "A", margin: below(measured, limit), state }) as const;
        const tightest = limits.reduce((a, b) => (b.limit < a.limit ? b : a));
        const { limit, message } = tightest;
        if (worst.least > limit * (1 + 1e-9))
          report.fail(subject, message, { ...said(limit, worst.least, worst.state), words: { rating: `${amps} A`, on: worst.on }, ...(message === "hours" && subject.set?.startsWith("us-") !== true ? { severity: "note" } : {}) }); // prettier-ignore
        else if (smallest === "unknown")
          report.cannotTell(subject, [needed("the smallest supply that it is meant for", subject)]); // prettier-ignore
        else if (most.most > limit && open.length > 0)
          report.cannotTell(subject, open, said(limit, most.most, most.state)); // prettier-ignore
        else report.pass(subject, said(limit, most.most, most.state));
      }
    }
  },
});
