/**
 * Acts: what a person does on a drawing, in a table or in the ask field, as one edit of the plan with the name of a step.
 *
 * typed text ─ read-ask ─▶ request ─ act ─▶ edits ─ proved ─▶ splices, text, step · or a question back
 */
export type { ActRequest, Acted, ActResult, KeyPath, NotActed } from "./request.ts";
export type { NewPlanAnswers } from "./new-plan-answers.ts";
export type { LoadReading, LoadSentence, SentenceProblem } from "./load-sentence.ts";
export type { FreePlace, FullPanel } from "./free-place.ts";
export type { ComparedRow, Comparison, RowId } from "./comparison.ts";
export type { AskContext, AskOffer, ViewId, WhatIf } from "./ask/ask-offer.ts";
export type { CompiledPlan } from "./stand.ts";
export { act } from "./act.ts";
export { compareStands } from "./compare-stands.ts";
export { readAsk } from "./ask/read-ask.ts";
export { readQuestionSentence } from "./ask/question-sentence.ts";
export { holdSizes } from "./hold-sizes.ts";
export { freePlaces } from "./free-places.ts";
export { emptyPlan, newPlan, proposedRules, type NewPlan } from "./new-plan.ts";
export { readBattery, type BatterySentence } from "./read-battery.ts";
export { readLoadSentence } from "./read-load-sentence.ts";
export { substitute, type Substitution } from "./substitute.ts";
export { whatIf } from "./what-if.ts";
