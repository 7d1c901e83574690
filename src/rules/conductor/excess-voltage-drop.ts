import { cite, type Citation } from "../../explain/index.ts";
import type { DropClass } from "../../ruleset/index.ts";
import { caseName, type CircuitModel } from "../../size/index.ts";
import type { Build, CircuitView } from "../build.ts";
import { figure } from "../figure.ts";
import type { Needed } from "../finding.ts";
import { lacksNumbers } from "../lacks-numbers.ts";
import { below, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { wireNeeded } from "../wire-needed.ts";
import { doubtOnTheWay, heldDown, leastShareOfAmps, saidOf, unknownAmps, worstOf } from "./volts-on-the-way.ts";

/** What is lost on the way to one thing at the end of a circuit, or in a charging circuit itself. */
interface Drop {
  readonly volts: number;
  /** Nominal volts that the share is taken of. */
  readonly base: number;
  readonly limitVolts: number;
  readonly state: string;
  readonly what: string;
  readonly class: string;
  /** Undefined: the rule set's own class; null: the plan's own limit; else a custom that stands in for the rule set. */
  readonly source: Citation | null | undefined;
  /** Where what flows is not known. */
  readonly amps: Needed | null;
  /** Least share of the current that decides, where it is a range. */
  readonly leastShare: number;
}

const CHARGING = cite("trade-practice", "charging circuits lose 3 % at most", "practice");
// A tenth of a microvolt is rounding.
const SLACK = 1e-7;

export const excessVoltageDrop = defineRule({
  id: "conductor/excess-voltage-drop",
  title: "Excess voltage drop",
  severity: {
    otherwise: "should",
    sets: { "us-small-craft": "must", "iso-small-craft": "must", "us-cabin": "note", "us-rv": "note" },
  },
  danger: "lights dim, pumps stall and navigation lights do not carry as far as they must",
  why: `What is lost between the source and a load, out and back through every conductor, joint and device, may not exceed the share of nominal
    volts that the rule set gives its class: in the worst state, with the metal as hot as its current makes it. A circuit that charges is
    judged on its own: a charger that sees too much drop charges too slowly. Limits that the plan gives itself, or that are custom alone, as those of
    alternating current aboard boats, are judged as an advice.`,
  silent: [
    "power factor and reactance at alternating current",
    "the main cable of a starter",
    "circuits that end at a switch or a bar: their share counts in the loads beyond",
  ],
  alternating: true,
  sources: [
    { cite: cite("abyc-e-11", "11.14.2.6", "read"), sets: ["us-small-craft"] },
    { cite: cite("iso-10133-2012", "4.7, 4.8", "memory"), sets: ["iso-small-craft"] },
  ],
  messages: {
    lost: "{place} loses {measured} ({volts}) on the way to {load} and back ({state}); {limit} is the most for {class}",
    charging:
      "{place} loses {measured} ({volts}) out and back while it charges ({state}); {limit} is the most that the trade allows",
  },
  cures: ["next-size", "upstream-size"],
  examples: {
    good: [
      {
        says: "9 % to a cabin fan",
        plan: "parts:\n  lamp: { kind: load, running: 5 A }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 5 m, wire: 1.5 mm² }",
      },
      {
        says: "8 % to a bilge pump, which is no feeder to the American set",
        plan: "rules: { DC: us-small-craft }\nparts:\n  lamp: { kind: bilge pump, running: 5 A }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 5.6 m, wire: 14 AWG }",
      },
      {
        says: "cable of a starter",
        plan: "parts:\n  M1: { kind: load, running: 400 A }\ncircuits:\n  W20: { path: BP → M1, length: 3 m, wire: 35 mm², fuse: none, cranking: yes }",
      },
    ],
    bad: [
      {
        says: "1.5 mm² to a navigation light 20 m away",
        plan: "parts:\n  lamp: { kind: navigation light, running: 2 A }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 20 m, wire: 1.5 mm² }",
        fails: "lost",
        about: "circuits.W10",
      },
      {
        says: "8 % to a bilge pump under the international set",
        plan: "parts:\n  lamp: { kind: bilge pump, running: 5 A }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 5 m, wire: 2.5 mm² }",
        fails: "lost",
        about: "circuits.W10",
      },
      {
        says: "thin wire behind a charger",
        plan: "parts:\n  DCDC: { kind: DC-DC charger, output: 30 A, input: 33 A }\n  B3: { kind: battery, chemistry: AGM, capacity: 75 Ah }\ncircuits:\n  W20: { path: DCDC:out → BP, length: 4 m, wire: 6 mm² }\n  W21: { path: B3 → DCDC:in, length: 1 m }",
        fails: "charging",
        about: "circuits.W20",
      },
      {
        says: "length not known",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: unknown, wire: 1.5 mm², as found: yes, breaker: 5 A at PNL }",
        fails: "cannot tell",
        about: "circuits.W10",
      },
    ],
  },
  judge(build, report) {
    for (const c of build.circuits) {
      const { subject, model } = c;
      if (model === null) report.notApplicable(subject, "alternating current is not studied yet");
      else if (c.circuit.cranking) report.notApplicable(subject, "the main cable of a starter");
      else if (lacksNumbers(build, c, report)) continue;
      else if (c.circuit.size === "unknown")
        report.cannotTell(subject, [
          ...(c.run.lengthM.origin === "unknown" ? [needed("its length", subject)] : []),
          wireNeeded(c),
        ]);
      else {
        const drops = dropsOf(build, c, model);
        if (drops.length === 0)
          report.notApplicable(subject, "nothing at its end is judged: its drop counts in the loads beyond");
        for (const drop of drops) {
          const { volts, base, limitVolts, state } = drop;
          const doubt = doubtOnTheWay(build, model);
          const measured = {
            measured: volts / base,
            limit: limitVolts / base,
            unit: "share",
            margin: below(volts, limitVolts),
            state,
          } as const;
          const ok = volts <= limitVolts + SLACK;
          const least = (volts - doubt.savesVolts) * drop.leastShare;
          const more = drop.amps === null ? doubt.more : [...doubt.more, drop.amps];
          if (doubt.wires.length > 0) report.cannotTell(subject, saidOf(subject, doubt.wires));
          else if (ok && more.length > 0) report.cannotTell(subject, saidOf(subject, more));
          else if (ok) report.pass(subject, measured);
          else if (least <= limitVolts)
            report.cannotTell(subject, [
              ...saidOf(subject, doubt.ranges),
              ...(drop.leastShare < 1 ? [needed(`what ${drop.what} takes, closer`, `parts.${drop.what}`)] : []),
            ]);
          else
            report.fail(subject, drop.class === "charging" ? "charging" : "lost", {
              ...measured,
              words: { volts: figure(volts, "V"), load: drop.what, class: classWords(drop.class) },
              ...(drop.source === undefined ? {} : { source: drop.source, severity: "should" as const }),
            });
        }
      }
    }
  },
});

