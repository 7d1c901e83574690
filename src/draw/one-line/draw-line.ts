import { fitFigure, fitText } from "../sheet/fit-text.ts";
import type { Point } from "../scene.ts";
import type { Step } from "./blocks.ts";
import type { Blade } from "../set-blade.ts";
import { inLine, placeArt, shiftArt, withRing, type PlacedArt } from "./compact-art.ts";
import type { PartView } from "./part-view.ts";
import { BODY, figuresOf, put, putText, putWire, textLine, wordsWidth, type Sketch, type Words } from "./sketch.ts";
import type { DeviceView, WireView } from "./wire-view.ts";

/** What draws: the sketch, and whose symbols. */
export interface Hand {
  readonly sketch: Sketch;
  readonly variant: "iec" | "na";
  readonly parts: ReadonlyMap<string, PartView>;
  /** What each load takes while it runs, for print. */
  readonly amps: ReadonlyMap<string, string>;
  /** Parts in which alternating current flows. */
  readonly alternating: ReadonlySet<string>;
  /** How the contacts of a part stand; null: those of a device in a wire. */
  readonly bladeOf: (part: string | null) => Blade;
}

/** Above the middle of a wire: base line of the words over a device; below: of the first and second line of a caption. */
const OVER = -1.25;
const UNDER = [3.3, 5.9] as const;
const GAP = 0.8;
/** From a joint to the first words of its branch: half a line above it the dot may stand where what feeds the joint comes to it. */
const FROM_JOINT = 1.2;
/** Between a symbol and words beside it, mm. */
export const AIR = 1.25;
/** Room for a rating between a bar and the boundary of its panel. */
const IN_WAY = 9.1;
/** What hangs lower under a wire pushes its caption aside. */
const LOW = 0.85;
/** From the row to the capitals of its caption, less the halo. */
const CLEAR = 0.68;

interface Standing {
  readonly art: PlacedArt;
  readonly about: string | null;
  /** What it belongs to, where it is no part. */
  readonly of: readonly string[];
  /** The wire that comes after it. */
  readonly next: WireView | null;
  readonly says: string;
  readonly label: Words[];
  readonly short: Words[];
}

/**
 * A line from left to right along a row, with its devices and the parts that sit in it.
 *
 * @param from to: ends, mm, on the row
 * @param flows "left": its wires run from right to left
 * @param labels "over": words over what sits in the line · "rating": only its rating
 */
