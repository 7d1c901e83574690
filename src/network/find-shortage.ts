import { addCurved, factorCircuit, findVolts, LAW, type Circuit } from "./circuit.ts";
import { setSlopes, spread } from "./find-collapse.ts";
import { findPathVolts } from "./path-volts.ts";
import { hasFaded, settleVolts, type Settling } from "./settle-volts.ts";

/**
 * The most that a draw which has been taken off could have had, and what stands in the way.
 *
 * The draw is put back as a plain current that is raised, with the volts u answering. A draw in amperes ends where u is
 * gone; a draw in watts where u·i is greatest, that is where u = R·i with R the resistance seen from its terminals.
 * With chargers about there may be more than one such place (another charger comes in as the volts fall), so the whole
 * range is looked over first.
 *
 * The volts lost per ampere are Σ r·t², with t the part of that ampere in each element (what is lost is what is turned
 * into heat). So each element has a share in them, in meshes too, and the one with the greatest is the cause.
 */
export interface Shortage {
  /** The most that could be had there, everything else as it is: W, or A for a draw that asks for amperes. */
  readonly most: number;
  /** Volts at which it could be had. */
  readonly atVolts: number;
  /** The branch with the greatest share of the volts lost on the way, and its share, 0…1; −1 if nothing can be told. */
  readonly cause: number;
  readonly share: number;
}

/** Places looked at over the whole range of current. */
const PLACES = 24;

/** @param branch the draw, not taking part at present; the circuit is left as it was found, but for the matrix */
export function findShortage(c: Circuit, branch: number, told: Settling): Shortage {
  const kept = c.x.slice();
  const law = c.law[branch] ?? 0;
  const [amps, watts, fade] = [c.amps[branch] ?? 0, c.watts[branch] ?? 0, c.fade[branch] ?? 0];
  c.law[branch] = LAW.amps;
  // Here the current is to stay what it is set to, down to the last of the volts.
  c.fade[branch] = fade * 1e-6;
  addCurved(c, branch);

  const { most, atVolts, beyond } = findMost(c, branch, law === LAW.amps, told);

  c.curvedCount--;
  c.on[branch] = 0;
  c.x.set(beyond);
  const { cause, share } = findCause(c, branch);
  c.law[branch] = law;
  c.amps[branch] = amps;
  c.watts[branch] = watts;
  c.fade[branch] = fade;
  c.x.set(kept);
  return { most, atVolts, cause, share };
}

interface Probe {
  /** Whether the network has an answer at all. */
  readonly settled: boolean;
  /** Whether all draws still have volts. */
  readonly stands: boolean;
  /** What it gets: W or A. */
  readonly had: number;
  /** Whether a little more current would give more. */
  readonly rising: boolean;
  /** The current at which Newton's method sees the most. */
  readonly guess: number;
}

/** Draws a current at the branch, starting from the volts given. */
function probe(
  c: Circuit,
  branch: number,
  drawn: number,
  from: Float64Array,
  isCurrent: boolean,
  told: Settling,
): Probe {
  c.amps[branch] = drawn;
  c.x.set(from);
  const settled = settleVolts(c, told) === "settled";
  const u = findVolts(c, branch);
  const failed = { settled, stands: false, had: 0, rising: false, guess: Infinity };
  // Neither it nor another may be left without volts: everything else is to stay as it is.
  if (!settled || hasFaded(c)) return failed;
  setSlopes(c);
  if (factorCircuit(c) >= 0) return failed;
  const response = new Float64Array(1);
  findPathVolts(c, branch, 1, Int32Array.of(branch), response);
  const ohms = -(response[0] ?? 0);
  if (isCurrent)
    return { settled, stands: true, had: drawn, rising: true, guess: ohms > 0 ? drawn + u / ohms : Infinity };
  const guess = ohms > 0 ? (u + ohms * drawn) / (2 * ohms) : Infinity;
  return { settled, stands: true, had: drawn * u, rising: u > drawn * ohms, guess };
}

