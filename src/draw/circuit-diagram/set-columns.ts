import { layBox, type LaidBox } from "./lay-box.ts";
import { WHOLE, type GoesOn } from "./draw-box.ts";
import type { Tree } from "./plan-tree.ts";
import type { BoxSlot } from "./sort-box.ts";

/** A picture, or a part of one, on its sheet. */
export interface Piece {
  readonly tree: Tree;
  readonly laid: LaidBox;
  readonly x: number;
  readonly y: number;
  /** How much longer than at least each stretch of wire is. */
  readonly extra: number;
  readonly goesOn: GoesOn;
}

interface Column {
  readonly x: number;
  width: number;
  /** Where the next picture begins. */
  y: number;
  readonly pieces: Omit<Piece, "x" | "extra">[];
}

const GAP = 7.5;
/** Between columns, over and above the words at the right of circuits. */
export const BETWEEN = 6;
const MOST_EXTRA = 16;

const widthOf = ({ left, right }: Tree): number => left + right;

/**
 * Sets pictures under each other in as many columns as a sheet is wide: each in the first place that holds it; one that is too high goes on in the next
 * column, between two of its circuits.
 */
export function setColumns(trees: readonly Tree[], [width, height]: readonly [number, number]): Piece[][] {
  const pages: Column[][] = [];
  const last = (): Column => pages.at(-1)?.at(-1) ?? begin(0);
  const begin = (least: number): Column => {
    const before = pages.at(-1)?.at(-1);
    const x = before === undefined ? 0 : before.x + before.width + BETWEEN;
    const column: Column = { x: x + least <= width ? x : 0, width: least, y: 0, pieces: [] };
    if (before === undefined || column.x === 0) pages.push([column]);
    else pages.at(-1)?.push(column);
    return column;
  };
  const put = (column: Column, tree: Tree, laid: LaidBox, goesOn: GoesOn): void => {
    column.pieces.push({ tree, laid, y: column.y, goesOn });
    column.y += laid.height + GAP;
    column.width = Math.max(column.width, widthOf(tree));
  };
  /** Whether a column can be so wide: only the last of its sheet can grow. */
  const holds = (column: Column, page: readonly Column[], tree: Tree): boolean =>
    widthOf(tree) <= column.width || (column === page.at(-1) && column.x + widthOf(tree) <= width);

  for (const tree of trees) {
    if (tree.whole.height <= height) {
      const free = pages.flatMap((page) =>
        page.filter((c) => c.y + tree.whole.height <= height && holds(c, page, tree)),
      );
      put(free[0] ?? begin(widthOf(tree)), tree, tree.whole, WHOLE);
      continue;
    }
    let column = last();
    if (column.y > height / 2 || !holds(column, pages.at(-1) ?? [], tree)) column = begin(widthOf(tree));
    const all = inOrder(tree);
    const lay = (slots: readonly BoxSlot[]): LaidBox => layBox(tree.box, slots, tree.sizes, tree.head, slots[0] === all[0]); // prettier-ignore
    const netsOf = (slots: readonly BoxSlot[]): Set<string> => new Set(slots.flatMap(({ rows }) => rows.map((r) => r.net))); // prettier-ignore
    let rest = all;
    while (rest.length > 0) {
      let count = rest.length;
      while (count > 1 && column.y + lay(rest.slice(0, count)).height > height) count--;
      const laid = lay(rest.slice(0, count));
      if (column.y > 0 && column.y + laid.height > height) {
        column = begin(widthOf(tree));
        continue;
      }
      const above = netsOf(all.slice(0, all.length - rest.length));
      rest = rest.slice(count);
      put(column, tree, laid, { above, below: netsOf(rest) });
      if (rest.length > 0) column = begin(widthOf(tree));
    }
  }
  return pages.map((page) => spread(page, width));
}

/** Shares out what a sheet has left over: wires grow, columns move apart. */
function spread(page: readonly Column[], width: number): Piece[] {
  const end = page.at(-1);
  const share = end === undefined ? 0 : (width - end.x - end.width) / page.length;
  return page.flatMap((column, i) =>
    column.pieces.map((piece): Piece => {
      const { tree } = piece;
      const levels = tree.depth + (tree.left > 0 ? 1 : 0);
      const room = column.width + share - widthOf(tree);
      const extra = Math.max(0, Math.min(MOST_EXTRA, room / Math.max(1, levels) - 0.5));
      return { ...piece, x: column.x + share * i, extra };
    }),
  );
}

/** Section by section, what comes in before what goes out. */
const inOrder = ({ box }: Tree): BoxSlot[] =>
  Array.from({ length: box.sections }, (_, section) => box.slots.filter((s) => s.section === section)).flatMap(
    (own) => [...own.filter((s) => s.side === "in"), ...own.filter((s) => s.side === "out")],
  );
