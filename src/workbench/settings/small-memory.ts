/**
 * A few small things that are remembered between two visits: settings, the last question. A browser may refuse to lend its store, and
 * whatever it gives back may have been written by somebody else; then they last as long as the page.
 */
const passing = new Map<string, string>();

const full = (name: string): string => `wireworthy.${name}`;

/** What was remembered last; null: nothing. */
export function recall(name: string): string | null {
  const here = passing.get(name);
  if (here !== undefined) return here;
  try {
    return globalThis.localStorage.getItem(full(name));
  } catch {
    return null;
  }
}

/** Remembers a text. @returns whether it outlives the page */
export function remember(name: string, text: string): boolean {
  passing.set(name, text);
  try {
    globalThis.localStorage.setItem(full(name), text);
    return true;
  } catch {
    return false;
  }
}

/** Forgets what was remembered. */
export function forget(name: string): void {
  passing.delete(name);
  try {
    globalThis.localStorage.removeItem(full(name));
  } catch {
    // Nothing was kept there.
  }
}
