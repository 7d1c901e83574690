import { sheetHeight, type PlacedBlock } from "./paginate.ts";
import type { Columns } from "./columns.ts";
import type { ReturnsAt } from "./draw-returns.ts";
import { headHeight, overHeight, rightStack } from "./measure.ts";

/** Beside the branches of the last block where its bar has no name below it, else under it. */
export function returnsAt(placed: readonly PlacedBlock[], columns: Columns): ReturnsAt {
  const last = placed.at(-1);
  const wide = Math.floor(columns.width / 2);
  if (last === undefined) return { top: 1, lefts: [0, wide], width: wide - 1 };
  const { block, top } = last;
  const beside = top + headHeight(block) + overHeight(block.over) + rightStack(block);
  if (block.root.part.is !== "panel" || block.under.length > 0)
    return { top: sheetHeight(placed), lefts: [0, wide], width: wide - 1 };
  const left = columns.bar + 4;
  return { top: beside, lefts: [left], width: columns.width - left - 1 };
}
