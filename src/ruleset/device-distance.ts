import type { Citation } from "../explain/index.ts";
import type { Metres } from "../quantity/index.ts";
import type { CurrentKind } from "./device-limit.ts";

/** What a conductor is fed from. */
export type FeedPoint = "battery post" | "charging source" | "shore inlet" | "other source";

/** How far along a conductor its first device may sit. */
export interface DeviceDistanceLimit {
  /** Along the conductor from where it is fed; null where a sheath all the way is all that is asked. */
  readonly limit: Metres | null;
  /** What has to hold for it, in words. */
  readonly says: string;
  readonly source: Citation;
}

interface DeviceDistanceCase extends DeviceDistanceLimit {
  /** Feed points it holds for. */
  readonly from: readonly FeedPoint[];
  readonly current: readonly CurrentKind[];
  /** Holds only for a conductor in a sheath or enclosure all the way to the device. */
  readonly sheathed: boolean;
}

/** Why a conductor may do without a device, or without one at one end. */
export type DeviceExemption =
  /** Main feed of a cranking motor, not its branches. */
  | "cranking main"
  /** Short tail of an appliance. */
  | "pigtail"
  /** The source cannot give more than the conductor may carry. */
  | "self-limited source"
  /** An alternator whose conductor carries its whole rated output: none at the alternator's end. */
  | "rated for the output";

/** Where the device sits. */
export interface DeviceDistanceRules {
  /** The most generous that applies comes first. */
  readonly cases: readonly DeviceDistanceCase[];
  readonly exemptions: readonly {
    readonly for: DeviceExemption;
    /** Under what conditions, in words. */
    readonly says: string;
    /** Shorter than this, where the exemption has such an end. */
    readonly shorterThan?: Metres;
    readonly source: Citation;
  }[];
}

/**
 * How far from its source the first device of a conductor may sit, measured along the conductor.
 *
 * Ignores the exemptions, which `exemptionFor` names.
 *
 * @param rules `deviceDistance` of a rule set
 * @param given.sheathed in a sheath or enclosure the whole way to the device
 * @returns null where the rule set says nothing of such a conductor
 * @example
 * const bare = { from: ["battery post"], current: ["DC"], sheathed: false, limit: metres(0.2), says: "bare", source: cite("iso-13297-2020", "12.1", "memory") }
 * deviceDistance({ cases: [bare], exemptions: [] }, { from: "battery post", current: "DC", sheathed: true })?.limit //=> 0.2
 * deviceDistance({ cases: [bare], exemptions: [] }, { from: "battery post", current: "AC", sheathed: true }) //=> null
 */
export function deviceDistance(
  rules: DeviceDistanceRules,
  given: { readonly from: FeedPoint; readonly current: CurrentKind; readonly sheathed: boolean },
): DeviceDistanceLimit | null {
  const found = rules.cases.find(
    ({ from, current, sheathed }) =>
      from.includes(given.from) && current.includes(given.current) && (given.sheathed || !sheathed),
  );
  return found === undefined ? null : { limit: found.limit, says: found.says, source: found.source };
}

/**
 * The words and the source of an exemption from having a device.
 *
 * @param rules `deviceDistance` of a rule set
 * @returns null where the rule set knows no such exemption
 */
export const exemptionFor = (
  rules: DeviceDistanceRules,
  kind: DeviceExemption,
): DeviceDistanceRules["exemptions"][number] | null =>
  rules.exemptions.find((exemption) => exemption.for === kind) ?? null;
