import { cite } from "../../explain/index.ts";
import { defineRule } from "../rule.ts";
import { guardName, guardsOf } from "./guarded.ts";
import { oneSource, shoreAndInverter } from "./example-plans.ts";
import { alternatingPart, statesOf, switchingOf } from "./switching-of.ts";
import { alternates, tellStates, verdictOn, type StateVerdict } from "./tell-states.ts";

const INLETS = {
  INL: "kind: shore inlet, rated: 16 A",
  R1: "kind: breaker, rated: 10 A, poles: 2, residual device: 30 mA",
  R2: "kind: breaker, rated: 10 A, poles: 2, residual device: 30 mA",
  JN: "kind: junction box",
  CU: null,
};

export const sharedNeutralBehindTwoGuards = defineRule({
  id: "ac/shared-neutral-behind-two-guards",
  title: "Shared neutral behind two guards",
  severity: "must",
  danger: "both residual devices trip for no fault, until somebody bypasses them and nothing guards at all",
  why: `A residual device compares what goes out with what comes back through itself. Where the neutrals of two of them meet behind them, current that went out through the one comes back through the other; and
    what borrows the neutral of another circuit goes out through its own and comes back past it.`,
  silent: ["residual devices in outlets", "builds without residual devices"],
  sources: [{ cite: cite("trade-practice", "a neutral of its own behind each residual device", "practice") }],
  messages: {
    meet: "with {state}, the neutrals behind {place} and {other} meet; the way there: {steps}",
    borrowed:
      "with {state}, what {other} draws goes out through {device} and comes back past it, by the neutral of another circuit; the way there: {steps}",
  },
  cures: [],
  examples: {
    good: [{ says: "one behind the other is no pair", plan: shoreAndInverter() }],
    bad: [
      {
        says: "two residual devices on one box",
        plan: oneSource({
          parts: INLETS,
          circuits: {
            W20: "path: INL → R1 → JN, legs: [1 m, 1 m]",
            W21: "path: INL → R2 → JN, legs: [1 m, 1 m]",
            W23: "path: JN → sockets, length: 3 m",
          },
        }),
        fails: "meet",
        about: "parts.R2",
      },
      {
        says: "a neutral borrowed from the next circuit",
        plan: oneSource({
          parts: {
            INL: "kind: shore inlet, rated: 16 A, breaker: 16 A 2-pole",
            CU: "kind: consumer unit, main: { kind: switch, poles: 2, rated: 16 A }, ways: { 1: breaker 10 A 30 mA 2-pole, 2: breaker 10 A 30 mA 2-pole }",
            kettle: "kind: load, running: 4 A",
          },
          circuits: {
            W21: "path: CU:2 → kettle, length: 3 m, cores: [L, PE]",
            W22: "path: kettle → sockets, length: 1 m, cores: [N]",
          },
        }),
        fails: "borrowed",
        about: "parts.CU",
      },
    ],
  },
  judge(build, report) {
    if (!alternates(build, report)) return;
    const { problem } = switchingOf(build);
    const devices = guardsOf(build);
    const partOf = new Map(problem.guards.map((g) => [g.id, g.part]));
    const takenBy = new Map(problem.takers.map((t) => [t.id, t.part]));
    const verdicts = new Map<string, StateVerdict<"meet" | "borrowed">>();
    for (const { part, contacts } of problem.guards)
      if (contacts.length > 0) verdicts.set(part, verdictOn(alternatingPart(build, part)));
    if (verdicts.size === 0) report.notApplicable(build.whole, "there is no residual device but in outlets");
    for (const state of statesOf(build)) {
      for (const { guards } of state.neutralsMeet) {
        const [other = "", own = ""] = guards.map((g) => partOf.get(g) ?? g);
        verdicts.get(own)?.faults.push({ message: "meet", state, said: { words: { other } } });
      }
      for (const { taker, state: fed, guards } of state.takers) {
        const past = guards.find((g) => fed === "fed" && g.neutralThrough === false);
        if (past === undefined) continue;
        const words = { other: takenBy.get(taker) ?? taker, device: guardName(devices.get(past.guard)) };
        verdicts.get(partOf.get(past.guard) ?? "")?.faults.push({ message: "borrowed", state, said: { words } });
      }
    }
    tellStates(build, report, verdicts.values());
  },
});
