import type { Diagnostic, Span, Told } from "../diagnostic.ts";
import type { Fact } from "./fact.ts";
import { circuitKeys } from "./grammar/circuit-keys.ts";
import { partKeys } from "./grammar/part-keys.ts";
import { foldName, listed, readRecord, shown } from "./grammar/record.ts";
import type { AnyFacts, FactsOf, KeyRules, Reading } from "./grammar/rule.ts";
import {
  climateKeys,
  measuredKeys,
  placeKeys,
  stateKeys,
  stockKeys,
  systemKeys,
  waiverKeys,
  wayKeys,
  zoneKeys,
} from "./grammar/section-keys.ts";
import { listOf, name, scalarOf } from "./grammar/values.ts";
import type { KindWords, PartInState, PlacedName, Plan, PlanItem, PlanPart, PlanState, PlanWord } from "./plan.ts";
import {
  createDocumentMemory,
  nearestNames,
  readDocument,
  type DocumentMemory,
  type MapEntry,
  type Node,
  type PlacedEntry,
  type ScalarNode,
  type Section,
} from "./text/index.ts";

/** What reading keeps between two readings of one plan, so that only what changed is read again. */
export interface PlanMemory {
  readonly document: DocumentMemory;
  readonly entries: WeakMap<MapEntry, Map<string, ReadEntry>>;
}

export const createPlanMemory = (): PlanMemory => ({ document: createDocumentMemory(), entries: new WeakMap() });

/** The sections of a plan, in the order of the reference page, with what each holds. */
export const sectionNames = [
  "wireworthy",
  "name",
  "revision",
  "country",
  "for",
  "axes",
  "note",
  "rules",
  "systems",
  "stock",
  "drop classes",
  "colours",
  "languages",
  "climate",
  "zones",
  "places",
  "ways",
  "parts",
  "circuits",
  "states",
  "modes",
  "use",
  "site",
  "family",
  "waivers",
  "measured",
  "photos",
] as const;

/** One entry, read by its rules; places count from the entry's block. */
interface ReadEntry {
  readonly facts: Readonly<Record<string, Fact<unknown>>>;
  readonly keys: Readonly<Record<string, Span>>;
  readonly idle: readonly string[];
  readonly others: readonly PartInState[];
  readonly said: readonly Diagnostic[];
  /** There is no map to read; it has been told. */
  readonly unread?: true;
}

/**
 * Reads a plan. Whatever is wrong is reported with its place, and everything that can be read is read; nothing is bound or filled in.
 *
 * @param kinds the kinds of parts that there are, with their words
 * @param memory keeps what did not change between two readings; leave it out for a single one
 * @returns always a plan, however empty
 */
