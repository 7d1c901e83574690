import type { SwitchingGroup } from "../../switching/index.ts";
import { cleanText } from "../clean-text.ts";
import type { Item, Point, Shape, Stroke } from "../scene.ts";
import { drawMark } from "../sheet/draw-mark.ts";
import { fitText, wrapText } from "../sheet/fit-text.ts";
import { words } from "../sheet/text-block.ts";
import { textWidth } from "../text-width.ts";
import { reachOf, type PlacedGraph } from "./place-graph.ts";
import type { JointJoin, StateGraph } from "./state-graph.ts";

const CAP = 1.8;
const LINE = 2.9;
/** From row to row, mm: three lines of words, a blade and a mark of earth have room. */
export const ROW = 8;
const [SHORE, BOX_LEFT, BOX_WIDTH, BOX_HEIGHT] = [4.5, 8, 14, 4.6];
const LABEL = 25;
const LIVE = 0.8;
const DEAD = 0.2;

const line = (points: readonly Point[], stroke: Stroke): Shape => ({ is: "polyline", points, stroke });
const strokeOf = (isLive: boolean): Stroke => (isLive ? { ink: "ink", width: LIVE } : { ink: "idle", width: DEAD });

/** The same geometry in every picture of a build. */
export interface CellPlan {
  readonly graph: StateGraph;
  readonly placed: PlacedGraph;
  readonly width: number;
  readonly height: number;
  /** Of the letters that stand for names which have no room. */
  readonly keys: readonly (readonly [letter: string, name: string])[];
  readonly linkLabels: readonly string[];
  readonly takerLabels: readonly (readonly string[])[];
}

/** Lays out what all pictures of a build have in common. */
export function planCell(graph: StateGraph, placed: PlacedGraph, width: number): CellPlan {
  const keys: [string, string][] = [];
  const step = stepOf(placed, width);
  const keyFor = (name: string): string => {
    const known = keys.find(([, n]) => n === name);
    if (known !== undefined) return known[0];
    const letter = keys.length < 26 ? String.fromCharCode(97 + keys.length) : `a${keys.length}`;
    keys.push([letter, name]);
    return letter;
  };
  const linkLabels = graph.links.map(({ label }) => {
    const name = cleanText(label);
    return textWidth(name, CAP, "regular") <= step - 1 ? name : keyFor(name);
  });
  const takerLabels = graph.takers.map(({ names }) => {
    const text = names.map(cleanText).join(", ");
    const lines = wrapText(text, CAP, "regular", LABEL - 3);
    if (lines.length <= 3) return lines;
    return names.length === 1 ? [keyFor(text)] : [`${names.length} loads: ${keyFor(text)}`];
  });
  return { graph, placed, width, height: placed.rowCount * ROW + 2, keys, linkLabels, takerLabels };
}

const firstColumn = BOX_LEFT + BOX_WIDTH + 2;
const stepOf = ({ columns }: PlacedGraph, width: number): number =>
  (width - LABEL - 3 - firstColumn) / Math.max(1, columns);

/** What is live and what is closed in one state. */
interface CellState {
  readonly isLive: (joint: number) => boolean;
  readonly group: SwitchingGroup;
}

/**
 * Draws one state: live metal strong, dead metal thin, blades as they stand, a full dot where neutral meets earth and an open ring where it could.
 *
 * @param corner top left, mm
 */