const classWords = (name: string): string =>
  name === "rest" ? "what is not critical" : name === "critical" ? "what is critical" : `a ${name}`;

/** Whether a set that else commands falls back on the custom of the trade, as those of boats do at alternating current. */
const isCustomAboard = ({ source }: DropClass, { ruleSet }: CircuitModel): boolean =>
  source.id === "trade-practice" && (ruleSet?.id === "us-small-craft" || ruleSet?.id === "iso-small-craft");

/** Everything at the end of a circuit whose drop is judged, and the circuit itself where it charges. */
function dropsOf(build: Build, c: CircuitView, model: CircuitModel): Drop[] {
  const { settled } = build;
  const base = c.supply?.nominal ?? 12;
  const drops: Drop[] = [];
  for (const { judged, dropVolts, dropCase } of worstOf(build, model)) {
    const { part, dropClass, draw } = judged;
    if (dropVolts === -Infinity || !Number.isFinite(judged.dropVolts)) continue;
    drops.push({
      volts: dropVolts,
      base,
      limitVolts: judged.dropVolts,
      state: caseName(settled, model, dropCase),
      what: part,
      class: dropClass?.because ?? "circuit by its plan",
      source: dropClass === null ? null : isCustomAboard(dropClass, model) ? dropClass.source : undefined,
      amps: draw < 0 ? null : unknownAmps(build, part),
      leastShare: draw < 0 ? 1 : leastShareOfAmps(build, part),
    });
  }
  if (model.charging !== null) {
    const { volts, case: at } = settled.weigher.chargingDrop(model);
    drops.push({
      volts,
      base: model.charging.baseVolts,
      limitVolts: model.charging.limitVolts,
      state: caseName(settled, model, at),
      what: c.circuit.to.part,
      class: "charging",
      source: c.circuit.dropLimit === undefined ? CHARGING : null,
      amps: unknownAmps(build, c.circuit.from.part) ?? heldDown(build, c),
      leastShare: 1,
    });
  }
  return drops;
}
