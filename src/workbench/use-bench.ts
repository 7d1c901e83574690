import { useEffect, useReducer } from "preact/hooks";
import type { Bench, BenchState } from "./contract.ts";

/** The state of the bench; whoever calls it is drawn anew with every change. */
export function useBench(bench: Bench): BenchState {
  const [, redraw] = useReducer<number, undefined>((n) => n + 1, 0);
  const drawn = bench.state;
  useEffect(() => {
    const stop = bench.subscribe(() => {
      redraw(undefined);
    });
    // What changed after it was drawn and before anybody listened.
    if (bench.state !== drawn) redraw(undefined);
    return stop;
  }, [bench]);
  return drawn;
}
