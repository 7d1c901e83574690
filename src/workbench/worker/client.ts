import type { AnswerOf, FromWorker, PlanMessage, Question, ToWorker } from "./protocol.ts";

/** Told by the worker without being asked. */
export type News = Exclude<FromWorker, { readonly is: "answer" | "failed" | "ready" }>;

export interface WorkerClient {
  /** The plan as it stands now; what was asked to be compiled before is dropped. */
  readonly sendPlan: (message: PlanMessage) => void;
  /** Null: it was dropped by its signal. Rejects with what went wrong in the worker. */
  readonly ask: <Q extends Question>(question: Q, signal?: AbortSignal) => Promise<AnswerOf[Q["ask"]] | null>;
}

/** Searches take seconds and stand beside the worker that answers every key. */
const isSearch = (question: Question): boolean =>
  question.ask === "cures" || (question.ask === "why" && question.changes);

interface Waiting {
  readonly settle: (value: AnswerOf[keyof AnswerOf] | null) => void;
  readonly fail: (reason: Error) => void;
}

/**
 * Opens the two workers of the page: one compiles and answers within a frame or two, one searches.
 *
 * @param make a worker that runs worker.ts
 */
export function openWorkers(make: () => Worker, hear: (news: News) => void): WorkerClient {
  const waiting = new Map<number, Waiting>();
  let last = 0;
  const listen = (worker: Worker): Worker => {
    worker.addEventListener("message", ({ data }: MessageEvent<FromWorker>) => {
      if (data.is === "ready") return;
      if (data.is !== "answer" && data.is !== "failed") {
        hear(data);
        return;
      }
      const asked = waiting.get(data.id);
      waiting.delete(data.id);
      if (data.is === "answer") asked?.settle(data.value);
      else asked?.fail(new Error(data.says));
    });
    worker.addEventListener("error", (event) => {
      // Without a message it is the file itself that did not come.
      const says = event.message || "it was not there";
      for (const { fail } of waiting.values()) fail(new Error(says));
      waiting.clear();
      hear({ is: "lost", says });
    });
    return worker;
  };
  const quick = listen(make());
  let searching: Worker | null = null;
  const send = (worker: Worker, message: ToWorker): void => {
    worker.postMessage(message);
  };
  return {
    sendPlan: (message) => {
      send(quick, message);
    },
    ask: (question, signal) =>
      new Promise((settle, fail) => {
        if (signal?.aborted === true) {
          settle(null);
          return;
        }
        const id = ++last;
        const worker = isSearch(question) ? (searching ??= listen(make())) : quick;
        // The worker answers a question with its own kind of answer; the map of waiting ones cannot say so.
        waiting.set(id, { settle: settle as Waiting["settle"], fail });
        signal?.addEventListener("abort", () => {
          if (!waiting.delete(id)) return;
          send(worker, { is: "cancel", id });
          settle(null);
        });
        send(worker, { is: "ask", id, question });
      }),
  };
}
