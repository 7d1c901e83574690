import type { Span } from "../../diagnostic.ts";
import type { Fact } from "../fact.ts";
import { nearestNames, type MapEntry, type Node, type ScalarNode } from "../text/index.ts";
import type { FactsOf, JsonSchema, KeyRule, KeyRules, Reading, Said, ValueRule } from "./rule.ts";

/** Folds what keyboards and habits differ in: case, spaces, the two minus signs. */
export const foldName = (text: string): string =>
  PLAIN.test(text)
    ? text.toLowerCase()
    : text.normalize("NFC").replace(/[–−‑]/g, "-").replace(/\s+/g, " ").trim().toLowerCase();

/** Nearly every name is of such letters, with single spaces: nothing to fold but case. */
const PLAIN = /^[!-~]+(?: [!-~]+)*$/;

export interface ReadRecord<R extends KeyRules> {
  readonly facts: FactsOf<R>;
  /** Where each key that was understood stands. */
  readonly keys: Readonly<Record<string, Span>>;
  /** Keys that were understood and that no study uses yet. */
  readonly idle: readonly string[];
}

/**
 * Reads the entries of a map by the rules of its keys. A key that no rule knows is reported with the nearest names; everything
 * else is still read.
 *
 * @param unknownKey takes over for keys without a rule (a zone's name, a part in a state); returns false to have them reported.
 */
export function readRecord<R extends KeyRules>(
  entries: readonly MapEntry[],
  rules: R,
  what: string,
  reading: Reading,
  unknownKey: (key: ScalarNode, value: Node | null) => boolean = () => false,
): ReadRecord<R> {
  const facts: Record<string, Fact<unknown>> = {};
  const keys: Record<string, Span> = {};
  const idle: string[] = [];
  const byFolded = foldedKeys(rules);
  for (const entry of entries) {
    const name = byFolded.get(foldName(entry.key.text));
    if (name === undefined) {
      if (!unknownKey(entry.key, entry.value)) reportUnknownKey(entry.key, Object.keys(rules), what, reading);
      continue;
    }
    const rule = rules[name] as KeyRule<unknown>; // the map was made from the keys of `rules`
    const first = keys[name];
    if (first !== undefined) {
      // The first one counts. Of two that are spelt alike the text layer has told already.
      if (entries.find((e) => e.key.span === first)?.key.text !== entry.key.text) {
        reading.say({
          id: "plan/duplicate-name",
          level: "error",
          at: entry.key.span,
          about: `${reading.about}.${name}`,
          message: `\`${shown(entry.key.text)}\` stands here a second time, spelt another way; the first one counts`,
          hint: "delete one of the two",
        });
      }
      continue;
    }
    keys[name] = entry.key.span;
    if (entry.value === null) {
      reading.say({
        id: "plan/value-missing",
        level: "error",
        at: entry.key.span,
        about: `${reading.about}.${name}`,
        message: `\`${name}\` has no value; expected ${rule.value.says}`,
        hint: `write a value, \`unknown\`, or leave the key out`,
      });
      continue;
    }
    let told: Said | undefined;
    const at = nested(reading, name);
    const say: Reading["say"] = (diagnostic) => {
      if (diagnostic.level === "error") told ??= diagnostic;
      at.say(diagnostic);
    };
    const read = rule.value.read(entry.value, { ...at, say });
    const fact =
      read ??
      (told === undefined || rule.unread === undefined
        ? undefined
        : { value: "unknown" as const, span: entry.value.span, unread: rule.unread(told) });
    if (fact !== undefined) {
      facts[name] = fact;
      if (rule.idle) idle.push(name);
    }
  }
  spreadLabels(facts, keys, rules, reading);
  return { facts: facts as FactsOf<R>, keys, idle }; // built key by key from the rules of R
}

