import type { Diagnostic, Span, Told } from "../../diagnostic.ts";
import { firstDifference, meaningOf } from "./expect-edit.ts";
import type { PlanDocument } from "./node.ts";
import { planEdit, refuse, type Edit } from "./plan-edit.ts";
import { createDocumentMemory, readDocument, type DocumentMemory } from "./read-document.ts";
import { applySplices, composeSplices, invertSplices, type Splice } from "./splice.ts";
import { tell } from "./words.ts";

export interface Edited {
  readonly text: string;
  /** From the old text to the new. */
  readonly splices: readonly Splice[];
  /** From the new text to the old. */
  readonly undo: readonly Splice[];
}

/**
 * Changes a plan, so that only what is meant changes.
 *
 * Comments, order and style of all else stay as they are, byte for byte. The edits are made one after the other; paths
 * are those that hold when an edit's turn comes. After each the plan is read again and compared with what it said before
 * and should say now; and in the end no error or warning may be new. If any of this fails, nothing is changed and a
 * diagnostic says why.
 *
 * @param memory of the readings of this plan
 * @example
 * applyEdits("W13: { length: 5 m } # to the galley\n", [{ do: "set", path: ["W13", "length"], value: "5.2 m" }]).value.text
 * //=> "W13: { length: 5.2 m } # to the galley\n"
 */
export function applyEdits(
  text: string,
  edits: readonly Edit[],
  memory: DocumentMemory = createDocumentMemory(),
): Told<Edited> {
  const before = readDocument(text, memory);
  let now = before.value;
  let splices: Splice[] = [];
  for (const edit of edits) {
    const spans = edit.do === "rename" ? (edit.and ?? []).map((span) => carried(span, splices)) : [];
    const made = make(now, edit, spans, memory);
    if ("refusal" in made) return { value: unchanged(text), diagnostics: [made.refusal] };
    splices = composeSplices(text.length, splices, made.splices);
    now = made.document;
  }
  const after = readDocument(now.text, memory);
  const fresh = firstNew(before.diagnostics, after.diagnostics);
  if (fresh !== null) {
    const refusal = tell("plan/edit-new-message", [], fresh.about, { message: fresh.message });
    return { value: unchanged(text), diagnostics: [refusal] };
  }
  return { value: { text: now.text, splices, undo: invertSplices(text, splices) }, diagnostics: [] };
}

const unchanged = (text: string): Edited => ({ text, splices: [], undo: [] });

type Made = { readonly splices: Splice[]; readonly document: PlanDocument } | { readonly refusal: Diagnostic };

/** One edit: the splices, and the proof that they do what is meant. */
function make(document: PlanDocument, edit: Edit, spans: readonly (Span | null)[], memory: DocumentMemory): Made {
  const planned = planEdit(document, edit, spans);
  if ("refusal" in planned) return planned;
  const step = (text: string, splices: readonly Splice[]): PlanDocument =>
    readDocument(applySplices(text, splices), memory).value;
  let { splices } = planned;
  let after = step(document.text, splices);
  if (planned.then !== undefined) {
    const more = planned.then(after);
    splices = composeSplices(document.text.length, splices, more);
    after = step(after.text, more);
  }
  const difference = firstDifference(planned.expected, meaningOf(after));
  if (difference !== null) return refuse("plan/edit-not-proved", difference);
  return { splices, document: after };
}

/** Where a stretch of the first text stands after splices; null: they changed it. */
function carried([start, end]: Span, splices: readonly Splice[]): Span | null {
  let shift = 0;
  for (const splice of splices) {
    if (splice.start >= end) break;
    if (splice.end > start) return null;
    shift += splice.text.length - (splice.end - splice.start);
  }
  return [start + shift, end + shift];
}

/** The first error or warning that was not there before. */
function firstNew(before: readonly Diagnostic[], after: readonly Diagnostic[]): Diagnostic | null {
  const known = new Map<string, number>();
  const key = ({ id, message }: Diagnostic) => `${id} ${message}`;
  for (const diagnostic of before) known.set(key(diagnostic), (known.get(key(diagnostic)) ?? 0) + 1);
  for (const diagnostic of after) {
    if (diagnostic.level !== "error" && diagnostic.level !== "warning") continue;
    const left = known.get(key(diagnostic)) ?? 0;
    // With too many to list nobody can tell whether one is new.
    if (left === 0 || diagnostic.id === "plan/too-many-messages") return diagnostic;
    known.set(key(diagnostic), left - 1);
  }
  return null;
}
