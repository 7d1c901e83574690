import { cite } from "../../explain/index.ts";
import { joinedPieces } from "../battery/pieces.ts";
import { below, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, saysFigure } from "../stated.ts";

/** Sun that is brighter than the label's, by the American code for cabins; custom elsewhere. */
const BRIGHTER = 1.25;

const array = (limit: string, strings: number): string => `parts:
  MPPT: { kind: solar controller, output: 20 A${limit} }
  PV: { kind: solar module, rated: 200 W, Voc: 24 V, Vmp: 20 V, Isc: 10 A, strings in parallel: ${strings} }
circuits:
  W20: { path: PV → MPPT:in, length: 3 m }
  W21: { path: MPPT:out → BP, length: 1 m }`;

export const overdrivenController = defineRule({
  id: "charging/overdriven-controller",
  title: "Overdriven controller",
  severity: "must",
  danger: "some inputs burn when more current is offered than they are made for",
  why: `The short-circuit current of all strings on a controller, times 1.25 for sun that is brighter than the label's, is no more than the input current
    that its maker allows. More watts than it can pass on are lawful: it then gives its rating.`,
  silent: ["controllers whose maker states no input current", "more watts than the controller can pass on"],
  sources: [
    { cite: cite("nfpa-70-2023", "690.8(A)", "read"), sets: ["us-cabin"] },
    { cite: cite("trade-practice", "a quarter more than the label's short-circuit current", "practice") },
  ],
  messages: { beyond: "{place} may be offered {measured}; its maker allows {limit}" },
  cures: [],
  examples: {
    good: [
      { says: "one string", plan: array(", input current: 15 A", 1) },
      { says: "more watts than it passes on", plan: array(", input current: 30 A", 2) },
    ],
    bad: [
      {
        says: "two strings on an input for one",
        plan: array(", input current: 15 A", 2),
        fails: "beyond",
        about: "parts.MPPT",
      },
      {
        says: "nobody knows what its input bears",
        plan: array(", input current: unknown", 2),
        fails: "cannot tell",
        about: "parts.MPPT",
      },
    ],
  },
  judge(build, report) {
    const { grid } = build.settled.model;
    for (const { element, in: input } of grid.converters) {
      const view = build.part(element.part);
      if (view === undefined || input === null || element.input !== "tracks") continue;
      const { subject } = view;
      const limit = saysFigure(factsOf(view), "input current");
      const pieces = joinedPieces(build.settled);
      const modules = grid.feeds.filter((f) => f.element.runsWith === "sun" && pieces[f.plus] === pieces[input.plus]);
      const amps = BRIGHTER * modules.reduce((sum, f) => sum + f.element.amps.high, 0);
      const unknown = modules.filter((f) => f.element.amps.origin === "unknown");
      if (limit === undefined) report.notApplicable(subject, "its maker's limit for the input current is not stated");
      else if (modules.length === 0) report.notApplicable(subject, "no module hangs on it");
      else if (limit === "unknown")
        report.cannotTell(subject, [needed("the input current that its maker allows", subject)]);
      else {
        const said = { measured: amps, limit: limit.low, unit: "A", margin: below(amps, limit.low) } as const;
        if (amps > limit.high) report.fail(subject, "beyond", said);
        else if (unknown.length > 0)
          report.cannotTell(
            subject,
            unknown.map((f) => needed(`Isc of ${f.element.part}`, build.part(f.element.part)?.subject ?? subject)),
          );
        else report.pass(subject, said);
      }
    }
  },
});
