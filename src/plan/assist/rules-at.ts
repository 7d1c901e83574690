import { foldName } from "../grammar/record.ts";
import { partKeys } from "../grammar/part-keys.ts";
import type { KeyRule, KeyRules, Takes } from "../grammar/rule.ts";
import type { KindWords } from "../plan.ts";
import { sectionNames } from "../read-plan.ts";
import type { Around } from "./around.ts";
import type { WritingPlace } from "./place.ts";
import { sectionHelp } from "./sections.ts";

/** What the grammar says of a place in a plan. */
export interface RulesAt {
  /** Keys that may stand in the map; absent: none are fixed. */
  readonly keys?: KeyRules;
  /** Its keys are names of such things. */
  readonly named?: string;
  /** What the value may be. */
  readonly takes?: Takes;
  /** The rule of the key at the end of the path. */
  readonly rule?: KeyRule<unknown>;
}

/** Follows the grammar along a path; whatever is not known there is left out. */
export function rulesAt({ path, writes, values }: WritingPlace, around: Around): RulesAt {
  const [first, entry, ...rest] = path;
  if (first === undefined) return {};
  const section = sectionNames.find((n) => n === foldName(first));
  if (section === undefined) return {};
  const help = sectionHelp[section];
  if (help.record !== undefined) {
    return entry === undefined
      ? { keys: help.record, takes: { record: help.record } }
      : along(help.record, [entry, ...rest]);
  }
  if (help.map === undefined) return {};
  if (entry === undefined) return { named: help.map.of };
  const near = (rest.length === 0 && writes === "key") || rest.length === 1 ? values : {};
  const keys = section === "parts" ? rulesOfPart(entry, near, around) : help.map.keys;
  if (keys === undefined) return help.map.value === undefined ? {} : { takes: help.map.value };
  if (rest.length === 0)
    return { keys, takes: { record: keys }, ...(section === "states" ? { named: "part in a state" } : {}) };
  const found = along(keys, rest);
  if (section === "states" && found.takes === undefined && rest.length === 1)
    return { takes: { names: [`position of ${rest[0] ?? ""}`] } };
  return found;
}

function along(keys: KeyRules, path: readonly string[]): RulesAt {
  let here: RulesAt = { keys };
  for (const step of path) {
    if (here.keys === undefined) return {};
    let takes: Takes | undefined;
    let rule: KeyRule<unknown> | undefined;
    const map = here.takes?.map;
    const known = Object.keys(here.keys).find((k) => foldName(k) === foldName(step));
    if (known !== undefined) {
      rule = here.keys[known];
      takes = rule?.value.takes;
    } else if (map !== undefined) takes = map.value;
    if (takes === undefined) return rule === undefined ? {} : { rule };
    here = {
      takes,
      keys: takes.record ?? {},
      ...(rule === undefined ? {} : { rule }),
      ...(takes.map === undefined ? {} : { named: takes.map.of }),
    };
  }
  return here;
}

/** The kind of a part as it is being written, else as the plan has it. */
export function kindOf(
  entry: string,
  values: Readonly<Record<string, string>>,
  { plan, kinds }: Around,
): KindWords | undefined {
  const byWord = (word: string): KindWords | undefined =>
    kinds.find(
      (k) => foldName(k.name) === foldName(word) || k.also?.some((a) => foldName(a) === foldName(word)) === true,
    );
  const partOf = (name: string) => plan.parts.find((p) => foldName(p.key) === foldName(name));
  const written = values["kind"] ?? "";
  const like = values["like"] ?? "";
  const found = written === "" ? undefined : byWord(written);
  if (found !== undefined) return found;
  const name = (like === "" ? undefined : partOf(like)?.kind) ?? partOf(entry)?.kind;
  return name === undefined ? undefined : byWord(name);
}

const rulesOfKinds = new WeakMap<KindWords, KeyRules>();

function rulesOfPart(entry: string, values: Readonly<Record<string, string>>, around: Around): KeyRules {
  const kind = kindOf(entry, values, around);
  if (kind === undefined) return partKeys;
  let rules = rulesOfKinds.get(kind);
  if (rules === undefined) {
    const { kind: first, like, name, ...others } = partKeys;
    rules = { kind: first, ...kind.facts, like, name, ...others, ...kind.facts };
    rulesOfKinds.set(kind, rules);
  }
  return rules;
}
