import type { DeviceOnLine, Fact, Measure } from "../../plan/index.ts";
import type { Build } from "../build.ts";
import { factsOf } from "../stated.ts";

/** Rating of the main device of a board, A; null: it has none, or nobody says it. */
export function mainRating(build: Build, board: string): number | null {
  const view = build.part(board);
  const main = view === undefined ? undefined : factsOf(view)["main"]?.value;
  if (typeof main !== "object" || main === null) return null;
  const device = main as DeviceOnLine | { readonly is?: undefined; readonly rated?: Fact<Measure> }; // read by the rules of the board
  if (device.is === undefined) {
    const rated = device.rated?.value;
    return rated === undefined || rated === "unknown" ? null : rated.high;
  }
  return device.is === "device" && device.rating !== "unknown" ? device.rating.high : null;
}