export function readPlan(
  text: string,
  kinds: readonly KindWords[],
  memory: PlanMemory = createPlanMemory(),
): Told<Plan> {
  const document = readDocument(text, memory.document);
  const diagnostics: Diagnostic[] = [...document.diagnostics];
  const idle = new Map<string, Span[]>();
  const sections = new Map<string, Section>();

  for (const section of document.value.sections) {
    const folded = foldName(section.key.text);
    const known = sectionNames.find((n) => n === folded);
    if (known === undefined) {
      const near = nearestNames(section.key.text, sectionNames);
      diagnostics.push({
        id: "plan/section-unknown",
        level: "error",
        at: [shift(section.base, section.key.span)],
        about: section.key.text,
        message: `a plan has no section \`${shown(section.key.text)}\``,
        hint:
          near.length > 0 ? `did you mean ${listed(near, "or")}?` : `the sections are ${listed(sectionNames.slice(7))}`,
      });
    } else if (!sections.has(known)) {
      sections.set(known, section);
    }
  }

  const sayAt =
    (base: number, about: string) =>
    (d: Parameters<Reading["say"]>[0]): void => {
      diagnostics.push({ about, ...d, at: [shift(base, d.at)] });
    };

  /** The entries of a section that is a map of named things. */
  const entriesOf = (sectionName: string): readonly PlacedEntry[] => {
    const section = sections.get(sectionName);
    if (section === undefined) return [];
    if (section.entries.length === 0 && section.value !== null && section.value.kind !== "map") {
      sayAt(
        section.base,
        sectionName,
      )({
        id: "plan/map-expected",
        level: "error",
        at: section.value.span,
        message: `expected named entries under \`${sectionName}:\``,
        hint: "write each as `name: { … }` on a line of its own, indented",
      });
    }
    const seen = new Map<string, PlacedEntry>();
    for (const placed of section.entries) {
      const { key } = placed.entry;
      const first = seen.get(foldName(key.text));
      if (first === undefined) seen.set(foldName(key.text), placed);
      // Names that are spelt alike the text layer has told of.
      else if (first.entry.key.text !== key.text) {
        diagnostics.push({
          id: "plan/duplicate-name",
          level: "error",
          at: [shift(placed.base, key.span), shift(first.base, first.entry.key.span)],
          about: `${sectionName}.${key.text}`,
          message: `\`${shown(key.text)}\` and \`${shown(first.entry.key.text)}\` are one name, since case and spaces do not count`,
          hint: "rename one, or delete it",
        });
      }
    }
    return section.entries;
  };

  const readEntry = (
    { entry, base }: PlacedEntry,
    about: string,
    rules: KeyRules,
    rulesName: string,
    what: string,
    others: OtherKeys = "report",
  ): ReadEntry => {
    let byRules = memory.entries.get(entry);
    if (byRules === undefined) memory.entries.set(entry, (byRules = new Map<string, ReadEntry>()));
    let read = byRules.get(rulesName);
    if (read === undefined) byRules.set(rulesName, (read = readOnce(entry, about, rules, what, others)));
    for (const d of read.said) diagnostics.push({ ...d, at: d.at.map((s) => shift(base, s)) });
    for (const key of read.idle) {
      const label = `${what} · ${key}`;
      const at = shift(base, read.keys[key] ?? entry.key.span);
      const there = idle.get(label);
      if (there === undefined) idle.set(label, [at]);
      else there.push(at);
    }
    return read;
  };

  const items = <R extends KeyRules>(sectionName: string, rules: R, what: string): PlanItem<FactsOf<R>>[] =>
    entriesOf(sectionName).map((placed) => {
      const { entry, base } = placed;
      const read = readEntry(placed, `${sectionName}.${entry.key.text}`, rules, sectionName, what);
      const facts = read.facts as FactsOf<R>; // read by the rules of R
      const unread = read.unread === true ? { unread: true as const } : {};
      return { key: entry.key.text, base, keySpan: entry.key.span, facts, keys: read.keys, ...unread };
    });

  const record = <R extends KeyRules>(sectionName: string, rules: R): { facts: FactsOf<R>; base: number } => {
    const section = sections.get(sectionName);
    const empty = { facts: {} as FactsOf<R>, base: section?.base ?? 0 }; // no key is required
    if (section === undefined) return empty;
    const facts: Record<string, unknown> = {};
    // A section cut into blocks has one base for each entry; all facts are brought to one base.
    const base = section.base;
    for (const placed of section.entries) {
      const say = sayAt(placed.base, sectionName);
      const one = readRecord([placed.entry], rules, `\`${sectionName}\``, { about: sectionName, say });
      for (const [key, fact] of Object.entries(one.facts)) {
        const f = fact as Fact<unknown>; // records hold facts only
        facts[key] ??= { value: f.value, span: shift(placed.base - base, f.span) };
      }
      for (const key of one.idle) {
        idle.set(`\`${sectionName}\` · ${key}`, [shift(placed.base, one.keys[key] ?? placed.entry.key.span)]);
      }
    }
    if (section.entries.length === 0 && section.value !== null) {
      sayAt(
        section.base,
        sectionName,
      )({
        id: "plan/map-expected",
        level: "error",
        at: section.value.span,
        message: `expected keys and values under \`${sectionName}:\``,
        hint: `the keys are ${listed(Object.keys(rules))}`,
      });
    }
    return { facts: facts as FactsOf<R>, base }; // read by the rules of R
  };

  const words = (sectionName: string): PlanWord[] =>
    entriesOf(sectionName).flatMap(({ entry, base }) => {
      const value = entry.value;
      if (value?.kind === "scalar") {
        return [{ key: entry.key.text, base, keySpan: entry.key.span, text: value.text, span: value.span }];
      }
      sayAt(
        base,
        `${sectionName}.${entry.key.text}`,
      )({
        id: "plan/one-value-expected",
        level: "error",
        at: value?.span ?? entry.key.span,
        message: `expected a text after \`${shown(entry.key.text)}:\``,
        hint: "write it on the same line, or delete the line",
      });
      return [];
    });

  const line = (sectionName: string): string => {
    const section = sections.get(sectionName);
    if (section?.value === undefined || section.value === null) return "";
    const say = sayAt(section.base, sectionName);
    const scalar = scalarOf(section.value, "one line of text", { about: sectionName, say });
    return scalar?.text ?? "";
  };

  checkVersion(sections.get("wireworthy"), diagnostics);
  const stock = record("stock", stockKeys);
  const climate = record("climate", climateKeys);
  const { states, neverTogether } = readStates(entriesOf("states"), readEntry, sayAt);
  const plan: Plan = {
    text,
    name: line("name"),
    revision: line("revision"),
    country: line("country"),
    rules: words("rules"),
    systems: items("systems", systemKeys, "a system"),
    stock: stock.facts,
    stockBase: stock.base,
    climate: climate.facts,
    climateBase: climate.base,
    zones: items("zones", zoneKeys, "a zone"),
    places: items("places", placeKeys, "a place"),
    parts: readParts(entriesOf("parts"), kinds, readEntry, diagnostics),
    circuits: items("circuits", circuitKeys, "a circuit"),
    states,
    neverTogether,
    waivers: items("waivers", waiverKeys, "a waiver"),
    measured: items("measured", measuredKeys, "a measurement"),
  };
  items("ways", wayKeys, "a way");
  for (const sectionName of [
    "drop classes",
    "colours",
    "languages",
    "modes",
    "use",
    "site",
    "family",
    "waivers",
    "measured",
    "photos",
  ] as const) {
    const section = sections.get(sectionName);
    if (section !== undefined) idle.set(`section · ${sectionName}`, [shift(section.base, section.key.span)]);
  }
  for (const [label, at] of idle) diagnostics.push(notUsedYet(label, at));
  return { value: plan, diagnostics: withoutEchoes(text, diagnostics, document.diagnostics) };
}

