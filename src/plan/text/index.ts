/**
 * The text of a plan: read into nodes with places, changed by edits, shown with a mark.
 *
 * text ─ refuse-odd-characters ─ cut-text ─▶ blocks ─ tokens ─ read-block · read-flow ─▶ nodes, kept by the text of the
 * block. What the nodes mean is not known here.
 *
 * edits ─ plan-edit ─▶ splices and what the plan should say then ─ read again, compare ─▶ new text, or a reason.
 */
export { applyEdits, type Edited } from "./edit.ts";
export { locate, textAt, type Level, type Part, type Path } from "./locate.ts";
export { nearestNames } from "./nearest.ts";
export type { ListNode, MapEntry, MapNode, Node, PlacedEntry, PlanDocument, ScalarNode, Section } from "./node.ts";
export type { Edit } from "./plan-edit.ts";
export { excerpt, lineStartsOf, positionAt, type Excerpt, type Position } from "./positions.ts";
export { createDocumentMemory, LONGEST_PLAN, readDocument, type DocumentMemory } from "./read-document.ts";
export { applySplices, composeSplices, invertSplices, type Splice } from "./splice.ts";
export { visible } from "./visible.ts";
export type { EditMap, EditValue } from "./write-value.ts";
