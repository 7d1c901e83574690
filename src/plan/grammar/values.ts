import { readQuantity, type Dimension } from "../../quantity/index.ts";
import type { Fact, Measure } from "../fact.ts";
import { nearestNames, type Node, type ScalarNode } from "../text/index.ts";
import { foldName, listed, shown } from "./record.ts";
import type { Reading, Takes, ValueRule } from "./rule.ts";

/** The one-line text under a key, or a message when a map or list stands there. */
export function scalarOf(node: Node, says: string, reading: Reading): ScalarNode | undefined {
  if (node.kind === "scalar") return node;
  reading.say({
    id: "plan/one-value-expected",
    level: "error",
    at: node.span,
    message: `expected ${says}, found ${node.kind === "map" ? "a map" : "a list"}`,
    hint: "write one value here",
  });
  return undefined;
}

const isUnknownWord = (node: ScalarNode): boolean => !node.quoted && foldName(node.text) === "unknown";

/** Wraps a reader of plain text: `unknown` is accepted everywhere. */
export function scalarRule<T>(
  says: string,
  schema: Record<string, unknown>,
  read: (node: ScalarNode, reading: Reading) => T | undefined,
): ValueRule<T> {
  return {
    says,
    schema,
    read(node, reading): Fact<T> | undefined {
      const scalar = scalarOf(node, says, reading);
      if (scalar === undefined) return undefined;
      if (isUnknownWord(scalar)) return { value: "unknown", span: scalar.span };
      const value = read(scalar, reading);
      return value === undefined ? undefined : { value, span: scalar.span };
    },
  };
}

/** Free text. */
export function text(says = "a text"): ValueRule<string> {
  return scalarRule(says, { type: "string" }, (node) => node.text);
}

/** The name of a part, a zone, a system. */
export function name(what: string): ValueRule<string> {
  const read = (node: ScalarNode, reading: Reading): string | undefined => {
    if (node.text.trim() !== "") return node.text.trim();
    reading.say({
      id: "plan/name-empty",
      level: "error",
      at: node.span,
      message: `expected the name of ${what}, found an empty text`,
      hint: "write the name, or leave the key out",
    });
    return undefined;
  };
  return { ...scalarRule(`the name of ${what}`, { type: "string" }, read), takes: { names: [what] } };
}

/** yes or no, in the spellings that keyboards and habits bring. */
export function yesNo(): ValueRule<boolean> {
  const read = (node: ScalarNode, reading: Reading): boolean | undefined => {
    const word = foldName(node.text);
    if (word === "yes" || word === "true" || word === "on") return true;
    if (word === "no" || word === "false" || word === "off") return false;
    reading.say({
      id: "plan/yes-or-no",
      level: "error",
      at: node.span,
      message: `expected \`yes\` or \`no\`, found \`${shown(node.text)}\``,
      hint: "write `yes`, `no` or `unknown`",
    });
    return undefined;
  };
  const schema = { enum: ["yes", "no", "unknown"] };
  return { ...scalarRule("`yes` or `no`", schema, read), takes: { words: ["yes", "no"] } };
}

/** One of a few words; other spellings of a word may be given beside it. */
export function word<const W extends string>(
  words: readonly W[],
  also: Readonly<Record<string, W>> = {},
): ValueRule<W> {
  const folded = new Map<string, W>();
  for (const w of words) folded.set(foldName(w), w);
  for (const [other, w] of Object.entries(also)) folded.set(foldName(other), w);
  const says = words.length < 3 ? listed(words, "or") : `one of ${listed(words, "or")}`;
  const schema = { enum: [...words, ...Object.keys(also), "unknown"] };
  const read = (node: ScalarNode, reading: Reading): W | undefined => {
    const found = folded.get(foldName(node.text));
    if (found === undefined) {
      const near = nearestNames(node.text, words);
      reading.say({
        id: "plan/word-unknown",
        level: "error",
        at: node.span,
        message: `expected ${says}, found \`${shown(node.text)}\``,
        hint: near.length > 0 ? `did you mean ${listed(near, "or")}?` : "write one of these words, or `unknown`",
        data: { words, near },
      });
    }
    return found;
  };
  return { ...scalarRule(says, schema, read), takes: { words } };
}

