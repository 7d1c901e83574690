import { cite, type Trust } from "../../explain/index.ts";
import type { Build } from "../build.ts";
import type { Needed } from "../finding.ts";
import { above, needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import {
  arraysOf,
  bestFallOf,
  figureOr,
  heatingOf,
  overChain,
  type ArrayInput,
  type Modules,
  type Span,
} from "./arrays.ts";
import { nameOf } from "./cold-string-overvoltage.ts";
import { cellTemperature, voltsAsked, voltsAtCell } from "./string-formulas.ts";

/** By how many volts a tracking controller has to be above its battery before it starts and while it runs, where its maker does not say: custom. */
export const TO_START = 5;
export const TO_RUN = 1;

const string = (module: string, controller = ""): string => `parts:
  MPPT: { kind: solar controller, output: 30 A${controller} }
  PV: { kind: solar module, rated: 100 W, Voc: 22.5 V, ${module}, Isc: 6 A, Voc per kelvin: -0.3 % }
circuits:
  W20: { path: PV → MPPT:in, length: 3 m }
  W21: { path: MPPT:out → BP, length: 1 m }`;

export const hotStringUndervoltage = defineRule({
  id: "charging/hot-string-undervoltage",
  title: "Hot string undervoltage",
  severity: "should",
  danger: "on the hottest days, when the sun is best, nothing is charged",
  why: `In full sun the cells are far hotter than the air: 26 K on a rack, 34 K close to a roof, 56 K glued to it. At that temperature the best volts of each string
    are above what its battery is charged to by what the controller needs to run (1 V where its maker does not say), and at dawn, its cells as warm as
    the air and nothing flowing, its open-circuit volts by what it needs to start (5 V). How the best volts fall is the maker's word; else as many volts for
    each kelvin as at open circuit, up to a quarter more.`,
  silent: ["modules of which Vmp is not stated", "losses in the line, which are judged as its drop", "shade and dirt"],
  sources: [{ cite: cite("trade-practice", "what tracking controllers need above their battery", "practice") }],
  messages: {
    run: "{place}: {string} has {measured} at its best with cells at {cells}, and the controller needs {limit} to run",
    start: "{place}: {string} has {measured} open circuit in air of {cells}, and the controller needs {limit} to start",
  },
  cures: ["more-in-series"],
  examples: {
    good: [
      { says: "one module of 36 cells on a rack", plan: string("Vmp: 18.6 V, mounting: racked") },
      { says: "two in series, however they lie", plan: string("Vmp: 18.6 V, in series: 2") },
    ],
    bad: [
      {
        says: "one module of 36 cells glued to the deck",
        plan: string("Vmp: 18.6 V, mounting: glued"),
        fails: "run",
        about: "parts.MPPT",
      },
      {
        says: "a controller that wants 10 V to start",
        plan: string("Vmp: 18.6 V, mounting: racked", ", starts above battery: 10 V"),
        fails: "start",
        about: "parts.MPPT",
      },
      {
        says: "nobody knows how it lies",
        plan: string("Vmp: 18.6 V, mounting: unknown"),
        fails: "cannot tell",
        about: "parts.MPPT",
      },
    ],
  },
  judge(build, report) {
    for (const input of arraysOf(build).inputs) {
      const { subject } = input.view;
      if (input.modules.length === 0) {
        report.notApplicable(subject, "no module hangs on it");
        continue;
      }
      for (const m of input.modules) judgeString(build, input, m, report);
    }
  },
});

function judgeString(build: Build, input: ArrayInput, m: Modules, report: Report<"run" | "start">): void {
  const { subject } = input.view;
  const hot = hotVolts(build, m);
  const needs: Needed[] = [];
  const starts = startVolts(build, m);
  for (const [message, volts, key, usual] of [
    ["run", hot?.volts ?? null, "runs above battery", TO_RUN],
    ["start", starts, "starts above battery", TO_START],
  ] as const) {
    const margin = figureOr(input.view, key, usual);
    if (volts === null) continue;
    if (margin === "unknown") {
      needs.push(needed(`how far above its battery it has to be to ${message}`, subject));
      continue;
    }
    const asked = {
      low: voltsAsked({ battery: input.charging.low, above: margin.low }),
      high: voltsAsked({ battery: input.charging.high, above: margin.high }),
    };
    const limit = asked.low;
    if (volts.high < limit) {
      const cells =
        message === "run" ? `${Math.round(hot?.cells.high ?? 0)} °C` : `${Math.round(build.system.ambient.high)} °C`;
      report.fail(subject, message, {
        measured: volts.high,
        limit,
        unit: "V",
        margin: above(volts.high, limit),
        trust: hot?.trust ?? null,
        words: { string: nameOf(m), cells },
      });
    } else if (volts.low < asked.high) needs.push(...lacking(m, subject));
    else
      report.pass(subject, { measured: volts.low, limit: asked.high, unit: "V", margin: above(volts.low, asked.high) });
  }
  if (needs.length > 0) report.cannotTell(subject, needs);
  else if (hot === null) report.notApplicable(subject, `how the volts of ${m.view.id} change with heat is not stated`);
}

/** What would bring the two ends of the hot volts together. */
function lacking(m: Modules, subject: Build["whole"]): readonly Needed[] {
  const needs = m.chain.flatMap((one) => {
    const heating = heatingOf(one);
    return [
      ...(heating?.low.value === heating?.high.value ? [] : [needed(`how ${one.view.id} lies`, one.view.subject)]),
      ...(bestFallOf(one)?.isStated === false
        ? [needed(`how the best volts of ${one.view.id} change with heat`, one.view.subject)]
        : []),
    ];
  });
  return needs.length > 0 ? needs : [needed("how far above its battery it has to be, closer", subject)];
}

/** Best volts of a string when its cells are hottest; null where a fact is missing that nothing stands in for. */
export function hotVolts(
  { system }: Pick<Build, "system">,
  m: Modules,
): { readonly volts: Span; readonly cells: Span; readonly trust: Trust } | null {
  const each = m.chain.map((one) => {
    const heating = heatingOf(one);
    const fall = bestFallOf(one);
    const volts = one.feed.bestVolts;
    if (heating === null || fall === null || volts === undefined) return null;
    const airC = system.ambient.high;
    const cells = {
      low: cellTemperature({ airC, heating: heating.low.value }),
      high: cellTemperature({ airC, heating: heating.high.value }),
    };
    return {
      cells,
      low: voltsAtCell({ volts: volts.low, perKelvin: fall.span.low, cellC: cells.high }),
      high: voltsAtCell({ volts: volts.high, perKelvin: fall.span.high, cellC: cells.low }),
    };
  });
  const all = each.flatMap((e) => e ?? []);
  if (all.length < each.length) return null;
  return {
    volts: all.reduce<Span>((sum, e) => ({ low: sum.low + e.low, high: sum.high + e.high }), { low: 0, high: 0 }),
    cells: { low: Math.min(...all.map((e) => e.cells.low)), high: Math.max(...all.map((e) => e.cells.high)) },
    trust: "practice",
  };
}

/** Open-circuit volts at dawn, in the hottest air; null where it is not known how they change. */
export function startVolts({ system }: Pick<Build, "system">, m: Modules): Span | null {
  if (m.chain.some(({ feed }) => feed.voltsPerKelvin === undefined || feed.volts.origin === "unknown")) return null;
  const cellC = Math.max(system.ambient.high, 25);
  return overChain(m, ({ feed: { volts, voltsPerKelvin: slope } }) => ({
    low: voltsAtCell({ volts: volts.low, perKelvin: slope?.low ?? 0, cellC }),
    high: voltsAtCell({ volts: volts.high, perKelvin: slope?.high ?? 0, cellC }),
  }));
}
