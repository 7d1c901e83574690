export { explainWhy, type Explained } from "./explain-why.ts";
export { explanationPage, leaningText, sourceText, workedText } from "./explanation-page.ts";
export type {
  Change,
  Explanation,
  LadderRung,
  LeansOn,
  TablePlace,
  WayElement,
  WorkedFigure,
  WorkedSection,
  WorkedStep,
} from "./explanation.ts";
export { howToAsk, listSubjects, type Askable } from "./subject.ts";
export type { ExplainOptions } from "./why-circuit.ts";
export { whyFinding } from "./why-finding.ts";