/** A whole number of things. */
export function count(least = 1, most = 1000): ValueRule<number> {
  const says = `a whole number from ${least} to ${most}`;
  return scalarRule(says, { type: ["integer", "string"] }, (node, reading) => {
    const trimmed = node.text.trim();
    const n = /^\d{1,7}$/.test(trimmed) ? Number(trimmed) : Number.NaN;
    if (n >= least && n <= most) return n;
    reading.say({
      id: "plan/count-expected",
      level: "error",
      at: node.span,
      message: `expected ${says}, found \`${shown(node.text)}\``,
      hint: `write it in digits, as in \`${Math.max(least, Math.min(most, 2))}\``,
    });
    return undefined;
  });
}

/** A plain figure above nought, such as a price: its unit is what the key says. */
export function figure(): ValueRule<number> {
  const says = "a figure above 0, such as `1.25`";
  return scalarRule(says, { type: ["number", "string"] }, (node, reading) => {
    const trimmed = node.text.trim();
    const value = /^\d{1,9}(?:\.\d{1,6})?$/.test(trimmed) ? Number(trimmed) : Number.NaN;
    if (value > 0) return value;
    reading.say({
      id: "plan/figure-expected",
      level: "error",
      at: node.span,
      message: `expected ${says}, found \`${shown(node.text)}\``,
      hint: "write digits with a point, without a unit or a currency sign",
    });
    return undefined;
  });
}

/**
 * A quantity of one dimension, or of the first of several that fits (`rated: 1 kW` or `rated: 85 A`). A range gives both its
 * ends; `unknown` stays unknown.
 */
export function quantity(dimension: Dimension, options: QuantityOptions = {}): ValueRule<Measure> {
  const rule = quantityIn([dimension], options);
  return {
    says: rule.says,
    schema: rule.schema,
    takes: { dimensions: [dimension] },
    read(node, reading) {
      const fact = rule.read(node, reading);
      if (fact === undefined || fact.value === "unknown") return fact; // nothing to narrow
      const { low, high, text: written } = fact.value;
      return { value: { low, high, text: written }, span: fact.span };
    },
  };
}

/** Ends that hold at this key, in the unit inside. */
interface QuantityOptions {
  readonly min?: number;
  readonly max?: number;
  /** `above: 0` where nothing at all has no meaning, since it is divided by. */
  readonly above?: number;
}

/** A measure that says which of several dimensions it was written in. */
export interface MeasureIn<D extends Dimension> extends Measure {
  readonly dimension: D;
}

export function quantityIn<const D extends Dimension>(
  dimensions: readonly D[],
  options: QuantityOptions = { min: 0 },
): ValueRule<MeasureIn<D>> {
  const names = dimensions.map((d) => (d === "ratio" ? "percentage" : d));
  const says = `${/^[aeiou]/.test(names[0] ?? "") ? "an" : "a"} ${names.join(" or ")} with its unit`;
  return {
    says,
    schema: { type: "string", description: says },
    takes: { dimensions },
    read(node, reading) {
      const scalar = scalarOf(node, says, reading);
      if (scalar === undefined) return undefined;
      const result = readQuantity(scalar.text, dimensions, options);
      for (const problem of result.problems) sayProblem(problem, scalar, problem.level, reading);
      if (!result.ok) return undefined;
      const { amount } = result;
      if (amount.form === "unknown") return { value: "unknown", span: scalar.span };
      const { low, high } = amount;
      const { above } = options;
      if (above !== undefined && low <= above) {
        reading.say({
          id: "plan/out-of-range",
          level: "error",
          at: scalar.span,
          message: `expected ${says}, above ${above}; found \`${shown(scalar.text)}\``,
          hint: "check the figure, or write `unknown`",
        });
        return undefined;
      }
      const dimension = amount.dimension as D; // one of those that were asked for
      return { value: { low, high, text: scalar.text.trim(), dimension }, span: scalar.span };
    },
  };
}

interface TextProblem {
  readonly id: string;
  readonly at: readonly [number, number];
  readonly message: string;
  readonly hint?: string;
}

/** A problem inside a scalar's text, told at its place in the block. */
export function sayProblem(problem: TextProblem, scalar: ScalarNode, level: "error" | "hint", reading: Reading): void {
  // Quoted text may hold escapes, so places inside it are not the same as in the source.
  const from = scalar.span[0] + (scalar.quoted ? 0 : problem.at[0]);
  const to = scalar.quoted ? scalar.span[1] : Math.min(scalar.span[0] + problem.at[1], scalar.span[1]);
  reading.say({
    id: `plan/${problem.id}`,
    level,
    at: [from, Math.max(from, to)],
    message: problem.message,
    ...(problem.hint === undefined ? {} : { hint: problem.hint }),
  });
}

