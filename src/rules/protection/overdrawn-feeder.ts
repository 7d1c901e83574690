import { cite } from "../../explain/index.ts";
import { STEADY_SHARE } from "../../protect/index.ts";
import type { Value } from "../../system/index.ts";
import type { Build, CircuitView, PartView } from "../build.ts";
import { hasUnknowns, unknownAmps } from "../conductor/volts-on-the-way.ts";
import type { Needed } from "../finding.ts";
import { lacksNumbers } from "../lacks-numbers.ts";
import { below, needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { isFeeder } from "./feeders.ts";
import { partOfTerminal, type GuardedCircuit } from "./guards.ts";
import { whyNotAsked } from "./not-asked.ts";
import { judgeMain } from "./overdrawn-main.ts";
import { tightest } from "./tightest.ts";

/** Amps that are rounding, not load. */
const SLACK = 1e-6;

/** Amps, and when they flow. */
interface Demand {
  readonly amps: number;
  readonly state: string | null;
}

export const overdrawnFeeder = defineRule({
  id: "protection/overdrawn-feeder",
  title: "Overdrawn feeder",
  severity: "must",
  danger: "the main device opens just when everything is needed",
  why: `What is on together behind a feeder, in the worst of the given states, or the demand that the plan gives it, may not exceed its device, its
    conductor, nor the rating of the panel or bar that it feeds; for hours no more than 80 % of its device. The sum of the ratings of the branches
    is no test, and loads that no state has on together are not added. A bar is held against all that flows into it.`,
  silent: [
    "feeders of alternating current: of the alternating side the mains of boards are judged, on the line that carries most",
    "circuits that feed no panel or bar, and those of what charges",
    "bars and panels that state no rating",
  ],
  sources: [
    { cite: cite("nfpa-70-2023", "215.2, 215.3", "read"), sets: ["us-cabin", "us-rv"] },
    { cite: cite("trade-practice", "what is on together", "practice") },
  ],
  messages: {
    device: "{place} carries {measured} ({state}), more than its device of {limit}",
    conductor: "{place} carries {measured} ({state}); {size} may carry {limit}",
    continuous:
      "{place} carries {measured} for long ({state}), more than 80 % of its device of {rating}, which is {limit}",
    main: "{measured}{on} flow through the main of {place} ({state}), more than its {limit}",
    rating: "{measured} flow through {place} ({state}); it is rated for {limit}",
  },
  cures: ["larger-device", "larger-part", "next-size", "stagger"],
  examples: {
    good: [
      {
        says: "branches that add up to more than the feeder, and are not on together",
        plan: "circuits:\n  W04: { path: BP → PNL, length: 1.5 m, wire: 6 mm², fuse: 30 A at BP }\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 6 mm², breaker: 25 A at PNL }\n  W11: { path: PNL:2 → fridge, length: 5 m, wire: 6 mm², breaker: 25 A at PNL }",
      },
    ],
    bad: [
      {
        says: "45 A of demand behind 40 A",
        plan: "circuits:\n  W04: { path: BP → PNL, length: 1.5 m, demand: 45 A, fuse: 40 A at BP }",
        fails: "device",
        about: "circuits.W04",
      },
      {
        says: "35 A of demand for hours behind 40 A",
        plan: "circuits:\n  W04: { path: BP → PNL, length: 1.5 m, demand: 35 A, fuse: 40 A at BP }",
        fails: "continuous",
        about: "circuits.W04",
      },
      {
        says: "more demand than the wire carries",
        plan: "circuits:\n  W04: { path: BP → PNL, length: 1.5 m, wire: 2.5 mm², demand: 35 A, fuse: 50 A at BP }",
        fails: "conductor",
        about: "circuits.W04",
      },
      {
        says: "a panel for 25 A",
        plan: "parts:\n  PNL: { kind: panel, ways: 12, device: breaker, negative bar: yes, rated: 25 A }",
        fails: "rating",
        about: "parts.PNL",
      },
      {
        says: "20 A on together behind a main of 16 A",
        plan: "rules: { DC: iso-small-craft 2020+A1:2022, AC: iso-small-craft 2020+A1:2022 }\nsystems:\n  AC: { kind: AC, nominal: 230 V, cores: [L, N, PE] }\nparts:\n  INL: { kind: shore inlet, rated: 32 A }\n  CU: { kind: consumer unit, main: { residual device: 30 mA, poles: 2, rated: 16 A }, ways: { 1: breaker 16 A 2-pole, 2: breaker 16 A 2-pole } }\n  boiler: { kind: load, running: 9 A }\n  cooker: { kind: load, running: 11 A }\ncircuits:\n  W30: { path: INL → CU:in, length: 0.4 m }\n  W31: { path: CU:1 → boiler, length: 4 m }\n  W32: { path: CU:2 → cooker, length: 4 m }\nstates:\n  alongside: { shore: in, on: [boiler, cooker], charge: 60 % }",
        fails: "main",
        about: "parts.CU",
      },
    ],
  },
  judge(build, report) {
    for (const view of build.circuits) {
      const c = whyNotAsked(build, view);
      if (typeof c === "string") report.notApplicable(view.subject, c);
      else if (!isFeeder(build, c)) report.notApplicable(view.subject, "it feeds no panel or bar");
      else judgeFeeder(build, c, flowOf(build, c), report);
    }
    for (const view of build.parts) {
      if (view.part.traits.distributes !== true || view.part.traits.structure === true) continue;
      const { rated, current } = view.part;
      if (current === "AC") judgeMain(build, view, report);
      else if (rated === undefined) report.notApplicable(view.subject, "it states no rating");
      else if (rated === "unknown") report.cannotTell(view.subject, [needed("its rating", view.subject)]);
      else judgeBar(build, view, rated, report);
    }
  },
});

type Message = "device" | "conductor" | "continuous" | "rating" | "main";

/** What flows in a circuit at most: in the given states, at its demand, and with single loads alone. */
function flowOf(build: Build, { view: { design }, model }: GuardedCircuit): Demand {
  let most: Demand = { amps: design.steadyA ?? 0, state: design.steadyIn };
  for (const { id, circuits } of build.design.states) {
    const amps = circuits[model.position]?.amps ?? 0;
    if (amps > most.amps + SLACK) most = { amps, state: id };
  }
  return most;
}

function judgeFeeder(build: Build, c: GuardedCircuit, flow: Demand, report: Report<Message>): void {
  const { subject, design } = c.view;
  const said = { measured: flow.amps, unit: "A", state: flow.state ?? "in no state" } as const;
  const { low, high } = tightest(c.guards);
  const iz = design.ampacityA;
  if (c.guards.every((g) => g.rating === null) && lacksNumbers(build, c.view, report)) return;
  if (flow.amps > high + SLACK) {
    report.fail(subject, "device", { ...said, limit: high, margin: below(flow.amps, high) });
    return;
  }
  if (iz !== null && flow.amps > iz + SLACK) {
    report.fail(subject, "conductor", {
      ...said,
      limit: iz,
      margin: below(flow.amps, iz),
      trust: design.ampacityTrust,
      words: { size: design.size?.label ?? "its wire" },
    });
    return;
  }
  const needs: Needed[] = [];
  if (c.untold) needs.push(needed("its fuse", subject));
  if (c.guards.some((g) => g.rating === null && g.placed?.given !== null))
    needs.push(needed("the rating of its device", subject));
  if (hasUnknowns(build)) needs.push(...untoldBehind(build, c));
  if (needs.length > 0) report.cannotTell(subject, needs);
  else if (flow.amps > STEADY_SHARE * high + SLACK) {
    const binds = subject.set === "us-cabin" || subject.set === "us-rv";
    report.fail(subject, "continuous", {
      ...said,
      limit: STEADY_SHARE * high,
      margin: below(flow.amps, STEADY_SHARE * high),
      severity: binds ? "must" : "should",
      words: { rating: { value: high, unit: "A" } },
    });
  } else if (flow.amps > STEADY_SHARE * low + SLACK) {
    report.cannotTell(subject, [needed("the rating of its device", subject)]);
  } else {
    const limit = Math.min(STEADY_SHARE * low, iz ?? Infinity);
    const margin = Number.isFinite(limit) ? below(flow.amps, limit) : undefined;
    report.pass(subject, { measured: flow.amps, limit, unit: "A", margin, state: said.state });
  }
}

/** Loads of which nobody knows what they take, where a feeder alone leads to them. */
function untoldBehind(build: Build, c: GuardedCircuit): Needed[] {
  const { circuits } = build.settled.model;
  const needs: Needed[] = [];
  const queue = [...c.model.children];
  for (const position of queue) {
    const child = circuits[position];
    if (child === undefined) continue;
    queue.push(...child.children);
    needs.push(...child.circuit.draws.flatMap((part) => unknownAmps(build, part) ?? []));
  }
  return needs;
}

/** Circuits by the part that they end at, indexed once for a build. */
const ending = new WeakMap<Build, ReadonlyMap<string, readonly CircuitView[]>>();

function circuitsAt(build: Build, part: string): readonly CircuitView[] {
  let index = ending.get(build);
  if (index === undefined) {
    const lists = new Map<string, CircuitView[]>();
    const put = (p: string, view: CircuitView): void => {
      const list = lists.get(p);
      if (list === undefined) lists.set(p, [view]);
      else if (list.at(-1) !== view) list.push(view);
    };
    for (const view of build.circuits) {
      for (const { from, to } of view.circuit.conductors) {
        put(partOfTerminal(from), view);
        put(partOfTerminal(to), view);
      }
    }
    ending.set(build, (index = lists));
  }
  return index.get(part) ?? [];
}

/** All that flows into a bar flows out of it again: half of what its circuits carry, or what the greatest of them carries by itself. */
function judgeBar(build: Build, { subject, id }: PartView, rated: Value, report: Report<"rating">): void {
  const own = circuitsAt(build, id);
  let most: Demand = { amps: 0, state: null };
  for (const { design } of own) {
    if ((design.steadyA ?? 0) > most.amps) most = { amps: design.steadyA ?? 0, state: design.steadyIn };
  }
  for (const state of build.design.states) {
    let sum = 0;
    for (const { model } of own) sum += (state.circuits[model?.position ?? -1]?.amps ?? 0) / 2;
    if (sum > most.amps + SLACK) most = { amps: sum, state: state.id };
  }
  const said = { measured: most.amps, unit: "A", state: most.state ?? "in no state" } as const;
  if (most.amps <= rated.low + SLACK) {
    report.pass(subject, { ...said, limit: rated.low, margin: below(most.amps, rated.low) });
  } else if (most.amps <= rated.high + SLACK) report.cannotTell(subject, [needed("its rating", subject)]);
  else report.fail(subject, "rating", { ...said, limit: rated.high, margin: below(most.amps, rated.high) });
}
