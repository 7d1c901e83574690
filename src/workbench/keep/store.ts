import type { Build, BuildHead, GoodCopy } from "./build.ts";

/**
 * Why the browser's store did not do what it was asked to: it is switched off, it is full, it does not work, or another tab has the pen.
 */
export type StoreFault = "denied" | "full" | "broken" | "elsewhere";

/** What came of asking the store; it never throws. */
export type Stored<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly why: StoreFault };

/** Where builds are kept between two visits. */
export interface Store {
  /** Null: what is written outlives the page. Otherwise why it does not. */
  readonly passing: StoreFault | null;
  /** Last changed first. */
  readonly list: () => Promise<Stored<readonly BuildHead[]>>;
  readonly load: (id: string) => Promise<Stored<Build | null>>;
  /**
   * Writes a build, whole or not at all. Refused as `elsewhere` when a tab with a later turn has written.
   *
   * @param parting the page is about to go: there is no time to look whose turn it is
   */
  readonly write: (build: Build, parting?: boolean) => Promise<Stored<null>>;
  /** Takes the pen from whoever wrote before; null: there is no such build. */
  readonly takeTurn: (id: string) => Promise<Stored<number | null>>;
  readonly remove: (id: string) => Promise<Stored<null>>;
  /** Keeps a good copy, instead of the one of a certain time if there is such a one, and drops the oldest. */
  readonly addCopy: (id: string, copy: GoodCopy, instead: number | null) => Promise<Stored<null>>;
  /** Newest first. */
  readonly copies: (id: string) => Promise<Stored<readonly GoodCopy[]>>;
  /** The browser's own key to the file; opaque here. Null: none. */
  readonly handle: (id: string) => Promise<Stored<unknown>>;
  readonly keepHandle: (id: string, handle: unknown) => Promise<Stored<null>>;
}

export const stored = <T>(value: T): Stored<T> => ({ ok: true, value });
