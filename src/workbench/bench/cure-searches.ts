import type { CureSearch } from "../../cure/index.ts";
import type { FindingKey } from "../contract.ts";

type Search = Promise<CureSearch | null>;

interface Running {
  readonly search: Search;
  readonly stop: AbortController;
  /** Who waits for it; with the last one gone it is given up. */
  waiting: number;
  done: boolean;
}

/**
 * Searches for cures of one text: each is made once, whoever asks for it and however often.
 *
 * @param ask makes a search; null: it was given up
 */
export function cureSearches(
  ask: (of: string, finding: FindingKey, signal: AbortSignal) => Search,
): (of: string, finding: FindingKey, signal?: AbortSignal) => Search {
  const known = new Map<string, Running>();
  let text = "";
  const begin = (key: string, finding: FindingKey): Running => {
    const stop = new AbortController();
    const running: Running = { search: ask(text, finding, stop.signal), stop, waiting: 0, done: false };
    known.set(key, running);
    void running.search.then((found) => {
      running.done = found !== null;
      if (found === null && known.get(key) === running) known.delete(key);
    });
    return running;
  };
  return (of, finding, signal) => {
    if (of !== text) {
      for (const { stop, done } of known.values()) if (!done) stop.abort();
      known.clear();
      text = of;
    }
    if (signal?.aborted === true) return Promise.resolve(null);
    const key = `${finding.rule} ${finding.about}`;
    const running = known.get(key) ?? begin(key, finding);
    running.waiting++;
    return new Promise((settle, fail) => {
      const leave = (): void => {
        settle(null);
        running.waiting--;
        if (running.waiting > 0 || running.done) return;
        if (known.get(key) === running) known.delete(key);
        running.stop.abort();
      };
      signal?.addEventListener("abort", leave, { once: true });
      running.search.then((found) => {
        signal?.removeEventListener("abort", leave);
        settle(found);
      }, fail);
    });
  };
}
