import { makeParts, type Parts } from "./complex-ldlt.ts";
import type { LaidAc } from "./lay-ac.ts";

/** Rounds within which volts settle unless what is asked is within a hundredth of the brink or beyond it. */
const MOST_ROUNDS = 500;
/** Volts have settled when none moves by more than this share of the greatest there are. */
const SETTLED = 1e-11;
/** A load that has less than this share of its volts without load is not fed any more. */
const NOTHING_LEFT = 0.01;
/** A load that has less than this share of the volts that it is made for, before anything is drawn, stands in the wrong place: across two lines that swing together. */
const OUT_OF_PLACE = 0.5;
/** Halvings of what can be borne: to a thousandth. */
const HALVINGS = 10;
/** Least share of its volts down to which a limited source is followed: below, nothing that is made for them works. */
const LEAST_SAG = 0.5;

/** Volts by joined node, and what the loads take there. */
export interface SettledAc {
  readonly volts: Parts;
  /** Current into a, by load. */
  readonly amps: Parts;
  /** By source: its inner volts as a share of those without load. */
  readonly sag: Float64Array;
  /** By source: it is asked for more than its limit, and lower volts do not help. */
  readonly overloaded: Uint8Array;
  /** By load: no source reaches it. */
  readonly dead: Uint8Array;
  /** By load: it counts as the impedance that it is at the volts that it is made for, as its law has no meaning where it stands. */
  readonly standsIn: Uint8Array;
  readonly shortage: { readonly load: number; readonly bearable: number } | null;
  readonly rounds: number;
}

/**
 * Finds the volts of a laid network.
 *
 * Loads that are no impedances are currents that depend on their volts: the conjugate of S / V for a power, a size at the angle of its volts for a current. From the volts without
 * load on, currents follow from volts and volts from currents with the matrix factored once, until they stand. A round shrinks what is missing by
 * |Z · S| / V², which is one exactly where the line carries the most that it can: so long as the network stands, this gets there.
 */
