import { cite } from "../../explain/index.ts";
import { isUnknown } from "../../plan/index.ts";
import type { RuleSet } from "../../ruleset/index.ts";
import { steadyAt } from "../../size/index.ts";
import type { Build, CircuitView } from "../build.ts";
import type { Needed } from "../finding.ts";
import { bestAmpacity } from "../best-ampacity.ts";
import { ampsWithout } from "../held-to-less.ts";
import { lacksNumbers, unrated } from "../lacks-numbers.ts";
import { below, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { wireNeeded } from "../wire-needed.ts";
import { hasUnknowns, heldDown, sourceAmps, unknownAmps } from "./volts-on-the-way.ts";

export const overloadedConductor = defineRule({
  id: "conductor/overloaded-conductor",
  title: "Overloaded conductor",
  severity: "must",
  danger: "the insulation cooks, and the wire lights what touches it",
  why: `The design current of a conductor, the greatest that flows for long in any state, may not exceed what its size carries in its worst
    stretch: the value of the rule set's table for its insulation, times the factors for hot air, engine space and bundle. Where nobody knows what
    flows, the rating of its device bounds it; where nobody knows the insulation, the poorest and the best that is sold are both tried.`,
  silent: [
    "alternating-current circuits, which are not studied yet",
    "the main cable of a starter, which carries its current for seconds",
    "under us-small-craft: loads of intermittent duty, and electronics of less than 1 A",
  ],
  alternating: true,
  sources: [
    { cite: cite("33-cfr-183", "183.425(b), (c), (g)", "read"), sets: ["us-small-craft"] },
    { cite: cite("iso-10133-2012", "7.6", "read"), sets: ["iso-small-craft"] },
  ],
  messages: {
    overloaded: "{place} carries {measured} for long ({state}); {size} may carry {limit} where it is hottest",
  },
  cures: ["looser-bundle", "hotter-insulation", "next-size", "copper"],
  examples: {
    good: [
      { says: "6 mm² for 10 A", plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 3 m, wire: 6 mm² }" },
      {
        says: "starter cable",
        plan: "parts:\n  M1: { kind: load, running: 400 A }\ncircuits:\n  W20: { path: BP → M1, length: 1 m, wire: 35 mm², fuse: none, cranking: yes }",
      },
    ],
    bad: [
      {
        says: "1 mm² for 25 A",
        plan: "parts:\n  lamp: { kind: light, running: 25 A, runs above: 9 V }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 0.5 m, wire: 1 mm² }",
        fails: "overloaded",
        about: "circuits.W10",
      },
    ],
  },
  judge(build, report) {
    for (const c of build.circuits) {
      const { subject, design } = c;
      if (c.model === null) report.notApplicable(subject, "alternating current is not studied yet");
      else if (c.circuit.cranking) report.notApplicable(subject, "the main cable of a starter");
      else if (c.ruleSet === null) lacksNumbers(build, c, report);
      else if (design.size === null) {
        // Of a wire that is to be chosen it is the length that is missing.
        const open = hasUnknowns(build) ? openCurrent(build, c) : null;
        const wire = c.circuit.size === "unknown" ? wireNeeded(c) : needed("its length", subject);
        report.cannotTell(subject, [wire, ...(open === null ? [] : [open.needs]), ...unknownParts(build, c)]);
      } else if (design.ampacityTrust === "missing") report.cannotTell(subject, [unrated(build, c)]);
      else if (design.steadyA === null) report.cannotTell(subject, [needed("its current", subject)]);
      else if (design.ampacityA === null)
        report.cannotTell(subject, [needed(`what ${design.size.label} carries where it lies`, subject)]);
      else {
        const { rungs, position } = c.model;
        // Some sets let less flow for hours than a device may let through.
        const steady = rungs === null ? Infinity : steadyAt(rungs, build.settled.chosen.rungs[position] ?? 0);
        const limit = Math.min(design.ampacityA, steady);
        const said = (amps: number) =>
          ({
            measured: amps,
            limit,
            unit: "A",
            margin: below(amps, limit),
            state: design.steadyIn,
          }) as const;
        const fits = (amps: number): boolean => amps <= limit + 1e-9;
        const open = hasUnknowns(build) ? openCurrent(build, c) : null;
        if (fits(design.steadyA)) {
          const crowd = isUnknown(c.plan?.facts.bundle) && !fits(design.steadyA / poorestBundle(c.ruleSet));
          if (open !== null && !(open.most !== null && fits(open.most))) report.cannotTell(subject, [open.needs]);
          else if (crowd) report.cannotTell(subject, [needed("how many conductors lie with it", subject)]);
          else report.pass(subject, said(Math.max(design.steadyA, open?.most ?? 0)));
        } else if (c.ruleSet.id === "us-small-craft" && isExempt(build, c))
          report.notApplicable(
            subject,
            "intermittent surges, and electronics of less than 1 A, are excepted by 33 CFR 183.425",
          );
        else if (design.steadyA <= design.ampacityA + 1e-9)
          report.notApplicable(subject, "it bears that; how much of it for hours is judged by thin-continuous-margin");
        else if (design.steadyA <= (ampsWithout(build, c, "terminals") ?? 0) + 1e-9)
          report.notApplicable(
            subject,
            "its wire bears it, its terminals do not: ampacity-above-its-terminal judges it",
          );
        else if (design.steadyA <= (ampsWithout(build, c, "insulation") ?? 0) + 1e-9)
          report.notApplicable(subject, "thermal insulation holds it to less: smothered-conductor judges it");
        else if (design.steadyA <= bestAmpacity(build.settled, c))
          report.cannotTell(subject, [needed("the rating of its insulation", subject)]);
        else
          report.fail(subject, "overloaded", {
            ...said(design.steadyA),
            source: c.ruleSet.ampacity.table.source,
            trust: design.ampacityTrust,
            words: { size: design.size.label },
          });
      }
    }
  },
});

/** Parts at its ends of which nobody knows what they are. */
const unknownParts = (build: Build, { circuit }: CircuitView): Needed[] =>
  [circuit.from.part, circuit.to.part].flatMap((id) => {
    const part = build.part(id);
    return part !== undefined && isUnknown(part.plan?.facts.kind) ? [needed("what it is", part.subject)] : [];
  });

/** A current that rests on what nobody knows: the fact, and the most that can flow all the same. */
interface OpenCurrent {
  readonly needs: Needed;
  readonly most: number | null;
}

/** Where what flows in a circuit is not known: a load behind it, a source at its start, a joint that holds the source down. */
function openCurrent(build: Build, c: CircuitView): OpenCurrent | null {
  // No more than this flows for long, whatever hangs on it: of several devices the smallest decides.
  const devices = c.design.devices.flatMap(({ ratingA, by }) => (by === "given" && ratingA !== null ? [ratingA] : []));
  const device = devices.length > 0 ? Math.min(...devices) : null;
  const held = heldDown(build, c);
  if (held !== null) return { needs: held, most: sourceAmps(build, c) };
  const ends = c.model?.charging === null ? [] : [c.circuit.from.part];
  for (const part of [...ends, ...c.circuit.draws]) {
    const needs = unknownAmps(build, part);
    if (needs !== null) return { needs, most: device };
  }
  // A feeder that states what it must carry is judged by that.
  if (c.circuit.demand !== undefined) return null;
  const behind = unknownBehind(build, c);
  return behind === null ? null : { needs: behind, most: device };
}

/** Loads on branches behind a circuit of which nobody knows what they take. */
function unknownBehind(build: Build, { model }: CircuitView): Needed | null {
  if (model?.radial !== true) return null;
  for (const child of model.children) {
    const branch = build.settled.model.circuits[child];
    if (branch === undefined) continue;
    for (const part of branch.circuit.draws) {
      const needs = unknownAmps(build, part);
      if (needs !== null) return needs;
    }
    const view = build.circuit(branch.circuit.id);
    const further = view === undefined || branch.circuit.demand !== undefined ? null : unknownBehind(build, view);
    if (further !== null) return further;
  }
  return null;
}

/** What 33 CFR 183.425(b) and (g) except: loads that run in surges, electronics of less than an ampere. */
function isExempt(build: Build, { circuit, design }: CircuitView): boolean {
  if (circuit.draws.length === 0 || circuit.demand !== undefined) return false;
  return circuit.draws.every((id) => {
    const view = build.part(id);
    const duty = view?.plan?.kindFacts["duty"]?.value;
    return duty === "intermittent" || (view?.part.traits.dropUse === "electronics" && (design.steadyA ?? Infinity) < 1);
  });
}

/** Least bundle factor of a set. */
const poorestBundle = ({ ampacity: { bundle } }: RuleSet): number =>
  bundle.reduce((least, { factor }) => Math.min(least, factor.value), 1);
