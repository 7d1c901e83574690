import { foldName } from "../plan/index.ts";

const FIRST_ARROW = /^(.*?)(\s*(?:→|->|=>|⟶)\s*)(.*)$/s;
/** What stands between two points of a path, kept by `split`. */
const BETWEEN = /(\s*(?:→|->|=>|⟶|\+)\s*)/;

/**
 * A path that begins somewhere else; null where it is no path.
 *
 * @example
 * startAt("BP → bilge pump", "SW1:in") //=> "SW1:in → bilge pump"
 */
export function startAt(path: string, point: string): string | null {
  const [, first, arrow, rest] = FIRST_ARROW.exec(path) ?? [];
  return first === undefined || arrow === undefined || rest === undefined ? null : `${point}${arrow}${rest}`;
}

/** A path with another stop behind its first one. */
export function passThrough(path: string, part: string): string | null {
  const [, first, arrow, rest] = FIRST_ARROW.exec(path) ?? [];
  return first === undefined || arrow === undefined || rest === undefined
    ? null
    : `${first}${arrow}${part}${arrow}${rest}`;
}

/**
 * A path with one part in the place of another.
 *
 * @example
 * inPlaceOf("B1:− → BN", "B1", "B4") //=> "B4:− → BN"
 */
export function inPlaceOf(path: string, part: string, other: string): string {
  return path
    .split(BETWEEN)
    .map((point) => {
      if (foldName(point) === foldName(part)) return other;
      const rest = point.slice(part.length);
      return foldName(point.slice(0, part.length)) === foldName(part) && /^[:.]/.test(rest) ? other + rest : point;
    })
    .join("");
}
