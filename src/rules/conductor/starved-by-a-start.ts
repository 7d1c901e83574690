import { caseName, type Settled } from "../../size/index.ts";
import type { Build } from "../build.ts";
import type { LoadAtEnd } from "./loads-at-ends.ts";

/** A load that is on while another starts, and what that leaves it. */
export interface StarvedByAStart {
  readonly part: string;
  readonly volts: number;
  readonly runsAbove: number;
  readonly state: string;
}

/** A load that is on in a case and states what it needs. */
interface Standing {
  readonly draw: number;
  readonly part: string;
  readonly volts: number;
  readonly runsAbove: number;
}

const found = new WeakMap<Settled, readonly (readonly Standing[])[]>();

/** By case, those with least to spare first. */
function standingIn(settled: Settled): readonly (readonly Standing[])[] {
  let known = found.get(settled);
  if (known === undefined) {
    const { weigher, model } = settled;
    known = weigher.cases.slice(0, weigher.base + 1).map((one, j) =>
      model.grid.draws
        .flatMap(({ element }, d): Standing[] => {
          const runsAbove = element.runsAbove?.high ?? 0;
          if (runsAbove <= 0 || (one.drawAmps[d] ?? 0) <= 0) return [];
          const volts = weigher.drawVolts(j, d);
          // One that has too little already is a finding of its own.
          return volts === null || volts < runsAbove ? [] : [{ draw: d, part: element.part, volts, runsAbove }];
        })
        .sort((a, b) => a.volts - a.runsAbove - (b.volts - b.runsAbove)),
    );
    found.set(settled, known);
  }
  return known;
}

/**
 * The load that comes off worst while another starts, among those that are on with it: in the given states and beside what is always on. The
 * conditions of the sources are held as they were before the start.
 *
 * Two loads share the way from the source to where their wires part:
 *
 *     source ──────●── parting ──── the one that starts
 *                  └─────────────── the one that is on
 *
 * @returns null where none comes below what it needs
 */
export function starvedByAStart(build: Build, { model, worst }: LoadAtEnd): StarvedByAStart | null {
  const { settled } = build;
  const { weigher } = settled;
  const { look } = weigher;
  const { judged } = worst;
  const pair = weigher.pairs.ofDraw[judged.draw] ?? 0;
  const { up, above } = settled.model.trees;
  const wayOf = (node: number): Set<number> => {
    const way = new Set([node]);
    for (let n = node; (up[n] ?? -1) >= 0; way.add(n)) n = above[n] ?? n;
    return way;
  };
  const [plusWay, minusWay] = [wayOf(judged.plus), wayOf(judged.minus)];
  const parting = (node: number, way: ReadonlySet<number>): number => {
    let n = node;
    while (!way.has(n) && (up[n] ?? -1) >= 0) n = above[n] ?? n;
    return n;
  };

  let least: StarvedByAStart | null = null;
  standingIn(settled).forEach((standing, j) => {
    if (standing.length === 0) return;
    const isBase = j === weigher.base;
    if (!isBase && (weigher.cases[j]?.kind !== "given" || (weigher.cases[j]?.drawAmps[judged.draw] ?? 0) <= 0)) return;
    const amps = isBase ? judged.startExtra : judged.startExtra - judged.steadyExtra;
    const lost = (plus: number, minus: number): number => {
      const before = { case: j, pair, amps: 0 };
      const during = { case: j, pair, amps };
      const falls = (node: number): number => look.voltsAt(before, node) - look.voltsAt(during, node);
      return falls(plus) - falls(minus);
    };
    // Nothing loses more by a start than the one that starts.
    const most = lost(judged.plus, judged.minus);
    for (const other of standing) {
      if (other.volts - other.runsAbove > most) break;
      const draw = settled.model.grid.draws[other.draw];
      if (other.draw === judged.draw || draw === undefined) continue;
      const volts = other.volts - lost(parting(draw.plus, plusWay), parting(draw.minus, minusWay));
      if (volts < other.runsAbove - 1e-7 && (least === null || volts - other.runsAbove < least.volts - least.runsAbove))
        least = { part: other.part, volts, runsAbove: other.runsAbove, state: caseName(settled, model, j) };
    }
  });
  return least;
}
