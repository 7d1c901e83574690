import type { Diagnostic, Span } from "../diagnostic.ts";
import type { Fact } from "./fact.ts";
import { partKeys } from "./grammar/part-keys.ts";
import { foldName, listed, shown } from "./grammar/record.ts";
import type { KeyRules } from "./grammar/rule.ts";
import type { KindWords, PlanPart } from "./plan.ts";
import { shift, type ReadOne } from "./read-entry.ts";
import { nearestNames, type MapEntry, type PlacedEntry, type ScalarNode } from "./text/index.ts";

/** A part's further keys depend on its kind, which it may take from the part that it is like. */
export function readParts(
  entries: readonly PlacedEntry[],
  kinds: readonly KindWords[],
  readEntry: ReadOne,
  diagnostics: Diagnostic[],
): PlanPart[] {
  const byWord = wordsOfKinds(kinds);
  const byName = new Map<string, PlacedEntry>();
  for (const placed of entries) {
    const folded = foldName(placed.entry.key.text);
    if (!byName.has(folded)) byName.set(folded, placed);
  }
  const done = new Map<PlacedEntry, PlanPart>();
  const modelOf = ({ entry }: PlacedEntry): PlacedEntry | undefined => {
    const like = valueOf(entry, "like");
    return like === undefined ? undefined : byName.get(foldName(like.text));
  };

  /** Reads a part, and first those that it is like: they may stand behind it, and thousands deep. */
  const read = (placed: PlacedEntry): PlanPart => {
    const chain = new Set<PlacedEntry>();
    for (
      let at: PlacedEntry | undefined = placed;
      at !== undefined && !done.has(at) && !chain.has(at);
      at = modelOf(at)
    ) {
      chain.add(at);
    }
    const order = [...chain];
    for (const one of order.toReversed()) done.set(one, readOne(one, order));
    return done.get(placed) ?? readOne(placed, order);
  };

  const readOne = (placed: PlacedEntry, chain: readonly PlacedEntry[]): PlanPart => {
    const { entry, base } = placed;
    const about = `parts.${entry.key.text}`;
    const say = (id: string, span: Span, message: string, hint?: string) =>
      diagnostics.push({
        id,
        level: "error",
        at: [shift(base, span)],
        about,
        message,
        ...(hint === undefined ? {} : { hint }),
      });

    const likeNode = valueOf(entry, "like");
    const kindNode = valueOf(entry, "kind");
    let model: PlanPart | undefined;
    if (likeNode !== undefined) {
      const target = modelOf(placed);
      model = target === undefined ? undefined : done.get(target);
      if (target === undefined) {
        const near = nearestNames(
          likeNode.text,
          entries.map((e) => e.entry.key.text),
        );
        say(
          "plan/part-unknown",
          likeNode.span,
          `no part is called \`${shown(likeNode.text)}\``,
          near.length > 0 ? `did you mean ${listed(near, "or")}?` : undefined,
        );
      } else if (model === undefined) {
        // The one part of a ring whose model is still to be read.
        const through = chain.slice(chain.indexOf(target), -1).map((t) => t.entry.key.text);
        const named =
          through.length > 5 ? `${listed(through.slice(0, 5))} and ${through.length - 5} more` : listed(through);
        say(
          "plan/like-itself",
          likeNode.span,
          `\`${shown(entry.key.text)}\` is like itself${through.length === 0 ? "" : `, through ${named}`}`,
          "give one of them its facts and a kind",
        );
      }
    }
    let kind = kindNode === undefined ? undefined : byWord.get(foldName(kindNode.text));
    if (kindNode !== undefined && kind === undefined && foldName(kindNode.text) !== "unknown") {
      const near = nearestNames(kindNode.text, [...byWord.keys()]);
      say(
        "plan/kind-unknown",
        kindNode.span,
        `no kind of part is called \`${shown(kindNode.text)}\``,
        near.length > 0 ? `did you mean ${listed(near, "or")}?` : `the kinds are ${listed(kinds.map((k) => k.name))}`,
      );
    }
    if (kindNode === undefined) {
      kind = model?.kind === undefined ? undefined : kinds.find((k) => k.name === model.kind);
      if (likeNode === undefined && entry.value?.kind === "map" && !hasKey(entry, "kind")) {
        say(
          "plan/kind-missing",
          entry.key.span,
          `\`${shown(entry.key.text)}\` does not say what kind of part it is`,
          "write `kind: load`, `kind: battery`, `kind: switch` …, or `kind: unknown`",
        );
      }
    }
    const one =
      kind === undefined
        ? readEntry(placed, about, partKeysOnly, "part", "a part", "pass over")
        : readEntry(placed, about, rulesOfKind(kind), `part ${kind.name}`, `a part of kind \`${kind.name}\``);
    const facts = { ...(model === undefined ? {} : copied(model, kind?.name, base)), ...one.facts };
    const part: PlanPart = {
      key: entry.key.text,
      base,
      keySpan: entry.key.span,
      facts,
      keys: one.keys,
      ...(kind === undefined ? {} : { kind: kind.name }),
      kindFacts: facts, // both sets of rules were read together
    };
    return part;
  };
  return entries.map((placed) => done.get(placed) ?? read(placed));
}

