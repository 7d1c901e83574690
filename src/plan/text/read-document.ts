import type { Diagnostic, Span, Told } from "../../diagnostic.ts";
import { cutText, type CutSection, type Piece } from "./cut-text.ts";
import type { PlacedEntry, PlanDocument, Section } from "./node.ts";
import { refuseOddCharacters } from "./odd-characters.ts";
import { readBlock, type ReadBlock } from "./read-block.ts";
import { duplicateNames } from "./read-name.ts";
import { MOST_MESSAGES } from "./reading.ts";
import { tell } from "./words.ts";

/** Three times a plan of 5,000 circuits. Reading takes time and memory in proportion, and no build has more to say. */
export const LONGEST_PLAN = 2_000_000;
/** What was read last time, so that only what changed is read again. Belongs to one plan that is being worked on. */
export interface DocumentMemory {
  /** The blocks of the last reading, by their text. */
  blocks: ReadonlyMap<string, ReadBlock>;
  last: Told<PlanDocument> | null;
}

export function createDocumentMemory(): DocumentMemory {
  return { blocks: new Map(), last: null };
}

/**
 * Reads the text of a plan into positioned nodes, and says what could not be read.
 *
 * Knows names, values, lists and their places; what a name means, and which there are, is for those who read the nodes. A
 * fault spoils its own block at most. Time and memory are in proportion to the text.
 *
 * @param memory of an earlier reading of the same plan: blocks with the same text keep their very nodes. It is changed to
 * hold this reading, and no block that is not in it
 * @returns the sections in the order of the text; diagnostics in the order of their places
 * @example
 * readDocument("circuits:\n  W13: { length: 5.2 m }\n").value.sections[0].entries[0].entry.key.text //=> "W13"
 * readDocument("circuits:\n  W13: { length: 5.2 m }\n").value.sections[0].entries[0].base //=> 10
 */
export function readDocument(text: string, memory: DocumentMemory = createDocumentMemory()): Told<PlanDocument> {
  if (memory.last?.value.text === text) return memory.last;
  const told = readAnew(text, memory);
  memory.last = told;
  return told;
}

function readAnew(text: string, memory: DocumentMemory): Told<PlanDocument> {
  if (text.length > LONGEST_PLAN) {
    const facts = { length: text.length, limit: LONGEST_PLAN };
    memory.blocks = new Map();
    return { value: { text, sections: [] }, diagnostics: [tell("plan/too-large", [[0, 1]], "", facts)] };
  }
  const from = text.startsWith("\ufeff") ? 1 : 0;
  const { readable, diagnostics } = refuseOddCharacters(text, from);
  const cut = cutText(readable, from);
  pushAll(diagnostics, cut.diagnostics);

  const known = memory.blocks;
  const blocks = new Map<string, ReadBlock>();
  const read = ({ start, end }: Piece): ReadBlock => {
    const source = readable.slice(start, end);
    let block = blocks.get(source) ?? known.get(source);
    block ??= readBlock(ownCopy(source));
    blocks.set(source, block);
    return block;
  };

  const sections: OpenSection[] = [];
  for (const piece of cut.sections) readSection(piece, read, sections, diagnostics);
  pushAll(diagnostics, duplicateNames(sections, []));
  memory.blocks = blocks;
  return { value: { text, sections }, diagnostics: inOrder(diagnostics) };
}

/** A section while its blocks are being added. */
type OpenSection = Section & { readonly entries: PlacedEntry[] };

function readSection(
  cut: CutSection,
  read: (piece: Piece) => ReadBlock,
  sections: OpenSection[],
  diagnostics: Diagnostic[],
): void {
  const { start: base } = cut.head;
  const head = read(cut.head);
  const [named, ...more] = head.entries;
  const before = sections.at(-1);
  if (named === undefined) {
    report(head, base, "", diagnostics);
    // Without a name for the section its entries would be lost; none of them is worth less for it.
    if (cut.entries !== null && before !== undefined) placeEntries(before, cut.entries, read, diagnostics);
    return;
  }
  const { key, value } = named;
  if (more.length > 0 && before !== undefined && value?.kind !== "scalar" && before.entries.length > 0) {
    // An entry that slid to the left edge, and its old neighbours below it.
    const span: Span = [base + key.span[0], base + key.span[1]];
    const facts = { name: key.text, section: before.key.text };
    diagnostics.push(tell("plan/slid-out", [span], `${before.key.text}.${key.text}`, facts));
    const said = head.diagnostics.filter(({ id, about }) => id !== "plan/indent" || about !== "");
    report({ ...head, diagnostics: said }, base, before.key.text, diagnostics);
    for (const entry of head.entries) before.entries.push({ base, entry });
    return;
  }
  report(head, base, "", diagnostics);
  const section: OpenSection = { base, key, value, entries: [] };
  sections.push(section);
  if (cut.entries !== null) placeEntries(section, cut.entries, read, diagnostics);
  else if (value?.kind === "map") for (const entry of value.entries) section.entries.push({ base, entry });
  for (const entry of more) sections.push({ base, key: entry.key, value: entry.value, entries: [] });
}

function placeEntries(
  section: OpenSection,
  pieces: readonly Piece[],
  read: (piece: Piece) => ReadBlock,
  diagnostics: Diagnostic[],
): void {
  for (const piece of pieces) {
    const block = read(piece);
    for (const entry of block.entries) section.entries.push({ base: piece.start, entry });
    report(block, piece.start, section.key.text, diagnostics);
  }
  const names = section.entries.map(({ base, entry }) => ({ base, key: entry.key }));
  pushAll(diagnostics, duplicateNames(names, [section.key.text]));
}

/** Messages of a block, at their place in the plan. */
function report(block: ReadBlock, base: number, section: string, diagnostics: Diagnostic[]): void {
  for (const diagnostic of block.diagnostics) {
    const at = diagnostic.at.map(([start, end]): Span => [base + start, base + end]);
    const about = [section, diagnostic.about].filter((part) => part !== "").join(".");
    diagnostics.push({ ...diagnostic, at, about });
  }
}

/** Spreading into `push` would put a hostile plan's many items on the stack. */
function pushAll<T>(list: T[], more: readonly T[]): void {
  for (const item of more) list.push(item);
}

/** A plan that is indented with tabs has one fault, not one a line. */
function tabsAsOne(diagnostics: readonly Diagnostic[]): Diagnostic[] {
  const tabs = diagnostics.filter(({ id }) => id === "plan/tab");
  const rest = diagnostics.filter(({ id }) => id !== "plan/tab");
  return tabs.length < 2 ? [...diagnostics] : [...rest, tell("plan/tab", tabs.slice(0, 20).flatMap(({ at }) => at), "")]; // prettier-ignore
}

function inOrder(diagnostics: readonly Diagnostic[]): Diagnostic[] {
  const start = (diagnostic: Diagnostic) => diagnostic.at[0]?.[0] ?? 0;
  const sorted = tabsAsOne(diagnostics).sort((a, b) => start(a) - start(b));
  if (sorted.length <= MOST_MESSAGES) return sorted;
  const at = sorted[MOST_MESSAGES]?.at.slice(0, 1) ?? [];
  return [...sorted.slice(0, MOST_MESSAGES), tell("plan/too-many-messages", at, "", { limit: MOST_MESSAGES })];
}

/**
 * A copy of a block that does not keep the whole plan in memory: engines hold a slice as a view of the text that it was
 * cut from, and each block may come from another version of the plan.
 */
function ownCopy(source: string): string {
  return ` ${source}`.slice(1);
}
