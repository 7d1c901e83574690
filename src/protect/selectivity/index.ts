/** Whether of devices in series, or side by side, the right one alone opens. */
export { judgePair } from "./judge-pair.ts";
export { judgeStrings, type StringsQuestion } from "./judge-strings.ts";
export type { PairDevice, PairJudgement, PairMethod, PairQuestion, PairVerdict } from "./pair.ts";
