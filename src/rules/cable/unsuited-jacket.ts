import { cite } from "../../explain/index.ts";
import type { Fitness } from "../../wire/make/wire-make.ts";
import type { CircuitView } from "../build.ts";
import { needed } from "../report.ts";
import { zoneKinds } from "../zone-kinds.ts";
import { defineRule } from "../rule.ts";
import { circuitsInCable, factOfCable, speaksForCable } from "./in-cable.ts";

type Asked = "wet" | "oil" | "sun" | "moving" | "buried";

/** What a zone of each kind asks of a jacket. */
const DEMANDS: Readonly<Partial<Record<string, readonly Asked[]>>> = {
  engine: ["oil"],
  wet: ["wet"],
  bilge: ["wet"],
  outside: ["wet"],
  sun: ["sun"],
  buried: ["buried"],
  moving: ["moving"],
};

/** How each reads after "made for". */
const READS: Readonly<Record<Asked, string>> = {
  wet: "wet places",
  oil: "oil",
  sun: "sunlight",
  moving: "being moved",
  buried: "the ground",
};

/** Types that are laid in the ground by their standard; what is not fit for wet places is not fit for the ground either. Memory. */
const BURIED: ReadonlySet<string> = new Set(["UF-B", "NMWU", "NYY-J", "NYY-O", "TECK90"]);

export const unsuitedJacket = defineRule({
  id: "cable/unsuited-jacket",
  title: "Unsuited jacket",
  severity: "must",
  danger: "a jacket made for dry rooms rots, lets water in and current out",
  why: `The letters of a cable say what its jacket is made for: a cord without W is for dry places, NM-B for dry walls alone. Every zone that the cable crosses has to be among
    it: wet, oil, sunlight, movement, the ground. Where a plan says under \`fit for\` what the cable bears, that counts, and unsuited-insulation judges it. What the letters do not tell is
    asked for.`,
  silent: [
    "circuits without a cable whose type is told",
    "zones that ask for nothing",
    "cables of which the plan itself says what they are fit for",
  ],
  sources: [
    { cite: cite("trade-practice", "what the letters of a cable's type promise", "article") },
    { cite: cite("nfpa-70-2023", "Tables 310.4(1) and 400.4", "article"), sets: ["us-cabin", "us-rv"] },
    { cite: cite("33-cfr-183", "183.435", "read"), sets: ["us-small-craft"] },
  ],
  messages: { unfit: "{place} is of {type}, which is not made for {lacking}, and lies in {zones}" },
  cures: ["fit-insulation"],
  examples: {
    good: [
      {
        says: "a wet-rated cord on deck",
        plan: "zones:\n  deck: { kind: [outside, sun] }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, zone: deck, cable: 14/2 SOOW }",
      },
      {
        says: "building cable where it is dry",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, zone: dry, cable: 12/2 w/G NM-B, strands: class 5 }",
      },
    ],
    bad: [
      {
        says: "a cord without W on deck",
        plan: "zones:\n  deck: { kind: [outside, sun] }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, zone: deck, cable: 14/2 SO }",
        fails: "unfit",
        about: "circuits.W10",
      },
      {
        says: "building cable in the bilge",
        plan: "zones:\n  bilge: { kind: [bilge, wet] }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, zone: bilge, cable: 12/2 w/G NM-B, strands: class 5 }",
        fails: "unfit",
        about: "circuits.W10",
      },
      {
        says: "letters that do not tell",
        plan: "zones:\n  deck: { kind: sun }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, zone: deck, cable: 2x2.5 mm² H05VV-F }",
        fails: "cannot tell",
        about: "circuits.W10",
      },
    ],
  },
  judge(build, report) {
    for (const c of build.circuits) {
      const { subject, circuit } = c;
      const label = circuit.cable?.label;
      if (circuit.cable === undefined) report.notApplicable(subject, "the plan names no cable");
      else if (!speaksForCable(c)) report.notApplicable(subject, "it is judged with the first circuit of its cable");
      else if (label == null || label.make.type === null)
        report.notApplicable(subject, "the label of its cable names no type");
      else {
        const together = circuitsInCable(build, c);
        const asked = new Set(together.flatMap((v) => [...zoneKinds(build, v)].flatMap((kind) => DEMANDS[kind] ?? [])));
        const { type, fitness } = label.make;
        const answers = [...asked].map((one) => ({ one, is: isFit(one, fitness, type) }));
        const lacking = answers.filter(({ is }) => is === false).map(({ one }) => READS[one]);
        const open = answers.filter(({ is }) => is === null).map(({ one }) => READS[one]);
        if (asked.size === 0) report.notApplicable(subject, "its zones ask nothing of a jacket");
        else if (factOfCable(together, "fit for") !== undefined)
          report.notApplicable(subject, "the plan says what it is fit for: unsuited-insulation judges it");
        else if (lacking.length > 0)
          report.fail(subject, "unfit", { words: { type, lacking: lacking.join(" and "), zones: zonesOf(together) } });
        else if (open.length > 0)
          report.cannotTell(subject, [needed(`whether ${type} is made for ${open.join(" and ")}`, subject)]);
        else report.pass(subject);
      }
    }
  },
});

function isFit(asked: Asked, fitness: Fitness, type: string): boolean | null {
  switch (asked) {
    case "wet":
    case "oil":
    case "sun":
      return fitness[asked];
    case "moving":
      return fitness.flexible;
    case "buried":
      return BURIED.has(type) ? true : fitness.wet === false ? false : null;
  }
}

const zonesOf = (views: readonly CircuitView[]): string =>
  [
    ...new Set(
      views.flatMap(({ run }) => run.stretches.flatMap((s) => s.zone ?? (s.engineSpace ? "an engine space" : []))),
    ),
  ].join(", ");
