import { cutBlocks, type Block } from "../one-line/blocks.ts";
import { columnsFor, M, type Columns } from "../one-line/columns.ts";
import { drawBlock } from "../one-line/draw-block.ts";
import type { Page } from "../one-line/page.ts";
import { drawHead } from "../one-line/draw-head.ts";
import { drawReturns, findReturns, returnsHeight } from "../one-line/draw-returns.ts";
import { readGraph } from "../one-line/graph.ts";
import type { OneLineBuild } from "../one-line/index.ts";
import { byGravity, gravityOf } from "../one-line/drawn-finding.ts";
import { joinBlocks } from "../one-line/join-blocks.ts";
import { blockHeight } from "../one-line/measure.ts";
import { HEAD, sheetHeight, type PlacedBlock } from "../one-line/paginate.ts";
import { returnsAt } from "../one-line/returns-at.ts";
import { alternatingParts, devicesByName, findingsByPlace, lostOf, runningAmps } from "../one-line/shown-of.ts";
import { emptySketch, type PlacedNote } from "../one-line/sketch.ts";
import { cleanText } from "../clean-text.ts";
import type { BenchDrawing, BenchMark, BenchOptions, Place } from "./bench-drawing.ts";
import { drawHandles } from "./draw-handles.ts";
import { freeWays } from "./free-ways.ts";
import { markRest } from "./mark-rest.ts";
import { placesOf } from "./places-of.ts";
import { readState, withBlades } from "./read-state.ts";
import { styleItems } from "./style-items.ts";
import { writePositions } from "./write-positions.ts";

/** mm: the whole, and where its grid begins. */
const WIDTH = 176;
const LEFT = 1;
const TOP = 1.5;
/** Of the grid, and right of its last figures for a mark. */
const GRID = 175;
const MARKS = 6.7;
const UNDER = 2.5;

/**
 * Draws the one-line that a person works on: that of the paper sheets, without frame, words and pages, on one canvas as high as it needs.
 *
 * As on paper, order and places follow the plan and how its parts hang together: a load that is added moves nothing above it; ratings, findings and
 * the state shown move no symbol. Findings have a mark without a number, since the page tells them beside the drawing.
 *
 * @param build what a plan came to, and what was found
 * @returns mm; 176 wide, in letters of at least 12 px where that is 940 px on a screen
 */
export function drawBench(build: OneLineBuild, options: BenchOptions): BenchDrawing {
  const { plan, system, design } = build;
  const graph = readGraph(plan, system, design, "unknown fact");
  const { blocks, links } = cutBlocks(graph);
  const returns = findReturns(system, graph);
  const columns = benchColumns();
  const asDevice = devicesByName(plan);
  const state =
    options.view === undefined ? readState(system, design, options.state) : withBlades(system, options.view);
  const sketch = emptySketch({ findings: findingsByPlace(build.findings, graph, asDevice), onBench: true });
  const page: Page = {
    hand: {
      sketch,
      variant: options.variant,
      parts: graph.parts,
      amps: runningAmps(system),
      alternating: alternatingParts(system),
      bladeOf: state === null ? () => "rest" : state.bladeOf,
    },
    columns,
    x: (modules) => LEFT + M * modules,
    y: (modules) => TOP + M * modules,
  };
  const placed = stack(blocks);
  if (placed.length > 0) drawHead(page, system);
  for (const { block, top } of placed) drawBlock(page, block, top);
  const place = returnsAt(placed, columns);
  drawReturns(page, returns, place);
  const height = Math.max(sheetHeight(placed), place.top + returnsHeight(returns, place));
  const notDrawn = joinBlocks([{ page, sketch, height }], links, columns.width);
  notDrawn.push(...lostOf(graph, sketch.shown, plan));

  markRest(sketch);

  const marks = marksOf(sketch.notes, asDevice);
  const handles = options.handles === true;
  if (handles) {
    const free = freeWays(system);
    const drawn = new Set(graph.vertices.filter(({ part }) => !part.structure).map(({ part }) => part.about));
    drawHandles(sketch, (about) => drawn.has(about) && free.get(about.slice("parts.".length)) !== 0);
  }
  if (state !== null) writePositions(sketch, state);
  const { under, items, over } = styleItems(
    sketch,
    state,
    handles,
    new Map(graph.wires.map(({ about, says }) => [about, says])),
  );
  return {
    scene: {
      width: WIDTH,
      height: page.y(height) + UNDER,
      title: `${cleanText(plan.name === "" ? "unnamed build" : plan.name)}, one-line diagram${state === null || state.id === "" ? "" : `, ${cleanText(state.id)}`}`,
      says: `Sources on the left, loads on the right: ${graph.parts.size} parts, ${graph.wires.length} circuits.`,
      items: [...under, ...items, ...over],
    },
    places: withDevices(placesOf(items, sketch.items), asDevice),
    marks,
    notDrawn,
  };
}

/** Those of paper, the figures closer together and the loads further left, so that names have more room. */
function benchColumns(): Columns {
  const columns = columnsFor(GRID, MARKS);
  const load = columns.load - 1;
  return { ...columns, load, name: columns.name - M, amps: columns.percent - 7, length: columns.percent - 13.6 };
}

/** Marks of things, and of the parts that stand in a circuit as its device with that circuit. */
function marksOf(notes: readonly PlacedNote[], asDevice: ReadonlyMap<string, string>): BenchMark[] {
  const devices = [...asDevice].map(([part, circuit]) => [`parts.${part}`, `circuits.${circuit}`] as const);
  return notes
    .flatMap(({ at, abouts, findings }): BenchMark[] => {
      if (at === null) return [];
      const own = abouts.map(({ about, gravity }) => ({ about, gravity, x: at[0], y: at[1] }));
      const named = devices.flatMap(([part, circuit]): BenchMark[] => {
        if (!abouts.some(({ about }) => about === circuit)) return [];
        const gravest = findings.filter(({ about }) => about === part || about.startsWith(`${part}.`)).flatMap((f) => gravityOf(f) ?? []).sort(byGravity)[0]; // prettier-ignore
        return gravest === undefined ? [] : [{ about: part, gravity: gravest, x: at[0], y: at[1] }];
      });
      return [...own, ...named];
    })
    .sort((a, b) => a.y - b.y || a.x - b.x);
}

/** A part that stands in a circuit as its device is where that circuit is. */
function withDevices(places: Record<string, Place>, asDevice: ReadonlyMap<string, string>): Record<string, Place> {
  const devices = [...asDevice].flatMap(([part, circuit]) => {
    const place = places[`circuits.${circuit}`];
    return place === undefined || places[`parts.${part}`] !== undefined ? [] : [[`parts.${part}`, place] as const];
  });
  return { ...places, ...Object.fromEntries(devices) };
}

/** One below the other, however high that is. */
function stack(blocks: readonly Block[]): PlacedBlock[] {
  let next = HEAD;
  return blocks.map((block) => {
    const top = next;
    next += blockHeight(block);
    return { block, top };
  });
}
