import { cite } from "../../explain/index.ts";
import { contactAmpsOf } from "../battery/contact-amps.ts";
import type { Build, CircuitView } from "../build.ts";
import { lacksNumbers } from "../lacks-numbers.ts";
import { below } from "../report.ts";
import { defineRule } from "../rule.ts";

const heaters = (wire: string): string =>
  `parts:\n  fore heater: { kind: load, running: 8 A, runs above: 9 V }\n  aft heater: { kind: load, running: 24 A, runs above: 9 V }\ncircuits:\n  W20: { path: BP → fore heater, length: 0.6 m, wire: ${wire}, fuse: 15 A at BP }\n  W21: { path: BP → aft heater, length: 0.5 m, wire: 6 mm², fuse: 30 A at BP, return: fore heater }`;

export const undersizedJointNegative = defineRule({
  id: "return/undersized-shared-negative",
  title: "Undersized shared negative",
  severity: "must",
  danger: "each plus has its fuse, the minus that they share has none, and it is the one that gets hot",
  why: `A negative brings back all that several circuits take, loads added and charge taken off, in each state and with each load alone. Where it lies beside a plus of its own, that plus says nothing
    of what flows in it: the solved current of each stretch may not exceed what its size carries.`,
  silent: [
    "negatives that bring back no more than their own plus takes out",
    "negatives that are circuits by themselves: overloaded-conductor judges what flows in them",
    "alternating current",
  ],
  sources: [{ cite: cite("own-derivation", "sum of what is brought back, stretch by stretch", "derived") }],
  messages: {
    overloaded: "the minus of {place} brings back {measured} ({state}), {own} of it its own; it may carry {limit}",
  },
  cures: ["next-size", "own-negative"],
  examples: {
    good: [
      { says: "a negative for each", plan: "" },
      { says: "a shared negative that is thick enough", plan: heaters("6 mm²") },
    ],
    bad: [
      {
        says: "two heaters home on the wire of one",
        plan: heaters("1.5 mm²"),
        fails: "overloaded",
        about: "circuits.W20",
      },
    ],
  },
  judge(build, report) {
    for (const view of build.circuits) {
      const { subject, model, design, circuit } = view;
      if (model === null) report.notApplicable(subject, "it carries alternating current, or bonds");
      else if (!circuit.conductors.some((c) => c.role === "return"))
        report.notApplicable(subject, "it has no negative");
      else if (!circuit.conductors.some((c) => c.role === "live"))
        report.notApplicable(subject, "it is a negative by itself: overloaded-conductor judges it");
      else {
        const { out, back, state } = flowsOf(build, view);
        if (back <= out * (1 + 1e-6) + MORE)
          report.notApplicable(subject, "it brings back what its own plus takes out");
        else if (!lacksNumbers(build, view, report) && design.ampacityA !== null) {
          const limit = design.ampacityA;
          const said = {
            measured: back,
            limit,
            unit: "A",
            margin: below(back, limit),
            state: state === "" ? null : state,
          } as const;
          if (back <= limit * (1 + 1e-9)) report.pass(subject, said);
          else
            report.fail(subject, "overloaded", {
              ...said,
              state: state === "" ? "whenever they run" : state,
              trust: design.ampacityTrust,
              words: { own: { value: out, unit: "A" } },
            });
        }
      }
    }
  },
});

/** So little more is none, A. */
const MORE = 0.01;

/** The most that a circuit takes out in its plus, and brings back in its minus. */
function flowsOf(
  build: Build,
  { model }: CircuitView,
): { readonly out: number; readonly back: number; readonly state: string } {
  const amps = contactAmpsOf(build);
  let out = 0;
  let back = 0;
  let state = "";
  for (const e of model?.edges ?? []) {
    const found = amps(e);
    if (build.settled.model.grid.edges[e]?.live === true) out = Math.max(out, found.steady);
    else if (found.steady > back) {
      back = found.steady;
      state = found.state;
    }
  }
  return { out, back, state };
}
