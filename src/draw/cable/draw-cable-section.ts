import { colourName } from "../../wire/colour/index.ts";
import type { CableSection, CoreSection, Outline } from "../../wire/geometry/cable-section-shape.ts";
import type { Item, Point, Scene, Shape, Stroke, TextShape } from "../scene.ts";
import { wrapText } from "../sheet/fit-text.ts";
import { words } from "../sheet/text-block.ts";
import { textWidth } from "../text-width.ts";
import { drawCore, pointOf, type ConductorInk, type Scale } from "./draw-core.ts";
import { placeLeaders, type Told } from "./place-leaders.ts";
import { mmText, sectionLabels, type ColourWords, type SectionLabel } from "./section-labels.ts";

export interface CableSectionOptions {
  /** Of the drawing, mm; 110 × 80 where left out. */
  readonly width?: number;
  readonly height?: number;
  /** How many times its size it is drawn; else the greatest usual scale that has room. */
  readonly times?: number;
  /** Copper where left out. */
  readonly metal?: ConductorInk;
  /** Height of capitals, mm; 2 where left out. */
  readonly capMm?: number;
  /** Words for the colour of a core; else its letters and its name, `BN brown`. */
  readonly colourWords?: ColourWords;
  /** What it is, for the title: `3G2.5`. */
  readonly title?: string;
}

/** A cut that is drawn, and its scale. */
export interface CutScene extends Scene {
  /** How many times its size it is drawn. */
  readonly times: number;
}

/** Scales that a drawing may have: those of ISO 5455 with steps between them, for a cable is to fill its space. */
const TIMES = [30, 25, 20, 15, 12, 10, 8, 6, 5, 4, 3, 2.5, 2, 1.5, 1, 0.5, 0.4, 0.2, 0.1];
const EDGE: Stroke = { ink: "ink", width: 0.35 };
const THIN: Stroke = { ink: "frame", width: 0.18 };
const LEADER: Stroke = { ink: "ink2", width: 0.18 };

interface Extent {
  readonly width: number;
  readonly height: number;
}
const extentOf = (outline: Outline): Extent =>
  outline.is === "round" ? { width: 2 * outline.radius, height: 2 * outline.radius } : outline;

const wordsOf = ({ letters, colour }: CoreSection): string =>
  colour === null ? letters : `${letters} ${colourName(colour)}`.trim();

/** A label broken into lines. */
interface LaidLabel {
  readonly label: SectionLabel;
  readonly lines: readonly string[];
  readonly width: number;
  readonly height: number;
}
type Label = LaidLabel & Told;

/** Second lines are smaller than heads by this. */
const SMALL = 0.85;
/** From line to line, in heights of capitals. */
const LINE = 1.55;
/** No label is wider than this part of the drawing unless a word is. */
const WIDEST = 0.235;

function layLabel(label: SectionLabel, capMm: number, room: number): LaidLabel {
  const lines = wrapText(
    label.text,
    SMALL * capMm,
    "regular",
    Math.max(room, textWidth(label.head, capMm, "semibold")),
  );
  const widths = lines.map((line) => textWidth(line, SMALL * capMm, "regular"));
  return {
    label,
    lines,
    width: Math.max(textWidth(label.head, capMm, "semibold"), ...widths),
    height: capMm * (1 + LINE * lines.length),
  };
}

/**
 * Draws a wire or a cable cut through, true to scale, with what each part is.
 *
 * Labels stand left and right of a round cable, above and below a flat one; their leaders cross nothing but the cable. A colour is told by fill,
 * pattern and letters. Where there are more wires than can be drawn, fewer and thicker ones of the same metal stand for them, and the label says so.
 *
 * @param section as `cableSection` gives it
 * @returns the scene; it is as large as asked for, and the cable as large as that leaves room for
 * @accuracy the true edge of a part is the middle of its line; coordinates as the section has them
 */