/**
 * Raises the current of a branch to where it gets the most; `beyond` are the volts of all nodes just past that, where
 * the network stands there.
 */
function findMost(
  c: Circuit,
  branch: number,
  isCurrent: boolean,
  told: Settling,
): { readonly most: number; readonly atVolts: number; readonly beyond: Float64Array } {
  const start = c.x.slice();
  let most = 0;
  let atVolts = findVolts(c, branch);
  const draw = (drawn: number, from: Float64Array): Probe => {
    const found = probe(c, branch, drawn, from, isCurrent, told);
    if (found.had > most) {
      most = found.had;
      atVolts = findVolts(c, branch);
    }
    return found;
  };
  let hasFeeds = false;
  for (let k = 0; k < c.curvedCount; k++) if (c.law[c.curved[k] ?? 0] === LAW.feed) hasFeeds = true;
  let [lo, hi] = hasFeeds && !isCurrent ? findBestStretch(draw, start, c.x) : [0, Infinity];

  const low = start.slice();
  let beyond: Float64Array | null = null;
  let next = lo;
  for (let round = 0; round < 60; round++) {
    const { settled, rising, guess } = draw(next, low);
    if (rising) {
      lo = next;
      low.set(c.x);
    } else {
      hi = next;
      if (settled) beyond = c.x.slice();
    }
    if ((hi < Infinity && hi - lo <= 1e-7 * hi) || Math.abs(guess - next) <= 1e-9 * next) break;
    const limit = hi < Infinity ? hi : Math.max(1e3 * lo, 1);
    const isUsable = guess > lo && guess < limit && round < 6;
    next = isUsable ? guess : hi < Infinity ? (lo + hi) / 2 : limit;
    if (!(next < 1e12)) break;
  }
  return { most, atVolts, beyond: beyond ?? low };
}

/** The stretch of current about the best of a row of places, from none to where the draw has no volts any more. */
function findBestStretch(
  draw: (drawn: number, from: Float64Array) => Probe,
  start: Float64Array,
  x: Float64Array,
): [lo: number, hi: number] {
  let under = 0;
  let top = 1;
  for (let i = 0; i < 40 && draw(top, start).stands; i++) {
    under = top;
    top *= 4;
  }
  for (let i = 0; i < 6; i++) {
    const middle = (under + top) / 2;
    if (draw(middle, start).stands) under = middle;
    else top = middle;
  }
  const from = start.slice();
  let best = 0;
  let place = 0;
  for (let i = 1; i <= PLACES; i++) {
    const { stands, had } = draw((top * i) / PLACES, from);
    if (!stands) break;
    from.set(x);
    if (had <= best) continue;
    best = had;
    place = i;
  }
  return [(top * Math.max(0, place - 1)) / PLACES, (top * (place + 1)) / PLACES];
}

/** Which branch has the greatest share in the volts lost by a current drawn at a branch, at the volts of the circuit. */
function findCause(c: Circuit, branch: number): { readonly cause: number; readonly share: number } {
  setSlopes(c);
  // Other loads stay as they are: what they would do is not a loss on the way.
  if (factorCircuit(c, true) >= 0) return { cause: -1, share: 0 };
  const t = new Float64Array(c.nodeCount);
  spread(c, branch, t, 1);
  c.matrix.solve(t);
  let cause = -1;
  let most = 0;
  let lost = 0;
  for (let b = 0; b < c.branchCount; b++) {
    if (c.on[b] === 0 || c.law[b] === LAW.amps || c.law[b] === LAW.watts) continue;
    const siemens = c.law[b] === LAW.linear ? (c.siemens[b] ?? 0) : (c.slope[b] ?? 0) + (c.stay[b] ?? 0);
    const part = siemens * ((t[c.plus[b] ?? 0] ?? 0) - (t[c.minus[b] ?? 0] ?? 0)) ** 2;
    lost += part;
    if (part > most * (1 + 1e-9)) {
      most = part;
      cause = b;
    }
  }
  return { cause, share: lost > 0 ? most / lost : 0 };
}
