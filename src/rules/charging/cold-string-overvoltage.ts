import { cite } from "../../explain/index.ts";
import { coldByFactor, coldFactor } from "../../system/index.ts";
import type { Build } from "../build.ts";
import { figure } from "../figure.ts";
import type { Needed } from "../finding.ts";
import { below, needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, saysFigure } from "../stated.ts";
import { arraysOf, lacksOf, overChain, type ArrayInput, type Modules, type Span } from "./arrays.ts";

const string = (
  series: number,
  module: string,
  controller: string,
  lowest = "-32 °C",
): string => `climate: { ambient: 30 °C, lowest: ${lowest} }
parts:
  MPPT: { kind: solar controller, output: 30 A${controller} }
  PV: { kind: solar module, rated: 410 W, Voc: 37.3 V, Vmp: 31.3 V, Isc: 13.9 A, in series: ${series}${module} }
circuits:
  W20: { path: PV → MPPT:in, length: 3 m }
  W21: { path: MPPT:out → BP, length: 1 m }`;
const COEFFICIENT = ", Voc per kelvin: -0.25 %";

export const coldStringOvervoltage = defineRule({
  id: "charging/cold-string-overvoltage",
  title: "Cold string overvoltage",
  severity: "must",
  danger: "the first frosty sunrise kills the controller",
  why: `Modules give more volts the colder they are. The open-circuit volts of each string, brought to the lowest temperature of the place, are no more than
    the input of its controller bears, nor than its modules are made for. The coefficient of the module decides: Uoc · (1 + β · (T − 25 °C)); without one they lie
    between the label and the factor of NEC table 690.7(A). Whoever travels states the coldest place that is meant. What wires and devices bear is
    judged by conductor/insulation-voltage-too-low and protection/low-voltage-rating.`,
  silent: ["controllers whose maker states no limit, and those without modules"],
  sources: [{ cite: cite("nfpa-70-2023", "690.7(A)", "read") }],
  messages: {
    beyond: "{place}: {string} gives {measured} at {cold}{byTable}; the input bears {limit}",
    module: "{place}: {string} gives {measured} at {cold}{byTable}; its maker allows {limit}",
  },
  cures: ["fewer-in-series", "higher-input-limit"],
  examples: {
    good: [
      { says: "three in series where it gets −32 °C", plan: string(3, COEFFICIENT, ", input limit: 150 V") },
      { says: "the same by the table alone", plan: string(3, "", ", input limit: 150 V") },
      { says: "four where frost is unknown", plan: string(4, COEFFICIENT, ", input limit: 150 V", "25 °C") },
    ],
    bad: [
      {
        says: "four in series at −32 °C",
        plan: string(4, COEFFICIENT, ", input limit: 150 V"),
        fails: "beyond",
        about: "parts.MPPT",
      },
      {
        says: "an input that may be 20 V above its battery",
        plan: string(1, COEFFICIENT, ", input above battery: 20 V"),
        fails: "beyond",
        about: "parts.MPPT",
      },
      {
        says: "modules for 100 V in a string of three",
        plan: string(3, `${COEFFICIENT}, system volts: 100 V`, ", input limit: 150 V"),
        fails: "module",
        about: "parts.PV",
      },
      {
        says: "the table is beyond and the coefficient is not known",
        plan: string(3, "", ", input limit: 130 V"),
        fails: "cannot tell",
        about: "parts.MPPT",
      },
      {
        says: "nobody knows what the input bears",
        plan: string(3, COEFFICIENT, ", input limit: unknown"),
        fails: "cannot tell",
        about: "parts.MPPT",
      },
    ],
  },
  judge(build, report) {
    const { inputs, modules } = arraysOf(build);
    for (const input of inputs) judgeInput(build, input, report);
    for (const m of modules) {
      const allowed = saysFigure(factsOf(m.view), "system volts");
      if (allowed === undefined) continue;
      if (allowed === "unknown")
        report.cannotTell(m.view.subject, [needed("the volts of a string that its maker allows", m.view.subject)]);
      else judgeString(build, m.view.subject, [m], allowed, "module", report);
    }
  },
});

