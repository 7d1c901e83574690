import type { GoodCopy, Summary } from "./build.ts";
import type { Clock } from "./clock.ts";
import type { Store } from "./store.ts";

/** A copy is written after so much rest, in ms: the compiler answers with every key. */
const REST = 2000;
/** Within so long, in ms, a newer copy takes the place of the one before, so that thirty of them reach back for hours. */
const APART = 5 * 60 * 1000;

/** Keeps texts that were good. */
export interface GoodCopies {
  readonly mark: (id: string, text: string, summary: Summary) => void;
  /** Writes what waits. */
  readonly flush: () => Promise<void>;
}

export function goodCopies(store: Store, clock: Clock): GoodCopies {
  let waiting: { readonly id: string; readonly copy: GoodCopy } | null = null;
  let stop: (() => void) | null = null;
  /** The last that was kept in this visit, and since when its place is being renewed. */
  let last: { readonly id: string; readonly copy: GoodCopy; readonly since: number } | null = null;

  const flush = async (): Promise<void> => {
    stop?.();
    stop = null;
    if (waiting === null) return;
    const { id, copy } = waiting;
    waiting = null;
    const renews = last?.id === id && copy.at - last.since < APART ? last : null;
    last = { id, copy, since: renews?.since ?? copy.at };
    await store.addCopy(id, copy, renews?.copy.at ?? null);
  };

  return {
    mark(id, text, summary) {
      if ((waiting ?? last)?.id === id && (waiting ?? last)?.copy.text === text) return;
      if (waiting !== null && waiting.id !== id) void flush();
      waiting = { id, copy: { at: clock.now(), text, summary } };
      stop?.();
      stop = clock.after(REST, () => void flush());
    },
    flush,
  };
}
