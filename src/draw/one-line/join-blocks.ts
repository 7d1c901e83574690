import type { Link } from "./blocks.ts";
import type { DrawnPage } from "./compose-pages.ts";
import { drawLink, flagLink, landingsOf } from "./draw-link.ts";
import { makeGrid } from "./route-link.ts";
import { emptySketch, type Landing } from "./sketch.ts";

/** Draws the wires between blocks; what finds no way is named at its ends, and what has no place there is returned. */
export function joinBlocks(pages: readonly DrawnPage[], links: readonly Link[], width: number): string[] {
  const lost: string[] = [];
  const grids = pages.map(({ page, height }) => makeGrid([page.x(0), page.y(0)], width, height));
  const nearest = [...links].sort((a, b) => reach(pages, a) - reach(pages, b));
  for (const link of nearest) {
    const ends = endsOf(pages, link);
    const i = ends.findIndex(([from, to]) => from.length > 0 && to.length > 0);
    const page = pages[i];
    const grid = grids[i];
    if (
      page !== undefined &&
      grid !== undefined &&
      drawLink(page.sketch, grid, link, page.page.hand.variant, page.page.hand.bladeOf(null)) !== null
    )
      continue;
    const [from, to] = [ends.findIndex(([a]) => a.length > 0), ends.findIndex(([, b]) => b.length > 0)];
    const on = (k: number): string => (k < 0 || from === to ? "" : `sheet ${k + 1}`);
    const flagged = [
      from >= 0 && flagLink(pages[from]?.sketch ?? NOWHERE, link, "from", on(to)),
      to >= 0 && flagLink(pages[to]?.sketch ?? NOWHERE, link, "to", on(from)),
    ];
    const { wire } = link;
    if (
      !flagged.includes(true) ||
      !pages.some(({ sketch }) => sketch.items.some(({ role, about }) => role === "wire" && about === wire.about))
    )
      lost.push(wire.says);
  }
  return lost;
}

/** Where a wire may end on each page. One that has its own row somewhere, with its device in it, ends there and at no other picture of that bar. */
function endsOf(
  pages: readonly DrawnPage[],
  link: Link,
): (readonly [from: readonly Landing[], to: readonly Landing[]])[] {
  const { id } = link.wire;
  const isOn = (key: string) => pages.map(({ sketch }) => sketch.landings.has(key));
  const [stubs, feeds] = [isOn(`stub ${id}`), isOn(`feed ${id}`)];
  return pages.map(({ sketch }, i) => {
    const [from, to] = landingsOf(sketch, link);
    return [stubs.includes(true) && stubs[i] !== true ? [] : from, feeds.includes(true) && feeds[i] !== true ? [] : to];
  });
}

/** How far apart the ends of a wire lie, mm: what has a short way is drawn first, and before it what goes on on another sheet. */
function reach(pages: readonly DrawnPage[], link: Link): number {
  for (const { sketch } of pages) {
    const [[from], [to]] = landingsOf(sketch, link);
    if (from !== undefined && to !== undefined)
      return Math.abs(from.at[0] - to.at[0]) + Math.abs(from.at[1] - to.at[1]);
  }
  return -1;
}

const NOWHERE = emptySketch({ findings: new Map(), onBench: false });
