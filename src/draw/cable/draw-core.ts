import type { CoreSection } from "../../wire/geometry/cable-section-shape.ts";
import type { PrintedColour } from "../../wire/make/wire-make.ts";
import type { CoreInk, Item, MatterInk, Point, Shape, Stroke } from "../scene.ts";
import { fillRing } from "./fill-ring.ts";
import { isCoreInk } from "./patterns.ts";

/** Where the middle of the cable lies on the paper, and how many times its size it is drawn. */
export interface Scale {
  readonly centre: Point;
  readonly times: number;
}

/** What a conductor is made of, as it is drawn. */
export type ConductorInk = Extract<MatterInk, "copper" | "tin" | "aluminium">;

/** Round insulation: thin, since the true edge is the middle of the line. */
const CASING: Stroke = { ink: "ink", width: 0.18 };
const STRAND: Stroke = { ink: "BK", width: 0.08 };
/** Wires thinner than this on paper, mm, have no line round them: it would be all of them. */
const LINED = 0.35;

export const pointOf = ({ centre, times }: Scale, x: number, y: number): Point => [
  centre[0] + x * times,
  centre[1] + y * times,
];

/** Inks of a printed colour, the base first; empty: it is not known how it looks. */
export function inksOfColour(colour: PrintedColour | null): readonly CoreInk[] {
  if (colour === null) return [];
  const letters: readonly string[] = colour[0] === "GNYE" ? ["GN", "YE"] : colour;
  const inks = letters.filter(isCoreInk);
  return inks.length === letters.length ? inks : [];
}

/** How much of the way round one of two equal partners takes up on each side, and a tracer on its own; radians. */
const [PARTNER, TRACER] = [1.25, 0.55];

/** One conductor with its insulation, cut through. */
export function drawCore(core: CoreSection, scale: Scale, metal: ConductorInk, name: string): Item {
  const centre = pointOf(scale, core.x, core.y);
  const [outer, inner] = [core.insulationRadius * scale.times, core.conductorRadius * scale.times];
  const shapes: Shape[] = [];
  if (!core.isBare) {
    const [base, ...tracers] = inksOfColour(core.colour);
    if (base === undefined) shapes.push({ is: "ellipse", centre, radii: [outer, outer], fill: "paper" });
    else {
      shapes.push(...insulation({ centre, inner, outer }, base, tracers, core.colour?.[0] === "GNYE"));
    }
    shapes.push({ is: "ellipse", centre, radii: [outer, outer], stroke: CASING });
  }
  // Between the wires there is air.
  shapes.push({
    is: "ellipse",
    centre,
    radii: [inner, inner],
    fill: "filler",
    ...(core.isBare ? {} : { stroke: CASING }),
  });
  const isLined = core.strands.wireMm * scale.times >= 2 * LINED;
  for (const { x, y, radius } of core.strands.circles) {
    const r = radius * scale.times;
    shapes.push({
      is: "ellipse",
      centre: pointOf(scale, core.x + x, core.y + y),
      radii: [r, r],
      fill: metal,
      ...(isLined ? { stroke: STRAND } : {}),
    });
  }
  return { role: "symbol", about: null, name, shapes };
}

function insulation(
  ring: { readonly centre: Point; readonly inner: number; readonly outer: number },
  base: CoreInk,
  tracers: readonly CoreInk[],
  isHalfAndHalf: boolean,
): Shape[] {
  if (tracers.length === 0) return fillRing(ring, base);
  // Two equal partners meet each other on both sides; tracers are stripes.
  const parts = isHalfAndHalf ? [...tracers, ...tracers] : tracers;
  const width = isHalfAndHalf ? PARTNER : TRACER;
  const shapes: Shape[] = [];
  parts.forEach((ink, i) => {
    const middle = -Math.PI / 4 + (2 * Math.PI * i) / parts.length;
    const next = -Math.PI / 4 + (2 * Math.PI * (i + 1)) / parts.length;
    shapes.push(...fillRing({ ...ring, part: [middle - width / 2, middle + width / 2] }, ink)); // prettier-ignore
    shapes.push(...fillRing({ ...ring, part: [middle + width / 2, next - width / 2] }, base)); // prettier-ignore
  });
  return shapes;
}
