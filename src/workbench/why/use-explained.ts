import { useEffect, useState } from "preact/hooks";
import type { Explained } from "../../why/index.ts";
import type { Bench } from "../contract.ts";

export interface ExplainedState {
  readonly subject: string | null;
  readonly explained: Explained | null;
  /** at once: the answer is on its way · changes: it is there, and what would change it is looked for · done · failed: none came */
  readonly stage: "at once" | "changes" | "done" | "failed";
}

/** Explains the subject at once, then with what would change it; a plan that was computed anew is asked anew. */
export function useExplained(bench: Bench, subject: string | null, revision: number): ExplainedState {
  const [state, setState] = useState<ExplainedState>({ subject, explained: null, stage: "at once" });
  useEffect(() => {
    if (subject === null) return undefined;
    const control = new AbortController();
    const set = (explained: Explained | null, stage: ExplainedState["stage"]): void => {
      if (!control.signal.aborted) setState({ subject, explained, stage });
    };
    // One after the other: the worker answers the latest question of a kind alone.
    const ask = async (): Promise<void> => {
      const first = await bench.explain(subject, false, control.signal);
      if (first === null || !first.ok || first.explanation.ladder.length === 0) {
        set(first, first === null ? "failed" : "done");
        return;
      }
      set(first, "changes");
      const full = control.signal.aborted ? null : await bench.explain(subject, true, control.signal);
      set(full ?? first, "done");
    };
    setState((old) => (old.subject === subject ? old : { subject, explained: null, stage: "at once" }));
    ask().catch(() => {
      set(null, "failed");
    });
    return () => {
      control.abort();
    };
  }, [bench, subject, revision]);
  return state.subject === subject ? state : { subject, explained: null, stage: "at once" };
}