export function drawLine(
  hand: Hand,
  steps: readonly Step[],
  from: Point,
  to: Point,
  flows: "right" | "left",
  labels: "over" | "rating",
  tail = 0,
  inset = 0,
): LineRoom {
  const { sketch, variant, parts, bladeOf } = hand;
  const y = from[1];
  const run = flows === "right" ? steps : [...steps].reverse();
  const near: Standing[] = [];
  const far: Standing[] = [];
  const device = (wire: WireView, view: DeviceView): Standing => {
    const rating: Words = {
      text:
        labels === "over"
          ? view.rating
          : fitFigure([view.rating, view.rating.replaceAll(" ", "")], BODY, "semibold", IN_WAY),
      bold: true,
      field: "device",
    };
    return {
      art: placeArt(
        view.kind,
        variant,
        "line",
        [0, y],
        "left",
        [5, 2.3],
        view.kind === "fuse" ? 0.55 : 0.5,
        bladeOf(null),
      ),
      about: null,
      of: [wire.about],
      next: wire,
      says: `${view.kind} ${view.name} ${view.rating} in ${wire.number}`,
      label: labels === "over" ? [{ text: `${view.name} ` }, rating] : [rating],
      short: [rating],
    };
  };
  const ringed = (view: PartView, art: PlacedArt): PlacedArt => (view.rings ? withRing(art) : art);
  const part = (view: PartView, next: WireView | null): Standing => ({
    art: ringed(view, placeArt(view.symbol, variant, inLine(view), [0, y], "left", [7.5, 3.4], 0.6, bladeOf(view.id))), // prettier-ignore
    about: view.about === "" ? null : view.about,
    // A main device is on where the line is that it stands in, not where its board is.
    of: view.about === "" ? [run.find(({ wire }) => wire !== null)?.wire?.about ?? `parts.${view.id}`] : [],
    next,
    says: view.says,
    label: [
      { text: view.label, bold: true, field: "name" },
      { text: view.values[0] === undefined ? "" : ` ${view.values[0]}`, field: "rating" },
    ],
    short: [{ text: view.label, bold: true, field: "name" }],
  });
  run.forEach((step, i) => {
    if (step.through !== null) {
      near.push(part(step.through, run.slice(i).find(({ wire }) => wire !== null)?.wire ?? null));
      return;
    }
    const { wire } = step;
    const nearEnd = flows === "right" ? "from" : "to";
    near.push(...wire.devices.filter((d) => d.end === nearEnd).map((d) => device(wire, d)));
    const inline = wire.inline.flatMap((id) => parts.get(id) ?? []).map((view) => part(view, wire));
    near.push(...inline);
    const others = wire.devices.filter((d) => d.end !== nearEnd).map((d) => device(wire, d));
    (i === run.length - 1 ? far : near).push(...others);
  });

  const lead = labels === "over" ? FROM_JOINT : GAP;
  let x = from[0] + lead;
  const stops: { standing: Standing; x: number }[] = [];
  const room = to[0] - from[0];
  let isBare = false;
  const wordsOf = ({ label, short }: Standing, isWhole: boolean): Words[] => (isBare ? [] : isWhole ? label : short);
  const widthOf = (standing: Standing, isWhole: boolean): number =>
    Math.max(standing.art.box[1][0] - standing.art.box[0][0], wordsWidth(wordsOf(standing, isWhole))) + 1.2;
  const all = [...near, ...far];
  const whole = all.reduce((sum, s) => sum + widthOf(s, true), 0);
  const space = room - tail - inset - lead - GAP;
  const fits = whole <= space;
  // Where not even ratings fit, the schedule has them.
  isBare = !fits && all.reduce((sum, s) => sum + widthOf(s, false), 0) > room - inset - lead - GAP;
  for (const standing of near) {
    stops.push({ standing, x });
    x += widthOf(standing, fits);
  }
  let end = to[0] - GAP - inset;
  for (const standing of [...far].reverse()) {
    end -= widthOf(standing, fits) - 1.2;
    stops.push({ standing, x: end });
    end -= 1.2;
  }
  stops.sort((a, b) => a.x - b.x);

  const wires = steps.flatMap(({ wire }) => wire ?? []);
  const about = wires[0]?.about ?? null;
  let cursor = from[0];
  let named = false;
  let current = run.find(({ wire }) => wire !== null)?.wire ?? undefined;
  const segment = (x1: number, x2: number): void => {
    if (x2 - x1 < 0.01) return;
    const of = current === undefined ? [] : [current.about];
    putWire(sketch, about, named ? "" : wires.map(({ says }) => says).join("; "), [[x1, y], [x2, y]], of); // prettier-ignore
    named = true;
  };
  for (const { standing, x: at } of stops) {
    const words = wordsOf(standing, fits);
    const width = wordsWidth(words);
    const body = standing.art.box[1][0] - standing.art.box[0][0];
    const shift = at + Math.max(0, (width - body) / 2) - standing.art.box[0][0];
    const moved = shiftArt(standing.art, shift);
    segment(cursor, moved.left[0]);
    current = standing.next ?? current;
    if (current !== undefined) sketch.gaps.push({ of: [current.about], points: [moved.left, moved.right] });
    cursor = moved.right[0];
    put(sketch, "symbol", standing.about, standing.says, moved.shapes, moved.box, standing.of);
    const lift = Math.min(OVER, moved.box[0][1] - y - 0.82);
    putText(sketch, standing.about, textLine(words, [at + Math.max(0, (body - width) / 2), y + lift]), "caption", standing.of); // prettier-ignore
  }
  segment(cursor, to[0]);
  const low = stops.map(({ standing, x: at }) =>
    standing.art.box[1][1] - y > LOW && at < (from[0] + to[0]) / 2 ? at + widthOf(standing, fits) : from[0],
  );
  for (const other of wires.slice(1)) sketch.shown.add(other.about);
  return {
    used: x - from[0],
    clear: Math.max(from[0], ...low),
    low: Math.max(0, ...stops.map(({ standing }) => standing.art.box[1][1] - y)),
  };
}

/** What a drawn line leaves for its caption. */
export interface LineRoom {
  readonly used: number;
  /** mm, right of what hangs low in its first half; its ends without it. */
  readonly clear: number;
  /** How far below the row its lowest symbol reaches. */
  readonly low: number;
}

