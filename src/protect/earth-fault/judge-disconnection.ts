import { greatestOpeningTime, type DeviceFamilyId } from "../../device/index.ts";
import type { Citation, Trust } from "../../explain/index.ts";
import { currentToOpen, surelyTooSlowTo } from "./current-to-open.ts";
import { residualTime, type ResidualDevice } from "./residual-time.ts";

/** A fuse or breaker in the line. */
export interface LineDevice {
  /** Families that it may be of; empty: nobody says how it opens. */
  readonly families: readonly DeviceFamilyId[];
  /** Null: not known. */
  readonly rating: number | null;
}

export interface DisconnectionQuestion {
  /** Ik− and Ik+ of the fault, A; an unknown Ik− is 0 with `isLeastKnown` false. */
  readonly amps: { readonly least: number; readonly greatest: number };
  readonly isLeastKnown: boolean;
  /** Metal all the way (TN), as against soil (TT): what opens on milliamperes then sees enough, whatever the loop is. */
  readonly isMetallic: boolean;
  /**
   * TT with a loop that nobody knows: RA of the electrode that the cases are joined to, Ω, and what the volts drive through it alone, A. Absent: it is not known either, or not asked.
   */
  readonly electrode?: { readonly ohms: number; readonly amps: number };
  /** How long the source holds the current; null: for good, or nobody says it. */
  readonly sourceSeconds: number | null;
  /** Greatest time that is allowed, s. */
  readonly limit: number;
  readonly devices: readonly LineDevice[];
  readonly residual: readonly ResidualDevice[];
}

/** in time: at every current that can flow · too late: by none of them at the least current · not asked: no limit holds · cannot tell: a fact is missing */
export type DisconnectionOutcome = "in time" | "too late" | "not asked" | "cannot tell";

/** How a fault is cut off. */
export interface Disconnection {
  readonly outcome: DisconnectionOutcome;
  /** What opens first for sure; null: nothing is sure to. */
  readonly by: "device" | "residual device" | null;
  /** Its place in the list of the question. */
  readonly index: number;
  /** Time in which that one has opened, s; null: none. */
  readonly seconds: number | null;
  /** Least current at which an overcurrent device opens in the limit, A: the quickest of them; null: none is published. */
  readonly openingAmps: number | null;
  /** What would have to be known; null: nothing. */
  readonly missing: "loop" | "device" | "curve" | "residual device" | null;
  readonly trust: Trust;
  readonly sources: readonly Citation[];
}

interface Candidate {
  readonly by: "device" | "residual device";
  readonly index: number;
  readonly seconds: number;
  readonly trust: Trust;
  readonly source: Citation;
}

/**
 * Judges how soon an earth fault is cut off, by the fuses and breakers of its way and by what opens on leakage.
 *
 * The least current decides: with more of it everything opens sooner. A device whose kind is open is judged as each kind that it may be. Ignores interrupt
 * ratings, warm devices and residual devices that do not see the waveform.
 *
 * @returns never `in time` on a fact that is missing
 * @source IEC 60364-4-41 411.4.4, 411.5.3 and 411.5.4
 * @example 172 A behind C 16 A: 160 A open it at once
 * judgeDisconnection({ amps: { least: 172, greatest: 190 }, isLeastKnown: true, isMetallic: true, sourceSeconds: null, limit: 0.4, devices: [{ families: ["mcb_C"], rating: 16 }], residual: [] }).outcome //=> "in time"
 * judgeDisconnection({ amps: { least: 140, greatest: 190 }, isLeastKnown: true, isMetallic: true, sourceSeconds: null, limit: 0.4, devices: [{ families: ["mcb_C"], rating: 16 }], residual: [] }).outcome //=> "too late"
 * @example TT, a rod of 100 Ω and 30 mA: 100 · 0.03 = 3 V, and 218.5 V over 100 Ω are 2.2 A
 * judgeDisconnection({ amps: { least: 0, greatest: 900 }, isLeastKnown: false, isMetallic: false, electrode: { ohms: 100, amps: 2.185 }, sourceSeconds: null, limit: 0.2, devices: [], residual: [{ amps: 0.03, seconds: null, isDelayed: false }] }).seconds //=> 0.04
 */
