import { foldName } from "../plan/index.ts";

/** What stands between two points of a path. */
const BETWEEN = /(→|->|=>|⟶|\+)/;
const ARROW = /→|->|=>|⟶/;

/**
 * A path that begins somewhere else; null where it is no path.
 *
 * @example
 * startAt("BP → bilge pump", "SW1:in") //=> "SW1:in → bilge pump"
 */
export function startAt(path: string, point: string): string | null {
  const arrow = ARROW.exec(path);
  return arrow === null ? null : `${point} ${path.slice(arrow.index)}`;
}

/**
 * A path with another stop behind its first one; null where it is no path.
 *
 * @example
 * passThrough("B1 -> BP", "SW1") //=> "B1 -> SW1 -> BP"
 */
export function passThrough(path: string, part: string): string | null {
  const arrow = ARROW.exec(path);
  return arrow === null ? null : `${path.slice(0, arrow.index)}${arrow[0]} ${part} ${path.slice(arrow.index)}`;
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
    .map((piece) => {
      const point = piece.trim();
      const put = swap(point, part, other);
      const start = piece.indexOf(point);
      return piece.slice(0, start) + put + piece.slice(start + point.length);
    })
    .join("");
}

function swap(point: string, part: string, other: string): string {
  if (foldName(point) === foldName(part)) return other;
  const rest = point.slice(part.length);
  return foldName(point.slice(0, part.length)) === foldName(part) && /^[:.]/.test(rest) ? other + rest : point;
}
