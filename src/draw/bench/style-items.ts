import type { Drawn, Sketch } from "../one-line/sketch.ts";
import type { Ink, Item, Shape, TextShape } from "../scene.ts";
import { PX_PER_MM } from "./bench-drawing.ts";
import { markUnknown, unknownInPlace } from "./mark-unknown.ts";
import type { StateView } from "./read-state.ts";

/** Widths of wires, mm. */
const LIVE = 1.6 / PX_PER_MM;
const IDLE = 1.2 / PX_PER_MM;
/** Of the band under copper: at no current, for each ampere, at most; mm. */
const BAND = { least: 4 / PX_PER_MM, perAmp: 1.5 / PX_PER_MM, most: 26 / PX_PER_MM };

/** Key paths by which it is told whether something is on: of a wire what flows in it, else the thing itself. */
const keysOf = ({ role, about, of = [] }: Drawn): readonly string[] =>
  of.length > 0 && (role === "wire" || about === null) ? of : about === null ? [] : [about];

/** The thing that an item belongs to: a stretch in which several currents run is of none. */
const aboutOf = (item: Drawn): string | null => {
  const [first, ...others] = keysOf(item);
  return first === undefined || others.length > 0 ? item.about : first;
};

export interface Styled {
  readonly under: readonly Item[];
  /** One for each that was drawn. */
  readonly items: readonly Item[];
  readonly over: readonly Item[];
}

/**
 * Items as a state has them: what is off is thin and grey, what is on has a band under it as wide as its current.
 *
 * @param state null: nothing is told off
 * @param names what is told of each wire, by key path
 */
export function styleItems(
  { items, gaps }: Sketch,
  state: StateView | null,
  handles: boolean,
  names: ReadonlyMap<string, string>,
): Styled {
  const isOn = (keys: readonly string[]): boolean =>
    state === null || keys.length === 0 || keys.some((key) => state.live.has(key));
  const bands: Item[] = [];
  const band = (keys: readonly string[], points: Extract<Shape, { is: "polyline" }>["points"]): void => {
    const amps = keys.reduce((sum, key) => sum + (state?.amps.get(key) ?? 0), 0);
    if (state === null || !isOn(keys) || amps <= 0) return;
    const width = Math.min(BAND.most, BAND.least + BAND.perAmp * amps);
    const about = keys.length === 1 ? (keys[0] ?? null) : null;
    bands.push({ role: "flow", about, name: "", shapes: [{ is: "polyline", points, stroke: { ink: "flow", width } }] });
  };
  const named = new Set<string>();
  const styled = items.map((item): Item => {
    const keys = keysOf(item);
    const about = aboutOf(item);
    const on = isOn(keys);
    // The mark of a finding is not switched off with its thing.
    const isMark = item.role === "mark" && item.about !== null;
    if (item.role === "wire") for (const s of item.shapes) if (s.is === "polyline") band(keys, s.points);
    const shapes = item.shapes.flatMap((shape): Shape[] => {
      if (isMark || item.role === "frame") return [shape];
      if (shape.is !== "text") return [penned(shape, item.role === "wire", on)];
      if (item.role === "symbol") return [on ? shape : { ...shape, ink: "idle" }];
      const diamond = item.role === "table" ? unknownInPlace(shape) : null;
      if (diamond !== null) return diamond;
      return [worded(shape, item.role === "table", on, handles)];
    });
    // A wire is told at its first piece, whichever line it stands in.
    const isFirst = item.role === "wire" && about !== null && !named.has(about);
    if (isFirst) named.add(about);
    const name = item.role === "wire" ? (isFirst ? (names.get(about) ?? item.name) : "") : item.name;
    return { role: item.role, about, name, shapes };
  });
  for (const { of, points } of gaps) band(of, points);
  const diamonds = styled.filter(({ role }) => role === "caption").flatMap(markUnknown);
  return { under: bands, items: styled, over: diamonds };
}

function penned<S extends Exclude<Shape, TextShape>>(shape: S, isWire: boolean, on: boolean): S {
  const ink = (given: Ink): Ink => (on || given === "paper" ? given : "idle");
  const { stroke, fill } = shape;
  return {
    ...shape,
    ...(stroke === undefined ? {} : { stroke: { ...stroke, ink: ink(stroke.ink), width: isWire ? (on ? LIVE : IDLE) : stroke.width } }), // prettier-ignore
    ...(fill === undefined ? {} : { fill: ink(fill) }),
  };
}

function worded(shape: TextShape, inTable: boolean, on: boolean, handles: boolean): TextShape {
  const { field, ...rest } = shape;
  const weight = on || !inTable ? shape.weight : "regular";
  const kept: TextShape = { ...rest, weight, ink: on ? shape.ink : "ink2" };
  return handles && field !== undefined ? { ...kept, field } : kept;
}
