import type { SystemSwitching } from "../../switching/index.ts";
import { cleanText } from "../clean-text.ts";
import type { Item, Point, Scene, Shape } from "../scene.ts";
import { drawFrame } from "../sheet/draw-frame.ts";
import { drawMark, MARK_MM, type MarkKind } from "../sheet/draw-mark.ts";
import { wrapText } from "../sheet/fit-text.ts";
import { papers, type Paper, type PaperName } from "../sheet/paper.ts";
import { textItem, words } from "../sheet/text-block.ts";
import { drawTitleBlock, titleHeight, type TitleFields } from "../sheet/title-block.ts";
import type { StateDanger } from "./dangers.ts";
import { drawStateCell, planCell, type CellPlan } from "./draw-state-cell.ts";
import { placeGraph } from "./place-graph.ts";
import { stateGraph } from "./state-graph.ts";
import type { ToldState, ToldStates } from "./tell-states.ts";

export const STATES_PAPER_CAUTION =
  "Drawn from the plan: how it is meant, not how it is built. Mains current kills. A licensed electrician and the local code decide; prove dead before you touch.";

const [CAP, HEAD_CAP, TITLE_CAP] = [1.8, 2.2, 3.5];
const LINE = 2.9;
const [PAD, GAP] = [3, 4];

/** Where states are drawn: sheets with a frame, or one picture as wide as a page. */
export type StatesOn =
  { readonly on: PaperName; readonly fields: TitleFields } | { readonly on: "screen"; readonly width: number };

const marks: Readonly<Record<StateDanger["grade"], MarkKind>> = {
  must: "fail",
  should: "warn",
  unknown: "unknown",
  note: "note",
};

interface Written {
  readonly text: string;
  readonly weight: "regular" | "semibold";
  readonly capMm: number;
  readonly mark: MarkKind | null;
  readonly indent: number;
}

/** What stands under a picture. */
function captionOf(state: ToldState, width: number): Written[] {
  const room = width - 2 * PAD;
  const written: Written[] = [];
  const write = (text: string, more: Partial<Written> = {}): void => {
    const { weight = "regular", capMm = CAP, mark = null, indent = 0 } = more;
    wrapText(cleanText(text), capMm, weight, room - indent).forEach((part, i) => {
      written.push({ text: part, weight, capMm, mark: i === 0 ? mark : null, indent });
    });
  };
  const who = state.gives.length === 0 ? "nothing gives" : `${state.gives.join(" and ")} ${state.gives.length === 1 ? "gives" : "give"}`; // prettier-ignore
  const worst = state.dangers[0]?.grade;
  write(`${state.number}: ${who}`, {
    weight: "semibold",
    capMm: HEAD_CAP,
    ...(worst === "must" ? { mark: marks[worst], indent: MARK_MM + 1.2 } : {}),
  });
  write(state.way);
  for (const { sources, hasNeutral, high, places } of state.joins) {
    if (!hasNeutral) continue;
    const at = places.map(({ join, where, certain }) => {
      const place = where === "ashore" ? "ashore" : where === "inside" ? `in ${join}` : `at ${join}`;
      return certain ? place : `${place} (not said)`;
    });
    write(`N–PE of ${sources.join(", ")} joined ${high === 0 ? "nowhere" : at.join(" and ")}`);
  }
  for (const { grade, says } of state.dangers) write(says, { mark: marks[grade], indent: MARK_MM + 1.2 });
  return written;
}

const heightOf = (written: readonly Written[]): number =>
  written.reduce((sum, { capMm }) => sum + (capMm > CAP ? LINE + 1 : LINE), 0);

function drawCaption(written: readonly Written[], [left, top]: Point): Shape[] {
  let y = top;
  return written.flatMap(({ text, weight, capMm, mark, indent }) => {
    y += capMm > CAP ? LINE + 1 : LINE;
    return [
      ...(mark === null ? [] : drawMark(mark, [left + MARK_MM / 2, y - capMm / 2])),
      words(text, [left + indent, y], { weight, capMm }),
    ];
  });
}

/**
 * Draws one small picture a state, all with the same geometry: live metal strong, dead metal thin, blades as they stand, where neutral meets earth. What is
 * dangerous in a state stands under it with the mark of its weight.
 *
 * @returns sheets, or on a screen one picture as high as it needs to be; none where nothing alternates or nothing is told
 */
