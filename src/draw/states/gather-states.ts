import type { ToldState } from "./tell-states.ts";

/** States that tell the same of what feeds what; they differ by what is live up to an open switch. */
export interface StatesInOne {
  readonly numbers: readonly number[];
  /** The nearest of them. */
  readonly state: ToldState;
  /** Positions of all of them. */
  readonly positions: number;
}

/** Puts together what reads the same, so that a list of states is no longer than what it says. */
export function gatherStates(states: readonly ToldState[]): StatesInOne[] {
  const gathered = new Map<string, StatesInOne>();
  for (const state of states) {
    const { gives, feeds, joins, dangers, dead } = state;
    const key = JSON.stringify([gives, feeds, joins, dangers, dead]);
    const known = gathered.get(key);
    gathered.set(key, {
      numbers: [...(known?.numbers ?? []), state.number],
      state: known?.state ?? state,
      positions: (known?.positions ?? 0) + state.positions,
    });
  }
  return [...gathered.values()];
}

/**
 * Names of which three or more follow each other by number are said from the first to the last.
 *
 * @example
 * gatherNames(["CU main", "CU 1", "CU 2", "CU 3", "LC 7"]) //=> ["CU main", "CU 1 to 3", "LC 7"]
 */
export function gatherNames(names: readonly string[]): string[] {
  const runs: { readonly stem: string; readonly first: number; count: number; readonly names: string[] }[] = [];
  for (const name of names) {
    const [, stem, digits = ""] = /^(.*[ .])([1-9]\d{0,5})$/s.exec(name) ?? [];
    const last = runs.at(-1);
    if (stem !== undefined && last?.stem === stem && Number(digits) === last.first + last.count) {
      last.count++;
      last.names.push(name);
    } else runs.push({ stem: stem ?? name, first: stem === undefined ? NaN : Number(digits), count: 1, names: [name] });
  }
  return runs.flatMap(({ stem, first, count, names: all }) =>
    count < 3 ? all : [`${stem}${first} to ${first + count - 1}`],
  );
}
