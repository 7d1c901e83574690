import type { Diagnostic, Span } from "../../diagnostic.ts";
import { changeAt, meaningOf, meaningOfValue, type Meaning, type NamedMeaning } from "./expect-edit.ts";
import { insert, putInBrackets, takeFromBrackets } from "./flow-splices.ts";
import { lineEnd } from "./lines.ts";
import { putAtEnd, putOnLine, putUnder, sourceLines, takeLines } from "./line-splices.ts";
import { afterColon, locate, rootOf, textAt, type Level, type Part, type Path } from "./locate.ts";
import type { PlanDocument, ScalarNode } from "./node.ts";
import type { Splice } from "./splice.ts";
import { tell, type WordId } from "./words.ts";
import { quoted, writeName, writeValue, type EditValue } from "./write-value.ts";

/** A change of a plan, as data. */
export type Edit =
  /** Another value for an entry or a list item. */
  | { readonly do: "set"; readonly path: Path; readonly value: EditValue }
  /**
   * A new entry in the map at `path`, after the entry `after`; first where that is null, last where it is left out. A
   * section that is not there yet is put at the end of the plan.
   */
  | {
      readonly do: "add";
      readonly path: Path;
      readonly key: string;
      readonly value: EditValue;
      readonly after?: string | null;
    }
  | { readonly do: "remove"; readonly path: Path }
  /** Another name for an entry, and in all places that speak of it: stretches of texts or names in the plan. */
  | { readonly do: "rename"; readonly path: Path; readonly to: string; readonly and?: readonly Span[] }
  /** Another place for an entry in its map: after the entry `after`, or first. */
  | { readonly do: "move"; readonly path: Path; readonly after: string | null };

export interface Planned {
  readonly splices: Splice[];
  /** What the plan should say when all is done. */
  readonly expected: Meaning;
  /** A second step, with places from after the first. */
  readonly then?: (document: PlanDocument) => Splice[];
}

export type Refused = { readonly refusal: Diagnostic };

/**
 * What an edit does to the text, and what the plan should say afterwards; or why it cannot be done.
 *
 * @param spans of a rename, as they stand in this text; null: changed by an edit before it
 */
export function planEdit(document: PlanDocument, edit: Edit, spans: readonly (Span | null)[]): Planned | Refused {
  switch (edit.do) {
    case "set":
      return planSet(document, edit.path, edit.value);
    case "add":
      return planAdd(document, edit);
    case "remove":
      return planRemove(document, edit.path);
    case "rename":
      return planRename(document, edit.path, edit.to, spans);
    case "move":
      return planMove(document, edit.path, edit.after);
  }
}

function planSet(document: PlanDocument, path: Path, value: EditValue): Planned | Refused {
  const found = locate(document, path);
  if (typeof found === "string") return refuseMissing(found, path);
  const { text } = document;
  const expected = changeAt(meaningOf(document), path, (parts, at) =>
    parts.map((part, i): NamedMeaning => (i === at ? [part[0], meaningOfValue(value)] : part)),
  );
  return { splices: setSplices(text, found.level, found.part, writeValue(value, found.level.flow)), expected };
}

function setSplices(text: string, level: Level, part: Part, written: string): Splice[] {
  if (part.key === null) return [{ start: part.start, end: part.end, text: written }];
  const colon = afterColon(text, part.keySpan[1]);
  const onKeyLine = lineEnd(text, colon);
  const start = part.value === null ? (part.inside()?.span[0] ?? colon) : part.end - lengthOf(part);
  // A value on lines below gives way to one on the line of the name; a comment on that line stays.
  if (start > onKeyLine && !level.flow) {
    return [insert(colon, ` ${written}`), { start: onKeyLine, end: part.end, text: "" }];
  }
  return start === colon ? [insert(colon, ` ${written}`)] : [{ start, end: part.end, text: written }];
}

const lengthOf = ({ value }: Part): number => (value === null ? 0 : value.span[1] - value.span[0]);