/** Below this many millimetres a caption goes rather under what hangs low. */
const NARROW = 17;

/** A caption under a line, beside what hangs low in it, or under that where there is no room beside. */
export function captionBelow(
  sketch: Sketch,
  wires: readonly WireView[],
  row: number,
  [left, right]: readonly [number, number],
  { clear, low }: LineRoom,
): void {
  const beside = Math.max(clear + AIR, left);
  if (right - beside < NARROW && beside > left) captionUnder(sketch, wires, [left, row], right - left, low);
  else captionUnder(sketch, wires, [beside, row], right - beside);
}

const packed = (size: string): string => size.replaceAll(" × ", "×");

interface Wording {
  readonly number: Words;
  readonly size: string;
  /** With the least words that tell it. */
  readonly least: string;
  readonly length: string;
}

/** Number, size and length of wires in one line after another. */
function wordingOf(wires: readonly WireView[]): Wording {
  const ends = [wires[0], wires.at(-1)];
  const both = (of: (wire: WireView) => string): string =>
    [...new Set(ends.map((wire) => (wire === undefined ? "" : of(wire))))].join(", ");
  return {
    number: { text: wires.map(({ number }) => number).join(" + "), bold: true, field: "number" },
    size: both((wire) => wire.size),
    least: packed(both((wire) => wire.sizeOfCore)),
    length: wires.map(({ length }) => length).join(" + "),
  };
}

/** So many letters of a name tell it from others. */
const LEAST_NAME = 4;

/** A name, shortened where it must be, before figures that stay whole; null: there is no room for both. */
function nameBefore({ text }: Words, figures: readonly Words[], room: number): Words[] | null {
  const left = room - wordsWidth(figures);
  const short = fitText(text, BODY, "semibold", left);
  if (short === "" || (short !== text && short.length <= LEAST_NAME)) return null;
  return [{ text: short, bold: true, field: "number" }, ...figures];
}

/** A caption above a row, ending at `right`: a name may be cut, a figure never. What there is no room for stands in the schedule. */
export function captionOver(
  sketch: Sketch,
  wires: readonly WireView[],
  [right, y]: Point,
  room: number,
  withLength: boolean,
): void {
  const { number, size, least, length } = wordingOf(wires);
  const both = (a: string, b: string): Words[] =>
    figuresOf(sketch, { text: a, field: "size" }, ...(withLength ? [{ text: b, field: "length" } as const] : []));
  const full = both(` · ${size}`, ` · ${length}`);
  const small = both(` ${packed(size)}`, ` ${length}`);
  const words =
    [full, small].map((figures) => [number, ...figures]).find((way) => wordsWidth(way) <= room) ??
    [small, ...[packed(size), least].map((s): Words[] => [{ text: ` ${s}`, field: "size" }]), [{ text: "" }]]
      .map((figures) => nameBefore(number, figures, room))
      .find((way) => way !== null);
  putText(sketch, wires[0]?.about ?? null, textLine(words ?? [], [right, y - 1.2], "end"));
}

/** A caption below a row, beginning at `left`: of one line where it fits, else of two. */
export function captionUnder(
  sketch: Sketch,
  wires: readonly WireView[],
  [left, y]: Point,
  room: number,
  low = 0,
): void {
  const [first] = wires;
  if (first === undefined) return;
  const { number, size, least, length } = wordingOf(wires);
  const small = packed(size);
  const big: Words = { text: ` · ${size}`, field: "size" };
  const far: Words = { text: length, faint: true, field: "length" };
  const beside: Words = { text: ` · ${length}`, field: "length" };
  const ways: Words[][][] = [
    [[number, big, { ...beside, faint: true }]],
    [[number, big], [far]],
    [[number, { ...big, text: ` ${small}` }], [far]],
    [[number, beside], [{ text: small, field: "size" }]],
    [[number], figuresOf(sketch, { text: small, field: "size" }, { text: ` ${length}`, field: "length" })],
  ];
  const lines = ways.find((way) => way.every((line) => wordsWidth(line) <= room)) ?? [
    nameBefore(number, [beside], room) ?? nameBefore(number, [{ text: "" }], room) ?? [],
    [{ text: fitFigure([small, least], BODY, "regular", room), field: "size" } as const],
  ];
  lines.forEach((line, i) => {
    putText(sketch, first.about, textLine(line, [left, y + Math.max(0, low - CLEAR) + (UNDER[i] ?? 0)]));
  });
}
