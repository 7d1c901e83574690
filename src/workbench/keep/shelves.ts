import { stored, type Stored, type StoreFault } from "./store.ts";

/*
 * builds   id         → head, text, and the undo list without its steps
 * steps    [id, n]    → step number n of the plan's life, so that one more key writes one more record and not all of them
 * copies   [id, at]   → good copies
 * handles  id         → the browser's own keys to files
 */
export const SHELVES = ["builds", "steps", "copies", "handles"] as const;
export type Shelf = (typeof SHELVES)[number];

/** Longer than this, in ms, no browser takes to open its store; some never answer at all. */
const LONGEST_WAIT = 5000;

/** What a piece of work is handed. */
export interface Reach {
  readonly shelf: (name: Shelf) => IDBObjectStore;
  /** Gives the work up, with nothing written. */
  readonly giveUp: (why: StoreFault) => void;
}

/** The browser's database, as promises that never fail. */
export interface Shelves {
  /** Does some work whole or not at all; once it resolves, it is written. */
  readonly work: <T>(
    shelves: readonly Shelf[],
    mode: "readonly" | "readwrite",
    call: (reach: Reach) => Promise<T> | T,
  ) => Promise<Stored<T>>;
}

/**
 * Opens the database.
 *
 * @param onReopened the browser had closed it (its data was cleared, say) and it is open again, perhaps empty
 */
export async function openShelves(indexed: IDBFactory, name: string, onReopened: () => void): Promise<Stored<Shelves>> {
  let database: IDBDatabase | null = null;
  const open = async (): Promise<IDBDatabase> => {
    const opened = await openDatabase(indexed, name);
    // Another version of the page wants to change the shelves: make way.
    opened.onversionchange = () => {
      opened.close();
      database = null;
    };
    opened.onclose = () => {
      database = null;
    };
    database = opened;
    return opened;
  };

  const work: Shelves["work"] = async (shelves, mode, call) => {
    let transaction: IDBTransaction | null = null;
    let why: StoreFault | null = null;
    try {
      let here = database;
      if (here === null) {
        here = await open();
        onReopened();
      }
      const started = here.transaction(shelves, mode);
      transaction = started;
      const ended = new Promise<void>((resolve, reject) => {
        started.oncomplete = () => {
          resolve();
        };
        started.onabort = () => {
          reject(started.error ?? new Error("given up"));
        };
      });
      ended.catch(() => undefined); // looked at below, unless the work itself fails first
      const value = await call({
        shelf: (shelf) => started.objectStore(shelf),
        giveUp: (fault) => {
          why = fault;
          started.abort();
        },
      });
      if (mode === "readwrite" && why === null) started.commit();
      await ended;
      return stored(value);
    } catch (error) {
      try {
        transaction?.abort();
      } catch {
        // It has ended by itself.
      }
      // What ended the transaction says more than what then failed for it.
      return { ok: false, why: why ?? faultOf(transaction?.error ?? error) };
    }
  };

  try {
    await open();
    return stored({ work });
  } catch (error) {
    // What private windows of some browsers say instead of refusing.
    const isPrivate = error instanceof Error && error.name === "InvalidStateError";
    return { ok: false, why: isPrivate ? "denied" : faultOf(error) };
  }
}

function openDatabase(indexed: IDBFactory, name: string): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const asked = indexed.open(name, 1);
    const timer = setTimeout(() => {
      reject(new Error("the browser's store does not answer"));
    }, LONGEST_WAIT);
    asked.onupgradeneeded = () => {
      for (const shelf of SHELVES) asked.result.createObjectStore(shelf);
    };
    asked.onsuccess = () => {
      clearTimeout(timer);
      resolve(asked.result);
    };
    asked.onerror = () => {
      clearTimeout(timer);
      reject(asked.error ?? new Error("no reason given"));
    };
  });
}

/** What one request comes to. */
export function answer(request: IDBRequest): Promise<unknown> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => {
      resolve(request.result);
    };
    request.onerror = () => {
      reject(request.error ?? new Error("no reason given"));
    };
  });
}

/** The reason behind what the browser threw. */
export function faultOf(error: unknown): StoreFault {
  switch (error instanceof Error ? error.name : "") {
    case "QuotaExceededError":
      return "full";
    case "SecurityError":
    case "NotAllowedError":
      return "denied";
    default:
      return "broken";
  }
}
