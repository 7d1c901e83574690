import type { Block, Feeder, Group, Link, Row, Stub } from "./blocks.ts";
import { landsOnMain } from "./main-step.ts";

/** Heights in modules. A wire that leaves a bar to the left, and what is written about it; above the first source and below the last there are three. */
export const SLOT = 5;
export const EDGE = 3;
/** A branch. */
export const ROW = 2;
/** A wire that leaves a bar, with its caption under it. */
export const STUB = 4;
export const GROUP_HEAD = 2;

const leavesOf = (feeder: Feeder): Feeder[] => (feeder.kids.length === 0 ? [feeder] : feeder.kids.flatMap(leavesOf));

/** From a source to the next: between them stand the caption of its wire, in two lines, and the name of the next. */
export const slotOf = ({ wire }: Feeder): number => (wire === null ? 5 : 6);

export const feederHeight = (feeder: Feeder): number =>
  2 * EDGE +
  leavesOf(feeder)
    .slice(0, -1)
    .reduce((sum, leaf) => sum + slotOf(leaf), 0);

export const rowHeight = (row: Row): number => ROW * Math.max(1, chained(row).length);

/** Loads on one branch: the first, and what is chained to it. */
export const chained = ({ steps, vertex }: Row): string[] => {
  const last = steps.findLast(({ wire }) => wire !== null)?.wire;
  const others = (last?.draws ?? []).filter((id) => id !== vertex.part.id);
  return vertex.part.is === "load" ? [vertex.part.id, ...others] : [vertex.part.id];
};

export const rowsHeight = (rows: readonly (Row | Stub)[]): number =>
  rows.reduce((sum, row) => sum + (row.is === "row" ? rowHeight(row) : ROW), 0);

export function groupHeight({ rows, steps, vertex }: Group): number {
  if (rows.length === 0) return vertex.part.is === "panel" || vertex.part.is === "bar" ? 7 : 6;
  const last = steps.length > 0 ? 6 : 5;
  return Math.max(GROUP_HEAD + rowsHeight(rows) + 1, last + 2);
}

export const rightHeight = (item: Row | Group | Stub): number =>
  item.is === "row" ? rowHeight(item) : item.is === "group" ? groupHeight(item) : STUB;

export const feedHeight = (link: Link, root: Block["root"]): number =>
  hasCaption(link) || landsOnMain(root.part, link.wire) ? 2 * EDGE : ROW;

/** Whether the caption of a wire from elsewhere stands where it arrives: where it leaves a bar it stands there. */
export const hasCaption = ({ from }: Link): boolean => from.part.is !== "bar" && from.part.is !== "panel";

const sum = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0);

export const overHeight = (links: readonly Link[]): number =>
  sum(links.map(({ row }) => (row === null ? 0 : rowHeight(row))));

export const leftHeight = (block: Block): number =>
  SLOT * block.backs.length +
  sum(block.lefts.map(feederHeight)) +
  sum(block.feeds.map((link) => feedHeight(link, block.root)));

/** Room below a root. */
const footHeight = ({ root }: Block): number => (root.part.is === "bar" ? 0 : 1);

/** Row of a feeder's own line, from the top of its first slot: the middle of what feeds it. */
export function feederRow(feeder: Feeder): number {
  const slots = { next: EDGE };
  const row = (f: Feeder): number => {
    if (f.kids.length === 0) {
      slots.next += slotOf(f);
      return slots.next - slotOf(f);
    }
    const rows = f.kids.map(row);
    return Math.floor(((rows[0] ?? 0) + (rows.at(-1) ?? 0)) / 2);
  };
  return row(feeder);
}

/** Rows of a group's branches and of its own line, from its top. */
export function groupRows({ rows, vertex }: Group): { readonly taps: readonly number[]; readonly feed: number } {
  const taps: number[] = [];
  let next = rows.length === 0 ? 0 : GROUP_HEAD;
  for (const row of rows) {
    taps.push(next + 1);
    next += row.is === "row" ? rowHeight(row) : ROW;
  }
  const isBar = vertex.part.is === "panel" || vertex.part.is === "bar";
  const [first = 3, last = 3] = [taps[0], taps.at(-1)];
  return { taps, feed: isBar && rows.length === 0 ? 4 : Math.floor((first + last) / 2) };
}

/** Row of what hangs first on a root, on either side, from the top of its stacks. */
function firstTap(block: Block): number {
  const [left] = block.lefts;
  const [right] = block.rights;
  const [feed] = block.feeds;
  const onLeft =
    block.backs.length > 0
      ? 2
      : left !== undefined
        ? feederRow(left)
        : feed !== undefined
          ? feedHeight(feed, block.root) / 2
          : Infinity;
  const onRight =
    right === undefined ? Infinity : right.is === "row" ? 1 : right.is === "stub" ? 2 : groupRows(right).feed;
  return Math.min(onLeft, onRight);
}

/** A bar's name takes so many modules above the first row. */
const NAME = 4;

/** Room above the stacks of a root for the words over it. */
export const headHeight = (block: Block): number =>
  block.root.part.is === "panel"
    ? 2
    : block.root.part.is === "bar"
      ? Math.max(0, NAME - Math.min(NAME, firstTap(block)))
      : 1;

/** The gap between groups keeps them apart to the eye. */
export const GAP = 1;

export const rightStack = (block: Block): number =>
  sum(block.rights.map(rightHeight)) + GAP * block.rights.filter(({ is }) => is !== "row").length;

export const blockHeight = (block: Block): number =>
  overHeight(block.over) +
  headHeight(block) +
  Math.max(leftHeight(block), rightStack(block), 4) +
  overHeight(block.under) +
  footHeight(block);
