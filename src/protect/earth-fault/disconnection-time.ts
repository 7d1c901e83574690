import { takeCell, type Citation, type Trust } from "../../explain/index.ts";
import { disconnectionTimes } from "../../reference/disconnection-times.ts";

/** How neutral and the cases are earthed. */
export type Earthing = "TN" | "TT";

/** Greatest time to cut off an earth fault. */
export interface DisconnectionLimit {
  readonly seconds: number;
  readonly trust: Trust;
  readonly source: Citation;
}

/**
 * How soon an earth fault has to be cut off.
 *
 * Between the steps of the table nothing is interpolated: its volts are "above … to".
 *
 * @param volts line to earth; of direct current pole to earth
 * @param circuit distribution: feeds a panel, or above 32 A (fixed loads) or 63 A (with sockets)
 * @returns null where the table asks for none against shock: to 50 V AC, 120 V DC
 * @source IEC 60364-4-41 Table 41.1, 411.3.2.3 and 411.3.2.4
 * @example
 * disconnectionLimit({ earthing: "TN", circuit: "final", current: "AC", volts: 230 })?.seconds //=> 0.4
 * disconnectionLimit({ earthing: "TT", circuit: "final", current: "AC", volts: 120 })?.seconds //=> 0.3
 * disconnectionLimit({ earthing: "TN", circuit: "distribution", current: "AC", volts: 230 })?.seconds //=> 5
 * disconnectionLimit({ earthing: "TN", circuit: "final", current: "AC", volts: 48 }) //=> null
 */
export function disconnectionLimit(of: {
  readonly earthing: Earthing;
  readonly circuit: "final" | "distribution";
  readonly current: "AC" | "DC";
  readonly volts: number;
}): DisconnectionLimit | null {
  const row = disconnectionTimes.rows.find(
    ({ earthing, circuit, current, voltsAbove, voltsTo }) =>
      earthing === of.earthing &&
      circuit === of.circuit &&
      current === of.current &&
      of.volts > voltsAbove &&
      (voltsTo === null || of.volts <= voltsTo),
  );
  const cell = row === undefined ? null : takeCell(disconnectionTimes, row, "greatestS");
  return cell === null ? null : { seconds: cell.value, trust: cell.trust, source: cell.source };
}