export function drawStates(switching: SystemSwitching, told: ToldStates, name: string, sheet: StatesOn): Scene[] {
  const { groups } = switching.study;
  if (told.untold !== null || switching.problem.sources.every(({ kind }) => kind === "store")) return [];
  const title = `States of the alternating side: ${cleanText(name === "" ? "unnamed build" : name)}`;
  const room = roomOf(sheet);
  const across = Math.max(1, Math.floor((room.width + GAP) / (82 + GAP)));
  const width = (room.width - GAP * (across - 1)) / across;
  const graph = stateGraph(switching);
  const plan = planCell(graph, placeGraph(graph), width - 2 * PAD);
  const cells = told.states.map((state) => ({ state, caption: captionOf(state, width) }));
  const rows = Array.from({ length: Math.ceil(cells.length / across) }, (_, r) => cells.slice(r * across, (r + 1) * across)); // prettier-ignore
  const heights = rows.map((row) => 2 * PAD + plan.height + Math.max(...row.map(({ caption }) => heightOf(caption))));
  const head = headOf(title, plan, room.width);
  const bodyTop = room.top + heightOf(head) + 3;
  const pages: number[][] = [[]];
  let y = bodyTop;
  rows.forEach((_, r) => {
    const high = heights[r] ?? 0;
    if (room.bottom !== null && y + high > room.bottom && (pages.at(-1)?.length ?? 0) > 0) {
      pages.push([]);
      y = bodyTop;
    }
    pages.at(-1)?.push(r);
    y += high + GAP;
  });
  return pages.map((page, p) => {
    const items: Item[] = [textItem(drawCaption(head, [room.left, room.top]), title)];
    let at = bodyTop;
    for (const r of page) {
      (rows[r] ?? []).forEach(({ state, caption }, c) => {
        const left = room.left + c * (width + GAP);
        const group = groups[state.number - 1];
        if (group === undefined) return;
        const high = heights[r] ?? 0;
        items.push({ role: "frame", about: null, name: "", shapes: [{ is: "rectangle", from: [left, at], to: [left + width, at + high], stroke: { ink: "frame", width: 0.25 } }] }); // prettier-ignore
        items.push(...drawStateCell(plan, group, [left + PAD, at + PAD]));
        items.push({ role: "table", about: null, name: `State ${caption.map(({ text }) => text).join(" ")}`, shapes: drawCaption(caption, [left + PAD, at + PAD + plan.height - 1]) }); // prettier-ignore
      });
      at += (heights[r] ?? 0) + GAP;
    }
    return room.finish(items, at, title, p, pages.length);
  });
}

/** The title, how it is read, and letters that stand for names. */
function headOf(title: string, { keys }: CellPlan, width: number): Written[] {
  const lines = (text: string): Written[] =>
    wrapText(text, CAP, "regular", width).map((part) => ({ text: part, weight: "regular", capMm: CAP, mark: null, indent: 0 })); // prettier-ignore
  return [
    ...wrapText(title, TITLE_CAP, "semibold", width).map((text): Written => ({ text, weight: "semibold", capMm: TITLE_CAP, mark: null, indent: 0 })), // prettier-ignore
    ...lines(
      "Strong: live. Thin: dead. Full dot on a mark of earth: neutral meets earth there; open ring: it could. Broken line under a switch: the neutral goes past it. Left of the broken line: ashore. Switches of single loads are taken as on.",
    ),
    ...(keys.length === 0 ? [] : lines(keys.map(([letter, name]) => `${letter}: ${name}`).join("; "))),
  ];
}

interface Room {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly bottom: number | null;
  readonly finish: (items: readonly Item[], end: number, title: string, page: number, pages: number) => Scene;
}

function roomOf(sheet: StatesOn): Room {
  if (sheet.on === "screen") {
    const width = sheet.width - 2 * PAD;
    return {
      left: PAD,
      top: PAD,
      width,
      bottom: null,
      finish: (items, end, title) => {
        const caution = cautionLines(width);
        return {
          width: sheet.width,
          height: end + heightOf(caution) + PAD,
          title,
          says: `${title}. ${STATES_PAPER_CAUTION}`,
          items: [...items, textItem(drawCaption(caution, [PAD, end - GAP / 2]), STATES_PAPER_CAUTION)],
        };
      },
    };
  }
  const paper: Paper = papers[sheet.on];
  const [[x1, y1], [x2, y2]] = paper.frame;
  const width = x2 - x1 - 2 * PAD;
  const caution = cautionLines(width);
  const foot = y2 - titleHeight(sheet.fields) - heightOf(caution) - PAD;
  return {
    left: x1 + PAD,
    top: y1 + PAD,
    width,
    bottom: foot,
    finish: (items, _, title, page, pages) => ({
      width: paper.width,
      height: paper.height,
      title: pages === 1 ? title : `${title}, sheet ${page + 1} of ${pages}`,
      says: `${title}. ${STATES_PAPER_CAUTION}`,
      items: [
        drawFrame(paper),
        ...drawTitleBlock({ ...sheet.fields, sheet: `${page + 1}/${pages}` }, [x2, y2]),
        ...items,
        textItem(drawCaption(caution, [x1 + PAD, foot]), STATES_PAPER_CAUTION),
      ],
    }),
  };
}

const cautionLines = (width: number): Written[] =>
  wrapText(STATES_PAPER_CAUTION, CAP, "semibold", width).map((text) => ({ text, weight: "semibold", capMm: CAP, mark: null, indent: 0 })); // prettier-ignore
