import type { Case } from "./cases.ts";
import type { JudgedRows } from "./judged-rows.ts";
import type { TreeVolts } from "./lay-trees.ts";
import type { CircuitModel, Judged, Model } from "./model.ts";
import type { Pairs } from "./pairs.ts";
import type { Core } from "./solve-core.ts";
import type { Held } from "./standing.ts";

/** Volts at loads that start while a given state lasts, all else keeping the amps that it has in that state. */
export interface StartsInStates {
  /** What loads take from now on. @param drawAmps by case and draw */
  update(drawAmps: readonly Float64Array[]): void;
  /** After the core was solved. */
  lay(): void;
  /** Calls back for each state in which a load starts. @param volts Infinity: it collapses @param more amps that it then takes above what it has in the state */
  each(row: number, call: (volts: number, caseIndex: number, more: number) => void): void;
  /** Whether a load has enough in all of them. */
  fits(row: number, least: number): boolean;
  /** Calls back for each load and state: where it hangs, which it is, and the amps that it adds. */
  all(call: (circuit: CircuitModel, judged: Judged, pair: number, caseIndex: number, more: number) => void): void;
}

/** @param given how many cases stand before the base */
export function prepareStarts(
  model: Model,
  rows: JudgedRows,
  pairs: Pairs,
  cases: readonly Case[],
  core: Core,
  tree: TreeVolts,
  given: number,
  overload: (caseIndex: number, pair: number, amps: number) => Held | null,
): StartsInStates {
  const { grid, circuits } = model;
  const { columns, lost } = tree;
  const list: { readonly c: CircuitModel; readonly judged: Judged; readonly row: number }[] = [];
  const place = new Int32Array(rows.count).fill(-1);
  circuits.forEach((c, i) => {
    c.judged.forEach((judged, k) => {
      if (judged.draw < 0 || Number.isNaN(judged.startExtra)) return;
      const row = (rows.first[i] ?? 0) + k;
      place[row] = list.length;
      list.push({ c, judged, row });
    });
  });
  const more = new Float64Array(list.length * given).fill(Number.NaN);
  const atPair = new Float64Array(list.length * given);
  const running = grid.draws.map(({ element }) => element.levels[0]?.amps.high ?? 0);
  const starting = grid.draws.map(({ element }) => element.levels.find((l) => l.name === "starting")?.amps.high ?? 0);

  const volts = (s: number, j: number): number => {
    const { judged } = list[s] ?? {};
    if (judged === undefined) return 0;
    const p = judged.plus * columns;
    const m = judged.minus * columns;
    const loop = (lost[p + columns - 1] ?? 0) + (lost[m + columns - 1] ?? 0);
    const own = (lost[m + j] ?? 0) - (lost[p + j] ?? 0);
    return (atPair[s * given + j] ?? 0) - own - (more[s * given + j] ?? 0) * loop;
  };

  return {
    update(drawAmps) {
      list.forEach(({ judged: { draw }, row }, s) => {
        for (let j = 0; j < given; j++) {
          const isOn = cases[j]?.kind === "given" && rows.on[row * given + j] === 1;
          const now = drawAmps[j]?.[draw] ?? 0;
          // One of constant power takes more at fewer volts, also while it starts.
          const share =
            grid.draws[draw]?.element.law === "watts" && (running[draw] ?? 0) > 0 ? now / (running[draw] ?? 1) : 1;
          more[s * given + j] = isOn ? (starting[draw] ?? 0) * share - now : Number.NaN;
        }
      });
    },
    lay() {
      list.forEach(({ row }, s) => {
        const p = rows.pair[row] ?? 0;
        const pair = pairs.list[p];
        if (pair === undefined) return;
        for (let j = 0; j < given; j++) {
          const amps = more[s * given + j] ?? Number.NaN;
          if (Number.isNaN(amps)) continue;
          const v = core.volts[j];
          const per = core.starting[j]?.[p];
          if (overload(j, p, amps) !== null) {
            atPair[s * given + j] = Infinity;
            continue;
          }
          const up = (v?.[pair.plus] ?? 0) + amps * (per?.[pair.plus] ?? 0);
          atPair[s * given + j] = up - (v?.[pair.minus] ?? 0) - amps * (per?.[pair.minus] ?? 0);
        }
      });
    },
    each(row, call) {
      const s = place[row] ?? -1;
      if (s < 0) return;
      for (let j = 0; j < given; j++) {
        const amps = more[s * given + j] ?? Number.NaN;
        if (!Number.isNaN(amps)) call(volts(s, j), j, amps);
      }
    },
    fits(row, least) {
      const s = place[row] ?? -1;
      for (let j = 0; s >= 0 && j < given; j++) {
        if (!Number.isNaN(more[s * given + j] ?? Number.NaN) && volts(s, j) < least) return false;
      }
      return true;
    },
    all(call) {
      list.forEach(({ c, judged, row }, s) => {
        for (let j = 0; j < given; j++) {
          const amps = more[s * given + j] ?? Number.NaN;
          if (!Number.isNaN(amps)) call(c, judged, rows.pair[row] ?? 0, j, amps);
        }
      });
    },
  };
}