export function drawCableSection(section: CableSection, options: CableSectionOptions = {}): CutScene {
  const { width = 110, height = 80, metal = "copper", capMm = 2, colourWords = wordsOf, title = "" } = options;
  const { outline, cores, concentric, sheathMm } = section;
  const extent = extentOf(outline);
  const isFlat = extent.width > 1.35 * extent.height;
  const labels = sectionLabels(section, colourWords).map((label) => layLabel(label, capMm, isFlat ? width / 3 : WIDEST * width)); // prettier-ignore
  const foot = 4 * capMm;
  const sides = sidesOf(labels, section, isFlat, width, capMm);
  const most = (of: readonly LaidLabel[], what: "width" | "height"): number =>
    Math.max(0, ...of.map((label) => label[what]));
  const reach = (of: readonly LaidLabel[]): number =>
    of.length === 0 ? 2 : isFlat ? most(of, "height") + 4 * capMm : most(of, "width") + 4.8 * capMm;
  const [before, after] = [reach(sides[0]), reach(sides[1])];
  const free: Extent = isFlat
    ? { width: width - 4, height: height - foot - before - after }
    : { width: width - before - after, height: height - foot - 2 };
  const times =
    options.times ?? TIMES.find((t) => extent.width * t <= free.width && extent.height * t <= free.height) ?? 0.1;
  const shift = (before - after) / 2;
  const centre: Point = isFlat ? [width / 2, (height - foot) / 2 + shift] : [width / 2 + shift, (height - foot) / 2];
  const scale: Scale = { centre, times };

  const items: Item[] = [{ role: "symbol", about: null, name: "", shapes: coverShapes(section, scale) }];
  if (concentric !== null) {
    const shapes = concentric.wires.map(({ x, y, radius }): Shape => ({ is: "ellipse", centre: pointOf(scale, x, y), radii: [radius * times, radius * times], fill: metal, stroke: THIN })); // prettier-ignore
    items.push({ role: "symbol", about: null, name: "", shapes });
  }
  cores.forEach((core, i) => {
    items.push(drawCore(core, scale, metal, spokenCore(core, i)));
  });
  const hand = { section, scale, capMm, width, top: 1, bottom: height - foot, half: { x: (extent.width * times) / 2, y: (extent.height * times) / 2 } }; // prettier-ignore
  items.push(...(isFlat ? labelsAboveAndBelow(sides, hand) : labelsAtSides(sides, hand)));
  items.push(scaleBar(times, [width / 2, height - 1.5], capMm, width));
  const over =
    outline.is === "round"
      ? `${mmText(extent.width)} mm thick`
      : `${mmText(extent.width)} by ${mmText(extent.height)} mm`;
  return {
    times,
    width,
    height,
    title: title === "" ? "Cut through" : `${title}, cut through`,
    says: `${cores.length === 1 ? "One conductor" : `${cores.length} conductors`}${sheathMm > 0 ? " in a sheath" : ""}, ${over}, drawn ${times} times its size.`,
    items,
  };
}

const spokenCore = ({ role, letters, isBare, sizeLabel }: CoreSection, i: number): string =>
  [role ?? `core ${i + 1}`, isBare ? "bare" : letters, sizeLabel].filter((part) => part !== "").join(", ");

/** The sheath with what is in it beside the cores. */
function coverShapes({ outline, sheathMm }: CableSection, { centre, times }: Scale): Shape[] {
  if (sheathMm <= 0) return [];
  const around = (inset: number, look: Pick<Shape & { is: "ellipse" }, "fill" | "stroke">): Shape => {
    if (outline.is === "round") {
      const r = (outline.radius - inset) * times;
      return { is: "ellipse", centre, radii: [r, r], ...look };
    }
    const [w, h] = [(outline.width / 2 - inset) * times, (outline.height / 2 - inset) * times];
    return { is: "rectangle", from: [centre[0] - w, centre[1] - h], to: [centre[0] + w, centre[1] + h], radius: h, ...look }; // prettier-ignore
  };
  return [around(0, { fill: "sheath", stroke: EDGE }), around(sheathMm, { fill: "filler", stroke: THIN })];
}

