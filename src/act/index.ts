/**
 * Acts: what a person does on a drawing, in a table or in the ask field, as one edit of the plan with the name of a step.
 *
 * typed text ─ read-ask ─▶ request ─ act ─▶ edits ─ proved ─▶ splices, text, step · or a question back
 */
export type { ActRequest, Acted, ActResult, KeyPath, NotActed } from "./request.ts";
export type { NewPlanAnswers } from "./new-plan.ts";
export type { LoadReading, LoadSentence, SentenceProblem } from "./load-sentence.ts";
export type { FreePlace, FullPanel } from "./free-place.ts";
export type { ComparedRow, Comparison, RowId } from "./comparison.ts";
export type { AskContext, AskOffer, ViewId, WhatIf } from "./ask-offer.ts";
export type { CompiledPlan } from "./stand.ts";
