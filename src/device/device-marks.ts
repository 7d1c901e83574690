import { takeCell, trustOfCell, type Citation, type Trust } from "../explain/index.ts";
import { marks } from "../reference/marks.ts";
import { citeRow, deviceFamily, type DeviceFamilyId } from "./family.ts";

/** `by part`: some are and some are not, so the marking of the part decides. */
export type ByPart = "yes" | "no" | "by part";

/** What is marked on devices of a kind, or can be taken for granted. */
export interface DeviceMarks {
  /** Opens direct current only one way round. */
  readonly polarised: ByPart;
  /** Made so that it does not ignite petrol vapour. */
  readonly ignitionProtected: ByPart;
  /** Opens though its handle is held; null for a fuse. */
  readonly tripFree: ByPart | null;
  readonly marksTrust: Trust;
  /** Whether it is made for direct current at all: a family whose direct-current volts are not known is `by part`. */
  readonly dcRated: ByPart;
  /** Part of its rating that may flow for hours, unless it is marked for 100 %. */
  readonly continuousShare: number;
  readonly shareTrust: Trust;
  readonly source: Citation;
}

const byPart = (text: string | null): ByPart => (text === "yes" || text === "no" ? text : "by part");

/**
 * The marks of a kind of device.
 *
 * @source NFPA 70 210.20 for the share; practice of the trade for the rest: the part’s own marking wins
 * @example
 * deviceMarks("dc_mcb_C").polarised //=> "by part"
 * deviceMarks("branch_breaker").continuousShare //=> 0.8
 * deviceMarks("mcb_C").dcRated //=> "no"
 * deviceMarks("iec_gG").dcRated //=> "by part"
 */
export function deviceMarks(family: DeviceFamilyId): DeviceMarks {
  const row = marks.rows.find((candidate) => candidate.family === family);
  const share = row === undefined ? null : takeCell(marks, row, "continuousShare");
  if (row === undefined || share === null) throw new Error(`device/marks has no ${family}`);
  const { kind, supplies, dcVolts } = deviceFamily(family);
  return {
    polarised: byPart(row.polarised),
    ignitionProtected: byPart(row.ignitionProtected),
    tripFree: kind === "fuse" ? null : byPart(row.tripFree),
    marksTrust: trustOfCell(marks, row, "polarised"),
    dcRated: !supplies.includes("DC") ? "no" : dcVolts === null ? "by part" : "yes",
    continuousShare: share.value,
    shareTrust: share.trust,
    source: citeRow(row, share.trust),
  };
}
