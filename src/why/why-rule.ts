import { printFigure, type Finding, type Judgement, type Pass } from "../rules/index.ts";
import type { Built } from "./built.ts";
import type { Explanation, WorkedFigure, WorkedStep } from "./explanation.ts";
import { emptyExplanation, finish } from "./finish.ts";
import { ofCircuit, ofPart } from "./leans-on.ts";

/** What rules say, as far as it is at hand. */
export type Said = { readonly findings: readonly Finding[] } & Partial<Pick<Judgement, "passes" | "notApplicable">>;

/** A rule that has spoken, and the thing that it is asked about. */
export interface RuleAsked {
  readonly rule: string;
  /** Key path; null: all that it speaks of. */
  readonly about: string | null;
}

/** `circuits.W13.from` → `W13`: as a waiver and a cure name it. */
export const bareThing = (about: string): string => about.replace(/^[a-z]+\./, "").replace(/\.(?:from|to)$/, "");

/** What a rule says of its things. */
interface Spoken {
  readonly found: readonly Finding[];
  readonly passes: readonly Pass[];
  /** Why it does not apply, by thing. */
  readonly silent: readonly { readonly about: string; readonly reason: string }[];
}

function spokenBy({ findings, passes = [], notApplicable = [] }: Said, rule: string): Spoken {
  return {
    found: findings.filter((f) => f.rule === rule),
    passes: passes.filter((p) => p.rule === rule),
    silent: notApplicable
      .filter((n) => n.rule === rule)
      .flatMap(({ about, reason }) => about.map((one) => ({ about: one, reason }))),
  };
}

const thingsOf = ({ found, passes, silent }: Spoken): readonly string[] => [
  ...new Set([...found, ...passes, ...silent].map((x) => x.about)),
];

/** Things named in a hint. */
const FEW = 8;

/**
 * Reads a rule, alone or with a thing behind it, whatever it says of that.
 *
 * @returns null: no rule of that name has said anything; a text: of what it speaks instead
 */
export function readRule(said: Said, asked: string): RuleAsked | { readonly speaksOf: string } | null {
  const [rule = "", ...rest] = asked.split(" ");
  if (!rule.includes("/")) return null;
  const things = thingsOf(spokenBy(said, rule.toLowerCase()));
  if (things.length === 0) return null;
  const about = rest.join(" ");
  if (about === "") return { rule: rule.toLowerCase(), about: things.length === 1 ? (things[0] ?? null) : null };
  const thing =
    things.find((t) => t === about) ?? things.find((t) => bareThing(t).toLowerCase() === about.toLowerCase());
  return thing === undefined
    ? { speaksOf: `${things.slice(0, FEW).map(bareThing).join(", ")}${things.length > FEW ? " …" : ""}` }
    : { rule: rule.toLowerCase(), about: thing };
}

/** Explains what a rule says of things that it does not find fault with: that they pass, by how much, or why it does not apply. */
export function explainRule(built: Built & { readonly judgement?: Said }, { rule, about }: RuleAsked): Explanation {
  const spoken = spokenBy(built.judgement ?? { findings: [] }, rule);
  if (about === null) return explainAll(built, rule, spoken);
  const name = nameOf(about);
  const pass = spoken.passes.find((p) => p.about === about);
  const reasons = spoken.silent.filter((s) => s.about === about).map((s) => s.reason);
  const answer =
    pass === undefined
      ? `It does not apply to ${name}: ${reasons.join("; ")}.`
      : `It passes at ${name}${figuresOf(pass) || "; it compares no figures"}.`;
  const [section, thing] = [about.slice(0, about.indexOf(".")), bareThing(about)];
  return finish(
    built,
    {
      ...emptyExplanation(`${rule} ${about}`, `What does ${rule} say of ${name}?`, answer),
      figures: pass === undefined ? [] : workedFigures(pass),
      further: section === "circuits" || section === "parts" ? [thing] : [],
    },
    section === "circuits" ? [ofCircuit(thing)] : section === "parts" ? [ofPart(thing)] : [],
  );
}

function explainAll(built: Built, rule: string, { found, passes, silent }: Spoken): Explanation {
  const counts = [
    ...(found.length === 0 ? [] : [`it has something to say of ${found.map((f) => nameOf(f.about)).join(", ")}`]),
    ...(passes.length === 0 ? [] : [`it passes at ${passes.length === 1 ? "one thing" : `${passes.length} things`}`]),
    ...(silent.length === 0
      ? []
      : [`it does not apply to ${silent.length === 1 ? "one thing" : `${silent.length} things`}`]),
  ];
  const said = counts.join("; ");
  const sections = [
    { title: "Where it finds something", steps: found.map((f) => step(nameOf(f.about), f.because)) },
    { title: "Where it passes", steps: passes.map((p) => step(nameOf(p.about), figuresOf(p).replace(/^: /, ""))) },
    { title: "Where it does not apply", steps: silent.map((s) => step(nameOf(s.about), s.reason)) },
  ].filter(({ steps }) => steps.length > 0);
  return finish(
    built,
    {
      ...emptyExplanation(rule, `What does ${rule} say here?`, `${said.charAt(0).toUpperCase()}${said.slice(1)}.`),
      sections: sections.map((s) => ({ ...s, says: "", way: [] })),
      further: found.map((f) => `${rule} ${bareThing(f.about)}`),
    },
    [],
  );
}

const nameOf = (about: string): string => about.replace(/^(?:circuits|parts)\./, "").replace(/\.(from|to)$/, " $1");

const step = (name: string, says: string): WorkedStep => ({
  name,
  equation: "",
  working: says === "" ? "no figures are compared" : says,
  value: says === "" ? "no figures are compared" : says,
  unit: "",
  text: says === "" ? "no figures are compared" : says,
  table: null,
  source: "",
  trust: null,
});

/** `: 2.54 kA against 3 kA, 15 % of the limit to spare (at anchor)`; nothing where nothing was measured. */
function figuresOf({ measured, limit, unit, margin, state }: Pass): string {
  const against = limit === null ? "" : ` against ${printFigure({ value: limit, unit })}`;
  const figures = measured === null ? "" : `: ${printFigure({ value: measured, unit })}${against}`;
  const spare =
    margin === null || figures === "" ? "" : `, ${printFigure({ value: margin, unit: "share" })} of the limit to spare`;
  return `${figures}${spare}${state === null ? "" : ` (${state})`}`;
}

function workedFigures({ measured, limit, unit, margin }: Pass): WorkedFigure[] {
  const inUnit = unit === "share" || unit === "count" ? "" : unit;
  return [
    ...(measured === null
      ? []
      : [{ name: "measured", value: measured, unit: inUnit, text: printFigure({ value: measured, unit }) }]),
    ...(limit === null
      ? []
      : [{ name: "limit", value: limit, unit: inUnit, text: printFigure({ value: limit, unit }) }]),
    ...(margin === null
      ? []
      : [{ name: "margin", value: margin, unit: "", text: printFigure({ value: margin, unit: "share" }) }]),
  ];
}
