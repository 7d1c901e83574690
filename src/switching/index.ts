export type {
  DirectPort,
  PositionSet,
  ProblemContact,
  ProblemGuard,
  ProblemInterlock,
  ProblemJoin,
  ProblemMover,
  ProblemNode,
  ProblemRule,
  ProblemSource,
  ProblemTaker,
  SwitchingLimits,
  SwitchingProblem,
} from "./problem.ts";
export type { TooLarge } from "./reached.ts";
export { sayMover, saySteps, sayState } from "./say-steps.ts";
export { stateAt, type StateAt } from "./state-at.ts";
export type {
  GuardOnWay,
  Island,
  IslandJoin,
  LeafSwitch,
  Positions,
  Reach,
  StateFacts,
  Step,
  SwitchingGroup,
  SwitchingStudy,
  TakerState,
  Transient,
} from "./study.ts";
export { studyProblem } from "./study-problem.ts";
export { problemOf, type NamedProblem } from "./problem-of.ts";
export { studySwitching, type SystemSwitching } from "./study-switching.ts";
export { rootOf, separate, unite } from "./union-find.ts";