export function settleAc(laid: LaidAc): SettledAc {
  const { joined, sources, laidLoads, lines } = laid;
  const sag = new Float64Array(sources.length).fill(1);
  const overloaded = new Uint8Array(sources.length);
  const amps = makeParts(laidLoads.length);
  const volts = makeParts(joined.count);
  const dead = new Uint8Array(laidLoads.length);
  const standsIn = Uint8Array.from(laidLoads, (load) => (load.standsIn ? 1 : 0));
  const whole = { volts, amps, sag, overloaded, dead, standsIn };
  const { ldlt } = laid;
  if (ldlt === null) return { ...whole, dead: dead.fill(1), shortage: null, rounds: 0 };

  const greatest = Math.max(0, ...lines.map(({ er, ei }) => Math.hypot(er, ei)));
  const free = new Float64Array(laidLoads.length);
  let rounds = 0;

  /** Volts for the present currents of the loads; what the one that moves most moves by. */
  const next = makeParts(joined.count);
  const step = (): number => {
    const { re, im } = next;
    re.fill(0);
    im.fill(0);
    for (const { source, node, neutral, er, ei, yr, yi } of lines) {
      const k = sag[source] ?? 1;
      const ir = k * (er * yr - ei * yi);
      const ii = k * (er * yi + ei * yr);
      re[node] = (re[node] ?? 0) + ir;
      im[node] = (im[node] ?? 0) + ii;
      re[neutral] = (re[neutral] ?? 0) - ir;
      im[neutral] = (im[neutral] ?? 0) - ii;
    }
    for (let l = 0; l < laidLoads.length; l++) {
      const load = laidLoads[l];
      if (load === undefined || load.is === "admittance") continue;
      const ir = amps.re[l] ?? 0;
      const ii = amps.im[l] ?? 0;
      re[load.a] = (re[load.a] ?? 0) - ir;
      im[load.a] = (im[load.a] ?? 0) - ii;
      re[load.b] = (re[load.b] ?? 0) + ir;
      im[load.b] = (im[load.b] ?? 0) + ii;
    }
    ldlt.solve(next);
    let moved = 0;
    for (let i = 0; i < re.length; i++) {
      moved = Math.max(moved, Math.abs((re[i] ?? 0) - (volts.re[i] ?? 0)), Math.abs((im[i] ?? 0) - (volts.im[i] ?? 0)));
    }
    volts.re.set(re);
    volts.im.set(im);
    rounds++;
    return moved;
  };
  /** Currents of the loads at the present volts; false: one of them has nothing left. */
  const draw = (share: number): boolean => {
    let stands = true;
    for (let l = 0; l < laidLoads.length; l++) {
      const load = laidLoads[l];
      if (load === undefined) continue;
      const vr = (volts.re[load.a] ?? 0) - (volts.re[load.b] ?? 0);
      const vi = (volts.im[load.a] ?? 0) - (volts.im[load.b] ?? 0);
      if (load.is === "admittance") {
        amps.re[l] = vr * load.yr - vi * load.yi;
        amps.im[l] = vr * load.yi + vi * load.yr;
        continue;
      }
      if (dead[l] === 1) continue;
      if (standsIn[l] === 1) {
        const y = (share * load.size) / (load.is === "va" ? load.madeFor ** 2 : load.madeFor);
        amps.re[l] = y * (vr * load.cos + vi * load.sin);
        amps.im[l] = y * (vi * load.cos - vr * load.sin);
        continue;
      }
      const v = Math.hypot(vr, vi);
      if (!(v > NOTHING_LEFT * (free[l] ?? 0))) stands = false;
      // Along its volts, turned back by its angle.
      const size = (share * load.size) / (load.is === "va" ? v : 1) / v;
      amps.re[l] = size * (vr * load.cos + vi * load.sin);
      amps.im[l] = size * (vi * load.cos - vr * load.sin);
    }
    return stands;
  };
  const begin = (): void => {
    amps.re.fill(0);
    amps.im.fill(0);
    step();
  };
  /** Whether the network stands with that share of what is asked for. */
  const settle = (share: number): boolean => {
    begin();
    if (laidLoads.every(({ is }) => is === "admittance")) return draw(share);
    for (let round = 0; round < MOST_ROUNDS; round++) {
      if (!draw(share)) return false;
      const moved = step();
      if (moved <= SETTLED * greatest) return draw(share);
      if (!(moved < Infinity)) return false;
    }
    return false;
  };

  begin();
  laidLoads.forEach(({ a, b, is, madeFor }, l) => {
    const v = Math.hypot((volts.re[a] ?? 0) - (volts.re[b] ?? 0), (volts.im[a] ?? 0) - (volts.im[b] ?? 0));
    free[l] = v;
    if (!(v > 1e-6 * greatest)) dead[l] = 1;
    else if (is !== "admittance" && v < OUT_OF_PLACE * madeFor) standsIn[l] = 1;
  });
  if (!settle(1)) {
    let low = 0;
    let high = 1;
    for (let i = 0; i < HALVINGS; i++) {
      const middle = (low + high) / 2;
      if (settle(middle)) low = middle;
      else high = middle;
    }
    settle(low);
    let load = -1;
    let least = Infinity;
    laidLoads.forEach(({ a, b, is }, l) => {
      if (is === "admittance" || dead[l] === 1 || standsIn[l] === 1) return;
      const v = Math.hypot((volts.re[a] ?? 0) - (volts.re[b] ?? 0), (volts.im[a] ?? 0) - (volts.im[b] ?? 0));
      const left = v / (free[l] ?? 1);
      if (left < least) {
        least = left;
        load = l;
      }
    });
    return { ...whole, shortage: { load, bearable: low }, rounds };
  }

  limitSources();
  return { ...whole, shortage: null, rounds };

  /** Lowers the volts of those that are asked for more than their limit, all of them together, until none is. */
  function limitSources(): void {
    const limited = sources.flatMap(({ ratedVA, lineAmps }, s) => (ratedVA ?? lineAmps) === undefined ? [] : [s]); // prettier-ignore
    if (limited.every((s) => askedShare(laid, volts, sag, s) <= 1 + 1e-9)) return;
    for (let round = 0; round < MOST_ROUNDS; round++) {
      let moved = 0;
      for (const s of limited) {
        if (overloaded[s] === 1) continue;
        const before = sag[s] ?? 1;
        const now = Math.min(1, before / askedShare(laid, volts, sag, s));
        moved = Math.max(moved, Math.abs(now - before));
        sag[s] = now;
        if (!(now >= LEAST_SAG)) giveUp(s);
      }
      if (!settle(1)) {
        // At those volts the loads cannot be met: whoever was lowered is asked for what lower volts do not lessen.
        for (const s of limited) if ((sag[s] ?? 1) < 1) giveUp(s);
        settle(1);
      }
      if (moved <= 1e-9) return;
    }
    for (const s of limited) if ((sag[s] ?? 1) < 1) giveUp(s);
    settle(1);
  }
  function giveUp(s: number): void {
    overloaded[s] = 1;
    sag[s] = 1;
  }
}

/** What is asked of a source over what it may give: all its lines together, or the worst of them. */
export function askedShare(laid: LaidAc, volts: Parts, sag: Float64Array, s: number): number {
  const source = laid.sources[s];
  if (source === undefined) return 0;
  let va = 0;
  let most = 0;
  for (const line of laid.lines) {
    if (line.source !== s) continue;
    const { re, im } = lineAmps(line, volts, sag[s] ?? 1);
    const size = Math.hypot(re, im);
    va += size * Math.hypot(line.er, line.ei);
    most = Math.max(most, size);
  }
  return Math.max(over(va, source.ratedVA), over(most, source.lineAmps));
}

const over = (asked: number, limit: number | undefined): number =>
  limit === undefined || asked === 0 ? 0 : asked / limit;

/** Current out of a line of a source. */
export function lineAmps(
  { node, neutral, er, ei, yr, yi }: LaidAc["lines"][number],
  volts: Parts,
  sag: number,
): { readonly re: number; readonly im: number } {
  const vr = sag * er - ((volts.re[node] ?? 0) - (volts.re[neutral] ?? 0));
  const vi = sag * ei - ((volts.im[node] ?? 0) - (volts.im[neutral] ?? 0));
  return { re: vr * yr - vi * yi, im: vr * yi + vi * yr };
}
