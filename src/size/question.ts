import { nearestNames } from "../plan/index.ts";
import { printAmount, readQuantity, type Dimension, type ReadOptions } from "../quantity/index.ts";
import { findRuleSet, installMethods, type InstallMethod } from "../ruleset/index.ts";
import { fieldsOf, type QuestionField } from "./question-text.ts";

/** A question with every figure read: SI, °C; of a range the end that hurts. */
export interface Question {
  readonly loadA: number;
  readonly startA: number | null;
  readonly startS: number | null;
  readonly nominalV: number;
  readonly sourceV: number;
  readonly oneWayM: number;
  /** Which of the two was asked with. */
  readonly runAsked: "one way" | "there and back";
  /** Share of the nominal volts. */
  readonly dropShare: number | null;
  /** Id of the rule set, and its edition as the set names it. */
  readonly rules: { readonly id: string; readonly edition: string };
  readonly ambientC: number | null;
  readonly engineSpace: boolean;
  readonly bundle: number | null;
  readonly insulationC: number | null;
  /** As the plan language has it; null: as the rule set usually finds it. */
  readonly method: InstallMethod | null;
  readonly terminalsC: number | null;
  readonly stock: "mm²" | "AWG" | "SAE";
  readonly metal: string | null;
  readonly strands: string | null;
  readonly sheathed: boolean;
  readonly leastVolts: number | null;
  readonly startsAbove: number | null;
  /** Fields that were not given, so that a default stands in. */
  readonly absent: readonly QuestionField[];
  /** What a reader has to know of how it was read: a range taken at its worse end. */
  readonly remarks: readonly string[];
}

/** One thing that is wrong with a question. */
export interface QuestionProblem {
  readonly field: QuestionField | "";
  /** What is, what was expected. */
  readonly message: string;
  readonly hint: string;
}

export type ReadQuestion =
  | { readonly ok: true; readonly question: Question }
  | { readonly ok: false; readonly problems: readonly QuestionProblem[] };

interface Choice {
  readonly values: readonly string[];
  readonly also: Readonly<Record<string, string>>;
}

const choices = {
  stock: { values: ["mm²", "AWG", "SAE"], also: { mm2: "mm²", mm: "mm²", metric: "mm²" } },
  metal: {
    values: ["tinned copper", "copper", "aluminium"],
    also: { tinned: "tinned copper", "plain copper": "copper", aluminum: "aluminium" },
  },
  strands: {
    values: ["class 1", "class 2", "class 5", "class 6", "type 2", "type 3"],
    also: { "1": "class 1", "2": "class 2", "5": "class 5", "6": "class 6", solid: "class 1", fine: "class 5" },
  },
} as const satisfies Record<string, Choice>;

/** Of a range the end that makes the wire thicker. */
type End = "low" | "high";

/**
 * Reads a question. Everything wrong with it is said in one pass.
 *
 * @param input from a person or a program: an object of texts; anything else is answered with what was expected
 * @example
 * const read = readQuestion({ load: "4.3 A", loop: "10.4 m", drop: "3 %" })
 * read.question.oneWayM //=> 5.2
 * readQuestion({ load: "4.3", run: "5 m" }).problems[0].message //=> "a current or a power needs a unit"
 */
