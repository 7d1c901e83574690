import { findJoinAmps } from "../join-nodes.ts";
import type {
  AcBranchPoint,
  AcIsland,
  AcLoadPoint,
  AcNodePoint,
  AcShortage,
  AcSolution,
  AcSourcePoint,
} from "./ac-solution.ts";
import { admittance, type LaidAc } from "./lay-ac.ts";
import { phasor, type Phasor } from "./phasor.ts";
import { askedShare, lineAmps, type SettledAc } from "./settle-ac.ts";

/** Currents below this share of the greatest of a network are rounding. */
const NOTHING = 1e-9;

/** Watts and reactive volt-amperes of a current at volts. */
const powerOf = (v: Phasor, i: Phasor): { readonly watts: number; readonly vars: number } => ({
  watts: v.re * i.re + v.im * i.im,
  vars: v.im * i.re - v.re * i.im,
});

/** Puts what was found into words and plain numbers. */
export function describeAc(laid: LaidAc, settled: SettledAc): AcSolution {
  const { names, joined, island, references } = laid;
  const { volts, shortage, rounds } = settled;
  const at = (node: number): number => joined.of[node] ?? 0;
  const nodes = names.map((id, n): AcNodePoint => ({
    id,
    island: island[at(n)] ?? 0,
    volts: phasor(volts.re[at(n)] ?? 0, volts.im[at(n)] ?? 0),
  }));
  const islands = Array.from(references, (node, k): AcIsland => ({
    reference: names[node] ?? "",
    sources: laid.sources.filter(({ neutral }) => island[at(laid.number.get(neutral) ?? 0)] === k).map(({ id }) => id),
  }));
  const loads = describeLoads(laid, settled);
  const sources = describeSources(laid, settled);
  const branches = describeBranches(laid, settled, loads, sources);
  return {
    converged: shortage === null && laid.ldlt !== null,
    shortage: shortage === null ? null : describeShortage(laid, shortage),
    rounds,
    nodes,
    islands,
    branches,
    sources,
    loads,
    lossWatts: branches.reduce((sum, { watts }) => sum + watts, 0),
    problems: laid.problems,
  };
}

function describeShortage(laid: LaidAc, { load, bearable }: NonNullable<SettledAc["shortage"]>): AcShortage {
  const id = laid.loads[load]?.id ?? "";
  const share = Math.floor(bearable * 1000) / 10; // never more than can be borne
  return {
    load: id,
    bearable,
    says: `the load asks for more than the line can carry: ${id} cannot be held up, and the network stands with no more than ${share} % of what is asked`,
  };
}

function describeLoads(laid: LaidAc, { volts, amps, dead, standsIn, shortage }: SettledAc): AcLoadPoint[] {
  return laid.laidLoads.map(({ a, b, is }, l): AcLoadPoint => {
    const v = phasor((volts.re[a] ?? 0) - (volts.re[b] ?? 0), (volts.im[a] ?? 0) - (volts.im[b] ?? 0));
    const i = phasor(amps.re[l] ?? 0, amps.im[l] ?? 0);
    const condition =
      dead[l] === 1
        ? "dead"
        : standsIn[l] === 1
          ? "as impedance"
          : shortage !== null && is !== "admittance"
            ? "not borne"
            : "met";
    return { id: laid.loads[l]?.id ?? "", condition, volts: v, amps: i, ...powerOf(v, i) };
  });
}

