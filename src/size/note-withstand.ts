import type { EdgeFlow, Outcome } from "../fault/index.ts";
import type { Withstand } from "./fault-study.ts";

/** Within this time a conductor is taken to keep all the heat of a fault, s: IEC 60364-4-43 434.5.2 (memory). */
const ADIABATIC_SECONDS = 5;

/** Gathers, over all faults, the hardest that each conductor has to bear. */
export interface WithstandNotes {
  /** A fault begins; what follows is of it. */
  readonly begin: (at: string) => void;
  readonly phase: (flows: readonly EdgeFlow[], least: number, most: number | null) => void;
  /** It has ended so. */
  readonly end: (outcome: Outcome) => void;
  readonly of: (edge: number) => Withstand;
}

interface Slow {
  readonly amps: number;
  readonly seconds: number;
  readonly at: string;
}

/** @param limit by edge, k²S²; NaN: it is a contact, or its wire is not known */
export function noteWithstand(limit: Float64Array): WithstandNotes {
  const n = limit.length;
  const most = new Float64Array(n);
  const mostAt: string[] = [];
  const surely = new Float64Array(n);
  const through = new Float64Array(n);
  const slow: (Slow | undefined)[] = [];
  const forGood: (Withstand["forGood"] | undefined)[] = [];
  // Of the fault at hand: edges that were met, and what has gone through them.
  const now = new Float64Array(n);
  const met: number[] = [];
  let lasting: readonly EdgeFlow[] = [];
  let place = "";
  const ampsOf = ({ atA, atB }: EdgeFlow): number => Math.max(Math.abs(atA), Math.abs(atB));
  return {
    begin(at) {
      place = at;
      lasting = [];
    },
    phase(flows, least, seconds) {
      if (seconds === null) lasting = flows;
      for (const flow of flows) {
        const { edge } = flow;
        const amps = ampsOf(flow);
        if (amps > (through[edge] ?? 0)) through[edge] = amps;
        // Where nothing opens before 5 s, so long it has it to bear at least.
        const certain = amps * amps * Math.min(least, ADIABATIC_SECONDS);
        if (certain > (surely[edge] ?? 0)) surely[edge] = certain;
        if (seconds === null) continue;
        if (seconds > ADIABATIC_SECONDS) {
          const before = slow[edge];
          if (before === undefined || amps * amps * seconds > before.amps * before.amps * before.seconds)
            slow[edge] = { amps, seconds, at: place };
          continue;
        }
        if (now[edge] === 0) met.push(edge);
        now[edge] = (now[edge] ?? 0) + amps * amps * seconds;
      }
    },
    end(outcome) {
      for (const edge of met) {
        const i2t = now[edge] ?? 0;
        now[edge] = 0;
        if (i2t <= (most[edge] ?? 0)) continue;
        most[edge] = i2t;
        mostAt[edge] = place;
      }
      met.length = 0;
      for (const flow of lasting) {
        const amps = ampsOf(flow);
        if (amps > (forGood[flow.edge]?.amps ?? 0)) forGood[flow.edge] = { amps, at: place, outcome };
      }
    },
    of(edge) {
      const bears = limit[edge] ?? Number.NaN;
      const i2t = most[edge] ?? 0;
      const isKnown = !Number.isNaN(bears);
      return {
        limit: isKnown ? bears : null,
        through: through[edge] ?? 0,
        i2t: i2t > 0 ? { low: Math.min(surely[edge] ?? 0, i2t), high: i2t } : null,
        share: isKnown && i2t > 0 ? i2t / bears : null,
        at: mostAt[edge] ?? null,
        slow: slow[edge] ?? null,
        forGood: forGood[edge] ?? null,
      };
    },
  };
}