function planAdd(document: PlanDocument, edit: Edit & { readonly do: "add" }): Planned | Refused {
  const { path, key, value, after } = edit;
  const { text } = document;
  const written = (inBrackets: boolean) => `${writeName(key, inBrackets)}: ${writeValue(value, inBrackets)}`;
  const place = path.length === 0 ? { level: rootOf(document), part: null } : locate(document, path);
  const [section] = path;
  if (place === "none" && path.length === 1 && typeof section === "string") {
    const lines = [`${writeName(section, false)}:`, written(false)];
    const names = [...meaningOf(document).names, [section, { names: [[key, meaningOfValue(value)]] }] as const];
    return { splices: putAtEnd(text, lines), expected: { names } };
  }
  if (typeof place === "string") return refuseMissing(place, path);
  const { part } = place;
  const level = part === null ? rootOf(document) : part.inside();
  if (level?.kind === "list" || (level === null && part?.value?.kind === "scalar")) {
    return refuse("plan/edit-wrong-kind", path, { expected: "a map" });
  }
  const parts = level?.parts ?? [];
  if (parts.some((other) => other.key?.text === key)) return refuse("plan/edit-name-taken", [...path, key]);
  const at = after === undefined ? parts.length - 1 : after === null ? -1 : indexOf(parts, after);
  if (typeof at === "string") return refuseMissing(at, [...path, after ?? ""]);

  const put = (names: readonly NamedMeaning[]) => names.toSpliced(at + 1, 0, [key, meaningOfValue(value)]);
  const expected =
    part === null ? { names: put(meaningOf(document).names) } : changeAt(meaningOf(document), [...path, key], put);
  return { splices: addSplices(document, place, level, at, written), expected };
}

function addSplices(
  { text }: PlanDocument,
  { level: outer, part }: { level: Level; part: Part | null },
  level: Level | null,
  at: number,
  written: (inBrackets: boolean) => string,
): Splice[] {
  if (part === null) {
    const last = at === outer.parts.length - 1;
    return last ? putAtEnd(text, [written(false)]) : putOnLine(text, outer, at, written(false));
  }
  if (level?.flow === true) return putInBrackets(text, level, at, written(true));
  if (level !== null && level.parts.length > 0) return putOnLine(text, level, at, written(false));
  if (!outer.flow) return putUnder(text, part, written(false));
  return [insert(afterColon(text, part.keySpan[1]), ` { ${written(true)} }`)];
}

function planRemove(document: PlanDocument, path: Path): Planned | Refused {
  const found = locate(document, path);
  if (typeof found === "string") return refuseMissing(found, path);
  const splices = takeSplices(document.text, found.level, found.part);
  if (splices === null) return refuse("plan/edit-wrong-kind", path, { expected: "on lines of its own" });
  return { splices, expected: changeAt(meaningOf(document), path, (parts, at) => parts.filter((_, i) => i !== at)) };
}

function takeSplices(text: string, level: Level, part: Part): Splice[] | null {
  const index = level.parts.indexOf(part);
  return level.flow ? takeFromBrackets(text, level, index) : takeLines(text, level, index);
}

function planMove(document: PlanDocument, path: Path, after: string | null): Planned | Refused {
  const found = locate(document, path);
  if (typeof found === "string") return refuseMissing(found, path);
  const { level, part } = found;
  const { key } = part;
  if (key === null) return refuse("plan/edit-wrong-kind", path, { expected: "an entry of a map" });
  const to = after === null ? -1 : indexOf(level.parts, after);
  if (typeof to === "string") return refuseMissing(to, [...path.slice(0, -1), after ?? ""]);
  const from = level.parts.indexOf(part);
  if (to === from || to === from - 1) return { splices: [], expected: meaningOf(document) };
  const splices = takeSplices(document.text, level, part);
  if (splices === null) return refuse("plan/edit-wrong-kind", path, { expected: "on lines of its own" });
  const source = level.flow ? document.text.slice(part.start, part.end) : sourceLines(document.text, part);
  // In brackets a comment cannot be carried along: what it ends up in front of would become part of it.
  if (level.flow && splices.some(({ start, end }) => document.text.slice(start, end).includes("#"))) {
    return refuse("plan/edit-wrong-kind", path, { expected: "free of comments" });
  }
  const place = to > from ? to - 1 : to;
  const expected = changeAt(meaningOf(document), path, (parts, at) => {
    const moved = parts[at];
    return moved === undefined ? parts : parts.toSpliced(at, 1).toSpliced(place + 1, 0, moved);
  });
  const then = (taken: PlanDocument): Splice[] => {
    const around = path.length === 1 ? rootOf(taken) : levelAt(taken, path.slice(0, -1));
    if (around === null) return [];
    return around.flow
      ? putInBrackets(taken.text, around, place, source)
      : putOnLine(taken.text, around, place, source);
  };
  return { splices, expected, then };
}