function describeSources(laid: LaidAc, { volts, sag, overloaded }: SettledAc): AcSourcePoint[] {
  return laid.sources.map((source, s): AcSourcePoint => {
    const own = laid.lines.filter((line) => line.source === s);
    const share = sag[s] ?? 1;
    let watts = 0;
    let vars = 0;
    let va = 0;
    let innerWatts = 0;
    let sumRe = 0;
    let sumIm = 0;
    let most = 0;
    const lines = own.map((line, i) => {
      const { node, neutral, yr, yi } = line;
      const amps = lineAmps(line, volts, share);
      const v = phasor(
        (volts.re[node] ?? 0) - (volts.re[neutral] ?? 0),
        (volts.im[node] ?? 0) - (volts.im[neutral] ?? 0),
      );
      const out = phasor(amps.re, amps.im);
      const power = powerOf(v, out);
      watts += power.watts;
      vars += power.vars;
      va += v.size * out.size;
      innerWatts += (out.size ** 2 * yr) / (yr * yr + yi * yi);
      sumRe += out.re;
      sumIm += out.im;
      most = Math.max(most, out.size);
      return { node: source.lines[i]?.node ?? "", volts: v, amps: out };
    });
    const isIdle = !(most > NOTHING);
    const hasLimit = source.ratedVA !== undefined || source.lineAmps !== undefined;
    const condition =
      overloaded[s] === 1
        ? "overloaded"
        : share < 1
          ? "limited by source"
          : isIdle
            ? "idle"
            : watts < 0
              ? "takes"
              : "gives";
    return {
      id: source.id,
      condition,
      lines,
      neutralAmps: phasor(sumRe, sumIm),
      watts,
      vars,
      va,
      powerFactor: isIdle ? null : watts / va,
      load: hasLimit ? askedShare(laid, volts, sag, s) : null,
      sag: share,
      innerWatts,
    };
  });
}

function describeBranches(
  laid: LaidAc,
  { volts }: SettledAc,
  loads: readonly AcLoadPoint[],
  sources: readonly AcSourcePoint[],
): AcBranchPoint[] {
  const { branches, branchA, branchB, join, joined, number, names } = laid;
  const plain = branches.map(({ ohms, reactance }, i) => {
    if (join[i] !== -1) return null;
    const a = joined.of[branchA[i] ?? 0] ?? 0;
    const b = joined.of[branchB[i] ?? 0] ?? 0;
    const drop = phasor((volts.re[a] ?? 0) - (volts.re[b] ?? 0), (volts.im[a] ?? 0) - (volts.im[b] ?? 0));
    const { yr, yi } = admittance(ohms, reactance);
    return { drop, amps: phasor(drop.re * yr - drop.im * yi, drop.re * yi + drop.im * yr) };
  });

  // What joins carry follows from what everything else takes away on their far side.
  const inJoins = [0, 1].map((part) => {
    const pick = (i: Phasor): number => (part === 0 ? i.re : i.im);
    const taken = new Float64Array(names.length);
    const take = (node: number | undefined, amps: number): void => {
      if (node !== undefined) taken[node] = (taken[node] ?? 0) + amps;
    };
    plain.forEach((point, i) => {
      if (point === null) return;
      take(branchA[i], pick(point.amps));
      take(branchB[i], -pick(point.amps));
    });
    laid.loads.forEach(({ a, b }, l) => {
      const i = loads[l];
      if (i === undefined) return;
      take(number.get(a), pick(i.amps));
      take(number.get(b), -pick(i.amps));
    });
    sources.forEach(({ lines, neutralAmps }, s) => {
      for (const { node, amps } of lines) take(number.get(node), -pick(amps));
      take(number.get(laid.sources[s]?.neutral ?? ""), pick(neutralAmps));
    });
    const into = new Float64Array(laid.joinFrom.length);
    findJoinAmps(joined, laid.joinFrom, taken, into);
    return into;
  });
  return branches.map(({ id }, i): AcBranchPoint => {
    const point = plain[i];
    if (point != null) return { id, ...point, ...powerOf(point.drop, point.amps) };
    const j = join[i] ?? 0;
    const isRing = joined.ring[j] === 1;
    const amps = isRing ? null : phasor(inJoins[0]?.[j] ?? 0, inJoins[1]?.[j] ?? 0);
    return { id, amps, drop: phasor(0, 0), watts: 0, vars: 0 };
  });
}
