/** Everything that the wire desk shows of a name, gathered from the core. */
export type { Carried } from "./carried.ts";
export { drawLesson, type LessonPageStep } from "./draw-lesson.ts";
export type { FactSaid } from "./fact-words.ts";
export type { LabelPiece } from "./label-pieces.ts";
export type { Running } from "./running.ts";
export { drawWireSheet } from "./sheets.ts";
export type {
  Neighbour,
  NeighbourSize,
  ReadingToChoose,
  RefusedPiece,
  ShownConversion,
  ShownDrawing,
  ShownFit,
  ShownName,
  ShownSection,
  WireCard,
} from "./wire-card-shape.ts";
export { wireCard } from "./wire-card.ts";
export type { ConvertWish, WireQuestion, WireSheetWish } from "./wire-question.ts";