/** One value, or a list of them. Items that cannot be read are reported and left out. */
export function listOf<T>(item: ValueRule<T>): ValueRule<readonly Fact<T>[]> {
  return {
    says: `${item.says}, or a list of them`,
    schema: { anyOf: [item.schema, { type: "array", items: item.schema }] },
    takes: { ...item.takes, item: item.takes ?? {} },
    read(node, reading) {
      if (node.kind === "list") {
        const facts = node.items.map((n) => item.read(n, reading)).filter((f) => f !== undefined);
        return { value: facts, span: node.span };
      }
      const one = item.read(node, reading);
      if (one === undefined) return undefined;
      return { value: one.value === "unknown" ? "unknown" : [one], span: one.span };
    },
  };
}

/** A map whose keys are names of the person's own. */
export function mapOf<T>(what: string, item: ValueRule<T>): ValueRule<readonly Named<T>[]> {
  return {
    says: `a map from ${what} to ${item.says}`,
    schema: { type: "object", additionalProperties: item.schema },
    takes: { map: { of: what, value: item.takes ?? {} } },
    read(node, reading) {
      if (node.kind !== "map") {
        reading.say({
          id: "plan/map-expected",
          level: "error",
          at: node.span,
          message: `expected a map from ${what} to ${item.says}`,
          hint: "write `{ name: value }`",
        });
        return undefined;
      }
      const named: Named<T>[] = [];
      for (const { key, value } of node.entries) {
        if (value === null) {
          reading.say({
            id: "plan/value-missing",
            level: "error",
            at: key.span,
            message: `\`${shown(key.text)}\` has no value; expected ${item.says}`,
            hint: "write a value, or `unknown`",
          });
          continue;
        }
        const fact = item.read(value, reading);
        if (fact !== undefined) named.push({ name: key.text, nameSpan: key.span, ...fact });
      }
      return { value: named, span: node.span };
    },
  };
}

export interface Named<T> extends Fact<T> {
  readonly name: string;
  readonly nameSpan: Fact<T>["span"];
}

/** What a rule says of a node that has not the shape it reads. */
const SHAPES: ReadonlySet<string> = new Set(["plan/one-value-expected", "plan/map-expected"]);

/**
 * The first rule that reads the node. When neither does, the one that reads nodes of its shape speaks; of two, the first where the text
 * holds a figure, since quantities come first, and else both in one sentence.
 */
export function either<A, B>(first: ValueRule<A>, second: ValueRule<B>): ValueRule<A | B> {
  type Said = Parameters<Reading["say"]>[0];
  const says = `${first.says}, or ${second.says}`;
  return {
    says,
    schema: { anyOf: [first.schema, second.schema] },
    takes: both(first.takes ?? {}, second.takes ?? {}),
    read(node, reading): Fact<A | B> | undefined {
      const attempt = <T>(rule: ValueRule<T>) => {
        const said: Said[] = [];
        const fact = rule.read(node, { about: reading.about, say: (d) => said.push(d) });
        const errors = said.filter((d) => d.level === "error");
        const fits = !errors.some((d) => SHAPES.has(d.id) && d.at[0] === node.span[0] && d.at[1] === node.span[1]);
        return { fact, said, clean: fact !== undefined && errors.length === 0, fits };
      };
      const one = attempt(first);
      const two = one.clean ? undefined : attempt(second);
      const found = two === undefined || (!two.clean && (one.fits || !two.fits)) ? one : two;
      if (!found.clean && one.fits && two?.fits === true && node.kind === "scalar" && !/\d/.test(node.text)) {
        reading.say({
          id: "plan/value-unexpected",
          level: "error",
          at: node.span,
          message: `expected ${says}, found \`${shown(node.text)}\``,
          hint: "write one of these, or `unknown`",
        });
        return undefined;
      }
      for (const d of found.said) reading.say(d);
      return found.fact;
    },
  };
}

const both = (a: Takes, b: Takes): Takes => ({
  ...b,
  ...a,
  names: [...(a.names ?? []), ...(b.names ?? [])],
  words: [...(a.words ?? []), ...(b.words ?? [])],
  dimensions: [...(a.dimensions ?? []), ...(b.dimensions ?? [])],
});

/** Anything at all, kept only as "there is something here": for sections that no study reads yet. */
export function anything(says: string): ValueRule<string> {
  return { says, schema: {}, read: (node) => ({ value: "read", span: node.span }) };
}