/** What could not be read has been told by the text layer; that it is then missing, or not what was expected there, is no news. */
function withoutEchoes(text: string, all: readonly Diagnostic[], ofText: readonly Diagnostic[]): readonly Diagnostic[] {
  const errors = ofText.filter((d) => d.level === "error").flatMap((d) => d.at.map(([start]) => start));
  if (errors.length === 0) return all;
  const own = new Set(ofText);
  return all.filter((d) => {
    if (own.has(d) || d.level !== "error") return true;
    const [from = 0, to = from] = d.at[0] ?? [];
    const isMissing = d.id === "plan/value-missing" || d.id === "plan/entry-empty";
    const lineEnd = text.indexOf("\n", from);
    const end = !isMissing ? to : lineEnd < 0 ? text.length : lineEnd;
    return !errors.some((at) => at >= from && at <= end);
  });
}

const shift = (base: number, [start, end]: Span): Span => [base + start, base + end];

/** What becomes of keys that no rule knows: reported, kept as positions of parts, or passed over since nobody can know them. */
type OtherKeys = "report" | "positions" | "pass over";

function readOnce(entry: MapEntry, about: string, rules: KeyRules, what: string, otherKeys: OtherKeys): ReadEntry {
  const said: Diagnostic[] = [];
  const others: PartInState[] = [];
  const reading: Reading = { about, say: (d) => said.push({ about, ...d, at: [d.at] }) };
  const value = entry.value;
  if (value === null) {
    reading.say({
      id: "plan/entry-empty",
      level: "error",
      at: entry.key.span,
      message: `\`${shown(entry.key.text)}\` is empty; expected ${what} as \`{ key: value }\``,
      hint: "give it its facts, or delete the line",
    });
    return { facts: {}, keys: {}, idle: [], others, said, unread: true };
  }
  if (value.kind !== "map") {
    reading.say({
      id: "plan/map-expected",
      level: "error",
      at: value.span,
      message: `expected ${what} as \`{ key: value }\``,
      hint: `the keys are ${listed(Object.keys(rules).slice(0, 8))} …`,
    });
    return { facts: {}, keys: {}, idle: [], others, said, unread: true };
  }
  const other = (key: ScalarNode, node: Node | null): boolean => {
    if (otherKeys === "pass over") return true;
    if (otherKeys === "report") return false;
    if (node?.kind !== "scalar") return false;
    others.push({ part: key.text, partSpan: key.span, position: node.text, span: node.span });
    return true;
  };
  const read = readRecord(value.entries, rules, what, reading, other);
  const facts = read.facts as AnyFacts; // keys that were not written are absent
  return { facts, keys: read.keys, idle: read.idle, others, said };
}

