import { cleanText } from "../clean-text.ts";
import type { Item, Scene, Shape, TextShape } from "../scene.ts";
import { drawFrame } from "../sheet/draw-frame.ts";
import { fitText, wrapText } from "../sheet/fit-text.ts";
import { papers, type PaperName } from "../sheet/paper.ts";
import { textItem, words } from "../sheet/text-block.ts";
import { drawTitleBlock, titleHeight, type TitleFields } from "../sheet/title-block.ts";
import type { BoardDirectory, WayRow } from "./read-boards.ts";

const DIRECTORY_CAUTION =
  "Drawn from the plan: how it is meant, not how it is built. Who changes a way changes this sheet. Switch off and prove dead before you open the board.";
const MAINS_CAUTION = " Mains current kills: a licensed electrician and the local code decide.";
const DIRECT_CAUTION = " A battery gives on after every plug is out.";

type Weight = TextShape["weight"];
interface Written {
  readonly text: string;
  readonly capMm: number;
  readonly weight: Weight;
}

/** Sizes of letters by paper: a large sheet is read from farther away. */
const caps = (name: PaperName): { readonly title: number; readonly head: number; readonly body: number } =>
  name === "A3" ? { title: 7, head: 3.5, body: 3.2 } : { title: 5, head: 2.5, body: 2.2 };

interface Column {
  readonly head: string;
  /** Share of the width. */
  readonly share: number;
  readonly cell: (row: WayRow) => string;
  /** Longest that a cell may be, in lines. */
  readonly lines: number;
  readonly weight?: Weight;
}

const EMPTY = "empty";

const columns: readonly Column[] = [
  { head: "way", share: 0.1, cell: ({ way }) => way, lines: 1, weight: "semibold" },
  { head: "what it feeds", share: 0.27, cell: ({ feeds, circuit }) => (circuit === "" ? EMPTY : feeds), lines: 6, weight: "semibold" }, // prettier-ignore
  { head: "circuit", share: 0.085, cell: ({ circuit }) => circuit, lines: 2 },
  { head: "device", share: 0.2, cell: ({ device, isProposed }) => `${device}${isProposed ? " °" : ""}`, lines: 3 },
  { head: "rating", share: 0.085, cell: ({ rating }) => rating, lines: 1, weight: "semibold" },
  { head: "poles", share: 0.06, cell: ({ poles }) => poles, lines: 1 },
  { head: "leakage", share: 0.08, cell: ({ residual }) => residual, lines: 2 },
  { head: "wire", share: 0.12, cell: ({ wire }) => wire, lines: 4 },
];

const PAD = 1.2;
const INSET = 3;

/** A row of the table with its cells broken into lines. */
interface Laid {
  readonly row: WayRow;
  readonly cells: readonly (readonly string[])[];
  readonly height: number;
}

function lay(row: WayRow, width: number, capMm: number): Laid {
  const cells = columns.map(({ cell, share, lines, weight = "regular" }) => {
    const room = share * width - 2 * PAD;
    const all = wrapText(cell(row), capMm, weight, room);
    if (all.length <= lines) return all;
    return [...all.slice(0, lines - 1), fitText(all.slice(lines - 1).join(" "), capMm, weight, room)];
  });
  const most = Math.max(1, ...cells.map(({ length }) => length));
  return { row, cells, height: pitch(capMm) * most + 1.4 * PAD };
}

const pitch = (capMm: number): number => capMm * 1.75;

/**
 * Draws what hangs on the door of each board and fuse block: its main device, what feeds it, and for every way what it feeds, its device and its wire. Each
 * board begins on a sheet of its own, so that it can be hung up alone.
 *
 * @param boards as `readBoards` finds them
 * @param fields of the title block; number and sheet are filled in here
 * @returns none where no board has ways
 */
export function drawDirectories(boards: readonly BoardDirectory[], paperName: PaperName, fields: TitleFields): Scene[] {
  const pages = boards.flatMap((board) => pagesOf(board, paperName, fields));
  return pages.map((page, i) => {
    const of = `${i + 1}/${pages.length}`;
    const title = pages.length === 1 ? page.title : `${page.title}, sheet ${i + 1} of ${pages.length}`;
    return { ...page, title, items: [...page.items, ...titleBlock(paperName, { ...fields, sheet: of })] };
  });
}

function titleBlock(paperName: PaperName, fields: TitleFields): Item[] {
  const [, corner] = papers[paperName].frame;
  return drawTitleBlock(fields, corner);
}

