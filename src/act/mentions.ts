import type { Span } from "../diagnostic.ts";
import { foldName } from "../plan/index.ts";
import type { Node, PlanDocument, ScalarNode } from "../plan/text/index.ts";

/** Arrows and joints of a path. */
const BETWEEN = /→|->|=>|⟶| \+ /;

/** One stretch of the plan that speaks of a thing. */
export interface Mention {
  readonly at: Span;
  readonly section: string;
  /** Entry of the section that it stands in. */
  readonly entry: string;
  /** Keys from the entry inwards; a number is the place in a list. */
  readonly keys: readonly (string | number)[];
  /** It is the name of an entry. */
  readonly isName: boolean;
}

/** What is spoken of: a part, a circuit, a state, a system or a zone. */
export type MentionedSection = "parts" | "circuits" | "states" | "systems" | "zones";

/** Keys of a part or circuit whose value is the name of a part. */
const PART_KEYS = new Set(["return", "in pe", "then", "like", "beside", "earthed at", "on", "fuse", "breaker", "of"]);
/** Keys whose value names a system or a zone. */
const KEYS_OF: Readonly<Record<string, ReadonlySet<string>>> = {
  systems: new Set(["system"]),
  zones: new Set(["zone"]),
  states: new Set(["like", "state"]),
  circuits: new Set(),
};

/** Every stretch of the plan that speaks of a thing, but the name that it has in its own section. */
export function mentionsOf(document: PlanDocument, section: MentionedSection, name: string): readonly Mention[] {
  const found: Mention[] = [];
  const wanted = foldName(name);
  for (const { base, key, value, entries } of document.sections) {
    const own = foldName(key.text);
    const at = (node: ScalarNode, base_: number, [start, end]: Span): Span => {
      const inside = base_ + node.span[0] + (node.quoted ? 1 : 0);
      return [inside + start, inside + end];
    };
    const say = (
      node: ScalarNode,
      base_: number,
      spans: readonly Span[],
      entry: string,
      keys: Mention["keys"],
      isName: boolean,
    ) => {
      for (const span of spans) found.push({ at: at(node, base_, span), section: own, entry, keys, isName });
    };
    const walk = (node: Node, base_: number, entry: string, keys: Mention["keys"]): void => {
      if (node.kind === "scalar") {
        say(node, base_, inValue(node.text, section, own, keys, wanted), entry, keys, false);
      } else if (node.kind === "list") {
        node.items.forEach((item, i) => {
          walk(item, base_, entry, [...keys, i]);
        });
      } else {
        for (const { key: inner, value: below } of node.entries) {
          say(
            inner,
            base_,
            inName(inner.text, section, own, [...keys, inner.text], wanted),
            entry,
            [...keys, inner.text],
            true,
          );
          if (below !== null) walk(below, base_, entry, [...keys, inner.text]);
        }
      }
    };
    for (const { base: base_, entry } of entries) {
      const { key: head, value: below } = entry;
      if (own !== section) say(head, base_, inName(head.text, section, own, [], wanted), head.text, [], true);
      if (below !== null) walk(below, base_, head.text, []);
    }
    if (entries.length === 0 && value !== null) walk(value, base, "", []);
  }
  return found;
}

/** Where a name of an entry or key speaks of the thing. */
function inName(text: string, section: MentionedSection, own: string, keys: Mention["keys"], wanted: string): Span[] {
  if (own === "waivers" && keys.length === 0) {
    const thing = /^\s*[a-z]+\/[a-z0-9-]+\s+/.exec(text);
    return thing === null ? [] : whole(text, thing[0].length, text.length, wanted);
  }
  const isIt =
    section === "systems"
      ? own === "rules" && keys.length === 0
      : section === "zones"
        ? own === "circuits" && keys.length === 2 && (keys[0] === "zones" || keys[0] === "bundle")
        : section === "circuits"
          ? own === "measured" && keys.length === 0
          : section === "parts" &&
            ((own === "measured" && keys.length === 0) ||
              (own === "use" && keys.length === 0) ||
              (own === "states" && (keys.length === 1 || (keys.length === 2 && keys[0] === "charge"))) ||
              (own === "circuits" && keys.length === 2 && keys[0] === "ends"));
  return isIt ? whole(text, 0, text.length, wanted) : [];
}

/** Where a value speaks of it. */
function inValue(text: string, section: MentionedSection, own: string, keys: Mention["keys"], wanted: string): Span[] {
  const key = foldName(keys.findLast((k) => typeof k === "string") ?? "");
  if (section !== "parts") {
    const isIt = KEYS_OF[section]?.has(key) === true && (section !== "states" || key !== "like" || own === "states");
    return isIt ? whole(text, 0, text.length, wanted) : [];
  }
  if (own === "states" && key === "") return whole(text, 0, text.length, wanted); // never together
  if (own === "circuits" && key === "path") return inPath(text, wanted);
  if (key === "like" && own === "states") return [];
  if (key === "fuse" || key === "breaker" || (own === "parts" && keys[0] === "ways")) {
    const place = /(?:^|\s)(?:at|from)\s+(?=\S)/i.exec(text);
    if (place !== null) return point(text, place.index + place[0].length, text.length, wanted);
  }
  return PART_KEYS.has(key) ? point(text, 0, text.length, wanted) : [];
}

function inPath(text: string, wanted: string): Span[] {
  const spans: Span[] = [];
  let from = 0;
  for (const piece of text.split(BETWEEN)) {
    spans.push(...point(text, from, from + piece.length, wanted));
    const sign = BETWEEN.exec(text.slice(from + piece.length));
    from += piece.length + (sign?.[0].length ?? 0);
  }
  return spans;
}

/** A part, perhaps with a terminal or section behind it: `PNL:3`, `ACP.inverter`. */
function point(text: string, from: number, to: number, wanted: string): Span[] {
  const exact = whole(text, from, to, wanted);
  if (exact.length > 0) return exact;
  const piece = text.slice(from, to);
  // The longest name first: a dot or colon may belong to it.
  for (let i = piece.length - 1; i > 0; i--) {
    if (piece[i] !== ":" && piece[i] !== ".") continue;
    const head = whole(text, from, from + i, wanted);
    if (head.length > 0) return head;
  }
  return [];
}

/** The stretch without blanks at its ends, where it is the name. */
function whole(text: string, from: number, to: number, wanted: string): Span[] {
  let [start, end] = [from, to];
  while (start < end && text.charCodeAt(start) <= 32) start++;
  while (end > start && text.charCodeAt(end - 1) <= 32) end--;
  return foldName(text.slice(start, end)) === wanted ? [[start, end]] : [];
}
