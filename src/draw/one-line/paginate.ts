import type { Block, Group, Row, Stub } from "./blocks.ts";
import { blockHeight, chained, feederHeight, GAP, groupHeight, rightHeight } from "./measure.ts";

/** A block, or a part of one, and where it stands on its sheet. */
export interface PlacedBlock {
  readonly block: Block;
  /** Modules from the top of the drawing. */
  readonly top: number;
}

/** No sheet holds more branches. */
export const MOST_BRANCHES = 24;
/** For the head of the columns of figures. */
export const HEAD = 2;

const branchesOf = (item: Row | Group | Stub): number =>
  item.is === "row"
    ? chained(item).length
    : item.is === "stub"
      ? 1
      : Math.max(
          1,
          item.rows.reduce((n, row) => n + branchesOf(row), 0),
        );

const branches = (block: Block): number =>
  block.rights.reduce((n, item) => n + branchesOf(item), 0) + block.over.length + block.under.length;

/**
 * Lays blocks on as few sheets as hold them in their order; a block higher than a sheet goes on with the same bar on the next.
 *
 * @param room modules down, for blocks alone
 */
export function paginate(blocks: readonly Block[], room: number): PlacedBlock[][] {
  const sheets: PlacedBlock[][] = [[]];
  let next = HEAD;
  let count = 0;
  for (const block of blocks.flatMap((b) => split(b, room - HEAD))) {
    const height = blockHeight(block);
    const more = branches(block);
    if ((next + height > room || count + more > MOST_BRANCHES) && (sheets.at(-1) ?? []).length > 0) {
      sheets.push([]);
      next = HEAD;
      count = 0;
    }
    sheets.at(-1)?.push({ block, top: next });
    next += height;
    count += more;
  }
  return sheets;
}

export const sheetHeight = (placed: readonly PlacedBlock[]): number =>
  placed.reduce((most, { block, top }) => Math.max(most, top + blockHeight(block)), HEAD);

function split(block: Block, room: number): Block[] {
  if (blockHeight(block) <= room && branches(block) <= MOST_BRANCHES) return [block];
  const lefts = [...block.lefts];
  const rights = block.rights.flatMap((item): (Row | Group | Stub)[] =>
    item.is === "group" ? splitGroup(item, room - 8) : [item],
  );
  const pieces: Block[] = [];
  while (lefts.length + rights.length > 0 || pieces.length === 0) {
    const isFirst = pieces.length === 0;
    const bare: Block = {
      root: block.root,
      lefts: [],
      rights: [],
      backs: isFirst ? block.backs : [],
      feeds: isFirst ? block.feeds : [],
      over: isFirst ? block.over : [],
      under: isFirst ? block.under : [],
    };
    const space = room - blockHeight({ ...bare, backs: [], feeds: [] }) + 4;
    let used = blockHeight(bare) - blockHeight({ ...bare, backs: [], feeds: [] });
    const ownLefts: typeof lefts = [];
    for (let item = lefts[0]; item !== undefined; item = lefts[0]) {
      used += feederHeight(item);
      if (used > space && ownLefts.length > 0) break;
      ownLefts.push(item);
      lefts.shift();
    }
    used = 0;
    let count = branches(bare);
    const ownRights: (Row | Group | Stub)[] = [];
    for (let item = rights[0]; item !== undefined; item = rights[0]) {
      used += rightHeight(item) + (item.is === "row" ? 0 : GAP);
      count += branchesOf(item);
      if ((used > space || count > MOST_BRANCHES) && ownRights.length > 0) break;
      ownRights.push(item);
      rights.shift();
    }
    pieces.push({ ...bare, lefts: ownLefts, rights: ownRights });
  }
  return pieces;
}

/** A panel with more ways than a sheet holds goes on with a second bar. */
function splitGroup(group: Group, room: number): Group[] {
  if (groupHeight(group) <= room && branchesOf(group) <= MOST_BRANCHES) return [group];
  const pieces: Group[] = [];
  let rows: (Row | Stub)[] = [];
  for (const row of group.rows) {
    const more = { ...group, rows: [...rows, row] };
    if (rows.length > 0 && (groupHeight(more) > room || branchesOf(more) > MOST_BRANCHES)) {
      pieces.push({ ...group, rows });
      rows = [];
    }
    rows.push(row);
  }
  pieces.push({ ...group, rows });
  return pieces.map((piece, i) => (i === 0 ? piece : { ...piece, steps: [] }));
}