interface Hand {
  readonly section: CableSection;
  readonly scale: Scale;
  readonly capMm: number;
  readonly width: number;
  /** Between which labels may stand, mm. */
  readonly top: number;
  readonly bottom: number;
  /** Half the size of the cable on paper, mm. */
  readonly half: { readonly x: number; readonly y: number };
}

/** Where a leader ends in a part, looking from a side: −1 left or above, 1 right or below. */
function anchorOf({ of }: SectionLabel, side: -1 | 1, isFlat: boolean, { section, scale }: Hand): Point {
  const { outline, cores, sheathMm, concentric } = section;
  const toward = (core: CoreSection, distance: number, angle: number): Point =>
    pointOf(scale, core.x + distance * Math.cos(angle), core.y + distance * Math.sin(angle));
  // From the side, and a little up or down, so that leaders of one core part.
  const level = isFlat ? (side * Math.PI) / 2 : side === 1 ? 0 : Math.PI;
  const first = cores[0];
  switch (of.is) {
    case "core": {
      const core = cores[of.index];
      if (core === undefined) return scale.centre;
      if (core.isBare) return pointOf(scale, core.x, core.y);
      return toward(
        core,
        (core.insulationRadius + core.conductorRadius) / 2,
        level + (section.cores.length === 1 ? -0.7 * side : 0),
      );
    }
    case "insulation":
      return first === undefined ? scale.centre : toward(first, first.insulationRadius, level + 0.7 * side);
    case "conductor":
      return first === undefined ? scale.centre : toward(first, first.conductorRadius, level + 0.5 * side);
    case "strands": {
      const outermost = first?.strands.circles.at(-1);
      return first === undefined || outermost === undefined
        ? scale.centre
        : toward(first, 0.6 * first.conductorRadius, level - 0.6 * side);
    }
    case "concentric": {
      const r = concentric === null ? 0 : (concentric.innerRadius + concentric.outerRadius) / 2;
      return pointOf(scale, r * Math.cos(level - 0.5), r * Math.sin(level - 0.5));
    }
    case "sheath": {
      if (outline.is === "flat") {
        const y = side * (outline.height / 2 - sheathMm / 2);
        return isFlat
          ? pointOf(scale, outline.width / 2 - outline.height / 2, y)
          : pointOf(scale, side * (outline.width / 2 - sheathMm / 2), 0);
      }
      const r = outline.radius - sheathMm / 2;
      const angle = side === 1 ? -Math.PI / 4 : (-3 * Math.PI) / 4;
      return pointOf(scale, r * Math.cos(angle), r * Math.sin(angle));
    }
  }
}

type Sides = readonly [before: readonly LaidLabel[], after: readonly LaidLabel[]];

/** Which labels stand left or above, and which right or below. */
function sidesOf(
  all: readonly LaidLabel[],
  section: CableSection,
  isFlat: boolean,
  width: number,
  capMm: number,
): Sides {
  const [before, after]: [LaidLabel[], LaidLabel[]] = [[], []];
  const loose: LaidLabel[] = [];
  if (isFlat) {
    // Cores above, the rest below; where that is not room enough, every second core below.
    const cores = all.filter(({ label }) => label.of.is === "core");
    const fit = cores.reduce((sum, label) => sum + label.width + 1.6 * capMm, 0) <= width;
    all.forEach((label, i) => (label.label.of.is === "core" && (fit || i % 2 === 0) ? before : after).push(label));
    return [before, after];
  }
  // Cores go to their side; the rest to the side with less.
  for (const entry of all) {
    const core = entry.label.of.is === "core" ? section.cores[entry.label.of.index] : undefined;
    if (core === undefined || Math.abs(core.x) < 0.15 * core.insulationRadius) loose.push(entry);
    else (core.x < 0 ? before : after).push(entry);
  }
  for (const entry of loose) (before.length <= after.length ? before : after).push(entry);
  return [before, after];
}

