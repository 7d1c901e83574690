import type { Build } from "../build.ts";
import { banksOf } from "./banks.ts";

/** Between which nodes there are volts from a battery, whatever runs. */
export type IsFed = (at: { readonly plus: number; readonly minus: number }) => boolean;

/**
 * What batteries feed while the metal hangs together so: directly, or through converters that run whenever something is asked of them.
 *
 * @param pieces by node of the grid, from `piecesOf`
 * @param without store of the grid that is off
 */
export function fedByBanks(build: Build, pieces: Int32Array, without = -1): IsFed {
  const { grid } = build.settled.model;
  const banks = banksOf(build);
  const plus = new Map<number, Set<unknown>>();
  const minus = new Map<number, Set<unknown>>();
  const stand = (on: typeof plus, node: number, source: unknown): void => {
    const piece = pieces[node] ?? -1;
    const there = on.get(piece);
    if (there === undefined) on.set(piece, new Set([source]));
    else there.add(source);
  };
  grid.stores.forEach((store, i) => {
    if (i === without) return;
    const bank = banks.of(i);
    stand(plus, store.plus, bank);
    stand(minus, store.minus, bank);
  });
  const isFed: IsFed = (at) => {
    const below = minus.get(pieces[at.minus] ?? -1);
    return below !== undefined && [...(plus.get(pieces[at.plus] ?? -1) ?? [])].some((source) => below.has(source));
  };
  let waiting = grid.converters.filter(({ element, in: input }) => element.runsWith === "load" && input !== null);
  for (let more = true; more;) {
    const still = waiting.filter((c) => c.in === null || !isFed(c.in));
    for (const c of waiting) {
      if (still.includes(c)) continue;
      stand(plus, c.out.plus, c);
      stand(minus, c.out.minus, c);
    }
    more = still.length < waiting.length;
    waiting = still;
  }
  return isFed;
}
