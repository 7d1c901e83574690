import type { Diagnostic, Span } from "../diagnostic.ts";
import type { Fact } from "./fact.ts";
import { listed, readRecord, shown } from "./grammar/record.ts";
import type { AnyFacts, KeyRules, Reading } from "./grammar/rule.ts";
import type { PartInState } from "./plan.ts";
import type { MapEntry, Node, PlacedEntry, ScalarNode } from "./text/index.ts";

/** One entry, read by its rules; places count from the entry's block. */
export interface ReadEntry {
  readonly facts: Readonly<Record<string, Fact<unknown>>>;
  readonly keys: Readonly<Record<string, Span>>;
  readonly idle: readonly string[];
  readonly others: readonly PartInState[];
  readonly said: readonly Diagnostic[];
  /** There is no map to read; it has been told. */
  readonly unread?: true;
}

/** The place in another block's count. */
export const shift = (base: number, [start, end]: Span): Span => [base + start, base + end];

/** What becomes of keys that no rule knows: reported, kept as positions of parts, or passed over since nobody can know them. */
export type OtherKeys = "report" | "positions" | "pass over";

/** Reads an entry, anew: whoever asks keeps the answer as long as the entry is the same. */
export function readOnce(
  entry: MapEntry,
  about: string,
  rules: KeyRules,
  what: string,
  otherKeys: OtherKeys,
): ReadEntry {
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

/** Reads an entry, or gives what was kept of it, and tells what it has to say at its present place. */
export type ReadOne = (
  placed: PlacedEntry,
  about: string,
  rules: KeyRules,
  rulesName: string,
  what: string,
  others?: OtherKeys,
) => ReadEntry;