/** Takes what labels tell of other keys as if it were written there; a key of its own counts, and is asked about where it says something else. */
function spreadLabels(
  facts: Record<string, Fact<unknown>>,
  keys: Readonly<Record<string, Span>>,
  rules: KeyRules,
  reading: Reading,
): void {
  const written = Object.entries(facts);
  const from = new Map<string, string>();
  for (const [name, fact] of written) {
    if (fact.value === "unknown") continue;
    for (const told of rules[name]?.tells?.(fact.value) ?? []) {
      const there = facts[told.key];
      if (there === undefined) {
        // What stands there and could not be read is asked back at its place.
        if (keys[told.key] !== undefined) continue;
        facts[told.key] = { value: told.value, span: fact.span };
        from.set(told.key, name);
      } else if (there.value !== "unknown" && !told.agrees(there.value)) {
        const other = from.get(told.key);
        reading.say({
          id: "plan/label-disagrees",
          level: "warning",
          at: fact.span,
          about: `${reading.about}.${name}`,
          message:
            other === undefined
              ? `the label says ${told.says}, and \`${told.key}\` says something else, which counts`
              : `this label says ${told.says}, and that of \`${other}\` says something else, which counts`,
          hint: `mend one of the two, or take ${other === undefined ? `\`${told.key}\`` : "one of the labels"} out`,
          data: { key: told.key, says: told.says },
        });
      }
    }
  }
}

/** A rule for a map whose keys are fixed. */
export function recordOf<R extends KeyRules>(rules: R, what: string): ValueRule<FactsOf<R>> {
  return {
    says: `${what} as \`{ key: value }\``,
    schema: recordSchema(rules),
    takes: { record: rules },
    read(node, reading) {
      if (node.kind !== "map") {
        if (node.kind === "scalar" && foldName(node.text) === "unknown") return { value: "unknown", span: node.span };
        reading.say({
          id: "plan/map-expected",
          level: "error",
          at: node.span,
          message: `expected ${what} as \`{ key: value }\``,
          hint: `the keys are ${listed(Object.keys(rules))}`,
        });
        return undefined;
      }
      return { value: readRecord(node.entries, rules, what, reading).facts, span: node.span };
    },
  };
}

export function recordSchema(rules: KeyRules, more: JsonSchema = { additionalProperties: false }): JsonSchema {
  return {
    type: "object",
    properties: Object.fromEntries(
      Object.entries(rules).map(([key, { value, doc, idle }]) => [
        key,
        {
          ...value.schema,
          description: `${doc} Expected: ${value.says}.${idle === true ? " Read, not used yet." : ""}`,
        },
      ]),
    ),
    ...more,
  };
}

export function reportUnknownKey(key: ScalarNode, known: readonly string[], what: string, reading: Reading): void {
  const near = nearestNames(key.text, known);
  reading.say({
    id: "plan/key-unknown",
    level: "error",
    at: key.span,
    message: `${what} has no key \`${shown(key.text)}\``,
    hint:
      near.length > 0
        ? `did you mean ${listed(near, "or")}?`
        : `the keys are ${listed(known.slice(0, 12))}${known.length > 12 ? " …" : ""}`,
    data: { key: key.text, near },
  });
}

/** `a`, `b` and `c` */
export function listed(names: readonly string[], last: "and" | "or" = "and"): string {
  const quoted = names.map((n) => `\`${shown(n)}\``);
  return quoted.length < 2 ? (quoted[0] ?? "") : `${quoted.slice(0, -1).join(", ")} ${last} ${quoted.at(-1) ?? ""}`;
}

/** A person's text inside a message: one line, not endless, control characters made harmless. */
export function shown(text: string): string {
  const clean = text.replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029\u202a-\u202e\u2066-\u2069]/g, "·");
  return clean.length > 60 ? `${clean.slice(0, 59)}…` : clean;
}

function nested(reading: Reading, key: string): Reading {
  const about = `${reading.about}.${key}`;
  return {
    about,
    say: (d) => {
      reading.say({ about, ...d });
    },
  };
}

const foldedCache = new WeakMap<KeyRules, Map<string, string>>();

function foldedKeys(rules: KeyRules): Map<string, string> {
  let map = foldedCache.get(rules);
  if (map === undefined) {
    map = new Map(Object.keys(rules).map((k) => [foldName(k), k]));
    foldedCache.set(rules, map);
  }
  return map;
}
