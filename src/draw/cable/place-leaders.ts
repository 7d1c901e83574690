import type { Point } from "../scene.ts";

/** What is to be told of a place in a drawing. */
export interface Told {
  /** The place, mm. */
  readonly anchor: Point;
  /** Across the way in which its labels are stacked, and along it, mm. */
  readonly extent: number;
}

export interface PlacedLeader<T> {
  readonly told: T;
  /** Middle of the label along the stack, mm. */
  readonly middle: number;
}

const cross = ([ax, ay]: Point, [bx, by]: Point, [cx, cy]: Point): number =>
  (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);

/** Whether a point on the line through two others lies between them. */
const isBetween = ([ax, ay]: Point, [bx, by]: Point, [x, y]: Point): boolean =>
  Math.min(ax, bx) <= x && x <= Math.max(ax, bx) && Math.min(ay, by) <= y && y <= Math.max(ay, by);

/** Whether two leaders meet, if only with an end. */
export function leadersCross(a: Point, b: Point, c: Point, d: Point): boolean {
  const [ofC, ofD, ofA, ofB] = [cross(a, b, c), cross(a, b, d), cross(c, d, a), cross(c, d, b)];
  if (ofC * ofD < 0 && ofA * ofB < 0) return true;
  return (
    (ofC === 0 && isBetween(a, b, c)) ||
    (ofD === 0 && isBetween(a, b, d)) ||
    (ofA === 0 && isBetween(c, d, a)) ||
    (ofB === 0 && isBetween(c, d, b))
  );
}

/**
 * Stacks labels along a side so that none meets another, near the places that they tell of, and none of the straight leaders crosses another.
 *
 * Where two cross, they change places: that makes them shorter together, so it ends.
 *
 * @param along which coordinate the stack runs along: 1 for a column of labels, 0 for a row
 * @param port where leaders end on the other coordinate, mm
 * @param room from where to where the stack may reach, mm; it reaches further where that is not enough
 */
export function placeLeaders<T extends Told>(
  all: readonly T[],
  along: 0 | 1,
  port: number,
  [least, most]: readonly [number, number],
  gap: number,
): readonly PlacedLeader<T>[] {
  const order = [...all].sort((a, b) => a.anchor[along] - b.anchor[along]);
  const pointAt = (middle: number): Point => (along === 1 ? [port, middle] : [middle, port]);
  // Each exchange shortens the leaders, of which there are few.
  for (let round = 0; round < all.length * all.length; round++) {
    const middles = stack(order, along, [least, most], gap);
    const pair = firstCrossing(order, middles.map(pointAt));
    if (pair === null) return order.map((told, i) => ({ told, middle: middles[i] ?? 0 }));
    const [i, k] = pair;
    const [a, b] = [order[i], order[k]];
    if (a !== undefined && b !== undefined) [order[i], order[k]] = [b, a];
  }
  const middles = stack(order, along, [least, most], gap);
  return order.map((told, i) => ({ told, middle: middles[i] ?? 0 }));
}

function firstCrossing(order: readonly Told[], ports: readonly Point[]): readonly [number, number] | null {
  for (let i = 0; i < order.length; i++) {
    for (let k = i + 1; k < order.length; k++) {
      const [a, b, p, q] = [order[i], order[k], ports[i], ports[k]];
      if (
        a !== undefined &&
        b !== undefined &&
        p !== undefined &&
        q !== undefined &&
        leadersCross(a.anchor, p, b.anchor, q)
      )
        return [i, k];
    }
  }
  return null;
}

/** Middles in the given order, as near to their places as the order lets them be: those that touch form a block about their common middle. */
function stack(order: readonly Told[], along: 0 | 1, [least, most]: readonly [number, number], gap: number): number[] {
  interface Block {
    readonly members: readonly Told[];
    readonly length: number;
    readonly start: number;
  }
  const wish = (members: readonly Told[], length: number): number => {
    let offset = 0;
    let sum = 0;
    for (const { anchor, extent } of members) {
      sum += anchor[along] - offset - extent / 2;
      offset += extent + gap;
    }
    return Math.min(Math.max(sum / members.length, least), Math.max(least, most - length));
  };
  const blocks: Block[] = [];
  for (const told of order) {
    let block: Block = { members: [told], length: told.extent, start: wish([told], told.extent) };
    for (
      let before = blocks.at(-1);
      before !== undefined && before.start + before.length + gap > block.start;
      before = blocks.at(-1)
    ) {
      blocks.pop();
      const members = [...before.members, ...block.members];
      const length = before.length + gap + block.length;
      block = { members, length, start: wish(members, length) };
    }
    blocks.push(block);
  }
  return blocks.flatMap(({ members, start }) => {
    let at = start;
    return members.map(({ extent }) => {
      const middle = at + extent / 2;
      at += extent + gap;
      return middle;
    });
  });
}
