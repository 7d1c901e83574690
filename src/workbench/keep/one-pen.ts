import type { Clock } from "./clock.ts";

/** Who may write a plan: this tab, or another one that has it open too. */
export type PenState = "here" | "elsewhere";

/** What tabs say to each other about one plan. */
export type PenWord =
  /** Is somebody writing? */
  | { readonly says: "who" }
  /** I am. */
  | { readonly says: "me" }
  /** Give it to me. */
  | { readonly says: "give" }
  /** All I had is in the store; it is yours. */
  | { readonly says: "given" }
  /** There is something new in the store. */
  | { readonly says: "written" };

/** The words of one plan, to and from all other tabs. */
export interface PenChannel {
  readonly say: (word: PenWord) => void;
  readonly close: () => void;
}

/** What a browser lends for this. */
export interface PenHost {
  /** Null where the browser has no such channels: then every tab believes that it is alone, and the store's turns still keep them apart. */
  readonly openChannel: ((name: string, hear: (word: PenWord) => void) => PenChannel) | null;
  /** Null where the browser has no locks: then tabs ask each other. */
  readonly locks: PenLocks | null;
}

/** The part of the browser's lock manager that is used. */
export interface PenLocks {
  readonly request: (
    name: string,
    options: { readonly ifAvailable?: boolean; readonly steal?: boolean },
    hold: (lock: unknown) => Promise<void>,
  ) => Promise<unknown>;
  /** Whether a tab holds it now. */
  readonly isHeld: (name: string) => Promise<boolean>;
}

export interface PenOptions {
  readonly id: string;
  readonly host: PenHost;
  readonly clock: Clock;
  /** Another tab asks for the pen: put everything into the store first. */
  readonly flush: () => Promise<void>;
  /** The pen was taken away. */
  readonly onLost: () => void;
  /** The tab that has the pen has written. */
  readonly onWritten: () => void;
}

export interface Pen {
  readonly state: () => PenState;
  /** Work here instead: asks the other tab, waits until it has stored what it had, and takes the pen; from a tab that does not answer too. */
  readonly take: () => Promise<void>;
  /** Tells the others that there is something new in the store. */
  readonly written: () => void;
  /** Lays the pen down. */
  readonly close: () => void;
}

/** So long, in ms, a tab may take to answer, or to store what it has. A tab that sleeps does not answer. */
const ANSWER = 200;
const GIVE = 1500;

/** Takes the pen of a plan if no other tab has it. */
export async function openPen({ id, host, clock, flush, onLost, onWritten }: PenOptions): Promise<Pen> {
  const name = nameOf(id);
  let state: PenState = "elsewhere";
  let letGo: () => void = () => undefined;
  let heard: (word: PenWord) => void = () => undefined;

  const channel = host.openChannel?.(name, (word) => {
    if (word.says === "who" && state === "here") channel?.say({ says: "me" });
    else if (word.says === "give" && state === "here") void give();
    else if (word.says === "written" && state === "elsewhere") onWritten();
    heard(word);
  });

  const lose = (): void => {
    if (state === "elsewhere") return;
    state = "elsewhere";
    letGo();
    onLost();
  };
  const give = async (): Promise<void> => {
    await flush();
    lose();
    channel?.say({ says: "given" });
  };

  /** Whether another tab says some word in time. */
  const hears = (says: PenWord["says"], ms: number): Promise<boolean> =>
    new Promise((resolve) => {
      const stop = clock.after(ms, () => {
        heard = () => undefined;
        resolve(false);
      });
      heard = (word) => {
        if (word.says !== says) return;
        stop();
        heard = () => undefined;
        resolve(true);
      };
    });

  /** Holds the browser's lock until it is let go or stolen; true once it is held. */
  const lock = (locks: PenLocks, options: { ifAvailable?: boolean; steal?: boolean }): Promise<boolean> =>
    new Promise((resolve) => {
      const held = locks.request(name, options, (granted) => {
        if (granted === null) {
          resolve(false);
          return Promise.resolve();
        }
        state = "here";
        resolve(true);
        return new Promise<void>((release) => {
          letGo = release;
        });
      });
      held.catch(() => {
        resolve(false);
        lose(); // stolen: the other tab had waited for an answer in vain
      });
    });

  const claim = async (): Promise<void> => {
    if (host.locks !== null) {
      await lock(host.locks, { ifAvailable: true });
    } else if (channel === undefined) {
      state = "here";
    } else {
      const answered = hears("me", ANSWER);
      channel.say({ says: "who" });
      if (!(await answered)) state = "here";
    }
  };
  await claim();

  return {
    state: () => state,
    async take() {
      if (state === "here") return;
      if (channel !== undefined) {
        const given = hears("given", GIVE);
        channel.say({ says: "give" });
        await given;
      }
      if (host.locks === null) state = "here";
      else await lock(host.locks, { steal: true });
    },
    written() {
      if (state === "here") channel?.say({ says: "written" });
    },
    close() {
      state = "elsewhere";
      letGo();
      channel?.close();
    },
  };
}

/** Whether some tab is writing a plan, this one aside. */
export async function isPenTaken(id: string, host: PenHost, clock: Clock): Promise<boolean> {
  const name = nameOf(id);
  if (host.locks !== null) return host.locks.isHeld(name);
  const { openChannel } = host;
  if (openChannel === null) return false;
  return new Promise((resolve) => {
    const end = (taken: boolean): void => {
      stop();
      channel.close();
      resolve(taken);
    };
    const stop = clock.after(ANSWER, () => {
      end(false);
    });
    const channel = openChannel(name, (word) => {
      if (word.says === "me") end(true);
    });
    channel.say({ says: "who" });
  });
}

const nameOf = (id: string): string => `wireworthy pen ${id}`;

/** What this browser lends. */
export function browserPenHost(): PenHost {
  // Both are missing in some browsers, whatever the types say; the locks also on pages that were not served over a secure connection.
  const locks = (navigator as Partial<Navigator>).locks; // as above
  const hasChannels = typeof BroadcastChannel === "function";
  return {
    locks:
      locks === undefined
        ? null
        : {
            request: (name, options, hold) => locks.request(name, { ...options }, (granted) => hold(granted)),
            isHeld: async (name) => (await locks.query()).held?.some((lock) => lock.name === name) === true,
          },
    openChannel: hasChannels
      ? (name, hear) => {
          const channel = new BroadcastChannel(name);
          channel.onmessage = (event: MessageEvent<PenWord>) => {
            hear(event.data);
          };
          return {
            say: (word) => {
              channel.postMessage(word);
            },
            close: () => {
              channel.close();
            },
          };
        }
      : null,
  };
}
