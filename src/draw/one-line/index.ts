/** The one-line diagram: from a computed build to sheets of paper. */
export { defaultPaper, drawOneLine } from "./draw-one-line.ts";
export type { OneLineBuild, OneLineOptions } from "./one-line-build.ts";
export type { DrawnFinding, Gravity } from "./drawn-finding.ts";
