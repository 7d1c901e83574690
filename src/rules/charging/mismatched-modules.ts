import { cite } from "../../explain/index.ts";
import { below, needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, saysFigure, type Stated } from "../stated.ts";
import { arraysOf, overChain, type ArrayInput, type Modules, type Span } from "./arrays.ts";

/** By how much the currents of modules in series and the volts of strings in parallel may differ, as shares: from memory. */
const IN_SERIES = 0.05;
const IN_PARALLEL = 0.03;

type Message = "parallel" | "series";

const two = (second: string): string => `parts:
  MPPT: { kind: solar controller, output: 30 A }
  PV1: { kind: solar module, rated: 175 W, Voc: 24.4 V, Vmp: 20.2 V, Isc: 9.2 A, Imp: 8.7 A }
  PV2: { kind: solar module, ${second} }
circuits:
  W20: { path: PV1 → MPPT:in, length: 3 m }
  W21: { path: PV2 → MPPT:in, length: 3 m }
  W22: { path: MPPT:out → BP, length: 1 m }`;

export const mismatchedModules = defineRule<Message>({
  id: "charging/mismatched-modules",
  title: "Mismatched modules",
  severity: "should",
  danger: "a tenth of the roof drags down all of it",
  why: `A controller holds all strings on its input at one voltage, and modules in series carry one current. Strings side by side have best volts within 3 % of each
    other, modules in series best currents within 5 %. Modules of one entry are alike. What lies in another shade or faces another way gives most on a
    controller of its own.`,
  silent: [
    "controllers with modules of one entry",
    "shade and direction, which a plan does not state",
    "modules of which Vmp or Imp is not stated",
  ],
  sources: [{ cite: cite("trade-practice", "modules on one controller", "memory") }],
  messages: {
    parallel:
      "{place}: the best volts of {first} and {second} side by side, {most} and {least}, differ by {measured}; up to {limit} is usual",
    series:
      "{place}: the best currents of {first} and {second} in series, {most} and {least}, differ by {measured}; up to {limit} is usual",
  },
  cures: [],
  examples: {
    good: [
      { says: "two alike", plan: two("rated: 175 W, Voc: 24.4 V, Vmp: 20.2 V, Isc: 9.2 A, Imp: 8.7 A") },
      {
        says: "the same volts with other watts",
        plan: two("rated: 100 W, Voc: 24.2 V, Vmp: 20.0 V, Isc: 5.4 A, Imp: 5 A"),
      },
    ],
    bad: [
      {
        says: "20 V beside 18 V",
        plan: two("rated: 100 W, Voc: 22 V, Vmp: 18 V, Isc: 6 A, Imp: 5.6 A"),
        fails: "parallel",
        about: "parts.MPPT",
      },
      {
        says: "5 A in series with 8.7 A",
        plan: two("rated: 100 W, Voc: 24.4 V, Vmp: 20.2 V, Isc: 5.6 A, Imp: 5 A")
          .replace("PV1 → MPPT:in, length: 3 m", "PV1:+ → MPPT:in, length: 3 m, return: PV2")
          .replace("PV2 → MPPT:in, length: 3 m", "PV1:− → PV2:+, length: 0.5 m")
          .replace("W22:", "W23: { path: PV2:− → MPPT:in−, length: 3 m }\n  W22:"),
        fails: "series",
        about: "parts.MPPT",
      },
      {
        says: "nobody knows the second",
        plan: two("rated: 100 W, Voc: 22 V, Vmp: unknown, Isc: 6 A"),
        fails: "cannot tell",
        about: "parts.MPPT",
      },
    ],
  },
  judge(build, report) {
    for (const input of arraysOf(build).inputs) {
      const entries = input.modules.flatMap((m) => m.chain);
      if (entries.length < 2) {
        report.notApplicable(
          input.view.subject,
          entries.length === 0 ? "no module hangs on it" : "its modules are alike",
        );
        continue;
      }
      const bestVolts = (m: Modules): Stated<Span> => saysFigure(factsOf(m.view), "Vmp");
      const ofString = (m: Modules): Stated<Span> => {
        const each = m.chain.map(bestVolts);
        if (each.includes("unknown")) return "unknown";
        if (each.includes(undefined)) return undefined;
        return overChain(m, ({ feed }) => feed.bestVolts ?? { low: 0, high: 0 });
      };
      compare(input, input.modules, ofString, "V", IN_PARALLEL, "parallel", report);
      for (const m of input.modules)
        compare(input, m.chain, ({ view }) => saysFigure(factsOf(view), "Imp"), "A", IN_SERIES, "series", report);
    }
  },
});

function compare(
  { view: { subject } }: ArrayInput,
  modules: readonly Modules[],
  figureOf: (m: Modules) => Stated<Span>,
  unit: "V" | "A",
  limit: number,
  message: Message,
  report: Report<Message>,
): void {
  if (modules.length < 2) return;
  const figures = modules.map((m) => ({ m, figure: figureOf(m) }));
  const needs = figures.flatMap(({ m, figure }) =>
    figure === "unknown" ? [needed(`${unit === "V" ? "Vmp" : "Imp"} of ${m.view.id}`, m.view.subject)] : [],
  );
  const told = figures
    .flatMap(({ m, figure }) => (figure === undefined || figure === "unknown" ? [] : [{ m, amount: figure.high }]))
    .sort((a, b) => b.amount - a.amount);
  const [most] = told;
  const least = told.at(-1);
  if (most === undefined || least === undefined) {
    if (needs.length > 0) report.cannotTell(subject, needs);
    else report.notApplicable(subject, `${unit === "V" ? "Vmp" : "Imp"} is not stated`);
    return;
  }
  const measured = most.amount > 0 ? 1 - least.amount / most.amount : 0;
  const said = { measured, limit, unit: "share", margin: below(measured, limit) } as const;
  if (measured > limit)
    report.fail(subject, message, {
      ...said,
      words: {
        first: most.m.view.id,
        second: least.m.view.id,
        most: { value: most.amount, unit },
        least: { value: least.amount, unit },
      },
    });
  else if (needs.length > 0) report.cannotTell(subject, needs);
  else if (told.length < modules.length) report.notApplicable(subject, `${unit === "V" ? "Vmp" : "Imp"} is not stated`);
  else report.pass(subject, said);
}
