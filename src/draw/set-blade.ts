import type { Point, Shape } from "./scene.ts";
import type { SymbolArt } from "./symbol-art.ts";

/** How the contacts of a symbol stand: as the trade draws them at rest, closed, or on the first or second of two sources, or on none. */
export type Blade = "rest" | "closed" | "first" | "second" | "none";

/** From the hinge of a contact at rest to its free end, by symbol: as the table of symbols has it, supply on top. */
const HINGE: Point = [0, 2.5];
const OPEN: Point = [-2.5, -2.5];
const SECOND_POLE = 7.5;

type Polyline = Extract<Shape, { readonly is: "polyline" }>;

const is = ([ax, ay]: Point, [bx, by]: Point): boolean => Math.abs(ax - bx) < 1e-6 && Math.abs(ay - by) < 1e-6;
const line = (shape: Polyline, points: readonly Point[]): Shape => ({ ...shape, points });

/**
 * The shapes of a symbol with its contacts where a state has them. Only blades move, and the links that hang on them.
 *
 * @param art as found, at the origin and unturned
 * @param blade what the symbol does not have (a second source, a contact) it leaves as it is
 * @returns as many shapes as before, in their order
 * @example
 * const blade = { is: "polyline", points: [[0, 2.5], [-2.5, -2.5]] };
 * setBlade({ key: "switch", shapes: [blade] }, "closed").map((shape) => shape.points) //=> [[[0, 2.5], [0, -2.5]]]
 */
export function setBlade({ shapes, key }: Pick<SymbolArt, "shapes" | "key">, blade: Blade): readonly Shape[] {
  if (blade === "rest") return shapes;
  if (key.startsWith("transfer_switch")) return shapes.map((shape) => setChoice(shape, blade));
  return blade === "closed" ? shapes.map(close) : shapes;
}

/** End of a transfer switch's blade by what it stands on. */
const ENDS: Partial<Record<Blade, Point>> = { first: [-1.875, -3.125], second: [1.875, -3.125], none: [0, -1.875] };

function setChoice(shape: Shape, blade: Blade): Shape {
  const end = ENDS[blade];
  if (shape.is !== "polyline" || end === undefined) return shape;
  const [hinge, tip] = shape.points;
  const isBlade = hinge !== undefined && tip !== undefined && is(hinge, HINGE) && tip[1] < 0;
  return isBlade ? line(shape, [HINGE, end]) : shape;
}

function close(shape: Shape): Shape {
  // The bowed arm of an American breaker comes to lie on its contacts.
  if (shape.is === "arc" && is(shape.from, [-1.25, 3.125]) && is(shape.to, [-1.25, -3.125]))
    return { ...shape, from: [-0.5, 2.9], to: [-0.5, -2.9] };
  if (shape.is !== "polyline" || shape.points.length !== 2) return shape;
  const [a = HINGE, b = HINGE] = shape.points;
  if (is(a, [-0.3, 1.95]) && is(b, [-3.125, -2.1875])) return line(shape, [[0, 1.875], [0, -1.875]]); // prettier-ignore
  for (const x of [0, SECOND_POLE]) {
    if (is(a, [x + HINGE[0], HINGE[1]]) && is(b, [x + OPEN[0], OPEN[1]])) return line(shape, [a, [x, OPEN[1]]]);
  }
  // A link ends on the middle of the blade that it moves.
  if (shape.stroke?.dash !== undefined && a[1] === 0 && b[1] === 0) {
    const onBlade = ([x, y]: Point): Point => [x === -1.25 ? 0 : x === SECOND_POLE - 1.25 ? SECOND_POLE : x, y];
    return line(shape, [onBlade(a), onBlade(b)]);
  }
  return shape;
}
