import { printTrust } from "../../explain/index.ts";
import { missingSays } from "../../system/index.ts";
import { cleanText } from "../clean-text.ts";
import type { Item, Scene } from "../scene.ts";
import type { Paper } from "../sheet/paper.ts";
import type { TitleFields } from "../sheet/title-block.ts";
import { composeSheet, noteText, type SheetWords } from "./compose-sheet.ts";
import type { Page } from "./page.ts";
import { byGravity } from "./drawn-finding.ts";
import type { Graph } from "./graph.ts";
import { legendOf } from "./legend-of.ts";
import type { OneLineBuild } from "./one-line-build.ts";
import type { PlacedNote, Sketch } from "./sketch.ts";
import { countsInFeet } from "./wire-view.ts";

/** A sheet with its drawing, not yet its words. */
export interface DrawnPage {
  readonly page: Page;
  readonly sketch: Sketch;
  readonly height: number;
}

/** A short name of a text by which two prints are told apart; no proof against forgery. */
export function fingerprint(text: string): string {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return (hash >>> 0).toString(16).padStart(8, "0");
}

/**
 * Puts words about what is drawn on each sheet, and what finds no room there on sheets of their own.
 *
 * @param unplaced notes without a place on any drawing
 * @param lost what could not be drawn
 * @param unjudged what no finding is drawn of, in whole sentences
 */
export function composePages(
  build: OneLineBuild,
  paper: Paper,
  fields: TitleFields,
  pages: readonly DrawnPage[],
  unplaced: readonly PlacedNote[],
  lost: readonly string[],
  unjudged: readonly string[],
  graph: Graph,
): Scene[] {
  const assumed = assumedOf(build);
  const feet = countsInFeet(build.system);
  const says = (sheet: number, notes: readonly PlacedNote[], count: number): SheetWords => ({
    fields: { ...fields, sheet: `${sheet} / ${count}` },
    notes: notes.map((note) => noteText(note, paper)),
    reading: `One line stands for all conductors of a circuit. Lengths are one way, in ${feet ? "feet" : "metres"}; drop out and back at its worst, in % of nominal volts. Contacts at rest.`,
    legend: legendOf(graph),
    caution: [
      "Not checked here: joints as made, AC short circuits, local law. No certificate: a licensed person decides.",
      ...unjudged,
    ],
    assumed: [],
    rest: "see the schedule",
    left: sheet === pages.length && lost.length > 0 ? [`Not drawn: ${lost.join("; ")}.`] : [],
    source: `plan ${fingerprint(build.plan.text)}`,
  });
  const draft = pages.map(({ page, sketch, height }, i) => {
    const notes = [...sketch.notes, ...(i === pages.length - 1 ? unplaced : [])];
    notes.sort((a, b) => byGravity(a.gravity, b.gravity) || placeOf(a) - placeOf(b));
    return { notes, bottom: page.y(height) + 1.25, sketch };
  });
  const onDrawing = (i: number, notes: readonly PlacedNote[], count: number): SheetWords => {
    const words = says(i + 1, notes, count);
    return i > 0 ? words : { ...words, assumed, rest: count > pages.length ? `see sheet ${count}` : words.rest };
  };
  const first = draft.map(({ notes, bottom }, i) => composeSheet(paper, onDrawing(i, notes, pages.length), bottom));
  const rest = draft.flatMap(({ notes }, i) => notes.filter((_, k) => first[i]?.untold.includes(k) === true));
  const blank = paper.frame[0][1];
  const sheets = sheetsOfNotes(rest, (notes) => composeSheet(paper, { ...says(0, notes, 1), left: [] }, blank).untold);
  // What is assumed stands whole where there is a sheet for it anyway, and somewhere always.
  if (assumed.length > 0 && (first[0]?.assumedWritten ?? 0) < assumed.length) {
    const last = sheets.at(-1);
    const room = last === undefined ? 0 : composeSheet(paper, { ...says(0, last, 1), left: [], assumed }, blank);
    if (first[0]?.assumedWritten === 0 || last !== undefined) {
      if (room === 0 || room.assumedWritten < assumed.length) sheets.push([]);
    }
  }
  const count = pages.length + sheets.length;
  const title = `${fields.title}, one-line diagram`;
  const scene = (items: readonly Item[], i: number): Scene => ({
    width: paper.width,
    height: paper.height,
    title: count > 1 ? `${title}, sheet ${i + 1} of ${count}` : title,
    says: `Sources on the left, loads on the right: ${graph.parts.size} parts, ${graph.wires.length} circuits.`,
    items,
  });
  return [
    ...draft.map(({ notes, bottom, sketch }, i) =>
      scene([...composeSheet(paper, onDrawing(i, notes, count), bottom).items, ...sketch.items], i),
    ),
    ...sheets.map((notes, i) => {
      const words = { ...says(pages.length + i + 1, notes, count), left: [] };
      const isLast = i === sheets.length - 1;
      return scene(composeSheet(paper, isLast ? { ...words, assumed } : words, blank).items, pages.length + i);
    }),
  ];
}

/** Those without a number come after those that stand on the drawing. */
const placeOf = ({ number }: PlacedNote): number => (number === 0 ? Number.MAX_SAFE_INTEGER : number);

function assumedOf({ design }: OneLineBuild): [says: string, mark: string][] {
  return [
    ...design.missing.map(({ about, fact, why }): [string, string] => [
      `${cleanText(about)}: ${fact}`,
      why === "unknown" ? "unknown" : missingSays[why],
    ]),
    ...[...design.assumptions]
      .sort((a, b) => b.about.length - a.about.length)
      .map(({ says, trust }): [string, string] => [cleanText(says), trust === "practice" ? trust : printTrust(trust)]),
  ];
}

/** Notes on sheets of nothing else, as many as each holds. */
function sheetsOfNotes(
  notes: readonly PlacedNote[],
  untold: (notes: readonly PlacedNote[]) => readonly number[],
): PlacedNote[][] {
  const sheets: PlacedNote[][] = [];
  let left = [...notes];
  while (left.length > 0) {
    const fit = Math.max(1, left.length - untold(left).length);
    sheets.push(left.slice(0, fit));
    left = left.slice(fit);
  }
  return sheets;
}
