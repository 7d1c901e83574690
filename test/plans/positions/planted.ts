import { readFileSync } from "node:fs";
import { parse, parseDocument } from "yaml";
import type { Holds } from "./walk.ts";

/** A key of a plan that is set to a value, or cut. Keys on the way are parted by strokes. */
export type Edit = { readonly set: string; readonly to: unknown } | { readonly cut: string };

/** A plan with nothing wrong in what is judged here. */
type Base = { readonly plan: string } | { readonly from: string; readonly edits: readonly Edit[] };

/** A finding that has to come. */
export interface ExpectedFinding {
  readonly rule: string;
  readonly about: string;
  /** Other things that the same finding may as well be about. */
  readonly or?: readonly string[];
  readonly outcome: "fail" | "cannot tell";
  readonly severity: "must" | "should" | "note";
  /** What is true at the end of the way. */
  readonly holds?: Holds;
  /** Actions from everything off to the fault, `mover position`; no shorter way leads to it. */
  readonly way?: readonly string[];
}

/** A fault in a plan that has none otherwise, or a right build that looks like one. */
export interface Mutant {
  readonly name: string;
  readonly base: string;
  readonly edits: readonly Edit[];
  readonly must: readonly ExpectedFinding[];
  /** Rules that may find something beside it. */
  readonly mayFail?: readonly string[];
  /** Rules that somebody might think of here, and that have nothing to say. */
  readonly silent?: readonly string[];
  /** What holds somewhere and is right all the same. */
  readonly right?: readonly Holds[];
  readonly why: string;
}

/** A difference that was looked into, and who is right. */
export interface Ruling {
  /** Names of mutants that it holds for; none: wherever it is met. */
  readonly in?: readonly string[];
  /** Expected and not found, found and not expected, found with another severity, reached in another number of actions. */
  readonly is: "missing" | "extra" | "severity" | "actions";
  /** Rule, outcome and thing. */
  readonly what: string;
  /** Actions that the finding tells instead; null: it tells none. */
  readonly actions?: number | null;
  /** What is true after so many actions and after no fewer. */
  readonly holds?: Holds;
  readonly because: string;
}

const textOf = (file: string): string => readFileSync(new URL(file, import.meta.url), "utf8");

const { bases, mutants } = parse(textOf("mutants.yaml")) as {
  readonly bases: Readonly<Record<string, Base>>;
  readonly mutants: readonly Mutant[];
}; // its form has a test of its own

export { bases, mutants };

export const rulings = (parse(textOf("rulings.yaml")) ?? []) as readonly Ruling[]; // as above

const wayTo = (keys: string): (string | number)[] =>
  keys.split("/").map((key) => (/^\d+$/.test(key) ? Number(key) : key));

/** A text with edits; a cut of what is not there is a defect of the list. */
export function edited(text: string, edits: readonly Edit[]): string {
  if (edits.length === 0) return text;
  const doc = parseDocument(text);
  for (const edit of edits) {
    if ("set" in edit) doc.setIn(wayTo(edit.set), doc.createNode(edit.to));
    else if (!doc.deleteIn(wayTo(edit.cut))) throw new Error(`nothing to cut at ${edit.cut}`);
  }
  return doc.toString({ lineWidth: 0 });
}

const texts = new Map<string, string>();

/** The text of a base: its own, or that of another base or of an example with its edits. */
export function baseText(name: string): string {
  const known = texts.get(name);
  if (known !== undefined) return known;
  const base = bases[name];
  const text =
    base === undefined
      ? textOf(`../../../${name}`)
      : "plan" in base
        ? base.plan
        : edited(baseText(base.from), base.edits);
  texts.set(name, text);
  return text;
}

const mutated = new Map<Mutant, string>();

/** The text of a base with the edits of a mutant. */
export function mutantText(mutant: Mutant): string {
  const text = mutated.get(mutant) ?? edited(baseText(mutant.base), mutant.edits);
  mutated.set(mutant, text);
  return text;
}

/** Rules that are expected and are not there yet. */
export const waiting = parse(textOf("waiting.yaml")) as readonly string[]; // as above
