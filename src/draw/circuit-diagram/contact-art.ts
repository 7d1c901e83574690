import type { Point, Shape } from "../scene.ts";
import { findSymbol, placeSymbol, type SymbolVariant } from "../symbols.ts";
import { thin } from "./look.ts";

/** How a contact is made to open. */
export type ContactIs = "breaker" | "fuse" | "switch";

/** Length of a pole across, with its leads. */
export const POLE = 9;
/** Behind a pole, what senses leakage. */
export const RING = 2.5;

const SCALE = POLE / 15;
/** From a conductor to the middle of an open blade in it. */
const BLADE = 0.75;
const keys: Readonly<Record<ContactIs, string>> = { breaker: "mcb_1p", fuse: "fuse", switch: "switch" };

/** One pole, its left lead at a point; open, as the trade draws it at rest. */
export function poleShapes(is: ContactIs, [x, y]: Point, variant: SymbolVariant): readonly Shape[] {
  const key = is === "breaker" && variant === "na" ? "breaker" : keys[is];
  const art = findSymbol(key, variant);
  return art === null ? [thin([[x, y], [x + POLE, y]])] : placeSymbol(art, [x + POLE / 2, y], 270, SCALE).shapes; // prettier-ignore
}

/** What keeps two devices from being closed together, between their blades: broken, with a wedge from one into the other. */
export function interlockShapes([x, from]: Point, to: number): Shape[] {
  const at = x + POLE / 2;
  const middle = (from + to) / 2;
  const wedge: Point[] = [[at - 1, middle - 1], [at + 1, middle - 1], [at, middle + 1]]; // prettier-ignore
  return [
    thin([[at, from + BLADE], [at, middle - 1]], [0.9, 0.6]), // prettier-ignore
    thin([[at, middle + 1], [at, to + BLADE]], [0.9, 0.6]), // prettier-ignore
    { is: "polyline", points: wedge, closed: true, stroke: { ink: "ink", width: 0.25 } },
  ];
}

/** What joins the blades of one device, and the ring of what compares its currents. */
export function linkShapes(
  [x, y]: Point,
  to: number,
  ring: { readonly from: number; readonly to: number } | null,
): Shape[] {
  // On the middle of the blades.
  const [at, blade] = [x + POLE / 2, BLADE];
  const shapes: Shape[] = to > y ? [thin([[at, y + blade], [at, to + blade]], [0.9, 0.6])] : []; // prettier-ignore
  if (ring === null) return shapes;
  const middle = x + POLE + RING / 2;
  const foot = ring.to + 1.5;
  return [
    ...shapes,
    {
      is: "ellipse",
      centre: [middle, (ring.from + ring.to) / 2],
      radii: [0.9, (ring.to - ring.from) / 2 + 1.5],
      stroke: { ink: "ink", width: 0.3 },
    },
    thin([[middle, foot], [middle, foot + 0.7], [at, foot + 0.7], [at, to + blade]], [0.9, 0.6]), // prettier-ignore
  ];
}