export function drawStateCell(plan: CellPlan, group: SwitchingGroup, [left, top]: Point): Item[] {
  const { graph, placed, width } = plan;
  const live = new Set(group.islands.flatMap(({ lineNodes }) => lineNodes));
  const state: CellState = {
    group,
    isLive: (joint) => (graph.joints[joint]?.nodes ?? []).some((n) => live.has(n)),
  };
  const step = stepOf(placed, width);
  const x = (column: number): number => left + firstColumn + step * column;
  const y = (row: number): number => top + ROW * (row + 0.5);
  const items: Item[] = [];
  if (graph.sources.some(({ isShore }) => isShore))
    items.push({ role: "frame", about: null, name: "", shapes: [line([[left + SHORE, top], [left + SHORE, top + plan.height - 2]], { ink: "frame", width: 0.25, dash: [2, 1] })] }); // prettier-ignore
  placed.segments.forEach((segment, i) => {
    const at = y(placed.rows[i] ?? 0);
    if (segment.kind === "source") items.push(...drawSource(plan, state, segment.of, [left, at], x(segment.to)));
    if (segment.kind === "takers") items.push(drawTakers(plan, state, segment.of, [x(segment.from), at], left + width - LABEL)); // prettier-ignore
    if (segment.kind === "link") items.push(drawLink(plan, state, segment.of, [x(segment.from), at], x(segment.to), step)); // prettier-ignore
  });
  graph.joints.forEach((joint, j) => {
    const own = placed.segments.filter((s) => s.joints.includes(j));
    if (own.length === 0) return;
    const [low, high] = reachOf(placed.segments, placed.rows, j);
    const at = x(joint.rank);
    const isLive = state.isLive(j);
    const shapes: Shape[] = low === high ? [] : [line([[at, y(low)], [at, y(high)]], strokeOf(isLive))]; // prettier-ignore
    if (own.length > 2) {
      for (const [i, s] of placed.segments.entries())
        if (s.joints.includes(j)) shapes.push({ is: "ellipse", centre: [at, y(placed.rows[i] ?? 0)], radii: [0.6, 0.6], fill: isLive ? "ink" : "idle" }); // prettier-ignore
    }
    for (const join of graph.joins) if (join.source === null && join.joint === j) shapes.push(...drawJoin(join, state, [at, y(high)])); // prettier-ignore
    if (shapes.length > 0) items.push({ role: "bar", about: null, name: "", shapes });
  });
  return items;
}

function drawSource({ graph }: CellPlan, state: CellState, of: number, [left, at]: Point, to: number): Item[] {
  const source = graph.sources[of];
  if (source === undefined) return [];
  const gives = state.group.gives.includes(source.id);
  const isLive = state.isLive(source.joint);
  const from = left + BOX_LEFT;
  const name = fitText(cleanText(source.name), CAP, gives ? "semibold" : "regular", BOX_WIDTH - 1.6);
  const shapes: Shape[] = [
    { is: "rectangle", from: [from, at - BOX_HEIGHT / 2], to: [from + BOX_WIDTH, at + BOX_HEIGHT / 2], fill: "paper", stroke: strokeOf(gives) }, // prettier-ignore
    words(name, [from + BOX_WIDTH / 2, at + CAP / 2], { anchor: "middle", weight: gives ? "semibold" : "regular", ink: gives ? "ink" : "ink2" }), // prettier-ignore
  ];
  const joins = graph.joins.filter((j) => j.source === of);
  joins.forEach((join, k) => {
    shapes.push(...drawJoin(join, state, join.isAshore ? [left + SHORE - 2.4, at - 2] : [from + 3 + 4 * k, at + BOX_HEIGHT / 2 - 1.2])); // prettier-ignore
  });
  const back = state.group.livePins.some((p) => p.source === source.id);
  const clashes = state.group.parallel.some((p) => p.lawful === false && p.sources.includes(source.id));
  if (back || clashes) shapes.push(...drawMark("fail", [from + BOX_WIDTH, at - BOX_HEIGHT / 2]));
  return [
    { role: "wire", about: null, name: "", shapes: [line([[from + BOX_WIDTH, at], [to, at]], strokeOf(isLive))] }, // prettier-ignore
    {
      role: "symbol",
      about: `parts.${source.part}`,
      name: `${cleanText(source.name)}: ${gives ? "gives" : "does not give"}`,
      shapes,
    },
  ];
}

