import { cleanText } from "../clean-text.ts";
import { fitText } from "../sheet/fit-text.ts";
import { POLE, RING } from "./contact-art.ts";
import { columnsOf, layBox, type LaidBox, type SlotSize } from "./lay-box.ts";
import { CAP, LINE, PITCH } from "./look.ts";
import type { Block, Link } from "./read-blocks.ts";
import { sortBox, type BoxSlot, type SortedBox } from "./sort-box.ts";
import type { LeafText, Wording } from "./wording.ts";

/** What a circuit comes to at its far end, or begins with, in one picture. */
export type End =
  | { readonly is: "leaf"; readonly block: Block; readonly text: LeafText }
  | { readonly is: "source"; readonly laid: LaidBox }
  | { readonly is: "tree"; readonly tree: Tree }
  /** It goes on, or comes from, elsewhere. */
  | { readonly is: "flag" };

/** A box with what hangs on it. */
export interface Tree {
  readonly box: SortedBox;
  readonly head: readonly string[];
  readonly sizes: ReadonlyMap<BoxSlot, SlotSize>;
  readonly ends: ReadonlyMap<BoxSlot, End>;
  readonly captions: ReadonlyMap<BoxSlot, readonly string[]>;
  /** All of its slots, placed. */
  readonly whole: LaidBox;
  /** Least width to its left and from its left edge to the right, and how many stretches of wire can grow in both. */
  readonly left: number;
  readonly right: number;
  readonly depth: number;
}

const ZONE = 27;
export const LEAF_BOX = 12;
export const LEAF_TEXT = 19;
export const FLAG = 21;

/** Least length of a circuit on paper. */
export const zoneLength = ({ devices, inline }: Link): number =>
  ZONE + (POLE + RING + 1) * devices.length + 16 * inline.length;

/** What a tree is planned with. */
export interface Planning {
  readonly blocks: ReadonlyMap<string, Block>;
  readonly wording: Wording;
  /** Boxes that stand somewhere already. */
  readonly placed: Set<string>;
  readonly height: number;
}

/**
 * Plans a box with what hangs on it, as far as there is room.
 *
 * @param room from its left edge to the right
 * @param by circuit that comes to it from the left; null: it begins a picture
 */
export function planTree(block: Block, room: number, by: Link | null, planning: Planning): Tree {
  const { blocks, wording, placed, height } = planning;
  placed.add(block.part.id);
  const sorted = sortBox(block);
  // What comes from the left comes in on top.
  const box = by === null ? sorted : { ...sorted, slots: [...sorted.slots].sort((a, b) => Number(b.link === by) - Number(a.link === by)) }; // prettier-ignore
  const { width } = columnsOf(box);
  const head = wording.head(block, width - 2);
  const sizes = new Map<BoxSlot, SlotSize>();
  const ends = new Map<BoxSlot, End>();
  const captions = new Map<BoxSlot, readonly string[]>();
  let [left, right, depth] = [0, width, 0];
  for (const slot of box.slots) {
    const { link } = slot;
    if (link === null) {
      sizes.set(
        slot,
        slot.is === "giver" ? { above: 7.5, below: 5 } : { above: slot.side === "in" ? 7.5 : 5.5, below: 2 },
      );
      continue;
    }
    const caption = [fitText(cleanText(link.circuit.id), CAP, "semibold", ZONE - 3), ...wording.caption(link, ZONE - 3).slice(0, 3)]; // prettier-ignore
    captions.set(slot, caption);
    const span = PITCH * (slot.rows.length - 1);
    const between = link.lines.some((l) => l.between.length > 0) ? (link.inline.length > 0 ? 8 + 2 : 8) : 2.5;
    let [above, below] = [Math.max(9, caption.length * LINE + 3.6), between];
    const zone = zoneLength(link);
    if (slot.side === "in") {
      const from = blocks.get(link.circuit.from.part);
      if (link === by) {
        ends.set(slot, { is: "flag" });
      } else if (from?.isSource === true) {
        const laid = laySource(from, planning);
        const row = laid.slots.find((s) => s.slot.link === link)?.ys[0] ?? 0;
        ends.set(slot, { is: "source", laid });
        placed.add(from.part.id);
        above = Math.max(above, row + 2);
        below = Math.max(below, laid.height - row - span + 2.5);
        left = Math.max(left, laid.width + zone);
      } else {
        ends.set(slot, { is: "flag" });
        left = Math.max(left, FLAG + 6);
      }
      sizes.set(slot, { above, below });
      continue;
    }
    const to = blocks.get(link.circuit.to.part);
    if (to?.isLeaf === true) {
      const text = wording.leaf(to, LEAF_TEXT - 1.5);
      ends.set(slot, { is: "leaf", block: to, text });
      const over = Math.max(3.5, (text.lines.length * LINE - span) / 2 + 1);
      sizes.set(slot, { above: Math.max(above, over), below: Math.max(below, over) });
      right = Math.max(right, width + zone + LEAF_BOX + LEAF_TEXT);
      depth = Math.max(depth, 1);
      continue;
    }
    const tree = to === undefined || placed.has(to.part.id) || to === block ? null : tryTree(to, room - width, link, planning); // prettier-ignore
    if (tree === null) {
      ends.set(slot, { is: "flag" });
      right = Math.max(right, width + zone + FLAG);
      depth = Math.max(depth, 1);
    } else {
      const row = tree.whole.slots.find((s) => s.slot.link === link)?.ys[0] ?? 0;
      ends.set(slot, { is: "tree", tree });
      above = Math.max(above, row + 1);
      below = Math.max(below, tree.whole.height - row - span + 4);
      right = Math.max(right, width + Math.max(zone, tree.left + 2) + tree.right);
      depth = Math.max(depth, 1 + tree.depth);
    }
    sizes.set(slot, { above, below });
  }
  const whole = layBox(box, box.slots, sizes, head);
  // A box too high for a sheet can only begin a picture, which may go on elsewhere.
  if (by !== null && whole.height > height) throw new TooHigh();
  return { box, head, sizes, ends, captions, whole, left, right, depth };
}

/** Nothing went wrong: the attempt is given up. */
class TooHigh extends Error {}

/** A box in the line of another picture; null: there is no room. */
function tryTree(block: Block, room: number, by: Link, planning: Planning): Tree | null {
  const placed = new Set(planning.placed);
  try {
    const tree = planTree(block, room - zoneLength(by), by, { ...planning, placed, height: planning.height * 0.8 });
    if (Math.max(zoneLength(by), tree.left + 2) + tree.right > room) return null;
    for (const id of placed) planning.placed.add(id);
    return tree;
  } catch (error) {
    if (error instanceof TooHigh) return null;
    throw error;
  }
}

function laySource(block: Block, { wording }: Planning): LaidBox {
  const box = sortBox(block);
  const sizes = new Map(box.slots.map((s) => [s, { above: 7.5, below: 4 }]));
  return layBox(box, box.slots, sizes, wording.head(block, columnsOf(box).width - 2));
}

/** What stands left of a box that begins a picture takes away from the width. */
export function leftOf({ inputs }: Block, blocks: ReadonlyMap<string, Block>): number {
  const widths = inputs.map((link) => {
    const from = blocks.get(link.circuit.from.part);
    return from?.isSource === true ? columnsOf(sortBox(from)).width + zoneLength(link) : FLAG + 6;
  });
  return Math.max(0, ...widths);
}
