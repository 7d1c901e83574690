import { useEffect, useReducer } from "preact/hooks";
import type { Bench, BenchState } from "./contract.ts";

/** The state of the bench; whoever calls it is drawn anew with every change. */
export function useBench(bench: Bench): BenchState {
  const [, redraw] = useReducer<number, undefined>((n) => n + 1, 0);
  useEffect(
    () =>
      bench.subscribe(() => {
        redraw(undefined);
      }),
    [bench],
  );
  return bench.state;
}
