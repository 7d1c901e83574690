import { decimalText } from "../../quantity/decimal-text.ts";
import type { Plan } from "../../plan/index.ts";
import type { System } from "../../system/index.ts";
import type { Scene } from "../scene.ts";
import { papers } from "../sheet/paper.ts";
import { cutBlocks, type Block, type Link } from "./blocks.ts";
import { columnsFor, M, type Columns } from "./columns.ts";
import { composePages, type DrawnPage } from "./compose-pages.ts";
import { drawingRegion } from "./compose-sheet.ts";
import { drawBlock } from "./draw-block.ts";
import type { Page } from "./draw-feeder.ts";
import { drawLink, flagLink, landingsOf } from "./draw-link.ts";
import { drawReturns, findReturns, returnsHeight, type ReturnPlace, type ReturnsAt } from "./draw-returns.ts";
import { byGravity, gravityOf, isUnjudged, unjudgedIn, type DrawnFinding, type Gravity } from "./drawn-finding.ts";
import { enlarge } from "./enlarge.ts";
import { readGraph } from "./graph.ts";
import { paginate, sheetHeight, type PlacedBlock } from "./paginate.ts";
import { headHeight, overHeight, rightStack } from "./measure.ts";
import { makeGrid } from "./route-link.ts";
import { BODY, putText, textLine, type PlacedNote, type Sketch } from "./sketch.ts";
import type { OneLineBuild, OneLineOptions } from "./one-line-build.ts";
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

  const findings = new Map<string, DrawnFinding[]>();
  const known = new Set([...graph.parts.values(), ...graph.wires].map(({ about }) => about));
  for (const finding of build.findings) {
    if (gravityOf(finding) === null || isUnjudged(finding)) continue;
    const about = placeOf(finding.about, known);
    findings.set(about, [...(findings.get(about) ?? []), finding]);
  }
  const whole = {
    told: new Set<string>(),
    counter: { next: 1 },
    shown: new Set<string>(),
    pictured: new Set<string>(),
    findings,
  };
  const amps = new Map(
    system.elements.flatMap((e) => {
      const running = e.is === "draw" ? e.levels.find(({ name }) => name === "running") : undefined;
      return running === undefined || running.amps.origin === "unknown"
        ? []
        : [[e.part, ampsText(running.amps.high)] as const];
    }),
  );
  const alternating = new Set(system.parts.filter(({ current }) => current === "AC").map(({ id }) => id));
  const pages = sheets.map((placed, i) => {
    const sketch: Sketch = { ...whole, items: [], solids: [], pieces: [], landings: new Map(), notes: [] };
    const page: Page = {
      hand: { sketch, variant: options.variant, parts: graph.parts, amps, alternating },
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
  const asDevice = devicesByName(plan);
  for (const part of graph.parts.values()) {
    if (!whole.shown.has(part.about) && !asDevice.has(part.id))
      lost.push(`${part.label}${part.called === null ? "" : ` ${part.called}`}: no circuit reaches it`);
  }
  for (const wire of graph.wires)
    if (!whole.shown.has(wire.about)) lost.push(`${wire.number} ${wire.size}, ${wire.length}`);
  const unplaced: PlacedNote[] = [...findings]
    .filter(([about]) => !whole.told.has(about))
    .map(([, list]) => ({
      number: whole.counter.next++,
      gravity: gravest(list),
      at: null,
      findings: list,
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

/** Beside the branches of the last block where its bar has no name below it, else under it. */
function returnsAt(placed: readonly PlacedBlock[], columns: Columns): ReturnsAt {
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

/** Parts that circuits name as their fuse or breaker: they are drawn as such. */
function devicesByName(plan: Plan): Set<string> {
  const names = new Set<string>();
  for (const { facts } of plan.circuits) {
    for (const fact of [facts.fuse, facts.breaker]) {
      if (fact === undefined || fact.value === "unknown") continue;
      for (const { value } of fact.value) if (value !== "unknown" && value.is === "part") names.add(value.part);
    }
  }
  return names;
}

const gravest = (list: readonly DrawnFinding[]): Gravity =>
  list.flatMap((finding) => gravityOf(finding) ?? []).sort(byGravity)[0] ?? "note";

const ampsText = (x: number): string => decimalText(x, { figures: x >= 100 ? 3 : 2 });

/** Draws the wires between blocks; what finds no way is named at its ends, and what has no place there is returned. */
function joinBlocks(pages: readonly DrawnPage[], links: readonly Link[], width: number): string[] {
  const lost: string[] = [];
  const grids = pages.map(({ page, height }) => makeGrid([page.x(0), page.y(0)], width, height));
  const nearest = [...links].sort((a, b) => reach(pages, a) - reach(pages, b));
  for (const link of nearest) {
    const ends = pages.map(({ sketch }) => landingsOf(sketch, link));
    const i = ends.findIndex(([from, to]) => from.length > 0 && to.length > 0);
    const page = pages[i];
    const grid = grids[i];
    if (page !== undefined && grid !== undefined && drawLink(page.sketch, grid, link, page.page.hand.variant) !== null)
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

/** How far apart the ends of a wire lie, mm: what has a short way is drawn first, and before it what goes on on another sheet. */
function reach(pages: readonly DrawnPage[], link: Link): number {
  for (const { sketch } of pages) {
    const [[from], [to]] = landingsOf(sketch, link);
    if (from !== undefined && to !== undefined)
      return Math.abs(from.at[0] - to.at[0]) + Math.abs(from.at[1] - to.at[1]);
  }
  return -1;
}

const NOWHERE: Sketch = {
  items: [],
  solids: [],
  pieces: [],
  landings: new Map(),
  notes: [],
  findings: new Map(),
  told: new Set(),
  counter: { next: 1 },
  shown: new Set(),
  pictured: new Set(),
};

/** Words over the columns of figures. */
function drawHead({ hand, columns, x, y }: Page, system: System): void {
  const at = y(2) - 1;
  const origin = x(0);
  const heads: [string, number][] = [
    [countsInFeet(system) ? "ft" : "m", columns.length],
    ["A", columns.amps],
    ["drop", columns.percent],
    ...(columns.volts === null ? [] : [["V", columns.volts] satisfies [string, number]]),
  ];
  putText(hand.sketch, null, textLine([{ text: "load", faint: true }], [origin + columns.name, at]), "table");
  for (const [text, right] of heads)
    putText(hand.sketch, null, textLine([{ text, faint: true }], [origin + right, at], "end"), "table");
}

/** The thing that a key path is about: itself, or the circuit or part that it belongs to. */
function placeOf(about: string, known: ReadonlySet<string>): string {
  for (let end = about.length; end > 0; end = about.lastIndexOf(".", end - 1)) {
    const path = about.slice(0, end);
    if (known.has(path)) return path;
  }
  return about;
}