function pagesOf(board: BoardDirectory, paperName: PaperName, fields: TitleFields): Scene[] {
  const paper = papers[paperName];
  const [[x1, y1], [x2, y2]] = paper.frame;
  const [left, top, width] = [x1 + INSET, y1 + INSET, x2 - x1 - 2 * INSET];
  const { body } = caps(paperName);
  const caution = wrapText(`${DIRECTORY_CAUTION}${board.current === "AC" ? MAINS_CAUTION : DIRECT_CAUTION}`, body, "semibold", width); // prettier-ignore
  const notes = wrapText(notesOf(board), body, "regular", width);
  const foot = y2 - titleHeight(fields) - pitch(body) * (caution.length + notes.length) - INSET;
  const head = headOf(board, paperName, width);
  const rowsTop = top + head.reduce((sum, { capMm }) => sum + pitch(capMm), 0) + INSET + pitch(body) + 1.4 * PAD;
  const laid = board.rows.map((row) => lay(row, width, body));
  const sheets: Laid[][] = [[]];
  let y = rowsTop;
  for (const one of laid) {
    if (y + one.height > foot && (sheets.at(-1)?.length ?? 0) > 0) {
      sheets.push([]);
      y = rowsTop;
    }
    sheets.at(-1)?.push(one);
    y += one.height;
  }
  const title = `Directory of ${board.name}`;
  return sheets.map((rows, p) => {
    const shapes: Shape[] = [];
    let at = top;
    head.forEach(({ text, capMm, weight }, i) => {
      const goesOn = i === 0 && p > 0 ? `${text}, continued` : text;
      at += pitch(capMm);
      shapes.push(words(fitText(goesOn, capMm, weight, width), [left, at - 0.3 * capMm], { capMm, weight }));
    });
    const says = [...notes, ...caution].map((text, i): Shape => words(text, [left, foot + INSET / 2 + pitch(body) * (i + 0.7)], { capMm: body, weight: i < notes.length ? "regular" : "semibold" })); // prettier-ignore
    return {
      width: paper.width,
      height: paper.height,
      title,
      says: `${title}. ${caution.join(" ")}`,
      items: [
        drawFrame(paper),
        { role: "table", about: board.about, name: head.map(({ text }) => text).join(". "), shapes },
        ...drawTable(board, rows, { left, top: at + INSET, width, capMm: body }),
        textItem(says, [...notes, ...caution].join(" ")),
      ],
    };
  });
}

/** How the signs in the table are read, those that are there. */
function notesOf({ rows }: BoardDirectory): string {
  const device = rows.some(({ isProposed }) => isProposed)
    ? ["° chosen for the load and the wire: the plan does not say what stands there."]
    : [];
  const colours = rows.some(({ wire }) => wire.includes("(")) ? ["Colours in brackets are proposed."] : [];
  const open = rows.some(({ rating }) => rating === "?") ? ["?: it cannot be told from the plan."] : [];
  return [...device, ...colours, ...open].join(" ");
}

function headOf(board: BoardDirectory, paperName: PaperName, width: number): Written[] {
  const { title, head } = caps(paperName);
  const lines = (text: string, weight: Weight): Written[] =>
    wrapText(text, head, weight, width).map((part) => ({ text: part, capMm: head, weight }));
  const { name, id, says, main, feeds, joins } = board;
  return [
    { text: fitText(name, title, "semibold", width), capMm: title, weight: "semibold" },
    ...lines(name === id ? says : `${id}, ${says}`, "regular"),
    ...lines(`Main device: ${main ?? "the plan states none"}.`, "semibold"),
    ...lines(feeds.length === 0 ? "Nothing is drawn that feeds it." : `Fed by ${feeds.join("; ")}.`, "regular"),
    ...(joins === "no" ? [] : lines(joins === "always" ? "Neutral and earth are joined in it." : "Whether neutral and earth are joined in it is not said.", "semibold")), // prettier-ignore
  ];
}

interface Area {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly capMm: number;
}

const HAIR = { ink: "frame", width: 0.25 } as const;
const RULE = { ink: "ink", width: 0.5 } as const;

function drawTable({ about }: BoardDirectory, rows: readonly Laid[], { left, top, width, capMm }: Area): Item[] {
  const starts = columns.map((_, i) => left + width * columns.slice(0, i).reduce((sum, { share }) => sum + share, 0));
  const line = (y: number, stroke: typeof HAIR | typeof RULE): Shape => ({ is: "polyline", points: [[left, y], [left + width, y]], stroke }); // prettier-ignore
  const headHeight = pitch(capMm) + 1.4 * PAD;
  const heads = columns.map(({ head, share }, i) => words(fitText(head, capMm, "regular", share * width - 2 * PAD), [(starts[i] ?? 0) + PAD, top + headHeight - PAD - 0.3 * capMm], { capMm, ink: "ink2" })); // prettier-ignore
  const items: Item[] = [textItem([line(top, RULE), ...heads, line(top + headHeight, RULE)])];
  let y = top + headHeight;
  rows.forEach(({ row, cells, height }, r) => {
    const isEmpty = row.circuit === "";
    const shapes = cells.flatMap((lines, i) =>
      lines.map((text, k): Shape => {
        const weight = isEmpty ? "regular" : (columns[i]?.weight ?? "regular");
        return words(text, [(starts[i] ?? 0) + PAD, y + 0.7 * PAD + pitch(capMm) * (k + 0.78)], { capMm, weight, ink: isEmpty ? "ink2" : "ink" }); // prettier-ignore
      }),
    );
    y += height;
    const says = `way ${row.way}: ${isEmpty ? EMPTY : `${row.feeds}, circuit ${row.circuit}`}${row.device === "" ? "" : `, ${row.device} ${row.rating}`}`; // prettier-ignore
    items.push({ role: "table", about, name: cleanText(says), shapes: [...shapes, line(y, r === rows.length - 1 ? RULE : HAIR)] }); // prettier-ignore
  });
  return items;
}
