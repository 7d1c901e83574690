import { driven } from "../protect/earth-fault/fault-source.ts";
import { inSeries, type Impedance } from "../protect/earth-fault/impedance.ts";
import type { EarthStudying, Feeding } from "./study-earth-faults-feeding.ts";
import { sumHops } from "./study-earth-faults-metal.ts";
import type { CircuitShort } from "./study-earth-faults-shapes.ts";
import { groupOf, hopsOf, wayTo } from "./study-earth-faults-ways.ts";

/** Share of the volts that the least current is reckoned with: IEC 60364-4-43 and CENELEC TR 50480, c min = 0.95. */
const LEAST_SHARE = 0.95;

/**
 * Shorts from line to neutral in the conductors of a circuit, one source at a time: the most at the end that is nearest to the source, cold, and the least at the far
 * end, hot.
 *
 * Ignores shorts between two lines, and what motors give back. A circuit without neutral has none.
 */
export function studyShorts(studying: EarthStudying, index: number): CircuitShort[] {
  const { system, feeding } = studying;
  const circuit = system.circuits[index];
  const lines = circuit?.conductors.filter(({ from }) => groupOf(from) === "line") ?? [];
  return feeding.flatMap((of, source): CircuitShort[] => {
    const live = lines.filter(({ from, to }) => of.line.has(from) && of.line.has(to));
    const ends = live
      .flatMap((k) =>
        (["from", "to"] as const).map((end) => ({ end, at: k[end], ohms: of.line.get(k[end])?.ohms ?? 0 })),
      )
      .sort((a, b) => a.ohms - b.ohms);
    const near = ends[0];
    const far = ends.at(-1);
    if (near === undefined || far === undefined) return [];
    const most = shortAt(studying, of, near.at, "greatest");
    if (most === null) return [];
    const atFarEnd = new Set(
      studying.finder.inCircuit(index).filter((d) => studying.finder.devices[d]?.end === far.end),
    );
    const least = shortAt(studying, of, far.at, "least");
    return of.waysTo(far.at).map(({ there }): CircuitShort => ({
      source,
      most: Number.isFinite(most.amps) ? most.amps : null,
      isMostTold: of.feed.fault.limit !== null ? of.feed.short.limit?.amps.high !== Infinity : of.feed.isDeclared,
      least: least === null || !least.isKnown ? 0 : least.amps,
      devices: [...new Set(hopsOf(there).flatMap((hop) => studying.finder.on(hop)))].filter((d) => !atFarEnd.has(d)),
    }));
  });
}

/**
 * A short from line to neutral at a terminal, by the shortest way; null: the source does not reach it.
 *
 * @returns A, Infinity where nothing that is told holds it back; the metal of its loop, Ω; whether all of that is told
 */
export function shortAt(
  { impedance }: EarthStudying,
  { feed, line, neutral }: Feeding,
  terminal: string,
  end: "least" | "greatest",
): { readonly amps: number; readonly loop: Impedance; readonly isKnown: boolean } | null {
  if (!line.has(terminal)) return null;
  const there = wayTo(line, terminal);
  const back = `${terminal.slice(0, terminal.lastIndexOf(":"))}:N`;
  if (end === "least" && !neutral.has(back)) return null;
  const out = sumHops(there, impedance);
  const home = sumHops(neutral.has(back) ? wayTo(neutral, back) : [], impedance);
  const at = end === "least" ? "hot" : "cold";
  const loop = inSeries(out.range[at], home.range[at]);
  const amps = driven(end === "least" ? feed.fault : feed.short, loop, end, end === "least" ? LEAST_SHARE : 1);
  return { amps, loop, isKnown: out.isKnown && home.isKnown };
}