function labelsAtSides(sides: Sides, hand: Hand): Item[] {
  const { scale, capMm, top, bottom, half } = hand;
  const items: Item[] = [];
  sides.forEach((labels, i) => {
    const side = i === 0 ? -1 : 1;
    const told = labels.map((label): Label => ({ ...label, anchor: anchorOf(label.label, side, false, hand), extent: label.height })); // prettier-ignore
    const port = scale.centre[0] + side * (half.x + 3.2 * capMm);
    for (const { told: entry, middle } of placeLeaders(told, 1, port, [top, bottom], 1.3 * capMm)) {
      const at: Point = [port + side * 0.6 * capMm, middle - entry.height / 2];
      items.push(labelItem(entry, at, side === 1 ? "start" : "end", [port, middle], capMm));
    }
  });
  return items;
}

function labelsAboveAndBelow(sides: Sides, hand: Hand): Item[] {
  const { scale, capMm, width, half } = hand;
  const items: Item[] = [];
  sides.forEach((labels, i) => {
    const side = i === 0 ? -1 : 1;
    const told = labels.map((label): Label => ({ ...label, anchor: anchorOf(label.label, side, true, hand), extent: label.width })); // prettier-ignore
    const port = scale.centre[1] + side * (half.y + 2.5 * capMm);
    for (const { told: entry, middle } of placeLeaders(told, 0, port, [1, width - 1], 1.6 * capMm)) {
      const top = side === -1 ? port - 0.5 * capMm - entry.height : port + 0.5 * capMm;
      items.push(labelItem(entry, [middle, top], "middle", [middle, port], capMm));
    }
  });
  return items;
}

function labelItem(
  { label, lines, anchor: from }: Label,
  [x, top]: Point,
  anchor: TextShape["anchor"],
  to: Point,
  capMm: number,
): Item {
  return {
    role: "caption",
    about: null,
    name: "",
    shapes: [
      // Paper behind the leader, so that it is seen on every colour.
      { is: "polyline", points: [from, to], stroke: { ink: "paper", width: 0.6 } }, // prettier-ignore
      { is: "polyline", points: [from, to], stroke: LEADER }, // prettier-ignore
      { is: "ellipse", centre: from, radii: [0.45, 0.45], fill: "ink2", stroke: { ink: "paper", width: 0.2 } }, // prettier-ignore
      words(label.head, [x, top + capMm], { capMm, weight: "semibold", anchor }),
      ...lines.map((line, i) =>
        words(line, [x, top + capMm * (1 + LINE * (i + 1))], { capMm: SMALL * capMm, anchor, ink: "ink2" }),
      ),
    ],
  };
}

/** A bar of a round number of true millimetres. */
function scaleBar(times: number, [x, y]: Point, capMm: number, width: number): Item {
  const small = SMALL * capMm;
  const length = [50, 20, 10, 5, 2, 1, 0.5].find((mm) => mm * times <= width / 3) ?? 0.5;
  const half = (length * times) / 2;
  const says = `${times >= 1 ? `${times} : 1` : `1 : ${Number((1 / times).toFixed(2))}`}   ${length} mm`;
  const textHalf = textWidth(says, small, "regular") / 2;
  const left = x - half - textHalf - capMm;
  return {
    role: "sheet",
    about: null,
    name: `scale ${says.replace("   ", ", the bar is ")}`,
    shapes: [
      { is: "polyline", points: [[left, y - small], [left, y], [left + 2 * half, y], [left + 2 * half, y - small]], stroke: { ink: "ink", width: 0.25 } }, // prettier-ignore
      words(says, [left + 2 * half + capMm, y], { capMm: small, ink: "ink2" }),
    ],
  };
}
