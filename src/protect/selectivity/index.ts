/** Whether of devices in series, or side by side, the right one alone opens. */
export { judgePair } from "./judge-pair.ts";
export { judgeStrings } from "./judge-strings.ts";
export type { PairJudgement, PairMethod, PairQuestion, PairVerdict } from "./pair.ts";
