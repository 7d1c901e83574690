/** The one-line diagram: from a computed build to sheets of paper. */
export { defaultPaper, drawOneLine, type OneLineBuild, type OneLineOptions } from "./draw-one-line.ts";
export type { DrawnFinding } from "./drawn-finding.ts";
