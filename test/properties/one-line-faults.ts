import type { Item, Point, Scene, Shape, TextShape } from "../../src/draw/scene.ts";
import { boxAround, shapeBox, type Box } from "../../src/draw/shape-box.ts";

/** What is wrong with a sheet to the eye, measured on its shapes alone: whoever drew them has no say here. */
export interface SheetFaults {
  readonly faults: string[];
  readonly crossings: number;
}

const GRID = 2.5;
const HALO = 0.5;
/** Between a caption and what it may be read with: the symbols and bars of the drawing. */
const AIR = 0.8;
/** Figures are told to the hundredth of a millimetre. */
const SLACK = 0.01;

interface Placed {
  readonly item: number;
  readonly shape: TextShape;
  readonly caps: Box;
}

const grow = ([[x1, y1], [x2, y2]]: Box, by: number): Box => [
  [x1 - by, y1 - by],
  [x2 + by, y2 + by],
];
const meet = ([[a1, b1], [a2, b2]]: Box, [[c1, d1], [c2, d2]]: Box): boolean =>
  a1 < c2 - SLACK && a2 > c1 + SLACK && b1 < d2 - SLACK && b2 > d1 + SLACK;
const inside = ([[a1, b1], [a2, b2]]: Box, [[c1, d1], [c2, d2]]: Box): boolean =>
  a1 >= c1 - SLACK && b1 >= d1 - SLACK && a2 <= c2 + SLACK && b2 <= d2 + SLACK;

type Piece = readonly [from: Point, to: Point];

function piecesOf(shape: Shape): Piece[] {
  if (shape.is === "text" || shape.stroke === undefined) return [];
  if (shape.is === "polyline") {
    const points = shape.closed === true ? [...shape.points, shape.points[0] ?? [0, 0]] : shape.points;
    return points.slice(1).map((to, i) => [points[i] ?? to, to]);
  }
  if (shape.is === "rectangle") {
    const [[x1, y1], [x2, y2]] = [shape.from, shape.to];
    return [[[x1, y1], [x2, y1]], [[x2, y1], [x2, y2]], [[x2, y2], [x1, y2]], [[x1, y2], [x1, y1]]]; // prettier-ignore
  }
  return [];
}

const boxOf = ([from, to]: Piece): Box => boxAround([from, to]);
const onGrid = (x: number, grid: number): boolean => Math.abs(x / grid - Math.round(x / grid)) < 1e-6;
/** What hangs below the line of a text in this font, as a share of its capitals. */
const DESCENT = 0.3;

/** Where a drawing may be, and where its grid begins; mm. */
export interface Ground {
  readonly frame: Box;
  readonly origin: Point;
}

const paper = ({ width, height }: Scene): Ground => ({
  frame: [
    [20, 10],
    [width - 10, height - 10],
  ],
  origin: [20, 10],
});

export function findFaults(scene: Scene, { frame, origin }: Ground = paper(scene)): SheetFaults {
  const faults: string[] = [];
  const texts: Placed[] = [];
  // A drawing whose letters are larger lies on a grid that is so as well.
  const caps = scene.items.filter(({ role }) => role === "caption").flatMap(({ shapes }) => shapes.flatMap((s) => (s.is === "text" ? [s.capMm] : []))); // prettier-ignore
  const grid = (GRID * Math.min(...caps, 2.5)) / 1.8;
  const lines: { item: number; piece: Piece }[] = [];
  const wires: { item: number; piece: Piece }[] = [];
  const bodies: { item: number; box: Box }[] = [];
  scene.items.forEach((item, i) => {
    // A band lies under all, and a diamond about the question mark that it stands for.
    if (item.role === "flow" || isDiamond(item)) return;
    if (item.role === "symbol" || item.role === "bar" || item.role === "mark") {
      if (item.shapes.some((s) => s.is !== "text")) bodies.push({ item: i, box: bodyOf(item) });
      else
        for (const shape of item.shapes) if (shape.is === "text") texts.push({ item: i, shape, caps: shapeBox(shape) });
      return;
    }
    for (const shape of item.shapes) {
      if (shape.is === "text") texts.push({ item: i, shape, caps: shapeBox(shape) });
      else if (item.role === "wire") for (const piece of piecesOf(shape)) wires.push({ item: i, piece });
      else for (const piece of piecesOf(shape)) lines.push({ item: i, piece });
    }
    if (item.role === "wire") bendsOnGrid(item, faults, grid, origin);
  });
  const says = ({ shape }: Placed): string => `"${shape.text}" at ${shape.at.map((v) => v.toFixed(1)).join(" ")}`;

  texts.sort((a, b) => a.caps[0][1] - b.caps[0][1]);
  texts.forEach((a, i) => {
    const role = scene.items[a.item]?.role;
    if (a.shape.capMm < 1.8 - 1e-9) faults.push(`${says(a)} is ${a.shape.capMm} mm high`);
    if (role !== "sheet" && !inside(a.caps, frame)) faults.push(`${says(a)} is outside the frame`);
    const ink: Box = [a.caps[0], [a.caps[1][0], a.caps[1][1] + DESCENT * a.shape.capMm]];
    for (let k = i + 1; k < texts.length; k++) {
      const b = texts[k];
      if (b === undefined || b.caps[0][1] > a.caps[1][1] + HALO + 1) break;
      // Words of one line follow one another.
      if (a.item === b.item && Math.abs(a.shape.at[1] - b.shape.at[1]) < 0.01) {
        if (meet(a.caps, b.caps)) faults.push(`${says(a)} overlaps ${says(b)}`);
      } else if (meet(grow(a.caps, HALO / 2), grow(b.caps, HALO / 2)) || meet(ink, b.caps))
        faults.push(`${says(a)} meets ${says(b)}`);
    }
    for (const { piece } of [...wires, ...lines]) if (meet(grow(a.caps, HALO), grow(boxOf(piece), 0.05))) faults.push(`${says(a)} meets a line at ${piece.flat().map((v) => v.toFixed(1)).join(" ")}`); // prettier-ignore
    for (const { item, box } of bodies) if (item !== a.item && meet(grow(a.caps, airTo(scene.items[a.item], scene.items[item])), box)) faults.push(`${says(a)} meets ${scene.items[item]?.role ?? ""} ${scene.items[item]?.name ?? ""}`); // prettier-ignore
  });
  for (const { item, piece } of wires) {
    if (piece[0][0] !== piece[1][0] && Math.abs(piece[0][1] - piece[1][1]) > 1e-9 && Math.abs(piece[0][0] - piece[1][0]) > 1e-9) faults.push(`a wire lies aslant at ${piece.flat().join(" ")}`); // prettier-ignore
    if (!inside(boxOf(piece), frame)) faults.push("a wire leaves the frame");
    for (const body of bodies) {
      const isDot = scene.items[body.item]?.role === "mark" && scene.items[body.item]?.name === "";
      if (!isDot && meet(boxOf(piece), grow(body.box, -0.3)) && crosses(piece, grow(body.box, -0.3))) faults.push(`${scene.items[item]?.name ?? "a wire"} (${piece.flat().map((v) => v.toFixed(1)).join(" ")}) passes ${scene.items[body.item]?.role ?? ""} ${scene.items[body.item]?.name ?? ""}`); // prettier-ignore
    }
  }
  bodies.forEach((a, i) => {
    for (const b of bodies.slice(i + 1)) {
      const [one, two] = [scene.items[a.item], scene.items[b.item]];
      if (one?.role === "mark" && one.name === "") continue;
      if (two?.role === "mark" && two.name === "") continue;
      if (meet(grow(a.box, -0.2), grow(b.box, -0.2)))
        faults.push(`${one?.role ?? ""} ${one?.name ?? ""} overlaps ${two?.role ?? ""} ${two?.name ?? ""}`);
    }
  });
  return { faults, crossings: crossingsOf(wires, faults, scene.items) };
}

