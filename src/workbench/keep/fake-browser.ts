import type { Clock } from "./clock.ts";
import type { PenHost, PenLocks } from "./one-pen.ts";

/** For tests: a clock that is set by hand, and tabs that share one browser. */
export interface FakeClock extends Clock {
  /** Lets time pass; what is due is called in its order, and whatever that sets going gets its turn. */
  readonly pass: (ms: number) => Promise<void>;
}

/** Lets everything run that waits for nothing but its turn. */
export const settle = async (): Promise<void> => {
  for (let i = 0; i < 100; i++) await Promise.resolve();
};

export function fakeClock(start = 0): FakeClock {
  let now = start;
  const timers = new Set<{ readonly at: number; readonly call: () => void }>();
  return {
    now: () => now,
    after(ms, call) {
      const timer = { at: now + ms, call };
      timers.add(timer);
      return () => {
        timers.delete(timer);
      };
    },
    async pass(ms) {
      const end = now + ms;
      await settle();
      for (;;) {
        const next = [...timers].filter((timer) => timer.at <= end).sort((a, b) => a.at - b.at)[0];
        if (next === undefined) break;
        timers.delete(next);
        now = next.at;
        next.call();
        await settle();
      }
      now = end;
    },
  };
}

/** Hands out what each tab of one browser sees; without locks or channels as browsers are that lack them. */
export function fakeTabs({ locks = true, channels = true } = {}): () => PenHost {
  const ears = new Set<{ readonly name: string; readonly hear: (word: never) => void }>();
  const held = new Map<string, { readonly steal: () => void }>();
  const shared: PenLocks = {
    isHeld: (name) => Promise.resolve(held.has(name)),
    async request(name, { ifAvailable = false, steal = false }, hold) {
      await Promise.resolve();
      if (held.has(name) && ifAvailable) return hold(null);
      if (steal) held.get(name)?.steal();
      return new Promise<void>((resolve, reject) => {
        const mine = {
          steal: () => {
            reject(new Error("stolen"));
          },
        };
        held.set(name, mine);
        void hold({}).then(() => {
          if (held.get(name) === mine) held.delete(name);
          resolve();
        });
      });
    },
  };
  return () => ({
    locks: locks ? shared : null,
    openChannel: channels
      ? (name, hear) => {
          const mine = { name, hear };
          ears.add(mine);
          return {
            say(word) {
              for (const ear of ears) {
                if (ear === mine || ear.name !== name) continue;
                void Promise.resolve().then(() => {
                  if (ears.has(ear)) ear.hear(word as never); // one kind of word a name
                });
              }
            },
            close() {
              ears.delete(mine);
            },
          };
        }
      : null,
  });
}
