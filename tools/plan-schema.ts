import type { Kind } from "../src/system/kind.ts";
import { kinds } from "../src/system/kinds/index.ts";
import { partKeys } from "../src/plan/grammar/part-keys.ts";
import { recordSchema } from "../src/plan/grammar/record.ts";
import type { JsonSchema, KeyRules } from "../src/plan/grammar/rule.ts";
import { sectionNames } from "../src/plan/read-plan.ts";
import { sectionDocs, type SectionDoc } from "./plan-sections.ts";

/** What an editor's YAML reader makes of a one-line text: it turns `2024` into a number and `true` into a truth. */
const LINE = ["string", "number", "boolean"];

const textSchema: JsonSchema = { type: LINE };

/** Words that read alike in the plan language count as one for an editor only when they are spelt as here. */
export const NOTE =
  "For editors. The reader is more patient than this schema: it also takes other spellings of keys and words (see docs/language.md).";

/**
 * The JSON Schema of a plan, made from the tables that the reader reads by.
 *
 * Refuses a key wherever the reader refuses it. Does not look into quantities: that `3.4` lacks a unit only the reader says.
 */
export function planSchema(): JsonSchema {
  const properties = Object.fromEntries(sectionNames.map((name) => [name, sectionSchema(docOf(name))]));
  const schema = tidy({
    $schema: "https://json-schema.org/draft/2020-12/schema",
    $id: "urn:wireworthy:plan:1",
    title: "Wireworthy plan, version 1",
    description: NOTE,
    type: "object",
    properties,
    additionalProperties: false,
    $defs: Object.fromEntries([
      ["part", partSchema()],
      ...alike().map(({ first, schema }): [string, JsonSchema] => [defName(first.name), schema]),
    ]),
  });
  return sharedKeys(schema);
}

/** Keys that several kinds of parts have with the same meaning stand once: `#/$defs/key: rated`, and `key: rated 2` for another meaning of the same word. */
function sharedKeys(schema: JsonSchema): JsonSchema {
  const defs = schema["$defs"] as Record<string, JsonSchema>; // made above
  const told = Object.entries(defs).flatMap(
    ([, { properties = {} }]) => Object.entries(properties as Record<string, JsonSchema>), // the keys of a kind
  );
  const uses = new Map<string, { readonly key: string; readonly schema: JsonSchema; count: number }>();
  for (const [key, one] of told) {
    const text = `${key} ${JSON.stringify(one)}`;
    const there = uses.get(text);
    if (there === undefined) uses.set(text, { key, schema: one, count: 1 });
    else there.count++;
  }
  const named = new Map<string, string>();
  const keys: Record<string, JsonSchema> = {};
  for (const [text, { key, schema: one, count }] of uses) {
    if (count < 2) continue;
    let name = `key: ${key}`;
    for (let n = 2; name in keys; n++) name = `key: ${key} ${n}`;
    keys[name] = one;
    named.set(text, name);
  }
  const shared = Object.entries(defs).map(([name, def]): [string, JsonSchema] => {
    if (def["properties"] === undefined) return [name, def];
    const properties = Object.entries(def["properties"] as Record<string, JsonSchema>).map(([key, one]) => {
      const common = named.get(`${key} ${JSON.stringify(one)}`);
      return [key, common === undefined ? one : { $ref: refTo(common) }] as const;
    });
    return [name, { ...def, properties: Object.fromEntries(properties) }];
  });
  return { ...schema, $defs: { ...Object.fromEntries(shared), ...keys } };
}

/** Kinds whose keys are the same share one definition. */
function alike(): { readonly first: Kind; readonly words: string[]; readonly schema: JsonSchema }[] {
  const found = new Map<string, { first: Kind; words: string[]; schema: JsonSchema }>();
  for (const kind of kinds) {
    const schema = recordSchema({ ...partKeys, ...kind.facts });
    const words = [kind.name, ...(kind.also ?? [])];
    const there = found.get(JSON.stringify(schema));
    if (there === undefined) found.set(JSON.stringify(schema), { first: kind, words, schema });
    else there.words.push(...words);
  }
  return [...found.values()];
}

const docOf = (name: string): SectionDoc =>
  sectionDocs.find((s) => s.name === name) ?? { name, holds: name, shape: "anything" };

const defName = (kind: string): string => `part: ${kind}`;

const refTo = (name: string): string => `#/$defs/${encodeURIComponent(name)}`;

function sectionSchema({ name, holds, shape, keys = {} }: SectionDoc): JsonSchema {
  const description = holds;
  switch (shape) {
    case "line":
      return name === "wireworthy" ? { enum: [1, "1"], description } : { ...textSchema, description };
    case "words":
      return { type: "object", additionalProperties: textSchema, description };
    case "record":
      return { ...recordSchema(keys), description };
    case "map":
      return { type: "object", additionalProperties: recordSchema(keys), description };
    case "parts":
      return { type: "object", additionalProperties: { $ref: refTo("part") }, description };
    case "states": {
      const state = recordSchema(keys, { additionalProperties: { ...textSchema, description: "position of a part" } });
      const names = { anyOf: [textSchema, { type: "array", items: textSchema }] };
      const groups = { anyOf: [names, { type: "array", items: names }], description: "loads that exclude each other" };
      return { type: "object", properties: { "never together": groups }, additionalProperties: state, description };
    }
    case "anything":
      return { description };
  }
}

/** One alternative for each kind, so that an editor offers the keys of the kind that stands there. */
function partSchema(): JsonSchema {
  const groups = alike();
  const ofAnyKind: KeyRules = Object.assign({}, partKeys, ...kinds.map((k) => k.facts)) as KeyRules; // a sum of tables of rules
  const saysKind = (names: readonly string[]): JsonSchema => ({
    properties: { kind: { enum: names } },
    required: ["kind"],
  });
  return {
    type: "object",
    properties: { kind: { enum: [...groups.flatMap((g) => g.words), "unknown"], description: partKeys.kind.doc } },
    anyOf: [{ required: ["kind"] }, { required: ["like"] }],
    allOf: [
      ...groups.map(({ first, words }) => ({ if: saysKind(words), then: { $ref: refTo(defName(first.name)) } })),
      // Like another part: its kind is not known here, so a key of any kind may stand.
      {
        if: { not: { required: ["kind"] } },
        then: {
          type: "object",
          properties: Object.fromEntries(Object.keys(ofAnyKind).map((key) => [key, {}])),
          additionalProperties: false,
        },
      },
    ],
  };
}

/** Free text and names may look like numbers or truths to an editor; a quantity never does, for its unit. */
function tidy(schema: JsonSchema): JsonSchema {
  const inner = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(inner);
    if (typeof value !== "object" || value === null) return value;
    const copy = Object.fromEntries(Object.entries(value).map(([k, v]) => [k, inner(v)]));
    const says = typeof copy["description"] === "string" ? copy["description"] : "";
    if (copy["type"] === "string" && !/\bwith its unit\b/.test(says)) return { ...copy, type: LINE };
    const words = copy["enum"];
    if (Array.isArray(words) && words.includes("yes") && words.includes("no")) {
      return { ...copy, enum: [...(words as unknown[]), true, false] };
    }
    return copy;
  };
  return inner(schema) as JsonSchema; // the same with some types widened
}
