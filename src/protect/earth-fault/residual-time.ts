import { cite, lookUp, type Citation, type Trust } from "../../explain/index.ts";
import { residualTimes } from "../../reference/residual-times.ts";

/** A device that opens on what does not come back. */
export interface ResidualDevice {
  /** Rated residual current, A; null: not known. */
  readonly amps: number | null;
  /** Longest time at its rated residual current, as its maker says; null: as its standard has it. */
  readonly seconds: number | null;
  /** Null: not known. */
  readonly isDelayed: boolean | null;
}

export interface ResidualTime {
  readonly seconds: number;
  readonly trust: Trust;
  readonly source: Citation;
}

/** Up to this it is a class A device of UL 943, which follows a law of its own. */
const CLASS_A_AMPS = 0.006;

/**
 * Time in which a residual device is sure to open.
 *
 * By the step of its standard at or below the current; a class A device (to 6 mA) by t = (20 / I)^1.43, not below 25 ms. One of which nobody says whether it is
 * delayed counts as delayed. Ignores whether it sees the waveform, and whether it has volts to work with.
 *
 * @param amps residual current, A
 * @returns null where it need not open at all, or its rated current is not known
 * @source IEC 61008-1 Table 1; UL 943 6.7.2, from memory; the part's own time where stated
 * @example
 * residualTime({ amps: 0.03, seconds: null, isDelayed: false }, 0.15)?.seconds //=> 0.04
 * residualTime({ amps: 0.03, seconds: null, isDelayed: false }, 0.07)?.seconds //=> 0.15
 * residualTime({ amps: 0.1, seconds: null, isDelayed: true }, 0.1)?.seconds //=> 0.5
 * residualTime({ amps: 0.005, seconds: null, isDelayed: false }, 0.005)?.seconds //=> 7.26
 * residualTime({ amps: 0.03, seconds: null, isDelayed: false }, 0.02) //=> null
 */
export function residualTime({ amps: rated, seconds, isDelayed }: ResidualDevice, amps: number): ResidualTime | null {
  if (rated === null || rated <= 0 || amps < rated) return null;
  const stated: ResidualTime | null =
    seconds === null
      ? null
      : { seconds, trust: "read", source: cite("data-sheets", "time stated of the device", "read") };
  const byStandard =
    rated <= CLASS_A_AMPS ? classA(amps) : byTable(isDelayed === false ? "general" : "delayed", amps / rated);
  return stated !== null && stated.seconds <= byStandard.seconds ? stated : byStandard;
}

function classA(amps: number): ResidualTime {
  const source = cite("ul-943", "6.7.2", "memory");
  return { seconds: Math.max(0.025, (20 / (amps * 1000)) ** 1.43), trust: "memory", source };
}

function byTable(kind: "general" | "delayed", multiple: number): ResidualTime {
  // A rounding below the step is the step.
  const step = [5, 2, 1].find((m) => multiple >= m * (1 - 1e-9)) ?? 1;
  const cell = lookUp(residualTimes, `${kind} ${step}`, "greatestS");
  if (cell === null) throw new Error(`protection/residual_times has no ${kind} ${step}`);
  return { seconds: cell.value, trust: cell.trust, source: cell.source };
}

/**
 * Whether of two residual devices in series the nearer one opens alone.
 *
 * @param upstream nearer to the source
 * @returns null where a rated current or the delay of the upstream one is not known
 * @source IEC 60364-5-53 535.3 (now 536.4.1.4), from memory: three times the residual current, and delayed
 * @example
 * residualChain({ amps: 0.1, seconds: null, isDelayed: true }, { amps: 0.03, seconds: null, isDelayed: false }).isSelective //=> true
 * residualChain({ amps: 0.03, seconds: null, isDelayed: false }, { amps: 0.03, seconds: null, isDelayed: false }).because //=> "0.03 A is less than 3 times 0.03 A, and it is not delayed"
 */
export function residualChain(
  upstream: ResidualDevice,
  downstream: ResidualDevice,
): { readonly isSelective: boolean | null; readonly ratio: number | null; readonly because: string } {
  const ratio = upstream.amps === null || downstream.amps === null ? null : upstream.amps / downstream.amps;
  const tooClose = ratio !== null && ratio < RATIO * (1 - 1e-9);
  const faults = [
    ...(tooClose ? [`${upstream.amps ?? 0} A is less than ${RATIO} times ${downstream.amps ?? 0} A`] : []),
    ...(upstream.isDelayed === false ? ["it is not delayed"] : []),
  ];
  if (faults.length > 0) return { isSelective: false, ratio, because: faults.join(", and ") };
  if (ratio === null) return { isSelective: null, ratio, because: "a rated residual current is not known" };
  if (upstream.isDelayed === null) return { isSelective: null, ratio, because: "whether it is delayed is not known" };
  return { isSelective: true, ratio, because: `${Number(ratio.toPrecision(3))} times the current, and delayed` };
}

const RATIO = 3;
