import type { EdgeFlow, Outcome } from "../fault/index.ts";
import type { Withstand } from "./fault-study.ts";

/** Within this time a conductor is taken to keep all the heat of a fault, s: IEC 60364-4-43 434.5.2 (memory). */
const ADIABATIC_SECONDS = 5;

/** Gathers, over all faults, the hardest that each conductor has to bear. */
export interface WithstandNotes {
  /** A fault within a conductor begins, at one of its ends; what follows is of it. */
  readonly begin: (at: string, edge: number, end: "from" | "to") => void;
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

/**
 * A fault in one of several conductors in parallel takes its own leg: what comes from its near side goes through that leg alone, of what comes from the
 * far side the others bring their share round to the near end.
 *
 * @param limit by edge, k²S² of all parallel conductors; NaN: it is a contact, or its wire is not known
 * @param parallel by edge, how many conductors lie side by side in it
 * @source IEC 60364-4-43 434.4 (memory)
 */
export function noteWithstand(limit: Float64Array, parallel: Uint8Array): WithstandNotes {
  const n = limit.length;
  const most = new Float64Array(n);
  const mostAt: string[] = [];
  /** 1: the hardest is a fault in the conductor itself, which heats one of its legs. */
  const mostInLeg = new Uint8Array(n);
  const surely = new Float64Array(n);
  const through = new Float64Array(n);
  const slow: (Slow | undefined)[] = [];
  const forGood: (Withstand["forGood"] | undefined)[] = [];
  // Of the fault at hand: edges that were met, and what has gone through them.
  const now = new Float64Array(n);
  const met: number[] = [];
  let lasting: readonly EdgeFlow[] = [];
  let place = "";
  let faulted = -1;
  let near: "from" | "to" = "from";
  const ampsOf = ({ atA, atB }: EdgeFlow): number => Math.max(Math.abs(atA), Math.abs(atB));
  const isOneLeg = (edge: number): boolean => edge === faulted && (parallel[edge] ?? 1) > 1;
  /** What would heat all legs together as much as the hottest is heated. */
  const heating = (flow: EdgeFlow): number => {
    if (!isOneLeg(flow.edge)) return ampsOf(flow);
    const legs = parallel[flow.edge] ?? 1;
    const [a, b] = [Math.abs(flow.atA), Math.abs(flow.atB)];
    const [own, far] = near === "from" ? [a, b] : [b, a];
    return legs * Math.max(own + (far * (legs - 1)) / legs, far / legs);
  };
  return {
    begin(at, edge, end) {
      place = at;
      faulted = edge;
      near = end;
      lasting = [];
    },
    phase(flows, least, seconds) {
      if (seconds === null) lasting = flows;
      for (const flow of flows) {
        const { edge } = flow;
        const own = ampsOf(flow);
        if (own > (through[edge] ?? 0)) through[edge] = own;
        const amps = heating(flow);
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
        mostInLeg[edge] = isOneLeg(edge) ? 1 : 0;
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
      const legs = parallel[edge] ?? 1;
      const leg = bears / legs ** 2;
      // A leg has its own current and bears its own limit: both are those of all, by the square of their number.
      const by = mostInLeg[edge] === 1 ? legs ** 2 : 1;
      return {
        limit: isKnown ? bears : null,
        leg: isKnown ? leg : null,
        isInLeg: mostInLeg[edge] === 1,
        through: through[edge] ?? 0,
        i2t: i2t > 0 ? { low: Math.min(surely[edge] ?? 0, i2t) / by, high: i2t / by } : null,
        share: isKnown && i2t > 0 ? i2t / bears : null,
        at: mostAt[edge] ?? null,
        slow: slow[edge] ?? null,
        forGood: forGood[edge] ?? null,
      };
    },
  };
}
