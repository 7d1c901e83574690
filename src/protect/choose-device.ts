import {
  deviceFamily,
  deviceResistance,
  gatesOf,
  greatestVolts,
  interruptRating,
  leastRatingForStart,
  type DeviceFamilyId,
} from "../device/index.ts";

/** Where a device stands, as far as the choice of its family goes; `faultAmps`: what it has to break, A. */
export type DevicePlace =
  /** Alternating current: the breakers of houses, by whose standard. */
  | { readonly at: "alternating"; readonly by: "IEC" | "UL"; readonly faultAmps?: number }
  | { readonly at: "way"; readonly device: "fuse" | "breaker"; readonly faultAmps?: number }
  | { readonly at: "store"; readonly faultAmps: number }
  | { readonly at: "elsewhere"; readonly faultAmps?: number };

/** What a device has to carry. */
export interface DeviceNeed {
  /** Greatest steady current, A. */
  readonly steadyAmps: number;
  /** Greatest current of a start and how long it lasts. */
  readonly start: { readonly amps: number; readonly seconds: number } | null;
  /** Greatest volts that can stand across it when open. */
  readonly volts: number;
  /** Largest device that the maker of what it feeds allows, A; absent: none is stated. */
  readonly atMost?: number;
}

/** A device that was found. */
export interface DeviceFound {
  readonly family: DeviceFamilyId;
  readonly rating: number;
  /** At rated current. */
  readonly ohms: number;
  /** Least rating that the steady current asks for, before standard ratings; A. */
  readonly leastForSteady: number;
  /** Least standard rating of the family that carries the start; null: no start. */
  readonly leastForStart: number | null;
  /** It would be larger, but for the limit of the maker of what it feeds. */
  readonly isHeldDown: boolean;
}

/** Share of its rating that a device is loaded with for hours: NEC 210.20 for continuous load (read), common practice aboard. */
export const STEADY_SHARE = 0.8;

/**
 * Share of its rating that a device at a place is loaded with for hours. A breaker made by IEC 60898 carries its rating for good, and IEC 60364-4-43 433.1 asks no more than
 * Ib ≤ In of it; what is made for direct current, and American devices by their code, have a fifth to spare.
 *
 * @source IEC 60364-4-43 433.1, read
 * @example
 * steadyShare({ at: "alternating", by: "IEC" }) //=> 1
 * steadyShare({ at: "alternating", by: "UL" }) //=> 0.8
 */
export const steadyShare = (place: DevicePlace): number =>
  place.at === "alternating" && place.by === "IEC" ? 1 : STEADY_SHARE;

const IN_A_WAY = {
  // Hydraulic-magnetic ones are made for the volts that thermal ones are not.
  breaker: ["thermal_breaker", "hydraulic_breaker"],
  fuse: ["blade_type_C"],
} as const satisfies Record<string, readonly DeviceFamilyId[]>;
/** With published opening times first, and of those the smallest body. */
const AT_A_STORE: readonly DeviceFamilyId[] = [
  "strip_SF30",
  "strip_SF51",
  "terminal_post",
  "ul_class_T",
  "anl_limiter",
];
const ELSEWHERE: readonly DeviceFamilyId[] = [
  "blade_type_C",
  "strip_SF30",
  "strip_SF51",
  "terminal_post",
  "anl_limiter",
  "ul_class_T",
];

/** The calmest curve that lets the start pass: it opens soonest on a small fault. */
const ALTERNATING = {
  IEC: ["mcb_B", "mcb_C", "mcb_D"],
  UL: ["branch_breaker"],
} as const satisfies Record<string, readonly DeviceFamilyId[]>;

/** The families that are looked through for a place, in order. */
export function familiesFor(place: DevicePlace): readonly DeviceFamilyId[] {
  if (place.at === "alternating") return ALTERNATING[place.by];
  if (place.at === "way") return IN_A_WAY[place.device];
  return place.at === "store" ? AT_A_STORE : ELSEWHERE;
}

/**
 * Finds the device with the least rating that carries and breaks what it has to: of the first family for the place that has one. Where none breaks it, the first that
 * carries it stands in, so that what is wrong with it can be told.
 *
 * Ignores what the conductor allows: a device that is too large for it makes the conductor grow, not the device shrink. What the maker of a load allows is another matter:
 * its own leads do not grow, so the device is as large as the maker lets it be and carries the steady current itself, whatever it has to spare for hours or for a start.
 *
 * @returns null when no family for the place has a rating that is enough
 * @source `docs/method.md` section 5
 * @example 4.3 A steady and 8 A for half a second, in the way of a panel of breakers
 * chooseDevice({ at: "way", device: "breaker" }, { steadyAmps: 4.3, start: { amps: 8, seconds: 0.5 }, volts: 14.6 })?.rating //=> 7.5
 */
