import { cite } from "../../explain/index.ts";
import { metres, type Metres } from "../../quantity/index.ts";
import { isNoThinner, leastSize, sameSystem, type LeastSize, type SmallUse } from "../../ruleset/index.ts";
import { resistancePerMetre20, type ConductorMake } from "../../wire/index.ts";
import type { Build, CircuitView } from "../build.ts";
import { figure } from "../figure.ts";
import { lacksNumbers } from "../lacks-numbers.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { wireNeeded } from "../wire-needed.ts";

/** Electronics that take less than this may hang on thinner wire. Source: 33 CFR 183.425(g); E-11 11.14.1.2. */
const SMALL_AMPS = 1;

/** Shorter than any length that a set names: what a length that nobody knows may be at its least. */
const SHORTEST = metres(0.001);

export const conductorBelowMinimumSize = defineRule({
  id: "conductor/conductor-below-minimum-size",
  title: "Conductor below the minimum size",
  severity: {
    otherwise: "should",
    sets: {
      "us-small-craft": "must",
      "iso-small-craft": "must",
      "us-cabin": "must",
      "iec-cabin": "must",
      "iec-caravan": "must",
    },
  },
  danger: "a thin wire by itself breaks at its crimp and leaves a hot joint, or nothing where something is needed",
  why: `However little current it carries, a conductor has to be thick enough to bear being pulled, crimped and shaken: a set names one size for a
    conductor by itself and a thinner one for cores that share a sheath. Sizes of different systems are compared by their resistance.`,
  silent: [
    "alternating-current circuits, which are not studied yet",
    "pieces so short that the set names no least size for them",
  ],
  alternating: true,
  sources: [
    { cite: cite("33-cfr-183", "183.425(d), (f), (g)", "read"), sets: ["us-small-craft"] },
    { cite: cite("iso-10133-2012", "7.7", "read"), sets: ["iso-small-craft"] },
  ],
  messages: { thin: "{place} is {size}; {least} is the least for this case: {case}" },
  cures: ["next-size", "sheathe"],
  examples: {
    good: [
      { says: "1 mm² by itself", plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 1 mm² }" },
      {
        says: "0.75 mm² in a sheath",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 0.75 mm², sheathed: yes }",
      },
      {
        says: "18 AWG to electronics of less than an ampere",
        plan: "rules: { DC: us-small-craft }\nparts:\n  lamp: { kind: electronics, running: 0.4 A }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 18 AWG }",
      },
    ],
    bad: [
      {
        says: "0.75 mm² by itself",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 0.75 mm² }",
        fails: "thin",
        about: "circuits.W10",
      },
      {
        says: "nobody knows whether it lies in a sheath",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 0.75 mm², sheathed: unknown }",
        fails: "cannot tell",
        about: "circuits.W10",
      },
    ],
  },
  judge(build, report) {
    for (const c of build.circuits) {
      const { subject, model } = c;
      if (model === null) report.notApplicable(subject, "alternating current is not studied yet");
      else if (lacksNumbers(build, c, report)) continue;
      else if (c.circuit.size === "unknown" || model.rungs === null) report.cannotTell(subject, [wireNeeded(c)]);
      else {
        const make = model.rungs.ladder.makes[build.settled.chosen.rungs[model.position] ?? 0];
        const cases = casesOf(build, c);
        if (make === undefined || cases.every(({ least }) => least === null)) {
          report.notApplicable(subject, "the set names no least size for so short a piece");
          continue;
        }
        const isRight = ({ least }: Case): boolean => least === null || isNoThinner(make, least.size, least.strands);
        const wrong = cases.filter((one) => !isRight(one));
        const strictest = hardest(make, cases);
        const said = {
          measured: make.size.areaMm2,
          ...(strictest === null ? {} : { limit: strictest.size.areaMm2, margin: toSpare(make, strictest) }),
          unit: "mm²",
        } as const;
        if (wrong.length === 0) report.pass(subject, said);
        else if (wrong.length < cases.length)
          report.cannotTell(subject, [
            ...(differ(cases, wrong, (one) => one.sheathed) ? [needed("whether it lies in a sheath", subject)] : []),
            ...(differ(cases, wrong, (one) => one.length) ? [needed("its length", subject)] : []),
          ]);
        else
          report.fail(subject, "thin", {
            ...said,
            source: strictest?.source ?? null,
            words: {
              size: make.size.label,
              least: strictest?.size.label ?? figure(0, "mm²"),
              case: strictest?.says ?? "",
            },
          });
      }
    }
  },
});

/** One of the cases that a conductor may be, as far as its facts are known. */
interface Case {
  readonly sheathed: boolean;
  readonly length: Metres | undefined;
  readonly least: LeastSize | null;
}

function casesOf(build: Build, c: CircuitView): Case[] {
  const { circuit, run, ruleSet, plan } = c;
  if (ruleSet === null) return [];
  const { low, high, origin } = run.lengthM;
  const lengths =
    origin === "unknown" ? [SHORTEST, undefined] : low < high ? [metres(low), metres(high)] : [metres(high)];
  // Of what was found nothing is assumed: that a plan names no sheath does not say that there is none.
  const isOpen = circuit.sheathed === "unknown" || (circuit.asFound && plan?.facts.sheathed === undefined);
  const use = smallUse(build, c);
  const cases: Case[] = [];
  for (const sheathed of isOpen ? [true, false] : [circuit.sheathed]) {
    const asked = { current: "DC", sheathed, use } as const;
    for (const length of lengths) {
      const least = leastSize(ruleSet.leastSize, length === undefined ? asked : { ...asked, length });
      cases.push({ sheathed, length, least });
    }
  }
  return cases;
}

/** What lets a conductor be thinner than others; that it is a tail is told by its length alone. */
function smallUse(build: Build, { circuit, design }: CircuitView): SmallUse {
  const electronic = (id: string): boolean => build.part(id)?.part.traits.dropUse === "electronics";
  const isSmall =
    circuit.draws.length > 0 && circuit.draws.every(electronic) && (design.steadyA ?? SMALL_AMPS) < SMALL_AMPS;
  return isSmall ? "small electronics" : "pigtail";
}

/** Whether the cases that are wrong and those that are right differ in a fact. */
function differ(cases: readonly Case[], wrong: readonly Case[], fact: (one: Case) => unknown): boolean {
  const bad = new Set(wrong.map(fact));
  const good = new Set(cases.filter((one) => !wrong.includes(one)).map(fact));
  return [...bad].some((value) => !good.has(value)) || [...good].some((value) => !bad.has(value));
}

/** How far a conductor is beyond a least size: by area within one system of sizes, by resistance between two. */
function toSpare(make: ConductorMake, { size, strands }: LeastSize): number {
  if (sameSystem(make.size.system, size.system)) return make.size.areaMm2 / size.areaMm2 - 1;
  return resistancePerMetre20({ ...make, size, strands }).ohmsPerMetre / resistancePerMetre20(make).ohmsPerMetre - 1;
}

const hardest = (make: ConductorMake, cases: readonly Case[]): LeastSize | null =>
  cases.reduce<LeastSize | null>(
    (a, { least }) => (least !== null && (a === null || toSpare(make, least) < toSpare(make, a)) ? least : a),
    null,
  );
