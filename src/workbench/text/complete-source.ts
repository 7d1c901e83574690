import {
  pickedCompletion,
  startCompletion,
  type CompletionContext,
  type CompletionResult,
} from "@codemirror/autocomplete";
import type { EditorView } from "@codemirror/view";
import type { Bench } from "../contract.ts";

/** Asks the worker what may be written. What was asked on a text that has changed since is dropped. */
export function completeFrom(bench: Bench) {
  return async (context: CompletionContext): Promise<CompletionResult | null> => {
    const { state, pos, explicit } = context;
    const line = state.doc.lineAt(pos);
    const before = state.sliceDoc(line.from, pos);
    // While somebody types, lists come where something is expected, and not at every blank.
    if (!explicit && /(?:^|[^:{,[→>\s])\s+$/.test(before)) return null;
    const found = await bench.complete(pos);
    if (
      found === null ||
      context.aborted ||
      found.from > pos ||
      found.to < pos ||
      found.from < line.from ||
      found.to > line.to
    )
      return null;
    const typed = state.sliceDoc(found.from, pos);
    if (!explicit && found.options.some((o) => o.label === typed)) return null;
    // A unit is not put behind a figure that is still being typed.
    if (!explicit && typed === "" && /\d$/.test(before)) return null;
    return {
      from: found.from,
      to: found.to,
      // A blank at its start is not of the name yet: what was asked before it was asked elsewhere.
      validFor: /^(?:[^,{}[\]:→\s][^,{}[\]:→\n]*)?$/,
      options: found.options.map(({ label, detail, insert }, i) => ({
        label,
        detail: detail.replaceAll("`", ""),
        sortText: String(i).padStart(5, "0"),
        apply: (view: EditorView, completion, from, to) => {
          // The cursor goes between brackets that were put in.
          const inside = insert.endsWith("  }") ? insert.length - 2 : insert.length;
          view.dispatch({
            changes: { from, to, insert },
            selection: { anchor: from + inside },
            userEvent: "input.complete",
            annotations: pickedCompletion.of(completion),
          });
          if (/(?:: |:|→ |\{ {2}\})$/.test(insert)) startCompletion(view);
        },
      })),
    };
  };
}
