/** The public door: what other programs may rely on. Everything else may move. */
import { compile } from "./compile.ts";
import { answerQuestion, type Answer } from "./size/answer.ts";
import type { Question } from "./size/question.ts";

export { compile, createMemory, type Compiled, type Memory } from "./compile.ts";
export type { Diagnostic, Level, Span, Told } from "./diagnostic.ts";

export {
  printQuantity,
  readQuantity,
  type Amount,
  type Dimension,
  type PrintOptions,
  type Problem,
  type Reading,
  type ReadOptions,
} from "./quantity/index.ts";
export { stockedSizes, type SizeSystem, type WireSize } from "./wire/index.ts";
export { readLabel, type LabelOptions } from "./wire/label/read-label.ts";
export type { LabelContext, LabelReading, WireReading } from "./wire/label/label-reading.ts";
export type { WireMake } from "./wire/make/wire-make.ts";
export {
  allNames,
  nameDialects,
  nameUses,
  nameWire,
  type KnownName,
  type NameWish,
  type NoWireName,
  type WireName,
} from "./wire/name/index.ts";
export {
  convertSize,
  neighbours,
  sizeLadder,
  type Conversion,
  type ConvertInput,
  type Neighbours,
  type SizeRung,
} from "./wire/convert/index.ts";
export {
  acResistance,
  bendRadius,
  cableMetal,
  cableOutside,
  cableSection,
  conduitFill,
  fillingOf,
  racewaySizes,
  smallestConduit,
  whatFits,
  type CableSection,
  type ConduitFill,
  type WhatFits,
} from "./wire/geometry/index.ts";
export {
  colourName,
  findClashes,
  meaningsOf,
  readColour,
  readTypeCode,
  schemeColours,
  type ColourClash,
  type ColourUse,
  type TypeCode,
} from "./wire/index.ts";
export { wireLesson, type LessonStep } from "./wire/lesson/index.ts";
export { carriesBy, type Carries } from "./ampacity/index.ts";
export { substitute, type Substitution } from "./act/index.ts";
export { drawCableSection } from "./draw/cable/index.ts";
export { drawPocketCard, drawSizeLadder, drawWallChart } from "./draw/ladder/index.ts";
export { isVerified, printTrust, type Trust } from "./explain/index.ts";
export { ruleSets, type RuleSet } from "./ruleset/index.ts";

export { readPlan, type Plan } from "./plan/index.ts";
export { excerpt, positionAt, type Excerpt, type Position } from "./plan/text/index.ts";
export { kinds, resolveSystem, type Assumption, type MissingFact, type System, type Value } from "./system/index.ts";
export { routeRuns, type Run, type Runs } from "./route/index.ts";
export { solveDc, type DcElement, type DcNetwork, type OperatingPoint } from "./network/index.ts";
export {
  judgeDesign,
  printFigure,
  rules,
  type Figure,
  type Finding,
  type Judgement,
  type Rule,
} from "./rules/index.ts";
export {
  findCures,
  findDecidingAssumptions,
  searchCures,
  type Cure,
  type CureOptions,
  type CureSearch,
  type DecidingAssumptions,
} from "./cure/index.ts";
export { explainWhy, explanationPage, listSubjects, type Explanation } from "./why/index.ts";
export { defaultPaper, drawOneLine, type OneLineOptions } from "./draw/one-line/index.ts";
export type { Item, Scene, Shape } from "./draw/scene.ts";
export { writeSvg, type SvgOptions } from "./draw/write-svg.ts";
export { bankSharing, constraintIds, settleDesign, studyFaults } from "./size/index.ts";
export { stateAt, studySwitching, type SwitchingStudy, type SystemSwitching } from "./switching/index.ts";
export type {
  BankSharing,
  CircuitDesign,
  Constraint,
  ConstraintId,
  Design,
  DeviceDesign,
  FaultStudy,
  LoadDesign,
  SizeOnPaper,
  StateDesign,
} from "./size/index.ts";

export { readQuestion, type Question, type QuestionProblem, type ReadQuestion } from "./size/question.ts";
export type { QuestionText } from "./size/question-text.ts";
export type { Answer } from "./size/answer.ts";

/**
 * Finds the wire and the device for one circuit, without a plan.
 *
 * Ignores everything ahead of the circuit: the source holds its volts.
 *
 * @param question from `readQuestion`
 * @example
 * const read = readQuestion({ load: "4.3 A", run: "5.2 m", drop: "3 %", rules: "us-small-craft" });
 * read.ok && sizeCircuit(read.question).size?.label //=> "12 AWG"
 */
export const sizeCircuit = (question: Question): Answer => answerQuestion(question, compile);