type Message = "beyond" | "module";

function judgeInput(build: Build, input: ArrayInput, report: Report<Message>): void {
  const { subject } = input.view;
  const limit = inputLimit(input);
  if (input.modules.length === 0) report.notApplicable(subject, "no module hangs on it");
  else if (limit === null) report.notApplicable(subject, "the volts that its input bears are not stated");
  else if (limit === "unknown") report.cannotTell(subject, [needed("the volts that its input bears", subject)]);
  else judgeString(build, subject, input.modules, limit, "beyond", report);
}

/** What the input of a controller bears: by its rating, or by how far above its battery it may stand. Null: its maker says neither. */
export function inputLimit({ view, nominal }: ArrayInput): Span | "unknown" | null {
  const facts = factsOf(view);
  const rated = saysFigure(facts, "input limit");
  const above = saysFigure(facts, "input above battery");
  if (rated === "unknown" || above === "unknown") return "unknown";
  const byBattery = above === undefined ? undefined : { low: nominal + above.low, high: nominal + above.high };
  if (rated === undefined || byBattery === undefined) return rated ?? byBattery ?? null;
  return { low: Math.min(rated.low, byBattery.low), high: Math.min(rated.high, byBattery.high) };
}

function judgeString(
  build: Build,
  subject: Build["whole"],
  modules: readonly Modules[],
  limit: Span,
  message: Message,
  report: Report<Message>,
): void {
  const volts = modules.map((m) => ({ m, volts: overChain(m, ({ cold }) => cold) }));
  const beyond = volts.filter((s) => s.volts.low > limit.high).sort((a, b) => b.volts.low - a.volts.low)[0];
  if (beyond !== undefined) {
    const measured = beyond.volts.low;
    const words = { string: nameOf(beyond.m), ...coldWords(build, beyond.m) };
    report.fail(subject, message, {
      measured,
      limit: limit.high,
      unit: "V",
      margin: below(measured, limit.high),
      words,
    });
    return;
  }
  const open = volts.filter((s) => s.volts.high > limit.low);
  const most = Math.max(...volts.map((s) => s.volts.high));
  if (open.length === 0)
    report.pass(subject, { measured: most, limit: limit.low, unit: "V", margin: below(most, limit.low) });
  else {
    const lacks: readonly Needed[] = open.flatMap(({ m }) => lacksOf(m));
    const unknown = open.flatMap(({ m }) =>
      m.feed.volts.origin === "unknown" ? [needed(`Voc of ${m.view.id}`, m.view.subject)] : [],
    );
    const needs = [...lacks, ...unknown];
    report.cannotTell(subject, needs.length > 0 ? needs : [needed("the volts that its input bears, closer", subject)]);
  }
}

/** A string as people name it. */
export function nameOf({ chain, view, series }: Modules): string {
  if (chain.length > 1)
    return `${view.id} with ${chain
      .slice(1)
      .map((m) => m.view.id)
      .join(" and ")}`;
  return series > 1 ? `${view.id}, ${series} in series,` : view.id;
}

/** The cold, and beside the coefficient's volts those by the table, where there are both. */
function coldWords({ system }: Build, m: Modules): Readonly<Record<string, string | ReturnType<typeof figure>>> {
  const lowest = system.lowestAmbient;
  if (lowest === undefined || lowest === "unknown") return { cold: "its lowest temperature", byTable: "" };
  const table = overChain(m, ({ feed }) => {
    const volts = coldByFactor({ volts: feed.volts.high, factor: coldFactor(lowest.low) });
    return { low: volts, high: volts };
  }).high;
  const isByCoefficient = m.chain.every(({ cold }) => cold.lacks.length === 0);
  return {
    cold: figure(lowest.low, "°C"),
    byTable: isByCoefficient ? ` (${table.toFixed(1)} V by the factor of the table)` : "",
  };
}
