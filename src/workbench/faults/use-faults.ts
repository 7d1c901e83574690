import { useEffect, useState } from "preact/hooks";
import type { Bench } from "../contract.ts";
import { useBench } from "../use-bench.ts";
import type { CircuitFaultsAnswer, FaultsAnswer } from "../worker/fault-answers.ts";

/** An answer of the worker; the last one stays, dimmed, until the next is there. */
export interface Asked<T> {
  readonly answer: T | null;
  /** It is of the plan, state and circuit that are shown now. */
  readonly fresh: boolean;
}

function useAsked<T>(key: string, ask: (signal: AbortSignal) => Promise<T | null>): Asked<T> {
  const [held, setHeld] = useState<{ readonly key: string; readonly answer: T | null }>({ key: "", answer: null });
  useEffect(() => {
    const dropped = new AbortController();
    ask(dropped.signal).then(
      (answer) => {
        if (!dropped.signal.aborted) setHeld({ key, answer });
      },
      () => undefined, // it was told by whoever asked
    );
    return () => {
      dropped.abort();
    };
  }, [key]);
  return { answer: held.answer, fresh: held.key === key };
}

/** Faults of the whole plan, asked anew with every change of it. */
export function useFaults(bench: Bench): Asked<FaultsAnswer> {
  const { revision, operatingState } = useBench(bench);
  return useAsked(`${revision} ${operatingState ?? ""}`, bench.faults);
}

/** Faults of one circuit. */
export function useCircuitFaults(bench: Bench, circuit: string | null): Asked<CircuitFaultsAnswer> {
  const { revision } = useBench(bench);
  return useAsked(`${revision} ${circuit ?? ""}`, (signal) =>
    circuit === null ? Promise.resolve(null) : bench.circuitFaults(circuit, signal),
  );
}
