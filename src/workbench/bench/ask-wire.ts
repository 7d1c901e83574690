import type { Bench } from "../contract.ts";
import type { WorkerClient } from "../worker/client.ts";

/** Questions of wire alone, which no plan is needed for. @param failed tells what went wrong and gives null */
export const wireQuestions = (
  client: WorkerClient,
  failed: (reason: unknown) => null,
): Pick<Bench, "wire" | "wireSheet" | "wireLesson"> => ({
  wire: (question, signal) => client.ask({ ask: "wire", of: "", question }, signal),
  wireSheet: (wish) => client.ask({ ask: "wire-sheet", of: "", wish }).catch(failed),
  wireLesson: () => client.ask({ ask: "wire-lesson", of: "" }).catch(failed),
});
