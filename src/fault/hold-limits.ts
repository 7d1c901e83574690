/** How a limited source stands: it pushes its limit, it holds its volts with less, or others hold more volts than it can. */
const PUSHING = 0;
const HOLDING = 1;
const RESTING = 2;

/** More changes of standing than any handful of sources needs. */
const MOST_CHANGES = 40;
/** So much of its limit or volts is rounding, not a change of standing. */
const ROUNDING = 1e-9;

/** A fault with the limited sources of its piece of metal, as a small dense system. */
export interface LimitedFault {
  /** By limited source: volts that it holds, and the most that it pushes. */
  readonly volts: readonly number[];
  readonly amps: readonly number[];
  /** By limited source: volts across it while each is taken as its volts behind volts ÷ amps, and nothing is shorted. */
  readonly restVolts: readonly number[];
  /** Volts across source k for an ampere more pushed by source l. */
  readonly between: readonly (readonly number[])[];
  /** The same across the place of the fault for an ampere more of source k. */
  readonly atFault: readonly number[];
  /** Volts across the place while nothing is shorted, and the resistance that is seen from it, the fault's own counted. */
  readonly openVolts: number;
  readonly ohms: number;
}

/** Amps through the fault, and what each limited source pushes beyond that of its volts behind volts ÷ amps. */
export interface HeldFault {
  readonly amps: number;
  readonly beyond: Float64Array;
}

/**
 * Finds the current of a fault to which sources with a limit add: each pushes its limit as long as the volts across it are below its own, and
 * holds those otherwise.
 */
export function holdLimits(fault: LimitedFault): HeldFault {
  const n = fault.volts.length;
  const beyond = new Float64Array(n);
  if (n === 0) return { amps: fault.openVolts / fault.ohms, beyond };
  const standing = new Uint8Array(n);
  const rows = Array.from({ length: n + 1 }, () => new Float64Array(n + 2));
  let x = new Float64Array(n + 1);
  for (let round = 0; round < MOST_CHANGES; round++) {
    fillRows(fault, standing, rows);
    x = solveDense(rows);
    const wrong = worstStanding(fault, standing, x);
    if (wrong < 0) break;
  }
  beyond.set(x.subarray(0, n));
  return { amps: x[n] ?? 0, beyond };
}

/** Unknown: what each source pushes beyond its base, then the current of the fault. */
function fillRows(fault: LimitedFault, standing: Uint8Array, rows: readonly Float64Array[]): void {
  const n = fault.volts.length;
  for (let k = 0; k < n; k++) {
    const row = rows[k];
    if (row === undefined) continue;
    const volts = fault.volts[k] ?? 0;
    const inner = volts / (fault.amps[k] ?? 1);
    const rest = fault.restVolts[k] ?? 0;
    // Volts across it: rest + Σ between · beyond − atFault · amps.
    for (let l = 0; l < n; l++) row[l] = fault.between[k]?.[l] ?? 0;
    row[n] = -(fault.atFault[k] ?? 0);
    if (standing[k] === HOLDING) row[n + 1] = volts - rest;
    else {
      // Pushing: beyond = volts across ÷ inner. Resting: beyond = (volts across − own volts) ÷ inner.
      row[k] = (row[k] ?? 0) - inner;
      row[n + 1] = (standing[k] === RESTING ? volts : 0) - rest;
    }
  }
  const last = rows[n];
  if (last === undefined) return;
  for (let l = 0; l < n; l++) last[l] = -(fault.atFault[l] ?? 0);
  last[n] = fault.ohms;
  last[n + 1] = fault.openVolts;
}

/** Alters the standing of the source that is furthest from what it may do; −1: all may stand as they do. */
function worstStanding(fault: LimitedFault, standing: Uint8Array, x: Float64Array): number {
  const n = fault.volts.length;
  let worst = ROUNDING;
  let at = -1;
  let next = PUSHING;
  for (let k = 0; k < n; k++) {
    const volts = fault.volts[k] ?? 0;
    const most = fault.amps[k] ?? 0;
    let across = (fault.restVolts[k] ?? 0) - (fault.atFault[k] ?? 0) * (x[n] ?? 0);
    for (let l = 0; l < n; l++) across += (fault.between[k]?.[l] ?? 0) * (x[l] ?? 0);
    const pushes = (most * (volts - across)) / volts + (x[k] ?? 0);
    const consider = (by: number, to: number): void => {
      if (by > worst) [worst, at, next] = [by, k, to];
    };
    if (standing[k] === PUSHING) consider(across / volts - 1, HOLDING);
    else if (standing[k] === HOLDING) {
      consider(pushes / most - 1, PUSHING);
      consider(-pushes / most, RESTING);
    } else consider(1 - across / volts, HOLDING);
  }
  if (at >= 0) standing[at] = next;
  return at;
}

/** Gauss with pivoting; an unknown that nothing fixes is 0. */
function solveDense(rows: readonly Float64Array[]): Float64Array<ArrayBuffer> {
  const n = rows.length;
  const order = [...rows];
  for (let c = 0; c < n; c++) {
    let best = c;
    for (let r = c + 1; r < n; r++) if (Math.abs(order[r]?.[c] ?? 0) > Math.abs(order[best]?.[c] ?? 0)) best = r;
    const [pivot, other] = [order[best], order[c]];
    if (pivot === undefined || other === undefined) continue;
    order[best] = other;
    order[c] = pivot;
    const d = pivot[c] ?? 0;
    if (Math.abs(d) < 1e-15) continue;
    for (let r = c + 1; r < n; r++) {
      const row = order[r];
      const f = (row?.[c] ?? 0) / d;
      if (row === undefined || f === 0) continue;
      for (let k = c; k <= n; k++) row[k] = (row[k] ?? 0) - f * (pivot[k] ?? 0);
    }
  }
  const x = new Float64Array(n);
  for (let c = n - 1; c >= 0; c--) {
    const row = order[c];
    let sum = row?.[n] ?? 0;
    for (let k = c + 1; k < n; k++) sum -= (row?.[k] ?? 0) * (x[k] ?? 0);
    const d = row?.[c] ?? 0;
    x[c] = Math.abs(d) < 1e-15 ? 0 : sum / d;
  }
  return x;
}
