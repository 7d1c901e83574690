import type { Item, Point, Shape, TextShape } from "../scene.ts";
import { textWidth } from "../text-width.ts";
import { drawMark, MARK_MM, type MarkKind } from "./draw-mark.ts";
import { fitText, wrapText } from "./fit-text.ts";

/** Space on a sheet for words, mm. */
export interface Region {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

export const HEAD_CAP = 2.5;
export const TEXT_CAP = 1.8;
/** From line to line; marks over letters have room. */
export const PITCH = 3.3;
export const HEAD_PITCH = 5.2;

export const words = (
  text: string,
  [x, y]: Point,
  look: Partial<Pick<TextShape, "capMm" | "weight" | "anchor" | "ink">> = {},
): TextShape => ({
  is: "text",
  at: [x, y],
  text,
  capMm: look.capMm ?? TEXT_CAP,
  weight: look.weight ?? "regular",
  anchor: look.anchor ?? "start",
  ink: look.ink ?? "ink",
});

/** An item of nothing but words. */
export const textItem = (shapes: readonly Shape[], name = ""): Item => ({ role: "table", about: null, name, shapes });

/** One numbered note. */
export interface NoteText {
  readonly mark: MarkKind;
  readonly number: string;
  readonly title: string;
  readonly text: string;
  readonly about: string | null;
}

const INDENT = 8.5;

interface LaidNote {
  readonly note: NoteText;
  readonly head: readonly string[];
  readonly lines: readonly string[];
  readonly height: number;
}

function layNote(note: NoteText, width: number): LaidNote {
  const head = wrapText(note.title, TEXT_CAP, "semibold", width - INDENT);
  const lines = wrapText(note.text, TEXT_CAP, "regular", width - INDENT);
  return { note, head, lines, height: (head.length + lines.length) * PITCH + 1.4 };
}

const GOES_ON = " … see the sheet of notes";

/** A line that says that more follows elsewhere, cut between words. */
function goesOn(line: string, room: number): string {
  const all = line.split(" ");
  while (all.length > 1 && textWidth(all.join(" ") + GOES_ON, TEXT_CAP, "regular") > room) all.pop();
  return all.join(" ").replace(/[,;:.]$/, "") + GOES_ON;
}

/**
 * Writes numbered notes into a space, as many as it holds.
 *
 * @param most lines of text of each; what is longer is cut and says so, and so is the last where it fits no other way
 * @returns the items, how many notes found room, and which of them are cut
 */
export function writeNotes(
  notes: readonly NoteText[],
  { left, top, width, height }: Region,
  most = Infinity,
): { readonly items: Item[]; readonly written: number; readonly cut: readonly number[] } {
  const items: Item[] = [];
  const cut: number[] = [];
  let y = top;
  let written = 0;
  for (const { note, head, lines: all, height: whole } of notes.map((n) => layNote(n, width))) {
    const room = Math.floor((top + height - y - 1.4) / PITCH) - head.length;
    const held = most === Infinity ? all.length : Math.min(all.length, most, room);
    if (held < Math.min(1, all.length) || y + whole - (all.length - held) * PITCH > top + height) break;
    const lines = all.slice(0, held);
    if (held < all.length) {
      lines.push(goesOn(lines.pop() ?? "", width - INDENT));
      cut.push(written);
    }
    const shapes: Shape[] = [...drawMark(note.mark, [left + MARK_MM / 2, y + PITCH - TEXT_CAP / 2 - 0.4])];
    shapes.push(words(note.number, [left + MARK_MM + 0.8, y + PITCH - 0.4], { weight: "semibold" }));
    for (const line of head) shapes.push(words(line, [left + INDENT, (y += PITCH) - 0.4], { weight: "semibold" }));
    for (const line of lines) shapes.push(words(line, [left + INDENT, (y += PITCH) - 0.4], { ink: "ink2" }));
    items.push({ role: "table", about: note.about, name: `${note.number}: ${note.title} ${note.text}`, shapes });
    y += 1.4;
    written++;
  }
  return { items, written, cut };
}

/** Writes lines of two columns of words, as many as a space holds, and says how many are left. */
export function writeList(
  lines: readonly (readonly [says: string, mark: string])[],
  { left, top, width, height }: Region,
  columns: number,
): { readonly shapes: Shape[]; readonly written: number } {
  const shapes: Shape[] = [];
  const gap = 6;
  const each = (width - gap * (columns - 1)) / columns;
  const line = 4.6;
  const rows = Math.max(0, Math.floor(height / line));
  const written = Math.min(lines.length, rows * columns);
  const used = Math.ceil(written / columns);
  lines.slice(0, written).forEach(([says, mark], i) => {
    const x = left + (each + gap) * Math.floor(i / used);
    const y = top + line * (i % used) + 3.2;
    const markWidth = mark === "" ? 0 : textWidth(mark, TEXT_CAP, "regular") + 2;
    shapes.push(words(fitText(says, TEXT_CAP, "regular", each - markWidth), [x, y]));
    if (mark !== "") shapes.push(words(mark, [x + each, y], { anchor: "end", ink: "ink2" }));
    shapes.push({ is: "polyline", points: [[x, y + 1.2], [x + each, y + 1.2]], stroke: { ink: "hair", width: 0.18 } }); // prettier-ignore
  });
  return { shapes, written };
}

/** A bar that must measure 50 mm on paper. */
export function drawCheckBar([x, y]: Point): Item {
  const stroke = { ink: "ink", width: 0.35 } as const;
  return {
    role: "sheet",
    about: null,
    name: "check bar of 50 mm",
    shapes: [
      { is: "polyline", points: [[x, y - 2], [x, y], [x + 50, y], [x + 50, y - 2]], stroke }, // prettier-ignore
      { is: "polyline", points: [[x + 25, y - 1.2], [x + 25, y]], stroke }, // prettier-ignore
      words("must measure 50 mm: print at 100 %", [x + 52, y]),
    ],
  };
}