function levelAt(document: PlanDocument, path: Path): Level | null {
  const found = locate(document, path);
  return typeof found === "string" ? null : found.part.inside();
}

function planRename(
  document: PlanDocument,
  path: Path,
  to: string,
  spans: readonly (Span | null)[],
): Planned | Refused {
  const found = locate(document, path);
  if (typeof found === "string") return refuseMissing(found, path);
  const { level, part } = found;
  if (part.key === null) return refuse("plan/edit-wrong-kind", path, { expected: "an entry of a map" });
  if (level.parts.some((other) => other !== part && other.key?.text === to)) {
    return refuse("plan/edit-name-taken", [...path.slice(0, -1), to]);
  }
  const mentions = spans.filter((span) => span === null || !within(span, part.keySpan));
  const changed = changeMentions(document, mentions, to);
  if (changed === null) return refuse("plan/edit-wrong-kind", path, { expected: "named in plain words everywhere" });
  const name: ChangedText = {
    path,
    isName: true,
    text: to,
    span: part.keySpan,
    written: written(part.key, true, to, level.flow),
  };
  const all = [...changed, name];
  // Values first and inner names before outer ones, so that each path still holds.
  const order = [...all].sort((a, b) => Number(a.isName) - Number(b.isName) || b.path.length - a.path.length);
  let expected: Meaning = meaningOf(document);
  for (const { path: at, isName, text } of order) {
    expected = changeAt(expected, at, (parts, i) =>
      parts.map((part, j): NamedMeaning => (j !== i ? part : isName ? [text, part[1]] : [part[0], text])),
    );
  }
  const splices = all.map(({ span: [start, end], written: put }) => ({ start, end, text: put }));
  return { splices: splices.sort((a, b) => a.start - b.start), expected };
}

interface ChangedText {
  readonly path: Path;
  readonly isName: boolean;
  readonly text: string;
  readonly span: Span;
  readonly written: string;
}

/** The texts that mention a name, with the new name in its place; null: a mention is not in a text as it stands. */
function changeMentions(document: PlanDocument, spans: readonly (Span | null)[], to: string): ChangedText[] | null {
  const changed = new Map<number, ChangedText>();
  const later = [...spans].sort((a, b) => (b?.[0] ?? 0) - (a?.[0] ?? 0));
  for (const [i, span] of later.entries()) {
    const behind = later[i - 1]; // from the end of the text, so that the places before stay as they are
    if (span !== null && span[0] === behind?.[0] && span[1] === behind[1]) continue;
    const found = span === null ? null : textAt(document, span[0]);
    if (span === null || found === null || !within(span, found.span)) return null;
    if (behind !== undefined && behind !== null && span[1] > behind[0]) return null;
    const { node } = found;
    const inside = found.span[0] + (node.quoted ? 1 : 0);
    if (document.text.slice(inside, inside + node.text.length) !== node.text) return null;
    const [start, end] = [span[0] - inside, span[1] - inside];
    const text = changed.get(found.span[0])?.text ?? node.text;
    if (start < 0 || end > node.text.length) return null;
    const put = text.slice(0, start) + to + text.slice(end);
    changed.set(found.span[0], { ...found, text: put, written: written(node, found.isName, put, found.flow) });
  }
  return [...changed.values()];
}

function written(node: ScalarNode, isName: boolean, text: string, inBrackets: boolean): string {
  if (node.quoted) return quoted(text);
  return isName ? writeName(text, inBrackets) : writeValue(text, inBrackets);
}

const within = (inner: Span, outer: Span): boolean => outer[0] <= inner[0] && inner[1] <= outer[1];

/** The place of a name among the parts of a level. */
function indexOf(parts: readonly Part[], name: string): number | "none" | "two" {
  const at = parts.findIndex(({ key }) => key?.text === name);
  if (at < 0) return "none";
  return parts.some(({ key }, i) => i > at && key?.text === name) ? "two" : at;
}

const refuseMissing = (why: "none" | "two", path: Path): Refused =>
  refuse(why === "none" ? "plan/edit-no-such-place" : "plan/edit-two-places", path);

export function refuse(id: WordId, path: Path, facts: Readonly<Record<string, string>> = {}): Refused {
  const about = path.join(".");
  return { refusal: tell(id, [], about, { path: about, ...facts }) };
}
