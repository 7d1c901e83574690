import type { Span } from "../../diagnostic.ts";
import type { Fact } from "../fact.ts";
import { shown } from "./record.ts";
import type { Reading, ValueRule } from "./rule.ts";
import { scalarOf } from "./values.ts";

/** A point that a path passes: `PNL:3`, `ACP.inverter`, `B3:−`, `masthead light`. */
export interface PathPoint {
  /** As written, since a dot or colon may belong to the name of a part. */
  readonly text: string;
  readonly part: string;
  /** After the dot. */
  readonly section?: string;
  /** After the colon. */
  readonly terminal?: string;
  readonly span: Span;
}

/** `A → B + C → D`: stops in order; a stop with several points is a joint between them. */
export interface Path {
  readonly stops: readonly (readonly PathPoint[])[];
}

const ARROWS = ["→", "->", "=>", "⟶"] as const;

/** Reads a path without knowing which parts there are. */
export function path(): ValueRule<Path> {
  const says = "a path such as `PNL:1 → fridge`";
  return {
    says,
    schema: { type: "string", description: says },
    takes: { form: "path" },
    read(node, reading): Fact<Path> | undefined {
      const scalar = scalarOf(node, says, reading);
      if (scalar === undefined) return undefined;
      const at = (start: number, end: number): Span =>
        scalar.quoted ? scalar.span : [scalar.span[0] + start, Math.min(scalar.span[0] + end, scalar.span[1])];
      const stops: PathPoint[][] = [];
      let pieces = 0;
      for (const [start, end] of cut(scalar.text, ARROWS)) {
        pieces++;
        const points: PathPoint[] = [];
        for (const [s, e] of cutAtPlus(scalar.text, start, end)) {
          const point = readPoint(scalar.text, s, e, at, reading);
          if (point !== undefined) points.push(point);
        }
        if (points.length > 0) stops.push(points);
      }
      if (stops.length >= 2) return { value: { stops }, span: scalar.span };
      if (pieces > 1) return undefined; // what is missing has been told
      reading.say({
        id: "plan/path-too-short",
        level: "error",
        at: scalar.span,
        message: `a path leads from one part to another; found \`${shown(scalar.text)}\``,
        hint: "write `A → B` or `A -> B`",
      });
      return undefined;
    },
  };
}

function cut(text: string, separators: readonly string[]): [number, number][] {
  const pieces: [number, number][] = [];
  let start = 0;
  for (let i = 0; i < text.length;) {
    const found = separators.find((s) => text.startsWith(s, i));
    if (found === undefined) {
      i++;
      continue;
    }
    pieces.push([start, i]);
    i += found.length;
    start = i;
  }
  pieces.push([start, text.length]);
  return pieces;
}

/** A plus sign with blanks on both sides joins points; `B1:+` is a terminal. */
function cutAtPlus(text: string, start: number, end: number): [number, number][] {
  const pieces: [number, number][] = [];
  let from = start;
  for (let i = start + 1; i < end - 1; i++) {
    // Nothing but blanks behind it: the sign belongs to the name, as in `bus bar +`.
    if (text[i] === "+" && text[i - 1] === " " && text[i + 1] === " " && text.slice(i + 1, end).trim() !== "") {
      pieces.push([from, i]);
      from = i + 1;
    }
  }
  pieces.push([from, end]);
  return pieces;
}

function readPoint(
  text: string,
  start: number,
  end: number,
  at: (start: number, end: number) => Span,
  reading: Reading,
): PathPoint | undefined {
  while (start < end && text.charCodeAt(start) <= 32) start++;
  while (end > start && text.charCodeAt(end - 1) <= 32) end--;
  const span = at(start, Math.max(end, start + 1));
  const whole = text.slice(start, end);
  const colon = whole.lastIndexOf(":");
  const terminal = colon < 0 ? undefined : whole.slice(colon + 1).trim();
  const named = (colon < 0 ? whole : whole.slice(0, colon)).trim();
  if (named === "" || terminal === "") {
    reading.say({
      id: "plan/path-point-empty",
      level: "error",
      at: span,
      message:
        named === "" ? "a part is missing here in the path" : `the terminal after \`${shown(named)}:\` is missing`,
      hint: "write each point as `part` or `part:terminal`",
    });
    return undefined;
  }
  const dot = named.indexOf(".");
  const section = dot > 0 && dot < named.length - 1 ? named.slice(dot + 1).trim() : undefined;
  return {
    text: whole,
    part: section === undefined ? named : named.slice(0, dot).trim(),
    ...(section === undefined ? {} : { section }),
    ...(terminal === undefined ? {} : { terminal }),
    span,
  };
}
