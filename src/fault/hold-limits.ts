/** How a limited source stands: it pushes its limit, it holds its volts with less, or others hold more volts than it can. */
const PUSHING = 0;
const HOLDING = 1;
const RESTING = 2;

/** More changes of standing than any handful of sources needs. */
const MOST_CHANGES = 40;
/** So much of its limit or volts is rounding, not a change of standing. */
const ROUNDING = 1e-9;

/** Limited sources of one piece of metal, each taken as its volts behind volts ÷ amps. */
export interface LimitedSources {
  /** By limited source: volts that it holds, and the most that it pushes. */
  readonly volts: readonly number[];
  readonly amps: readonly number[];
  /** By limited source: volts across it while nothing is shorted. */
  readonly restVolts: readonly number[];
  /** Volts across source k for an ampere more pushed by source l. */
  readonly between: readonly (readonly number[])[];
}

/** A place at which they are shorted. */
export interface LimitedPlace {
  /** Volts across the place for an ampere more of source k. */
  readonly atFault: readonly number[];
  /** Volts across the place while nothing is shorted. */
  readonly openVolts: number;
}

/** Room to work in, made once for each number of sources. */
interface Room {
  readonly standing: Uint8Array;
  readonly rows: readonly Float64Array[];
  readonly order: Float64Array[];
  readonly x: Float64Array;
}

const rooms: (Room | undefined)[] = [];

function roomFor(n: number): Room {
  let room = rooms[n];
  if (room === undefined) {
    const rows = Array.from({ length: n + 1 }, () => new Float64Array(n + 2));
    rooms[n] = room = { standing: new Uint8Array(n), rows, order: [...rows], x: new Float64Array(n + 1) };
  }
  return room;
}

/**
 * Finds the current of a fault to which sources with a limit add: each pushes its limit as long as the volts across it are below its own, and
 * holds those otherwise.
 *
 * @param ohms resistance that is seen from the place, the fault's own counted
 * @returns what each source pushes beyond that of its volts behind volts ÷ amps, then the current of the fault, A; the next call writes over it
 */
export function holdLimits(sources: LimitedSources, place: LimitedPlace, ohms: number): Float64Array {
  const { standing, rows, order, x } = roomFor(sources.volts.length);
  standing.fill(PUSHING);
  for (let round = 0; round < MOST_CHANGES; round++) {
    fillRows(sources, place, ohms, standing, rows);
    solveDense(rows, order, x);
    if (!alterStanding(sources, place, standing, x)) break;
  }
  return x;
}

/** Unknown: what each source pushes beyond its base, then the current of the fault. */
function fillRows(
  sources: LimitedSources,
  { atFault, openVolts }: LimitedPlace,
  ohms: number,
  standing: Uint8Array,
  rows: readonly Float64Array[],
): void {
  const n = sources.volts.length;
  for (let k = 0; k < n; k++) {
    const row = rows[k];
    if (row === undefined) continue;
    const volts = sources.volts[k] ?? 0;
    const inner = volts / (sources.amps[k] ?? 1);
    const rest = sources.restVolts[k] ?? 0;
    const between = sources.between[k];
    // Volts across it: rest + Σ between · beyond − atFault · amps.
    for (let l = 0; l < n; l++) row[l] = between?.[l] ?? 0;
    row[n] = -(atFault[k] ?? 0);
    if (standing[k] === HOLDING) row[n + 1] = volts - rest;
    else {
      // Pushing: beyond = volts across ÷ inner. Resting: beyond = (volts across − own volts) ÷ inner.
      row[k] = (row[k] ?? 0) - inner;
      row[n + 1] = (standing[k] === RESTING ? volts : 0) - rest;
    }
  }
  const last = rows[n];
  if (last === undefined) return;
  for (let l = 0; l < n; l++) last[l] = -(atFault[l] ?? 0);
  last[n] = ohms;
  last[n + 1] = openVolts;
}

/** Alters the standing of the source that is furthest from what it may do; false: all may stand as they do. */
function alterStanding(
  sources: LimitedSources,
  { atFault }: LimitedPlace,
  standing: Uint8Array,
  x: Float64Array,
): boolean {
  const n = sources.volts.length;
  let worst = ROUNDING;
  let at = -1;
  let next = PUSHING;
  for (let k = 0; k < n; k++) {
    const volts = sources.volts[k] ?? 0;
    const most = sources.amps[k] ?? 0;
    const between = sources.between[k];
    let across = (sources.restVolts[k] ?? 0) - (atFault[k] ?? 0) * (x[n] ?? 0);
    for (let l = 0; l < n; l++) across += (between?.[l] ?? 0) * (x[l] ?? 0);
    const pushes = (most * (volts - across)) / volts + (x[k] ?? 0);
    let by: number;
    let to = HOLDING;
    if (standing[k] === PUSHING) by = across / volts - 1;
    else if (standing[k] === RESTING) by = 1 - across / volts;
    else {
      by = pushes / most - 1;
      to = PUSHING;
      if (-pushes / most > by) {
        by = -pushes / most;
        to = RESTING;
      }
    }
    if (by > worst) [worst, at, next] = [by, k, to];
  }
  if (at < 0) return false;
  standing[at] = next;
  return true;
}

/**
 * Gauss with pivoting; an unknown that nothing fixes is 0.
 *
 * @param order room for the rows in the order of their pivots
 * @param x receives the unknowns
 */
function solveDense(rows: readonly Float64Array[], order: Float64Array[], x: Float64Array): void {
  const n = rows.length;
  for (let r = 0; r < n; r++) order[r] = rows[r] ?? x;
  for (let c = 0; c < n; c++) {
    let best = c;
    for (let r = c + 1; r < n; r++) if (Math.abs(order[r]?.[c] ?? 0) > Math.abs(order[best]?.[c] ?? 0)) best = r;
    const pivot = order[best];
    const other = order[c];
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
  for (let c = n - 1; c >= 0; c--) {
    const row = order[c];
    let sum = row?.[n] ?? 0;
    for (let k = c + 1; k < n; k++) sum -= (row?.[k] ?? 0) * (x[k] ?? 0);
    const d = row?.[c] ?? 0;
    x[c] = Math.abs(d) < 1e-15 ? 0 : sum / d;
  }
}
