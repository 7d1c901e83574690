import type { Bench, BenchState } from "../contract.ts";
import type { WorkerClient } from "../worker/client.ts";

type Questions = Pick<
  Bench,
  | "wire"
  | "wireSheet"
  | "wireLesson"
  | "faults"
  | "circuitFaults"
  | "curvesSheet"
  | "stateMovers"
  | "stateAt"
  | "stateDrawing"
  | "allStates"
>;

/**
 * Questions of views that come later: of wire alone, which no plan is needed for, and of the faults and states of the plan as it stands.
 *
 * @param failed tells what went wrong and gives null
 */
export const viewQuestions = (
  client: WorkerClient,
  state: () => Pick<BenchState, "text" | "operatingState">,
  failed: (reason: unknown) => null,
): Questions => ({
  wire: (question, signal) => client.ask({ ask: "wire", of: "", question }, signal),
  wireSheet: (wish) => client.ask({ ask: "wire-sheet", of: "", wish }).catch(failed),
  wireLesson: () => client.ask({ ask: "wire-lesson", of: "" }).catch(failed),
  faults: (signal) => {
    const { text, operatingState } = state();
    return client.ask({ ask: "faults", of: text, operatingState }, signal).catch(failed);
  },
  circuitFaults: (circuit, signal) =>
    client.ask({ ask: "circuit-faults", of: state().text, circuit }, signal).catch(failed),
  stateMovers: (signal) => client.ask({ ask: "state-movers", of: state().text }, signal).catch(failed),
  stateAt: (asked, signal) => client.ask({ ask: "state-at", of: state().text, ...asked }, signal).catch(failed),
  stateDrawing: (asked, signal) =>
    client.ask({ ask: "state-drawing", of: state().text, ...asked }, signal).catch(failed),
  allStates: (signal) => client.ask({ ask: "all-states", of: state().text }, signal).catch(failed),
  curvesSheet: (circuit) => client.ask({ ask: "curves-sheet", of: state().text, circuit }).catch(failed),
});
