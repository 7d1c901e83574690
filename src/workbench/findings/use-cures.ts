import { useEffect, useState } from "preact/hooks";
import type { CureSearch } from "../../cure/index.ts";
import type { Bench, FindingKey } from "../contract.ts";

export type CureState =
  { readonly is: "idle" } | { readonly is: "searching" } | { readonly is: "done"; readonly search: CureSearch };

/** Looks for cures while somebody wants them, and gives up when they no longer do. A plan that changed is searched anew. */
export function useCures(bench: Bench, { rule, about }: FindingKey, isWanted: boolean): CureState {
  const [state, setState] = useState<CureState>({ is: "idle" });
  const { revision } = bench.state;
  useEffect(() => {
    if (!isWanted) {
      setState({ is: "idle" });
      return undefined;
    }
    const control = new AbortController();
    setState({ is: "searching" });
    bench.findCures({ rule, about }, control.signal).then(
      (search) => {
        if (!control.signal.aborted) setState(search === null ? { is: "idle" } : { is: "done", search });
      },
      () => {
        if (!control.signal.aborted) setState({ is: "idle" });
      },
    );
    return () => {
      control.abort();
    };
  }, [bench, rule, about, revision, isWanted]);
  return state;
}