/** Two parts do not sit in one spot, have one name or were measured at once because they are alike. */
const OWN: ReadonlySet<string> = new Set(["at", "in", "beside", "name", "note", "measured", "photos"]);

/**
 * What a part takes from the one that it is like. Facts of another kind stay behind: `rated` may mean watts there and amps here.
 *
 * @param base of the part that takes them, from which the places then count
 */
function copied(model: PlanPart, kind: string | undefined, base: number): Record<string, Fact<unknown>> {
  const facts: Record<string, Fact<unknown>> = {};
  for (const [key, fact] of Object.entries(model.kindFacts)) {
    if (OWN.has(key) || (kind !== model.kind && !(key in partKeysOnly))) continue;
    facts[key] = moved(fact, model.base - base);
  }
  return facts;
}

/** A fact with all its places moved, those inside a list or a record too. */
function moved<T>(fact: Fact<T>, by: number): Fact<T> {
  const inside = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(inside);
    if (typeof value !== "object" || value === null) return value;
    return Object.fromEntries(
      Object.entries(value).map(([key, item]: [string, unknown]) => [
        key,
        key === "span" || key === "nameSpan" ? shift(by, item as Span) : inside(item), // so are places called in every fact
      ]),
    );
  };
  return by === 0 ? fact : (inside(fact) as Fact<T>); // the same shape, other numbers
}

const partKeysOnly: KeyRules = partKeys;
const kindRules = new WeakMap<KindWords, KeyRules>();

/** The keys of a kind, which are those to offer first, and those that any part has. */
function rulesOfKind(kind: KindWords): KeyRules {
  let rules = kindRules.get(kind);
  if (rules === undefined) kindRules.set(kind, (rules = { ...kind.facts, ...partKeys, ...kind.facts }));
  return rules;
}

const kindWords = new WeakMap<readonly KindWords[], ReadonlyMap<string, KindWords>>();

function wordsOfKinds(kinds: readonly KindWords[]): ReadonlyMap<string, KindWords> {
  let words = kindWords.get(kinds);
  if (words === undefined) {
    words = new Map(
      kinds.flatMap((kind) => [kind.name, ...(kind.also ?? [])].map((w) => [foldName(w), kind] as const)),
    );
    kindWords.set(kinds, words);
  }
  return words;
}

const hasKey = (entry: MapEntry, key: string): boolean =>
  entry.value?.kind === "map" && entry.value.entries.some((e) => foldName(e.key.text) === key);

/** What a part says of its kind and its model. Kept by identity: an entry that did not change is asked again at every reading. */
const pointers = new WeakMap<MapEntry, { readonly like?: ScalarNode; readonly kind?: ScalarNode }>();

function valueOf(entry: MapEntry, key: "like" | "kind"): ScalarNode | undefined {
  let found = pointers.get(entry);
  if (found === undefined) {
    const [like, kind] = [scalarAt(entry, "like"), scalarAt(entry, "kind")];
    found = { ...(like === undefined ? {} : { like }), ...(kind === undefined ? {} : { kind }) };
    pointers.set(entry, found);
  }
  return found[key];
}

function scalarAt(entry: MapEntry, key: string): ScalarNode | undefined {
  if (entry.value?.kind !== "map") return undefined;
  const found = entry.value.entries.find((e) => foldName(e.key.text) === key);
  return found?.value?.kind === "scalar" ? found.value : undefined;
}
