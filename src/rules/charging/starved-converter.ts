import { cite } from "../../explain/index.ts";
import type { Case } from "../../size/index.ts";
import type { Build } from "../build.ts";
import { above, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, saysFigure } from "../stated.ts";
import { stateName } from "./alternators.ts";

const fed = (facts: string, wire: string): string => `parts:
  B3: { kind: battery, chemistry: AGM, capacity: 75 Ah, cranking: 700 A }
  ALT: { kind: alternator, rated: 120 A, charging volts: 14.2 V }
  DCDC: { kind: DC-DC charger, output: 60 A, input: 70 A, ${facts} }
circuits:
  W20: { path: ALT → B3, length: 1 m }
  W21: { path: B3 → DCDC:in, length: 5 m, ${wire} }
  W22: { path: DCDC:out → BP, length: 1 m }
  W23: { path: B3:− → BN, length: 5 m, ${wire} }
states:
  motoring: { engine: running, on: [lamp] }`;

export const starvedConverter = defineRule({
  id: "charging/starved-converter",
  title: "Starved converter",
  severity: "should",
  danger: "the charger stops for want of volts, starts again and stops: it hunts, and the bank stays empty",
  why: `At its full input current a converter has no fewer volts at its input than those below which it stops, in every state in which it runs with the
    engine; where no state runs it, alone on the emptiest battery.`,
  silent: ["converters whose maker's limit is not stated: `stops below`"],
  sources: [{ cite: cite("circuit-laws", "volts lost on the way", "derived") }],
  messages: {
    starved: "{place} has {measured} at its input ({state}); it stops below {limit}",
  },
  cures: ["next-size", "upstream-size"],
  examples: {
    good: [
      { says: "no converter", plan: "" },
      { says: "a short way on thick wire", plan: fed("stops below: 12.0 V", "wire: 50 mm²") },
    ],
    bad: [
      {
        says: "five metres of thin wire",
        plan: fed("stops below: 13.3 V", "wire: 16 mm², as found: yes"),
        fails: "starved",
        about: "parts.DCDC",
      },
      {
        says: "nobody knows when it stops",
        plan: fed("stops below: unknown", "wire: 50 mm²"),
        fails: "cannot tell",
        about: "parts.DCDC",
      },
    ],
  },
  judge(build, report) {
    for (const { element, in: input } of build.settled.model.grid.converters) {
      const view = build.part(element.part);
      if (view === undefined || input === null) continue;
      const { subject } = view;
      const stops = saysFigure(factsOf(view), "stops below");
      if (stops === undefined) report.notApplicable(subject, "below which volts it stops is not stated");
      else if (stops === "unknown") report.cannotTell(subject, [needed("below which volts it stops", subject)]);
      else {
        const ways = casesOf(build, element.part).map(({ one, at }) => ({ one, volts: voltsAt(build, at, input) }));
        const worst = ways.reduce<(typeof ways)[number] | null>(
          (a, b) => (a === null || b.volts < a.volts ? b : a),
          null,
        );
        if (worst === null) {
          report.notApplicable(subject, "it never runs");
          continue;
        }
        const said = {
          measured: worst.volts,
          limit: stops.low,
          unit: "V",
          margin: above(worst.volts, stops.low),
          state: worst.one.kind === "given" ? stateName(worst.one) : "at its rating, on the emptiest battery",
        } as const;
        if (worst.volts < stops.low) report.fail(subject, "starved", said);
        else if (worst.volts < stops.high)
          report.cannotTell(subject, [needed("below which volts it stops, closer", subject)], said);
        else report.pass(subject, said);
      }
    }
  },
});

/** The states with the engine running, else the converter at its rating. */
function casesOf(build: Build, part: string): readonly { readonly one: Case; readonly at: number }[] {
  const { cases, base } = build.settled.weigher;
  const engine = new Set(build.system.states.filter((s) => s.engine).map((s) => s.id));
  const all = cases.slice(0, base).map((one, at) => ({ one, at }));
  const given = all.filter(({ one }) => one.kind === "given" && engine.has(one.name));
  return given.length > 0 ? given : all.filter(({ one }) => one.kind === "rating" && one.name === part);
}

function voltsAt(
  { settled }: Build,
  at: number,
  { plus, minus }: { readonly plus: number; readonly minus: number },
): number {
  const { look } = settled.weigher;
  const laid = { case: at, pair: 0, amps: 0 };
  return look.voltsAt(laid, plus) - look.voltsAt(laid, minus);
}
