import type { Build } from "./build.ts";
import type { Clock } from "./clock.ts";
import type { Store, Stored } from "./store.ts";

/** So long, in ms, changes are gathered before they are written: half of what may be lost at most, the rest is for the writing itself. */
const GATHER = 50;
/** After a refusal it is tried again so much later, in ms, and with the next change. */
const AGAIN = 5000;

/** Writes the build that is open into the store, soon after each change. */
export interface StoreWriter {
  /** Something has changed. */
  readonly touch: () => void;
  /** Writes what is not written yet; resolves once it is, or was refused. */
  readonly flush: () => Promise<void>;
  /** The page is about to go: writes without waiting for anything. */
  readonly part: () => void;
  /** Whether anything is not written yet. */
  readonly isBehind: () => boolean;
  /** What is not written yet stays so: another build is open, or another tab writes. */
  readonly drop: () => void;
}

/** @param onResult told of each attempt */
export function storeWriter(
  store: Store,
  clock: Clock,
  build: () => Build | null,
  onResult: (result: Stored<null>) => void,
): StoreWriter {
  let behind = false;
  let stop: (() => void) | null = null;
  let busy: Promise<void> | null = null;

  const wait = (ms: number): void => {
    stop ??= clock.after(ms, () => {
      stop = null;
      void run();
    });
  };
  const halt = (): void => {
    stop?.();
    stop = null;
  };

  const writeAll = async (): Promise<void> => {
    try {
      for (let now = build(); behind && now !== null; now = build()) {
        behind = false;
        const result = await store.write(now);
        if (!result.ok) behind = true;
        onResult(result);
        if (!result.ok) {
          if (result.why !== "elsewhere") wait(AGAIN);
          return;
        }
      }
    } finally {
      // In the same turn as the last look at `behind`: a change in between would wait for nobody.
      busy = null;
    }
  };
  const run = async (): Promise<void> => {
    // With nothing to write it would end before it is noted down as going on, and go on for ever.
    if (busy === null && behind && build() !== null) busy = writeAll();
    await busy;
  };

  return {
    touch() {
      behind = true;
      // A refused attempt may be waiting for its long turn.
      halt();
      if (busy === null) wait(GATHER);
    },
    async flush() {
      halt();
      if (busy !== null) await busy;
      await run();
    },
    part() {
      halt();
      const now = build();
      if (now !== null) void store.write(now, true).then(onResult);
      behind = false;
    },
    isBehind: () => behind || busy !== null,
    drop() {
      halt();
      behind = false;
    },
  };
}