type ReadOne = (
  placed: PlacedEntry,
  about: string,
  rules: KeyRules,
  rulesName: string,
  what: string,
  others?: OtherKeys,
) => ReadEntry;

/** A part's further keys depend on its kind, which it may take from the part that it is like. */
function readParts(
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

function readStates(
  entries: readonly PlacedEntry[],
  readEntry: ReadOne,
  sayAt: (base: number, about: string) => Reading["say"],
): { states: PlanState[]; neverTogether: PlacedName[][] } {
  const states: PlanState[] = [];
  const neverTogether: PlacedName[][] = [];
  for (const placed of entries) {
    const { entry, base } = placed;
    if (foldName(entry.key.text) === "never together") {
      const node = entry.value;
      const groups =
        node?.kind === "list" && node.items.some((i) => i.kind === "list") ? node.items : node === null ? [] : [node];
      for (const group of groups) {
        const say = sayAt(base, "states.never together");
        const fact = listOf(name("a load")).read(group, { about: "states.never together", say });
        if (fact !== undefined && fact.value !== "unknown") {
          neverTogether.push(
            fact.value.flatMap((f) => (f.value === "unknown" ? [] : [{ name: f.value, at: shift(base, f.span) }])),
          );
        }
      }
      continue;
    }
    const read = readEntry(placed, `states.${entry.key.text}`, stateKeys, "states", "a state", "positions");
    const facts = read.facts as PlanState["facts"]; // read by the rules of stateKeys
    states.push({ key: entry.key.text, base, keySpan: entry.key.span, facts, keys: read.keys, positions: read.others });
  }
  return { states, neverTogether };
}

function checkVersion(section: Section | undefined, diagnostics: Diagnostic[]): void {
  if (section === undefined) {
    diagnostics.push({
      id: "plan/version-missing",
      level: "warning",
      at: [[0, 0]],
      about: "wireworthy",
      message: "the plan does not say which version of the language it is written in",
      hint: "write `wireworthy: 1` as its first line",
    });
    return;
  }
  const value = section.value;
  const version = value?.kind === "scalar" ? value.text.trim() : "";
  if (version !== "1") {
    diagnostics.push({
      id: "plan/version-unknown",
      level: "error",
      at: [shift(section.base, value?.span ?? section.key.span)],
      about: "wireworthy",
      message: `this program reads version 1 of the plan language, not \`${shown(version)}\``,
      hint: "write `wireworthy: 1`; a plan of a later version needs a later program",
    });
  }
}

function notUsedYet(label: string, at: readonly Span[]): Diagnostic {
  const [what = "", key = ""] = label.split(" · ");
  const where = what === "section" ? `the section \`${key}\` is` : `\`${key}\` of ${what} is`;
  return {
    id: "plan/not-used-yet",
    level: "note",
    at,
    about: key,
    message: `${where} read, not used yet${at.length > 1 ? ` (${at.length} places)` : ""}`,
  };
}