/** A lead to earth: full dot closed, open ring open, with `?` where nobody says. */
function drawJoin(join: JointJoin, { group }: CellState, [x, y]: Point): Shape[] {
  const closed = group.islands.flatMap(({ joins }) => joins).find((j) => j.id === join.id);
  const isClosed = closed !== undefined;
  const stroke: Stroke = { ink: isClosed ? "ink" : "idle", width: isClosed ? 0.35 : DEAD };
  const earth = y + 3.1;
  return [
    line([[x, y + 1.2], [x, earth]], stroke), // prettier-ignore
    ...[1.1, 0.7, 0.3].map((half, i) => line([[x - half, earth + 0.45 * i], [x + half, earth + 0.45 * i]], stroke)), // prettier-ignore
    isClosed
      ? { is: "ellipse", centre: [x, y + 1.7], radii: [0.75, 0.75], fill: "ink" }
      : { is: "ellipse", centre: [x, y + 1.7], radii: [0.6, 0.6], fill: "paper", stroke: { ink: "ink2", width: 0.2 } },
    ...(isClosed && !closed.certain ? drawMark("unknown", [x + 2.4, y + 2.2]) : []),
  ];
}

function drawLink(
  { graph, linkLabels }: CellPlan,
  state: CellState,
  of: number,
  [from, at]: Point,
  to: number,
  step: number,
): Item {
  const link = graph.links[of];
  if (link === undefined) return { role: "symbol", about: null, name: "", shapes: [] };
  const isClosed = link.closedIn.includes(state.group.example[link.mover] ?? "");
  const [near, far] = [strokeOf(state.isLive(link.a)), strokeOf(state.isLive(link.b))];
  const middle = from + step / 2;
  const [a, b] = [middle - 1.8, middle + 1.8];
  const label = linkLabels[of] ?? "";
  const tips = [a, b].map((x): Shape => ({ is: "ellipse", centre: [x, at], radii: [0.4, 0.4], fill: "paper", stroke: { ink: "ink", width: 0.2 } })); // prettier-ignore
  return {
    role: "symbol",
    about: null,
    name: `${cleanText(link.label)}: ${isClosed ? "closed" : "open"}`,
    shapes: [
      line([[from, at], [a, at]], near), // prettier-ignore
      line([[b, at], [to, at]], far), // prettier-ignore
      line([[a, at], isClosed ? [b, at] : [b - 0.5, at - 1.9]], isClosed ? near : { ink: "ink2", width: 0.35 }), // prettier-ignore
      ...tips,
      ...(link.neutralThrough
        ? [line([[from + 0.8, at + 1.3], [Math.min(to, from + step) - 0.8, at + 1.3]], { ink: "ink2", width: 0.2, dash: [1.2, 0.8] })] // prettier-ignore
        : []),
      words(label, [middle, at - 2.5], { anchor: "middle", ink: "ink2" }),
    ],
  };
}

function drawTakers(
  { graph, takerLabels }: CellPlan,
  state: CellState,
  of: number,
  [from, at]: Point,
  to: number,
): Item {
  const takers = graph.takers[of];
  const own = state.group.takers.find(({ taker }) => taker === takers?.ids[0]);
  const lines = takerLabels[of] ?? [];
  const isLive = takers !== undefined && state.isLive(takers.joint);
  const isFed = own?.state === "fed";
  const isWrong = own !== undefined && ["reversed", "mixed", "no neutral"].includes(own.state);
  const top = at + CAP / 2 - ((lines.length - 1) * LINE) / 2;
  return {
    role: "symbol",
    about: takers === undefined ? null : `parts.${takers.ids[0]?.replace(/:.*/, "") ?? ""}`,
    name: `${(takers?.names ?? []).map(cleanText).join(", ")}: ${own?.state ?? "dead"}`,
    shapes: [
      line([[from, at], [to, at]], strokeOf(isLive)), // prettier-ignore
      {
        is: "polyline",
        points: [
          [to, at - 1.1],
          [to + 1.9, at],
          [to, at + 1.1],
        ],
        closed: true,
        ...(isFed
          ? { fill: "ink" as const }
          : { fill: "paper" as const, stroke: { ink: "ink2" as const, width: 0.2 } }),
      },
      ...(isWrong ? drawMark("fail", [to - 2, at]) : []),
      ...lines.map((text, i) => words(text, [to + 2.8, top + LINE * i], { ink: isFed ? "ink" : "ink2" })),
    ],
  };
}
