import { findAmps, LAW, type Circuit } from "./circuit.ts";

/** Of the greatest current: better than this needs no mending. */
const ENOUGH = 1e-13;

/**
 * The current of every branch, so exact that Kirchhoff's law holds to the last places.
 *
 * g·(v − E) alone would not do: behind a source of a fraction of a µΩ the last place of 14 V is already microamperes.
 * So the currents are kept on their own, and what is missing at the nodes is shared out once or twice by the same
 * matrix. The volts that would go with this are below their last place and are not touched.
 *
 * @param amps receives the current by branch, 0 where it takes no part
 * @returns the most that is still missing at any node, A
 */
export function findCurrents(c: Circuit, amps: Float64Array): number {
  const { plus, minus, x, on, residual, step, isReference } = c;
  let most = 0;
  for (let b = 0; b < c.branchCount; b++) {
    const i = on[b] === 0 ? 0 : findAmps(c, b, (x[plus[b] ?? 0] ?? 0) - (x[minus[b] ?? 0] ?? 0));
    amps[b] = i;
    if (plus[b] !== minus[b]) most = Math.max(most, Math.abs(i));
  }
  let worst = findMissing(c, amps);
  for (let pass = 0; pass < 20 && c.isFactored && worst > ENOUGH * most; pass++) {
    for (let i = 0; i < c.nodeCount; i++) step[i] = isReference[i] === 1 ? 0 : -(residual[i] ?? 0);
    c.matrix.solve(step);
    const before = worst;
    shift(c, amps, 1);
    worst = findMissing(c, amps);
    if (worst < before / 2) continue;
    if (worst < before) break;
    shift(c, amps, -1);
    return findMissing(c, amps);
  }
  return worst;
}

/** Where the missing current goes: through whatever has a slope. What a draw asks for stays as it is. */
function shift(c: Circuit, amps: Float64Array, sign: number): void {
  const { plus, minus, step, law, on, siemens, slope } = c;
  for (let b = 0; b < c.branchCount; b++) {
    if (on[b] === 0 || law[b] === LAW.amps || law[b] === LAW.watts) continue;
    const g = (law[b] === LAW.linear ? siemens[b] : slope[b]) ?? 0;
    amps[b] = (amps[b] ?? 0) + sign * g * ((step[plus[b] ?? 0] ?? 0) - (step[minus[b] ?? 0] ?? 0));
  }
}

/** Leaves the missing current of each node in `residual`; returns the greatest. */
function findMissing(c: Circuit, amps: Float64Array): number {
  const { residual, plus, minus } = c;
  residual.fill(0);
  for (let b = 0; b < c.branchCount; b++) {
    const i = amps[b] ?? 0;
    const p = plus[b] ?? 0;
    const m = minus[b] ?? 0;
    if (p === m) continue;
    residual[p] = (residual[p] ?? 0) + i;
    residual[m] = (residual[m] ?? 0) - i;
  }
  let worst = 0;
  for (let i = 0; i < c.nodeCount; i++) worst = Math.max(worst, Math.abs(residual[i] ?? 0));
  return worst;
}
