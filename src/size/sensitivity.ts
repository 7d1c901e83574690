import type { Runs } from "../route/index.ts";
import type { System } from "../system/index.ts";
import { settleChanged, sizeOf } from "./change-system.ts";
import { leversOf, type Input, type Lever } from "./levers.ts";
import type { Settled } from "./settled.ts";

/** An input that would change a circuit's size, and from which value on. */
export interface Sensitivity {
  readonly input: Input;
  /** Key path of the plan: `circuits.W12.length`; `parts.lowest charge` stands for all batteries at once. */
  readonly fact: string;
  readonly unit: string;
  /** As it is, in that unit. */
  readonly now: number;
  readonly way: "up" | "down";
  /** The first value that was tried with another answer, in that unit, and the last with the present one. */
  readonly changesAt: number;
  readonly until: number;
  /** How far that is from now, as a share of now; null where now is nought. */
  readonly byShare: number | null;
  /** The size that it then gets; null: nothing on sale is enough. */
  readonly to: string | null;
  /** In words: `9.4 m or longer, one way`. */
  readonly when: string;
}

/** What would change the size of a circuit. */
export interface SizeSensitivity {
  /** Present size; null: nothing on sale is enough, or it cannot be told. */
  readonly size: string | null;
  /** The inputs that change it; `byShare` tells which is nearest. */
  readonly changes: readonly Sensitivity[];
  /** Inputs that were moved as far as is told here, and changed nothing. */
  readonly nothing: readonly {
    readonly fact: string;
    readonly unit: string;
    readonly way: "up" | "down";
    readonly to: number;
  }[];
  /** What stood still and what was chosen anew while each input was moved, in words. */
  readonly held: string;
}

const HELD =
  "one input is moved at a time, every other fact of the plan stands still, and sizes and devices of the whole build are chosen anew at each value";

/**
 * Finds which input, changed by how much, changes the size of a circuit: length, load, demand, air, bundle, drop, lowest charge, insulation, least volts, and the
 * length of its feeder. The whole build is settled again some dozens of times: to be asked for, not to be run at every edit.
 *
 * A size that changes and changes back within one doubling of the step is not seen; what is told was settled at both its ends.
 *
 * @param index of the circuit in the system
 * @param inputs which are moved; absent: all
 */
export function findSensitivity(
  system: System,
  runs: Runs,
  settled: Pick<Settled, "model" | "chosen">,
  index: number,
  inputs?: readonly Input[],
): SizeSensitivity {
  const size = sizeOf(settleChanged(system), index);
  const changes: Sensitivity[] = [];
  const nothing: SizeSensitivity["nothing"][number][] = [];
  for (const lever of leversOf(system, runs, settled, index)) {
    if (inputs !== undefined && !inputs.includes(lever.input)) continue;
    const { input, fact, unit, now, way } = lever;
    const found = search(lever, size, (value) => sizeOf(settleChanged(lever.change(value)), index));
    if (found === "nothing") nothing.push({ fact, unit, way, to: round(way === "up" ? lever.most : lever.least) });
    if (found === null || found === "nothing") continue;
    const changesAt = round(found.value);
    changes.push({
      input,
      fact,
      unit,
      now,
      way,
      changesAt,
      until: round(found.until),
      byShare: now === 0 ? null : Math.abs(changesAt - now) / Math.abs(now),
      to: found.size,
      when: lever.words(`${changesAt}${unit === "" ? "" : ` ${unit}`}`),
    });
  }
  return { size, changes, nothing, held: HELD };
}

/** Steps of a scale that people read: about a hundredth of the value, and 1, 2 or 5 of some power of ten. */
function stepFor(value: number): number {
  const raw = value / 100;
  const power = 10 ** Math.floor(Math.log10(raw));
  return ([1, 2, 5].find((k) => k * power >= raw * (1 - 1e-9)) ?? 10) * power;
}

const round = (x: number): number => Number(x.toPrecision(6));

/** null: it cannot be moved. */
function search(
  { now, least, most, way, step: own }: Lever,
  size: string | null,
  ask: (value: number) => string | null,
): { value: number; until: number; size: string | null } | "nothing" | null {
  if (!(now > 0)) return null;
  const step = own ?? stepFor(now);
  const sign = way === "up" ? 1 : -1;
  // In whole steps from the scale's nought, so that ends are figures as people write them.
  const first = way === "up" ? Math.floor(now / step + 1e-9) : Math.ceil(now / step - 1e-9);
  const last = Math.round((way === "up" ? most : least) / step);
  const at = (k: number): number => (first + sign * k) * step;
  const end = sign * (last - first);
  if (end < 1) return null;
  let same = 0;
  let other = -1;
  let found: string | null = null;
  for (let k = 1; same < end; k = Math.min(2 * k, end)) {
    const here = ask(at(k));
    if (here !== size) {
      other = k;
      found = here;
      break;
    }
    same = k;
  }
  if (other < 0) return "nothing";
  while (other - same > 1) {
    const middle = (same + other) >> 1;
    const here = ask(at(middle));
    if (here === size) same = middle;
    else {
      other = middle;
      found = here;
    }
  }
  return { value: at(other), until: same === 0 ? now : at(same), size: found };
}
