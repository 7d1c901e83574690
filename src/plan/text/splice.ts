/** One change of a text: what stands from `start` to `end` gives way to `text`. */
export interface Splice {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/**
 * Changes a text.
 *
 * @param splices in the order of the text, none overlapping; offsets into the text before any change
 * @example
 * applySplices("length: 5.2 m", [{ start: 8, end: 11, text: "6" }]) //=> "length: 6 m"
 */
export function applySplices(text: string, splices: readonly Splice[]): string {
  const parts: string[] = [];
  let at = 0;
  for (const { start, end, text: put } of splices) {
    parts.push(text.slice(at, start), put);
    at = end;
  }
  return parts.join("") + text.slice(at);
}

/**
 * The splices that undo others.
 *
 * @param text before the change
 * @returns offsets into the text after the change
 */
export function invertSplices(text: string, splices: readonly Splice[]): Splice[] {
  let shift = 0;
  return splices.map(({ start, end, text: put }) => {
    const at = start + shift;
    shift += put.length - (end - start);
    return { start: at, end: at + put.length, text: text.slice(start, end) };
  });
}

/** A stretch of a text that is being changed: kept from the first text, or put in. */
type Stretch = { readonly start: number; readonly end: number } | { readonly put: string };

/**
 * Two changes, one after the other, as one.
 *
 * @param length of the text before the first
 * @param second offsets into the text after the first
 */
export function composeSplices(length: number, first: readonly Splice[], second: readonly Splice[]): Splice[] {
  const stretches: Stretch[] = [];
  let at = 0;
  for (const { start, end, text } of first) {
    stretches.push({ start: at, end: start }, { put: text });
    at = end;
  }
  stretches.push({ start: at, end: length });

  const result: Stretch[] = [];
  let [next, used] = [0, 0]; // stretches that are done with, and how much of the one after them
  const take = (amount: number, keep: boolean) => {
    while (amount > 0) {
      const stretch = stretches[next];
      if (stretch === undefined) return;
      const size = "put" in stretch ? stretch.put.length : stretch.end - stretch.start;
      const some = Math.min(size - used, amount);
      if (keep && some > 0) {
        result.push(
          "put" in stretch
            ? { put: stretch.put.slice(used, used + some) }
            : { start: stretch.start + used, end: stretch.start + used + some },
        );
      }
      amount -= some;
      used += some;
      if (used === size) [next, used] = [next + 1, 0];
    }
  };
  let done = 0;
  for (const { start, end, text } of second) {
    take(start - done, true);
    result.push({ put: text });
    take(end - start, false);
    done = end;
  }
  take(Infinity, true);
  return splicesOf(length, result);
}

function splicesOf(length: number, stretches: readonly Stretch[]): Splice[] {
  const splices: Splice[] = [];
  let at = 0;
  let put = "";
  const close = (start: number) => {
    if (put !== "" || start > at) splices.push({ start: at, end: start, text: put });
    put = "";
  };
  for (const stretch of stretches) {
    if ("put" in stretch) {
      put += stretch.put;
    } else {
      close(stretch.start);
      at = stretch.end;
    }
  }
  close(length);
  return splices;
}
