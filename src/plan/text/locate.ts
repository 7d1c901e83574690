import type { Span } from "../../diagnostic.ts";
import type { MapEntry, Node, PlanDocument, ScalarNode } from "./node.ts";

/** Names from the section inwards; a number is an item of a list, from 0. */
export type Path = readonly (string | number)[];

/** A map or a list, with its parts at their places in the plan. */
export interface Level {
  readonly kind: "map" | "list";
  /** In brackets, on one line or many. */
  readonly flow: boolean;
  readonly span: Span;
  readonly parts: readonly Part[];
}

/** An entry of a map or an item of a list, at its place in the plan. */
export interface Part {
  /** null: an item of a list. */
  readonly key: ScalarNode | null;
  /** Of the key, or of the item. */
  readonly keySpan: Span;
  readonly value: Node | null;
  readonly start: number;
  readonly end: number;
  /** What is inside it, worked out when asked for. null: a text, or nothing. */
  readonly inside: () => Level | null;
}

/** The plan as a map of its sections. */
export function rootOf(document: PlanDocument): Level {
  const parts = document.sections.map(({ base, key, value, entries }): Part => {
    const keySpan = placed(base, key.span);
    const inside = (): Level | null => {
      if (value !== null || entries.length === 0) return levelOf(base, value);
      const inner = entries.map((entry) => partOf(entry.base, entry.entry));
      return { kind: "map", flow: false, span: [inner[0]?.start ?? 0, inner.at(-1)?.end ?? 0], parts: inner };
    };
    const last = entries.at(-1);
    const cut = last === undefined ? afterColon(document.text, keySpan[1]) : last.base + last.entry.span[1];
    return { key, keySpan, value, start: keySpan[0], end: value === null ? cut : base + value.span[1], inside };
  });
  return { kind: "map", flow: false, span: [0, document.text.length], parts };
}

/**
 * Follows a path.
 *
 * @returns the levels from the plan inwards, and the part itself; a word for why there is none
 */
export function locate(document: PlanDocument, path: Path): { level: Level; part: Part } | "none" | "two" {
  let level: Level | null = rootOf(document);
  let found: { level: Level; part: Part } | "none" = "none";
  for (const step of path) {
    if (level === null) return "none";
    const parts: readonly Part[] =
      typeof step === "string"
        ? level.parts.filter(({ key }) => key?.text === step)
        : level.parts.filter(({ key }, i) => key === null && i === step);
    if (parts.length > 1) return "two";
    const part: Part | undefined = parts[0];
    if (part === undefined) return "none";
    found = { level, part };
    level = part.inside();
  }
  return found;
}

/**
 * The text that stands at an offset, and the path to it.
 *
 * @returns `isName`: it is the name at the end of the path, not its value; `flow`: in brackets. null: no text stands there
 */
export function textAt(
  document: PlanDocument,
  offset: number,
): { path: Path; isName: boolean; node: ScalarNode; span: Span; flow: boolean } | null {
  const path: (string | number)[] = [];
  let level: Level | null = rootOf(document);
  while (level !== null) {
    const index: number = level.parts.findIndex(({ start, end }) => start <= offset && offset < end);
    const part: Part | undefined = level.parts[index];
    if (part === undefined) return null;
    path.push(part.key?.text ?? index);
    if (part.key !== null && part.keySpan[0] <= offset && offset < part.keySpan[1]) {
      return { path, isName: true, node: part.key, span: part.keySpan, flow: level.flow };
    }
    if (part.value?.kind === "scalar") {
      const start = part.end - (part.value.span[1] - part.value.span[0]);
      return start <= offset
        ? { path, isName: false, node: part.value, span: [start, part.end], flow: level.flow }
        : null;
    }
    level = part.inside();
  }
  return null;
}

/** The offset just behind the colon of a name that ends at `from`. */
export function afterColon(text: string, from: number): number {
  return text.indexOf(":", from) + 1;
}

function partOf(base: number, entry: MapEntry): Part {
  const span = placed(base, entry.span);
  const { key, value } = entry;
  const inside = () => levelOf(base, value);
  return { key, keySpan: placed(base, key.span), value, start: span[0], end: span[1], inside };
}

function levelOf(base: number, node: Node | null): Level | null {
  if (node === null || node.kind === "scalar") return null;
  const parts =
    node.kind === "map"
      ? node.entries.map((entry) => partOf(base, entry))
      : node.items.map((item): Part => {
          const span = placed(base, item.span);
          return {
            key: null,
            keySpan: span,
            value: item,
            start: span[0],
            end: span[1],
            inside: () => levelOf(base, item),
          };
        });
  return { kind: node.kind, flow: node.flow, span: placed(base, node.span), parts };
}

function placed(base: number, [start, end]: Span): Span {
  return [base + start, base + end];
}
