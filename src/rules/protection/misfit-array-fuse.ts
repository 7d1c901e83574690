import { cite } from "../../explain/index.ts";
import type { Build } from "../build.ts";
import { arraysOf, lacksOf, overChain, type Modules, type Span } from "../charging/arrays.ts";
import { forHours, greatestCurrent } from "../charging/string-formulas.ts";
import type { Needed } from "../finding.ts";
import { above, below, needed, type Report } from "../report.ts";
import type { RuleSetId } from "../rule-set-id.ts";
import { defineRule } from "../rule.ts";
import { factsOf, recordOfFacts, saysFigure, type Stated } from "../stated.ts";
import { guardsOf } from "./guards.ts";

/** Sets that look at the international standard, and its bounds as multiples of the short-circuit current: from memory. */
const INTERNATIONAL: readonly RuleSetId[] = ["iec-cabin", "iec-caravan", "au-nz-vehicle"];
const IEC = { least: 1.5, most: 2.4 } as const;

const array = (
  fuse: string,
  set = "iso-small-craft 2020+A1:2022",
  module = ", largest fuse: 20 A",
): string => `rules: { DC: ${set} }
parts:
  MPPT: { kind: solar controller, output: 50 A }
  PV: { kind: solar module, rated: 200 W, Voc: 24.3 V, Vmp: 20.4 V, Isc: 10 A, Voc per kelvin: -0.28 %, in series: 2, strings in parallel: 3${module}, string fuse: { ${fuse} } }
circuits:
  W20: { path: PV → MPPT:in, length: 3 m }
  W21: { path: MPPT:out → BP, length: 1 m }`;

type Message = "small" | "large" | "most" | "volts";

export const misfitArrayFuse = defineRule<Message>({
  id: "protection/misfit-array-fuse",
  title: "Misfit array fuse",
  severity: "must",
  danger: "a fuse that is too small ages and opens in the sun, one that is too large lets the module burn",
  why: `A fuse in a string of solar modules carries 1.25 × 1.25 = 1.56 times the short-circuit current for hours, is no larger than the module's maker allows, and breaks the open-circuit
    volts of the string in the cold as direct current. By the international standard it lies above 1.5 and at most at 2.4 times Isc.`,
  silent: [
    "strings without a fuse",
    "fuses that are proposed",
    "fuses of several strings together, which are judged as any other",
  ],
  sources: [
    { cite: cite("iec-62548", "string fuses", "memory"), sets: ["iec-cabin", "iec-caravan", "au-nz-vehicle"] },
    { cite: cite("nfpa-70-2023", "690.9(B), 690.9(C)", "read") },
  ],
  messages: {
    small: "{place}: its string fuse is {measured}; {limit} and more is asked for what the string gives for hours",
    large: "{place}: its string fuse is {measured}; the module's maker allows {limit}",
    most: "{place}: its string fuse is {measured}; {limit} is the most for what the string gives",
    volts: "{place}: its string fuse breaks {measured} of direct current, and the string gives {limit} in the cold",
  },
  cures: ["string-fuse"],
  examples: {
    good: [
      { says: "16 A for 10 A", plan: array("rated: 16 A, DC volts: 80 V") },
      {
        says: "no fuse at all",
        plan: array("rated: 16 A")
          .replace(/, string fuse: \{[^}]*\}/, ", largest fuse: 40 A")
          .replace(", largest fuse: 20 A", ""),
      },
    ],
    bad: [
      { says: "12 A for 10 A", plan: array("rated: 12 A, DC volts: 80 V"), fails: "small", about: "parts.PV" },
      {
        says: "30 A where 20 A is allowed",
        plan: array("rated: 30 A, DC volts: 80 V"),
        fails: "large",
        about: "parts.PV",
      },
      {
        says: "25 A for 10 A by the international standard",
        plan: array("rated: 25 A, DC volts: 80 V", "iec-cabin", ""),
        fails: "most",
        about: "parts.PV",
      },
      { says: "a fuse for 32 V", plan: array("rated: 16 A, DC volts: 32 V"), fails: "volts", about: "parts.PV" },
      {
        says: "nobody knows its rating",
        plan: array("rated: unknown, DC volts: 80 V"),
        fails: "cannot tell",
        about: "parts.PV",
      },
    ],
  },
  judge(build, report) {
    for (const m of arraysOf(build).modules) {
      const { subject } = m.view;
      const fuse = fuseOf(build, m);
      if (fuse === null) report.notApplicable(subject, "its strings have no fuse of their own");
      else judgeFuse(m, fuse, report);
    }
  },
});

interface Fuse {
  readonly rated: Stated<Span>;
  /** Null: judged with the circuit that it stands in. */
  readonly volts: Stated<Span> | null;
}

/** The fuse in each string: as stated, or the device in the circuit of an entry that is one string. */
function fuseOf(build: Build, m: Modules): Fuse | null {
  const facts = factsOf(m.view);
  if (facts["string fuse"] !== undefined) {
    const own = recordOfFacts(facts, "string fuse", ["rated", "DC volts"]);
    return { rated: saysFigure(own, "rated"), volts: saysFigure(own, "DC volts") };
  }
  if (m.strings > 1) return null;
  const guards = guardsOf(build);
  for (const view of build.circuits) {
    if (![view.circuit.from.part, view.circuit.to.part].includes(m.view.id)) continue;
    const given = guards.of(view)?.guards.find((g) => g.placed?.given != null);
    if (given !== undefined) return { rated: given.rating ?? "unknown", volts: null };
  }
  return null;
}

function judgeFuse(m: Modules, { rated, volts }: Fuse, report: Report<Message>): void {
  const { subject } = m.view;
  const isc = m.isc.high;
  const isInternational = subject.set !== null && INTERNATIONAL.includes(subject.set);
  const least = isInternational ? IEC.least * isc : forHours({ amps: greatestCurrent({ strings: 1, isc }) });
  const allowed = saysFigure(factsOf(m.view), "largest fuse");
  const needs: Needed[] = [];
  if (m.isc.origin === "unknown") needs.push(needed(`Isc of ${m.view.id}`, subject));
  else if (rated === "unknown" || rated === undefined) needs.push(needed("the rating of its string fuse", subject));
  else {
    const { low, high } = rated;
    const fits = { measured: low, limit: least, unit: "A", margin: above(low, least) } as const;
    if (high < least - 1e-9) report.fail(subject, "small", { ...fits, measured: high, margin: above(high, least) });
    else if (typeof allowed === "object" && low > allowed.high + 1e-9)
      report.fail(subject, "large", {
        measured: low,
        limit: allowed.high,
        unit: "A",
        margin: below(low, allowed.high),
      });
    else if (isInternational && low > IEC.most * isc + 1e-9)
      report.fail(subject, "most", {
        measured: low,
        limit: IEC.most * isc,
        unit: "A",
        margin: below(low, IEC.most * isc),
      });
    else if (low < least - 1e-9) needs.push(needed("the rating of its string fuse, closer", subject));
    else if (allowed === "unknown") needs.push(needed("the largest fuse that its maker allows", subject));
    else report.pass(subject, fits);
  }
  const cold = overChain(m, (one) => one.cold);
  if (volts === "unknown") needs.push(needed("the direct volts that its string fuse breaks", subject));
  else if (volts !== null && volts !== undefined) {
    if (volts.high < cold.low)
      report.fail(subject, "volts", {
        measured: volts.high,
        limit: cold.low,
        unit: "V",
        margin: above(volts.high, cold.low),
      });
    else if (volts.low < cold.high) needs.push(...lacksOf(m));
  }
  if (needs.length > 0) report.cannotTell(subject, needs);
}