export function readQuestion(input: unknown): ReadQuestion {
  const problems: QuestionProblem[] = [];
  const remarks: string[] = [];
  const say = (field: QuestionField | "", message: string, hint: string): void => {
    problems.push({ field, message, hint });
  };
  const given = fieldsOf(input, say);
  const textOf = (field: QuestionField): string | null => {
    const value = given[field];
    if (value === undefined) return null;
    if (typeof value === "string") return value;
    const example = typeof value === "number" ? `write it as a text with its unit, \`"${value} …"\`` : "write a text";
    say(field, "a text with its unit was expected", example);
    return null;
  };
  const flag = (field: QuestionField): boolean => {
    const value = given[field];
    if (value !== undefined && typeof value !== "boolean") say(field, "yes or no was expected", "write true or false");
    return value === true;
  };

  const measure = (
    field: QuestionField,
    dimension: Dimension | readonly Dimension[],
    end: End,
    limits: ReadOptions = {},
  ): { value: number; dimension: Dimension } | null => {
    const text = textOf(field);
    if (text === null) return null;
    const reading = readQuantity(text, dimension, limits);
    if (!reading.ok) {
      for (const { message, hint } of reading.problems) say(field, message, hint ?? "");
      return null;
    }
    const { amount } = reading;
    if (amount.form === "unknown") {
      say(
        field,
        "a figure was expected: nothing can be sized for what is not known",
        "measure it, or ask with a range",
      );
      return null;
    }
    if (amount.low !== amount.high) {
      const taken = amount[end];
      remarks.push(`${field}: of ${printAmount(amount)} the ${end === "low" ? "least" : "most"} is taken`);
      return { value: taken, dimension: amount.dimension };
    }
    return { value: amount.high, dimension: amount.dimension };
  };
  const above = (field: QuestionField, value: number | null): number | null => {
    if (value === null || value > 0) return value;
    say(field, "more than nothing was expected", "mend the figure");
    return null;
  };
  const word = <C extends Choice>(field: QuestionField, choice: C): C["values"][number] | null => {
    const text = textOf(field)?.trim();
    if (text === undefined) return null;
    const folded = text.toLowerCase();
    const found = choice.values.find((v) => v.toLowerCase() === folded) ?? choice.also[folded];
    if (found !== undefined) return found;
    const near = nearestNames(text, choice.values, 1)[0];
    const all = choice.values.map((v) => `\`${v}\``).join(", ");
    say(field, `expected one of ${all}`, near === undefined ? "write one of them" : `did you mean \`${near}\`?`);
    return null;
  };

  const nominal = above("volts", measure("volts", "voltage", "low", { max: 1000 })?.value ?? null);
  const nominalV = nominal ?? 12;
  const ampsOf = (field: QuestionField): number | null => {
    const found = measure(field, ["current", "power"], "high", { min: 0 });
    return above(field, found === null ? null : found.dimension === "power" ? found.value / nominalV : found.value);
  };
  const load = ampsOf("load");
  if (given.load === undefined) say("load", "the load is missing", "say what it takes, such as `4.3 A` or `60 W`");
  const startA = ampsOf("start");
  const startS = above("startTime", measure("startTime", "time", "high", { min: 0, max: 60 })?.value ?? null);
  const run = above("run", measure("run", "length", "high", { min: 0, max: 10_000 })?.value ?? null);
  const loop = above("loop", measure("loop", "length", "high", { min: 0, max: 20_000 })?.value ?? null);
  if (given.run !== undefined && given.loop !== undefined) {
    say("loop", "both the run one way and the length there and back are given", "give one of the two");
  } else if (given.run === undefined && given.loop === undefined) {
    say("run", "the length is missing", "give the run one way, such as `5.2 m`, or the length there and back");
  }
  const dropShare = above("drop", measure("drop", "ratio", "low", { min: 0, max: 1 })?.value ?? null);
  const ambientC = measure("ambient", "temperature", "high", { min: -60, max: 200 })?.value ?? null;
  const bundle = measure("bundle", "count", "high", { min: 1, max: 500 })?.value ?? null;
  const insulationC = measure("insulation", "temperature", "low", { min: 60, max: 250 })?.value ?? null;
  const terminalsC = measure("terminals", "temperature", "low", { min: 40, max: 200 })?.value ?? null;
  const leastVolts = measure("leastVolts", "voltage", "high", { min: 0, max: 1000 })?.value ?? null;
  const startsAbove = measure("startsAbove", "voltage", "high", { min: 0, max: 1000 })?.value ?? null;
  const source = above("sourceVolts", measure("sourceVolts", "voltage", "low", { max: 1000 })?.value ?? null);
  if (startsAbove !== null && startA === null && given.start === undefined) {
    say(
      "startsAbove",
      "least volts at the start are given, and no current of the start",
      "give `start` too, such as `8 A`",
    );
  }

  const method = word("method", { values: installMethods, also: { conduit: "raceway", trunking: "raceway" } } as const);
  const stock = word("stock", choices.stock);
  const metal = word("metal", choices.metal);
  const strands = word("strands", choices.strands);
  const engineSpace = flag("engineSpace");
  const sheathed = flag("sheathed");
  const rules = readRules(textOf("rules") ?? "iso-small-craft", say, remarks);

  const oneWayM = run ?? (loop === null ? null : loop / 2);
  if (problems.length > 0 || load === null || oneWayM === null || rules === null) return { ok: false, problems };
  return {
    ok: true,
    question: {
      loadA: load,
      startA,
      startS,
      nominalV,
      sourceV: source ?? nominalV,
      oneWayM,
      runAsked: run === null ? "there and back" : "one way",
      dropShare,
      rules,
      ambientC,
      engineSpace,
      bundle,
      insulationC,
      method,
      terminalsC,
      stock: stock ?? (rules.id.startsWith("us-") ? "AWG" : "mm²"),
      metal,
      strands,
      sheathed,
      leastVolts,
      startsAbove,
      absent: (["volts", "sourceVolts", "drop", "rules", "stock", "bundle"] as const).filter(
        (f) => given[f] === undefined,
      ),
      remarks,
    },
  };
}

function readRules(
  text: string,
  say: (field: QuestionField, message: string, hint: string) => void,
  remarks: string[],
): Question["rules"] | null {
  const found = findRuleSet(text);
  if (!found.found) {
    say("rules", found.problem, found.hint);
    return null;
  }
  const { set, edition } = found;
  remarks.push(...found.remarks);
  return { id: set.id, edition: edition.name };
}