/** Words keep more air from the symbol on their own line than from that of the next row, half of which stays theirs. */
const airTo = (caption: Item | undefined, body: Item | undefined): number => {
  const isOwn = caption?.role === "caption" && body?.role === "symbol" && caption.about !== null && (caption.about === body.about || ((body.about === null || body.about === caption.about) && body.name.endsWith(` in ${caption.about.replace("circuits.", "")}`))); // prettier-ignore
  return isOwn ? AIR : HALO - 0.05;
};

const bodyOf = ({ shapes }: Item): Box => boxAround(shapes.flatMap((shape) => shapeBox(shape)));

/** A piece that goes on inside a box, not one that ends at its edge. */
const crosses = (piece: Piece, box: Box): boolean => meet(grow(boxOf(piece), 0.02), box);

const isDiamond = ({ role, name, shapes }: Item): boolean =>
  role === "mark" && name === "" && shapes.every((s) => s.is === "polyline" && s.stroke?.ink === "unknown");

function bendsOnGrid({ shapes, name }: Item, faults: string[], grid: number, origin: Point): void {
  for (const shape of shapes) {
    if (shape.is !== "polyline") continue;
    for (const [x, y] of shape.points.slice(1, -1))
      if (!onGrid(x - origin[0], grid) || !onGrid(y - origin[1], grid))
        faults.push(`a bend of ${name} lies off the grid: ${x} ${y}`);
  }
}

function crossingsOf(
  wires: readonly { item: number; piece: Piece }[],
  faults: string[],
  items: readonly Item[],
): number {
  let crossings = 0;
  const isAcross = ([from, to]: Piece): boolean => Math.abs(from[1] - to[1]) < 1e-9;
  const across = wires.filter(({ piece }) => isAcross(piece));
  const down = wires.filter(({ piece }) => !isAcross(piece));
  for (const { piece: h } of across) {
    const [[x1, y], [x2]] = boxOf(h);
    for (const { piece: v } of down) {
      const [[x, y1], [, y2]] = boxOf(v);
      if (x > x1 + 0.1 && x < x2 - 0.1 && y > y1 + 0.1 && y < y2 - 0.1) crossings++;
    }
  }
  const overlap = (list: typeof wires, axis: 0 | 1): void => {
    list.forEach((a, i) => {
      for (const b of list.slice(i + 1)) {
        const [p, q] = [boxOf(a.piece), boxOf(b.piece)];
        const other = axis === 0 ? 1 : 0;
        if (Math.abs(p[0][other] - q[0][other]) < 0.5 && p[0][axis] < q[1][axis] - 0.1 && p[1][axis] > q[0][axis] + 0.1)
          faults.push(`${items[a.item]?.name ?? ""} lies upon ${items[b.item]?.name ?? ""} at ${a.piece.flat().map((v) => v.toFixed(1)).join(" ")}`); // prettier-ignore
      }
    });
  };
  overlap(across, 0);
  overlap(down, 1);
  return crossings;
}
