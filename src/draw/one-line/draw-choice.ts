import type { Blade } from "../set-blade.ts";
import type { Point, Shape } from "../scene.ts";
import type { PlacedArt } from "./compact-art.ts";
import type { Page } from "./page.ts";
import { isFree } from "./is-free.ts";
import type { PartView } from "./part-view.ts";
import { addLanding, put, putText, putWire, textInk, textLine } from "./sketch.ts";

/** What comes to one input of a switch that chooses: its row, what carries it, and the name of the input. */
export interface Input {
  readonly row: number;
  readonly carried: readonly string[];
  readonly port: string;
}

const RING = 0.5;
const PEN = 0.35;

/** Whether inputs can each have a contact of their own: one above, one below, and one between. */
export const hasContacts = (inputs: readonly Input[], row: number): boolean =>
  inputs.length > 1 &&
  // What comes to one input is joined before it.
  new Set(inputs.map(({ port }) => port)).size === inputs.length &&
  inputs.filter((i) => i.row < row).length <= 1 &&
  inputs.filter((i) => i.row > row).length <= 1 &&
  inputs.filter((i) => i.row === row).length <= 1;

/**
 * Draws a switch that chooses one of what comes to it: a contact for each, and a blade, so that they do not look joined.
 *
 * @param joint where what comes turns towards it, modules
 * @param centre where its line leaves, modules
 */
export function drawChoice(
  page: Page,
  part: PartView,
  inputs: readonly Input[],
  {
    joint,
    centre,
    row,
    key,
  }: { readonly joint: number; readonly centre: number; readonly row: number; readonly key: string },
): PlacedArt {
  const { hand, x, y } = page;
  const { sketch } = hand;
  const hinge: Point = [x(centre) - RING, y(row)];
  const contactOf = (i: Input): Point => {
    const side = Math.sign(i.row - row);
    return side === 0 ? [x(joint) + RING, y(row)] : [x(joint), y(row + side) - side * RING];
  };
  for (const i of inputs) {
    const side = Math.sign(i.row - row);
    if (side === 0 || Math.abs(i.row - row) < 2) continue;
    putWire(sketch, null, "", [[x(joint), y(i.row)], [x(joint), y(row + side)]], i.carried); // prettier-ignore
    addLanding(sketch, key, { at: [x(joint), y(i.row)], on: [x(joint), y(i.row)], out: [0, side], dot: true });
  }
  const ring = (centreOf: Point): Shape => ({ is: "ellipse", centre: centreOf, radii: [RING, RING], fill: "paper", stroke: { ink: "ink", width: PEN } }); // prettier-ignore
  const on = closedInput(hand.bladeOf(part.id), inputs, part);
  // At rest it stands on none.
  const tip: Point = on === undefined ? [x(joint) + 1.6, y(row) - 1.1] : contactOf(on);
  const shapes: Shape[] = [
    { is: "polyline", points: [hinge, tip], stroke: { ink: "ink", width: PEN } },
    ...inputs.map((i) => ring(contactOf(i))),
    ring(hinge),
  ];
  const [top, bottom] = [y(row - 1), y(row + 1)];
  const box = [[x(joint) - RING, top], [x(centre), bottom]] as const; // prettier-ignore
  put(sketch, "symbol", part.about, part.says, shapes, box);
  for (const i of inputs) {
    const side = Math.sign(i.row - row);
    const label = textLine(
      [{ text: i.port, faint: true }],
      [x(joint) - 1.6, side < 0 ? top + 0.6 : bottom + 1.2],
      "end",
    );
    if (side !== 0 && label.every((shape) => isFree(sketch, textInk(shape)))) putText(sketch, part.about, label);
  }
  return {
    shapes,
    // What is written over it keeps clear of what comes down to it.
    box: [[x(joint) + 1.4, top], [x(centre), bottom]], // prettier-ignore
    left: [x(joint), y(row)],
    right: [x(centre), y(row)],
    top: [x(centre) - RING, top],
    bottom: [x(centre) - RING, bottom],
  };
}

/** The input on which a blade stands; undefined: none. */
function closedInput(blade: Blade, inputs: readonly Input[], { positions }: PartView): Input | undefined {
  if (blade !== "first" && blade !== "second") return undefined;
  const order = positions.flatMap((p) => inputs.filter(({ port }) => port === p));
  return order[blade === "first" ? 0 : 1];
}
