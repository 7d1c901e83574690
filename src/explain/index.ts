export { cite, type Citation } from "./citation.ts";
export { printCitation } from "./print-citation.ts";
export { documents, isDocumentId, type Document, type DocumentId } from "./documents.ts";
export { formula, type Formula, type FormulaMeta } from "./formula.ts";
export {
  isRecording,
  recordStep,
  recordSteps,
  type Datum,
  type FormulaStep,
  type LookUpStep,
  type Step,
  type SymbolMeaning,
} from "./steps.ts";
export {
  findRow,
  labelOfRow,
  lookUp,
  lookUpNextDown,
  lookUpNextUp,
  takeCell,
  trustOfCell,
  type Cell,
  type Column,
  type ColumnOf,
  type LookedUp,
  type RowOf,
  type Table,
  type ValueOf,
} from "./table.ts";
export { isTrust, isVerified, printTrust, trustWords, weakestTrust, type Trust } from "./trust.ts";
