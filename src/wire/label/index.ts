export {
  labelContexts,
  type LabelContext,
  type LabelFact,
  type LabelProblem,
  type LabelProblemId,
  type LabelReading,
  type OrderQuantity,
  type WireReading,
} from "./label-reading.ts";
export { readLabel, type LabelOptions } from "./read-label.ts";
