import { cite } from "../../explain/index.ts";
import { coresOf } from "../../system/index.ts";
import { colourName } from "../../wire/colour/index.ts";
import type { PrintedColour } from "../../wire/make/wire-make.ts";
import type { CircuitView } from "../build.ts";
import { namedSet } from "../named-set.ts";
import type { RuleSetId } from "../rule-set-id.ts";
import { defineRule } from "../rule.ts";

const NEC_GREEN = cite("nfpa-70-2023", "250.119", "read");
const NEC_WHITE = cite("nfpa-70-2023", "200.7", "read");

/** Sets by which green without yellow is the colour of the earth as well. */
const GREEN_TOO: ReadonlySet<RuleSetId> = new Set(["us-small-craft", "us-cabin", "us-rv"]);
/** Sets by which white and grey are the colour of the neutral alone. */
const WHITE_TOO: ReadonlySet<RuleSetId> = new Set(["us-cabin", "us-rv"]);

export const protectiveCoreInService = defineRule({
  id: "cable/protective-core-in-service",
  title: "Protective core in service",
  severity: "must",
  danger: "someone trusts the colour of the earth and takes hold of a live core",
  why: `Green-yellow is for the protective conductor and for bonding, and for nothing else, in every scheme; by the American sets green alone is so too.
    There white and grey are for the neutral: such a core may be live only within a cable, marked anew at both ends, where it feeds a switch or where
    the circuit has two lines and no neutral. Colours are those that the plan or a label gives.`,
  silent: ["circuits of whose colours nothing is said", "white cores in cables, where they may be marked anew"],
  sources: [
    { cite: cite("iec-60445-2017", "green-yellow for the protective conductor and nothing else", "read") },
    { cite: NEC_GREEN, sets: ["us-cabin", "us-rv"] },
    { cite: cite("abyc-e-11", "colours of conductors", "article"), sets: ["us-small-craft"] },
  ],
  messages: {
    earth: "{place} makes its core {core} {colour}, which is for the protective conductor alone",
    neutral:
      "{place} makes its core {core} {colour}, which is for the neutral: it may be live only within a cable, marked anew, towards a switch or without a neutral",
  },
  cures: ["another-core"],
  examples: {
    good: [
      {
        says: "green-yellow for the earth",
        plan: "systems:\n  AC: { kind: AC, nominal: 230 V }\nparts:\n  INL: { kind: shore inlet, rated: 16 A }\n  kettle: { kind: load, rated: 900 W }\ncircuits:\n  W50: { path: INL → kettle, length: 2 m, colour: [brown, blue, green-yellow] }",
      },
      {
        says: "a green plus, where only green-yellow is kept for the earth",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, colour: [green, black] }",
      },
      {
        says: "a white core that feeds two lines within a cable",
        plan: "rules: { DC: iso-small-craft 2020+A1:2022, AC: us-cabin }\nsystems:\n  AC: { kind: AC, nominal: 240 V, phases: split, cores: [L1, L2, N, PE] }\nparts:\n  INL: { kind: shore inlet, rated: 30 A }\n  heater: { kind: load, rated: 3 kW }\ncircuits:\n  W50: { path: INL → heater, length: 2 m, cores: [L1, L2, PE], cable: 10/2 w/G NM-B, colour: { L1: black, L2: white } }",
      },
    ],
    bad: [
      {
        says: "a plus in the colour of an earth",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, colour: [green-yellow, blue] }",
        fails: "earth",
        about: "circuits.W10",
      },
      {
        says: "a green plus on an American boat",
        plan: "rules: { DC: us-small-craft }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, colour: [green, black] }",
        fails: "earth",
        about: "circuits.W10",
      },
      {
        says: "a white line beside a blue neutral",
        plan: "rules: { DC: iso-small-craft 2020+A1:2022, AC: us-cabin }\nsystems:\n  AC: { kind: AC, nominal: 120 V, cores: [L, N, PE] }\nparts:\n  INL: { kind: shore inlet, rated: 30 A }\n  kettle: { kind: load, rated: 900 W }\ncircuits:\n  W50: { path: INL → kettle, length: 2 m, colour: { L: white, N: blue, PE: green } }",
        fails: "neutral",
        about: "circuits.W50",
      },
    ],
  },
  judge(build, report) {
    for (const c of build.circuits) {
      const { subject, circuit } = c;
      if (circuit.colours.length === 0) {
        report.notApplicable(subject, "nothing is said of the colours of its cores");
        continue;
      }
      const set = namedSet(c);
      const wrong = circuit.colours.find(({ fn, colour }) => fn !== "PE" && isEarths(colour, set));
      const white = circuit.colours.find(({ fn, colour }) => fn.startsWith("L") && isNeutrals(colour, set));
      if (wrong !== undefined)
        report.fail(subject, "earth", { words: { core: coreName(wrong.fn), colour: colourName(wrong.colour) } });
      else if (white !== undefined && !mayBeMarkedAnew(c))
        report.fail(subject, "neutral", {
          source: NEC_WHITE,
          words: { core: coreName(white.fn), colour: colourName(white.colour) },
        });
      else report.pass(subject);
    }
  },
});

const coreName = (fn: string): string => (fn === "pole" ? "+" : fn);

const isEarths = ([base, ...tracers]: PrintedColour, set: RuleSetId | null): boolean =>
  base === "GNYE" ||
  (base === "GN" && (tracers[0] === "YE" || (tracers.length === 0 && set !== null && GREEN_TOO.has(set))));

const isNeutrals = ([base, ...tracers]: PrintedColour, set: RuleSetId | null): boolean =>
  (base === "WH" || base === "GY") && tracers.length === 0 && set !== null && WHITE_TOO.has(set);

/** Within a cable, and no neutral with it whose colour it takes. */
const mayBeMarkedAnew = ({ circuit }: CircuitView): boolean =>
  (circuit.cable !== undefined || circuit.sheathed === true) && !coresOf(circuit.conductors).includes("N");
