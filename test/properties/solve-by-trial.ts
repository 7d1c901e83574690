import type { DcElement, DcNetwork } from "../../src/network/dc-network.ts";

/**
 * A second way to the operating point, slow and plain: for each combination of the chargers' conditions (holding, limited,
 * blocked) a full matrix with the currents of stores and holding chargers as unknowns beside the volts; loads of constant power
 * as currents that are set anew until they stand. The one combination that keeps every limit is the answer.
 */
export function solveByTrial(network: DcNetwork): ReadonlyMap<string, number> {
  const feeds = network.elements.filter((e) => e.kind === "feed");
  const combinations = 3 ** feeds.length;
  for (let code = 0; code < combinations; code++) {
    const condition = new Map(feeds.map((f, k) => [f.id, Math.floor(code / 3 ** k) % 3]));
    const volts = solveCombination(network, condition);
    if (volts === null) continue;
    const fits = feeds.every((f) => {
      const held = (f.volts - (volts.get(f.plus) ?? NaN) + (volts.get(f.minus) ?? NaN)) / (f.ohms ?? NaN);
      const is = condition.get(f.id);
      return is === 0 ? held >= -1e-9 && held <= f.amps + 1e-9 : is === 1 ? held >= f.amps - 1e-9 : held <= 1e-9;
    });
    if (fits) return volts;
  }
  throw new Error("no combination fits");
}

function solveCombination(
  network: DcNetwork,
  condition: ReadonlyMap<string, number>,
): ReadonlyMap<string, number> | null {
  const nodes = Array.from(
    new Set(
      network.elements.flatMap((e) =>
        e.kind === "resistor" ? [e.a, e.b] : e.kind === "converter" ? [] : [e.plus, e.minus],
      ),
    ),
  ).filter((n) => n !== network.ground);
  const held: (DcElement & { volts: number; ohms?: number; plus: string; minus: string })[] = [];
  for (const e of network.elements)
    if (e.kind === "store" || (e.kind === "feed" && condition.get(e.id) === 0)) held.push(e);
  const size = nodes.length + held.length;
  const at = (name: string) => nodes.indexOf(name);
  const power = new Map<string, number>();
  let last: number[] = [];
  for (let round = 0; round < 500; round++) {
    const rows = Array.from({ length: size }, () => new Array<number>(size + 1).fill(0));
    const add = (i: number, j: number, value: number) => {
      const row = rows[i];
      if (i >= 0 && j >= 0 && row) row[j] = (row[j] ?? 0) + value;
    };
    const current = (plus: string, minus: string, amps: number) => {
      add(at(plus), size, -amps);
      add(at(minus), size, amps);
    };
    const conductance = (a: string, b: string, siemens: number) => {
      for (const [i, j, sign] of [
        [at(a), at(a), 1],
        [at(b), at(b), 1],
        [at(a), at(b), -1],
        [at(b), at(a), -1],
      ] as const) {
        add(i, j, sign * siemens);
      }
    };
    held.forEach((e, k) => {
      const row = nodes.length + k;
      add(at(e.plus), row, 1);
      add(at(e.minus), row, -1);
      add(row, at(e.plus), 1);
      add(row, at(e.minus), -1);
      add(row, row, -(e.ohms ?? NaN));
      add(row, size, e.volts);
    });
    for (const e of network.elements) {
      if (e.kind === "resistor") conductance(e.a, e.b, 1 / e.ohms);
      else if (e.kind === "feed" && condition.get(e.id) === 1) current(e.plus, e.minus, -e.amps);
      else if (e.kind === "draw") {
        if ("ohms" in e.law) conductance(e.plus, e.minus, 1 / e.law.ohms);
        else current(e.plus, e.minus, "amps" in e.law ? e.law.amps : (power.get(e.id) ?? e.law.watts / 13));
      }
    }
    const x = eliminate(rows);
    if (x === null) return null;
    const volts = (name: string) => (name === network.ground ? 0 : (x[at(name)] ?? NaN));
    for (const e of network.elements) {
      if (e.kind === "draw" && "watts" in e.law) power.set(e.id, e.law.watts / (volts(e.plus) - volts(e.minus)));
    }
    const moved = x.reduce((most, value, i) => Math.max(most, Math.abs(value - (last[i] ?? Infinity))), 0);
    last = x;
    if (moved < 1e-11) return new Map([...nodes.map((n) => [n, volts(n)] as const), [network.ground ?? "", 0]]);
  }
  return null;
}

/** Gaussian elimination with row exchange; null if singular. */
function eliminate(rows: number[][]): number[] | null {
  const n = rows.length;
  for (let k = 0; k < n; k++) {
    let best = k;
    for (let i = k + 1; i < n; i++) if (Math.abs(rows[i]?.[k] ?? 0) > Math.abs(rows[best]?.[k] ?? 0)) best = i;
    const top = rows[best] ?? [];
    rows[best] = rows[k] ?? [];
    rows[k] = top;
    const pivot = top[k] ?? 0;
    if (Math.abs(pivot) < 1e-9) return null;
    for (let i = k + 1; i < n; i++) {
      const row = rows[i] ?? [];
      const factor = (row[k] ?? 0) / pivot;
      if (factor !== 0) for (let j = k; j <= n; j++) row[j] = (row[j] ?? 0) - factor * (top[j] ?? 0);
    }
  }
  const x = new Array<number>(n).fill(0);
  for (let k = n - 1; k >= 0; k--) {
    const row = rows[k] ?? [];
    let sum = row[n] ?? 0;
    for (let j = k + 1; j < n; j++) sum -= (row[j] ?? 0) * (x[j] ?? 0);
    x[k] = sum / (row[k] ?? NaN);
  }
  return x;
}