export function chooseDevice(place: DevicePlace, need: DeviceNeed): DeviceFound | null {
  const kind = place.at === "way" ? place.device : place.at === "alternating" ? place.by : "";
  const key = `${place.at} ${kind} ${place.faultAmps ?? ""} ${need.steadyAmps} ${need.start?.amps ?? ""} ${need.start?.seconds ?? ""} ${need.volts} ${need.atMost ?? ""}`;
  let found = remembered.get(key);
  if (found === undefined) {
    // What stands in the ways of a panel breaks what the panel says, whatever is proposed.
    const toBreak = place.at === "way" || place.at === "alternating" ? 0 : (place.faultAmps ?? 0);
    found = findWithin(place, need, toBreak) ?? findWithin(place, need, 0);
    if (remembered.size > 20_000) remembered.clear(); // needs come from plans, and settling asks the same ones again and again
    remembered.set(key, found);
  }
  return found;
}

const remembered = new Map<string, DeviceFound | null>();

/** A family whose least rating that is enough is more than so many times what is needed is made for larger circuits: another one is looked for first. */
const FAR_TOO_LARGE = 2;

/** Currents come to rest within a millionth: no more than that must not ask for the next size of fuse. */
const REST = 1e-6;

/** A device that is enough; no larger than the maker of what it feeds allows, where that can be had. */
function findWithin(place: DevicePlace, need: DeviceNeed, faultAmps: number): DeviceFound | null {
  const usual = findDevice(place, need, faultAmps);
  const { atMost = Infinity } = need;
  return usual === null || usual.rating <= atMost ? usual : (findHeldDown(place, need, faultAmps, atMost) ?? usual);
}

function findDevice(place: DevicePlace, need: DeviceNeed, faultAmps: number): DeviceFound | null {
  const leastForSteady = need.steadyAmps / steadyShare(place);
  let larger: DeviceFound | null = null;
  for (const { id, leastForStart, isFit } of candidatesFor(place, need, faultAmps)) {
    if (need.start !== null && leastForStart === null) continue;
    const least = Math.max(leastForSteady * (1 - REST), leastForStart ?? 0);
    const told = leastTold(id);
    const rating = deviceFamily(id).standardRatings.find((r) => r >= least && r >= told && isFit(r));
    if (rating === undefined) continue;
    const ohms = deviceResistance(id, rating).hot;
    const found = { family: id, rating, ohms, leastForSteady, leastForStart, isHeldDown: false };
    if (rating <= FAR_TOO_LARGE * least) return found;
    if (larger === null || rating < larger.rating) larger = found;
  }
  return larger;
}

/** The largest that a maker allows, of the first family that has one which carries the steady current; one that bears the start as well goes before one that does not. */
function findHeldDown(place: DevicePlace, need: DeviceNeed, faultAmps: number, atMost: number): DeviceFound | null {
  const leastForSteady = need.steadyAmps / steadyShare(place);
  let tripped: DeviceFound | null = null;
  for (const { id, leastForStart, isFit } of candidatesFor(place, need, faultAmps)) {
    const rating = deviceFamily(id).standardRatings.findLast((r) => r <= atMost && isFit(r));
    if (rating === undefined || rating < need.steadyAmps * (1 - REST)) continue;
    const ohms = deviceResistance(id, rating).hot;
    const found = { family: id, rating, ohms, leastForSteady, leastForStart, isHeldDown: true };
    if (need.start === null || (leastForStart !== null && rating >= leastForStart)) return found;
    tripped ??= found;
  }
  return tripped;
}

/** A family that is made for the volts. */
interface Candidate {
  readonly id: DeviceFamilyId;
  /** Null: no start, or none of its ratings carries it. */
  readonly leastForStart: number | null;
  /** Whether one of that rating breaks what it has to. */
  readonly isFit: (rating: number) => boolean;
}

function* candidatesFor(place: DevicePlace, { start, volts }: DeviceNeed, faultAmps: number): Generator<Candidate> {
  for (const id of familiesFor(place)) {
    const most = greatestVolts(id, { supply: place.at === "alternating" ? "AC" : "DC" });
    if (most === null || most < volts) continue;
    yield {
      id,
      leastForStart: start === null ? null : ratingForStart(id, { ...start, amps: start.amps * (1 - REST) }),
      isFit: (rating) => faultAmps === 0 || breaks(id, volts, rating, faultAmps),
    };
  }
}

/**
 * Inverse-time breakers may be 250 % of a motor's current that starts with six times of it (NEC table 430.52 and 430.7(B), derived): so much of a start lets one of
 * them pass for which no least opening time is published.
 */
export const START_OF_BRANCH_BREAKER = 2.4;

/** Least standard rating that carries a start; null: none. */
export function ratingForStart(id: DeviceFamilyId, { amps, seconds }: NonNullable<DeviceNeed["start"]>): number | null {
  if (id !== "branch_breaker") return leastRatingForStart(id, amps, seconds);
  return deviceFamily(id).standardRatings.find((r) => r * START_OF_BRANCH_BREAKER >= amps) ?? null;
}

/**
 * The least rating of a family of which it is published when it opens; 0 where that is published of none. Below it nobody can tell what opens first, and the thin
 * element of so small a fuse loses more volts than its wire.
 */
const leastTold = (family: DeviceFamilyId): number =>
  deviceFamily(family).standardRatings.find((rating) => gatesOf(family, rating).length > 0) ?? 0;

function breaks(family: DeviceFamilyId, volts: number, rating: number, faultAmps: number): boolean {
  const { state, current } = interruptRating(family, volts, { rating });
  return state === "rated" && current !== null && current >= faultAmps;
}
