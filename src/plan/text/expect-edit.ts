import type { MapEntry, Node, PlanDocument } from "./node.ts";
import type { Path } from "./locate.ts";
import { isList, type EditValue } from "./write-value.ts";

/** What a plan says, without places: as it was read, or as it should read after an edit. */
export type Meaning = Node | null | string | readonly Meaning[] | MapMeaning;

export type NamedMeaning = readonly [name: string, value: Meaning];

export interface MapMeaning {
  readonly names: readonly NamedMeaning[];
}

/** What the whole plan says. */
export function meaningOf(document: PlanDocument): MapMeaning {
  return {
    names: document.sections.map(({ key, value, entries }) => [
      key.text,
      value === null && entries.length > 0 ? namesOf(entries.map(({ entry }) => entry)) : value,
    ]),
  };
}

export function meaningOfValue(value: EditValue): Meaning {
  if (typeof value === "string") return value;
  if (isList(value)) return value.map(meaningOfValue);
  return { names: value.entries.map(([name, inner]) => [name, meaningOfValue(inner)]) };
}

/**
 * Changes what stands around the end of a path, and nothing else.
 *
 * @param change gets the names (or items, without names) of the map or list that the path ends in, and the place of the
 * last step among them; -1 when it is not there
 */
export function changeAt(
  meaning: Meaning,
  path: Path,
  change: (parts: readonly NamedMeaning[], at: number) => readonly NamedMeaning[],
): Meaning {
  const [step, ...rest] = path;
  const { parts, isMap } = partsOf(meaning);
  const at = typeof step === "number" ? step : parts.findIndex(([name]) => name === step);
  const changed =
    rest.length === 0
      ? change(parts, at)
      : parts.map(([name, value], i): [string, Meaning] => [name, i === at ? changeAt(value, rest, change) : value]);
  return isMap ? { names: changed } : changed.map(([, value]) => value);
}

/**
 * Whether a plan, read again, says what was expected.
 *
 * Nothing and an empty map or list are alike: a section that lost its last entry has nothing after its colon. Where the
 * expected is a node, quotes and brackets must be as they were.
 *
 * @returns the path to the first difference; null: all is as expected
 */
export function firstDifference(expected: Meaning, found: Meaning): Path | null {
  if (expected === found) return null;
  if (isText(expected) || isText(found)) {
    const [a, b] = [textOf(expected), textOf(found)];
    const quotes = isNode(expected) && isNode(found) && a?.quoted !== b?.quoted;
    return a === null || b === null || a.text !== b.text || quotes ? [] : null;
  }
  if (isNode(expected) && isNode(found) && (expected.kind !== found.kind || flowOf(expected) !== flowOf(found)))
    return [];
  const [a, b] = [partsOf(expected), partsOf(found)];
  if (a.parts.length > 0 && b.parts.length > 0 && a.isMap !== b.isMap) return [];
  for (let i = 0; i < Math.max(a.parts.length, b.parts.length); i++) {
    const [mine, theirs] = [a.parts[i], b.parts[i]];
    const name = (mine ?? theirs)?.[0] ?? "";
    const step = a.isMap ? name : i;
    if (mine === undefined || theirs === undefined || mine[0] !== theirs[0]) return [step];
    const inner = firstDifference(mine[1], theirs[1]);
    if (inner !== null) return [step, ...inner];
  }
  return null;
}

const namesOf = (entries: readonly MapEntry[]): MapMeaning => ({
  names: entries.map(({ key, value }): [string, Meaning] => [key.text, value]),
});

const isNode = (meaning: Meaning): meaning is Node =>
  typeof meaning === "object" && meaning !== null && "kind" in meaning;

const isText = (meaning: Meaning): boolean =>
  typeof meaning === "string" || (isNode(meaning) && meaning.kind === "scalar");

function textOf(meaning: Meaning): { text: string; quoted: boolean } | null {
  if (typeof meaning === "string") return { text: meaning, quoted: false };
  return isNode(meaning) && meaning.kind === "scalar" ? meaning : null;
}

const flowOf = (node: Node): boolean => node.kind !== "scalar" && node.flow;

function partsOf(meaning: Meaning): { parts: readonly NamedMeaning[]; isMap: boolean } {
  const isItems = (value: Meaning): value is readonly Meaning[] => Array.isArray(value);
  if (meaning === null || typeof meaning === "string") return { parts: [], isMap: true };
  if (isItems(meaning)) return { parts: meaning.map((item) => ["", item]), isMap: false };
  if (!isNode(meaning)) return { parts: meaning.names, isMap: true };
  if (meaning.kind === "list") return { parts: meaning.items.map((item) => ["", item]), isMap: false };
  return meaning.kind === "map" ? { parts: namesOf(meaning.entries).names, isMap: true } : { parts: [], isMap: true };
}
