export { carriedOf, type Carried, type CarriedBy } from "./carried.ts";
export { sayFacts, type FactSaid } from "./fact-words.ts";
export { cutLabel, type LabelPiece } from "./label-pieces.ts";
export type { Drop, Running } from "./running.ts";
export { drawLesson, type LessonPageStep } from "./draw-lesson.ts";
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
  ShownReading,
  ShownSection,
  WireCard,
  WireSheet,
} from "./wire-card-shape.ts";
export { wireCard } from "./wire-card.ts";
export { bareQuestion, type ConvertWish, type WireQuestion, type WireSheetWish } from "./wire-question.ts";
