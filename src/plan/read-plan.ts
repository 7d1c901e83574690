import type { Diagnostic, Span, Told } from "../diagnostic.ts";
import type { Fact } from "./fact.ts";
import { circuitKeys } from "./grammar/circuit-keys.ts";
import { interlockKeys } from "./grammar/interlock-keys.ts";
import { foldName, listed, readRecord, shown } from "./grammar/record.ts";
import type { FactsOf, KeyRules, Reading } from "./grammar/rule.ts";
import {
  climateKeys,
  measuredKeys,
  placeKeys,
  stockKeys,
  systemKeys,
  waiverKeys,
  wayKeys,
  zoneKeys,
} from "./grammar/section-keys.ts";
import { scalarOf } from "./grammar/values.ts";
import type { KindWords, Plan, PlanItem, PlanWord } from "./plan.ts";
import { readOnce, shift, type OtherKeys, type ReadEntry } from "./read-entry.ts";
import { readParts } from "./read-parts.ts";
import { readStates } from "./read-states.ts";
import {
  createDocumentMemory,
  nearestNames,
  readDocument,
  type DocumentMemory,
  type MapEntry,
  type PlacedEntry,
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
  "interlocks",
  "states",
  "modes",
  "use",
  "site",
  "family",
  "waivers",
  "measured",
  "photos",
] as const;

/** Sections that are read, and that nothing uses yet. */
const idleSections = [
  "drop classes",
  "colours",
  "languages",
  "modes",
  "use",
  "site",
  "family",
  "measured",
  "photos",
] as const satisfies readonly (typeof sectionNames)[number][];

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
    ways: items("ways", wayKeys, "a way"),
    parts: readParts(entriesOf("parts"), kinds, readEntry, diagnostics),
    circuits: items("circuits", circuitKeys, "a circuit"),
    states,
    neverTogether,
    interlocks: items("interlocks", interlockKeys, "an interlock"),
    waivers: items("waivers", waiverKeys, "a waiver"),
    measured: items("measured", measuredKeys, "a measurement"),
  };
  for (const sectionName of idleSections) {
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
