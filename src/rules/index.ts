export { figure, printFigure, type Figure, type FigureUnit } from "./figure.ts";
export {
  outcomes,
  severities,
  type Finding,
  type Judgement,
  type JudgementTally,
  type Needed,
  type NotApplicable,
  type Outcome,
  type Pass,
  type Severity,
  type Waived,
} from "./finding.ts";
export { alsoInSays } from "./also-in.ts";
export { withstandOf, withWithstand } from "./protection/withstand-answers.ts";
export { earthFaultsAt, earthFaultsOf } from "./ac/as-designed.ts";
export { earthLoopOf, missingOf, withEarthLoop, type EarthLoopAnswer } from "./ac/earth-loop-answers.ts";
export { viewBuild, type Build, type CircuitView, type Computed, type PartView } from "./build.ts";
export { coresNeeded } from "./cable/count-cores.ts";
export { cureMoves, type CureMove } from "./cure-move.ts";
export { judgeDesign, type JudgeOptions } from "./judge-design.ts";
export { colourClashes, coloursOfBuild } from "./label/colours-of-build.ts";
export { severityOf, type Rule, type RuleSource } from "./rule.ts";
export type { RuleSetId } from "./rule-set-id.ts";
export { rules, rulesOnDemand } from "./rules.ts";
export { checkWaivers } from "./waivers.ts";