export function judgeDisconnection(question: DisconnectionQuestion): Disconnection {
  const { amps, isLeastKnown, limit, devices, residual } = question;
  const found = [
    ...devices.flatMap((d, i) => ofDevice(d, i, question)),
    ...residual.flatMap((d, i) => ofResidual(d, i, question)),
  ];
  const first = found.reduce<Candidate | null>((a, b) => (a === null || b.seconds < a.seconds ? b : a), null);
  const opening = devices.map((d) => openingAmpsOf(d, limit)).filter((x) => x !== null);
  const openingAmps = opening.length === 0 ? null : Math.min(...opening);
  const common = {
    openingAmps,
    trust: first?.trust ?? "derived",
    sources: first === null ? [] : [first.source],
  } as const;
  if (first !== null && first.seconds <= limit)
    return { outcome: "in time", by: first.by, index: first.index, seconds: first.seconds, missing: null, ...common };
  const missing = isLeastKnown ? whatIsMissing(question, amps.least) : isHopeless(question) ? null : "loop";
  return {
    outcome: missing === null ? "too late" : "cannot tell",
    by: first?.by ?? null,
    index: first?.index ?? -1,
    seconds: first?.seconds ?? null,
    missing,
    ...common,
  };
}

/** Whether even the greatest current opens nothing in time. */
const isHopeless = (question: DisconnectionQuestion): boolean =>
  whatIsMissing(question, question.amps.greatest) === null &&
  !question.devices.some((d) => (bestOpening(d, question.limit) ?? Infinity) <= question.amps.greatest) &&
  !question.residual.some((d) => (residualTime(d, question.amps.greatest)?.seconds ?? Infinity) <= question.limit);

function ofDevice(
  { families, rating }: LineDevice,
  index: number,
  { amps, isLeastKnown, sourceSeconds }: DisconnectionQuestion,
): Candidate[] {
  if (rating === null || families.length === 0 || !isLeastKnown) return [];
  const bands = families.map((family) => greatestOpeningTime(family, rating, amps.least));
  const slowest = bands.reduce((a, b) => (a === null || b === null ? null : b.value > a.value ? b : a));
  if (slowest === null) return [];
  // What the source no longer feeds, nothing opens.
  if (sourceSeconds !== null && slowest.value > sourceSeconds) return [];
  return [{ by: "device", index, seconds: slowest.value, trust: slowest.trust, source: slowest.source }];
}

function ofResidual(device: ResidualDevice, index: number, question: DisconnectionQuestion): Candidate[] {
  const { amps, isLeastKnown, isMetallic, electrode } = question;
  // Five times 30 mA flow at 230 V through 1500 Ω: no cable is as long as that.
  const flows = isLeastKnown
    ? amps.least
    : isMetallic
      ? SURE_MULTIPLE * (device.amps ?? 0)
      : electrode !== undefined && electrode.ohms * (device.amps ?? Infinity) <= TOUCH_VOLTS
        ? electrode.amps
        : 0;
  const time = residualTime(device, flows);
  return time === null
    ? []
    : [{ by: "residual device", index, seconds: time.seconds, trust: time.trust, source: time.source }];
}

const SURE_MULTIPLE = 5;

/** IEC 60364-4-41 411.5.3: RA · IΔn may not be more, and no prospective current is asked for beside it. */
const TOUCH_VOLTS = 50;

/** Ia of the slowest kind that it may be. */
function openingAmpsOf({ families, rating }: LineDevice, limit: number): number | null {
  if (rating === null || families.length === 0) return null;
  const all = families.map((family) => currentToOpen(family, rating, limit)?.amps ?? null);
  return all.reduce((a, b) => (a === null || b === null ? null : Math.max(a, b)));
}

/** Ia of the quickest kind that it may be. */
function bestOpening({ families, rating }: LineDevice, limit: number): number | null {
  if (rating === null) return null;
  const all = families.flatMap((family) => currentToOpen(family, rating, limit)?.amps ?? []);
  return all.length === 0 ? null : Math.min(...all);
}

/** The fact without which nobody knows whether it opens; null: it is known that it does not in time. */
function whatIsMissing({ devices, residual, limit }: DisconnectionQuestion, amps: number): Disconnection["missing"] {
  if (residual.some((d) => d.amps === null)) return "residual device";
  if (devices.some((d) => d.rating === null)) return "device";
  const open = devices.some(
    ({ families, rating }) =>
      families.length === 0 || families.some((family) => amps >= surelyTooSlowTo(family, rating ?? 0, limit)),
  );
  return open ? "curve" : null;
}
