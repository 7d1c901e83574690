import type { System } from "../../system/index.ts";
import type { Scene } from "../scene.ts";
import { papers } from "../sheet/paper.ts";
import { cutBlocks, type Block } from "./blocks.ts";
import { columnsFor, M, type Columns } from "./columns.ts";
import { composePages } from "./compose-pages.ts";
import { drawingRegion } from "./compose-sheet.ts";
import { drawBlock } from "./draw-block.ts";
import type { Page } from "./page.ts";
import { drawHead } from "./draw-head.ts";
import { drawReturns, findReturns, returnsHeight, type ReturnPlace, type ReturnsAt } from "./draw-returns.ts";
import { byGravity, gravityOf, unjudgedIn, type DrawnFinding, type Gravity } from "./drawn-finding.ts";
import { enlarge } from "./enlarge.ts";
import { readGraph } from "./graph.ts";
import { joinBlocks } from "./join-blocks.ts";
import type { OneLineBuild, OneLineOptions } from "./one-line-build.ts";
import { paginate, sheetHeight, type PlacedBlock } from "./paginate.ts";
import { returnsAt } from "./returns-at.ts";
import { alternatingParts, findingsByPlace, lostOf, runningAmps } from "./shown-of.ts";
import { BODY, emptySketch, type PlacedNote, type Sketch } from "./sketch.ts";
import { titleOf } from "./title-of.ts";
import { countsInFeet } from "./wire-view.ts";

/** Paper and symbols that suit a build: American where its wire is sold by gauges. */
export const defaultPaper = (system: System): Pick<OneLineOptions, "paper" | "variant"> =>
  countsInFeet(system) ? { paper: "Letter", variant: "na" } : { paper: "A4", variant: "iec" };

/**
 * Draws the one-line diagram of a build: sources on the left, loads on the right, one line for both conductors.
 *
 * Order and places follow the plan and how its parts hang together, never a rating: a load that is added moves nothing above it, a rating that
 * changes moves nothing. What cannot be placed is named in a note.
 *
 * @param build what a plan came to, and what was found
 * @returns a sheet or more
 */
export function drawOneLine(build: OneLineBuild, options: OneLineOptions): Scene[] {
  const paper = papers[options.paper];
  const { plan, system, design } = build;
  const graph = readGraph(plan, system, design);
  const { blocks, links } = cutBlocks(graph);
  const returns = findReturns(system, graph);
  const fields = titleOf(build, options);
  const unjudged = unjudgedIn(build.findings);
  const region = drawingRegion(paper, fields, unjudged.length);
  const usual = layOut(blocks, returns, region.width, region.height);
  const large = paper.name === "A3" ? layOut(blocks, returns, region.width / LARGER, region.height / LARGER) : usual;
  // Letters of 2.5 mm are worth columns, but no further sheet.
  const isLarge = paper.name === "A3" && large.sheets.length <= usual.sheets.length;
  const { columns, sheets, place } = isLarge ? large : usual;

  const findings = findingsByPlace(build.findings, graph);
  const whole = emptySketch({ findings, onBench: false });
  const amps = runningAmps(system);
  const alternating = alternatingParts(system);
  const pages = sheets.map((placed, i) => {
    const sketch: Sketch = { ...whole, items: [], solids: [], pieces: [], gaps: [], landings: new Map(), notes: [] };
    const page: Page = {
      hand: { sketch, variant: options.variant, parts: graph.parts, amps, alternating, bladeOf: () => "rest" },
      columns,
      x: (modules) => region.left + M * modules,
      y: (modules) => region.top + M * modules,
    };
    if (placed.length > 0) drawHead(page, system);
    for (const { block, top } of placed) drawBlock(page, block, top);
    const isLast = i === sheets.length - 1;
    const height = placed.length === 0 ? 0 : sheetHeight(placed);
    if (isLast) drawReturns(page, returns, place);
    return { page, sketch, height: isLast ? Math.max(height, place.top + returnsHeight(returns, place)) : height };
  });
  const lost = joinBlocks(pages, links, columns.width);
  lost.push(...lostOf(graph, whole.shown, plan));
  const unplaced: PlacedNote[] = [...findings]
    .filter(([about]) => !whole.told.has(about))
    .map(([, list]) => ({
      // No number stands on the drawing.
      number: 0,
      gravity: gravest(list),
      at: null,
      findings: list,
      abouts: [],
    }));
  const shown = pages.map((page) => enlarge(page, isLarge ? LARGER : 1));
  return composePages(build, paper, fields, shown, unplaced, lost, unjudged, graph);
}

/**
 * On paper that is read from afar letters of 1.8 mm become 2.5 mm, and all else on the drawing with them. Notes, legend and lists keep 1.8 mm: they
 * are read from near, and enlarged those of a build with many findings would need a further sheet.
 */
const LARGER = 2.5 / BODY;

interface Layout {
  readonly columns: Columns;
  readonly sheets: readonly (readonly PlacedBlock[])[];
  readonly place: ReturnsAt;
}

/** What stands where, in a space of some mm. */
function layOut(blocks: readonly Block[], returns: readonly ReturnPlace[], width: number, height: number): Layout {
  const columns = columnsFor(width);
  const rows = Math.floor(height / M);
  const sheets = paginate(blocks, rows);
  const place = returnsAt(sheets.at(-1) ?? [], columns);
  if (place.top + returnsHeight(returns, place) <= rows) return { columns, sheets, place };
  return { columns, sheets: [...sheets, []], place: returnsAt([], columns) };
}

const gravest = (list: readonly DrawnFinding[]): Gravity =>
  list.flatMap((finding) => gravityOf(finding) ?? []).sort(byGravity)[0] ?? "note";
