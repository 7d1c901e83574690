import type { Settled } from "../../size/index.ts";
import { demandOf, NO_LOAD, takenAt, type Condition, type Surging } from "./bank-condition.ts";

/** The load whose start adds most, and what it adds. */
interface Starting extends Surging {
  readonly more: number;
  readonly seconds: number;
}

/**
 * Inverters at their surge, which take VA ÷ efficiency whatever volts they have left. One whose surge is not stated is laid at its rating, the least that it
 * can be.
 */
export function surgeConditions(settled: Settled): readonly Condition[] {
  const { model, weigher } = settled;
  const { cases, base, look, pairs } = weigher;
  const { draws } = model.grid;
  // Starters are looked at by themselves.
  const cranks = new Set(model.system.parts.flatMap((p) => (p.traits.cranks === true ? p.id : [])));
  return cases.flatMap((one, j): Condition[] => {
    if (one.kind === "rating") return [];
    const taken = look.taken(j);
    const demand = demandOf(settled, taken);
    const without = (d: number): void => {
      const pair = pairs.ofDraw[d] ?? 0;
      demand[pair] = (demand[pair] ?? 0) - (taken[d] ?? 0);
    };
    const said: string[] = [];
    const surging: Surging[] = [];
    let starting = null as Starting | null; // set inside the loop's function, which the compiler does not follow
    const seconds: (number | null)[] = [];
    draws.forEach(({ element, inverter }, d) => {
      const isOn = j === base || (taken[d] ?? 0) > 0;
      if (!isOn || weigher.drawVolts(base, d) === null) return;
      const now = taken[d] ?? 0;
      if (inverter !== null) {
        const { surgeWatts, surgeSeconds, efficiency } = inverter;
        const watts = surgeWatts === undefined || surgeWatts === "unknown" ? 0 : surgeWatts.high / efficiency.low;
        const rating = element.atVolts * (element.levels[0]?.amps.high ?? 0);
        const amps = takenAt(settled, d, Math.max(watts, rating) / element.atVolts);
        if (amps <= now) return;
        without(d);
        surging.push({ draw: d, watts: Math.max(watts, rating), amps });
        said.push(`${element.part} at its surge`);
        seconds.push(surgeSeconds === undefined || surgeSeconds === "unknown" ? null : surgeSeconds.low);
      } else {
        const start = cranks.has(element.part) ? undefined : element.levels.find((l) => l.name === "starting");
        if (start === undefined) return;
        const amps = takenAt(settled, d, start.amps.high);
        const watts = element.law === "amps" ? null : start.amps.high * element.atVolts;
        if (amps - now > (starting?.more ?? 0))
          starting = { draw: d, watts, amps, more: amps - now, seconds: element.startSeconds.high };
      }
    });
    const starts = draws[starting?.draw ?? -1];
    if (starting !== null && starts !== undefined) {
      without(starting.draw);
      surging.push(starting);
      said.push(`${starts.element.part} starting`);
      seconds.push(starting.seconds);
    }
    if (said.length === 0) return [];
    const known = seconds.filter((s) => s !== null);
    const state = `${said.join(" and ")}${one.kind === "given" ? `, ${one.name}` : ""}`;
    // What lasts longest counts; where nobody says how long, it is taken to be within the time of a peak.
    return [
      { state, one, demand, taken, alone: NO_LOAD, surging, seconds: known.length === 0 ? 0 : Math.max(...known) },
    ];
  });
}
