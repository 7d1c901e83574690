import { CONVERTER, type Case } from "./cases.ts";
import type { CircuitModel, Judged, Model } from "./model.ts";
import type { Pairs } from "./pairs.ts";

/** What the loads of a circuit add above what is always on. */
export interface Extra {
  /** Amps when they run. */
  readonly steady: number;
  /** The most while one of them starts; 0: none starts. */
  readonly start: number;
  readonly seconds: number;
}

/** Everything that is judged, in one row each, so that asking whether a circuit fits makes nothing new. */
export interface JudgedRows {
  /** First row of each circuit; one entry more than there are circuits. */
  readonly first: Int32Array;
  readonly count: number;
  readonly pair: Int32Array;
  /** Amps that are laid between the pair when the circuit's loads run alone; NaN for a panel. */
  readonly alone: Float64Array;
  /** The same while this load starts; NaN where no start is judged. */
  readonly start: Float64Array;
  /** By row × cases before the base: 1 where the load is on and judged. */
  readonly on: Uint8Array;
  extra(circuit: number): Extra;
  /** Amps of one load above what is always on. */
  steadyOf(judged: Judged): number;
  startOf(judged: Judged): number;
  /** @param scale by draw: what it takes alone over what it states */
  update(drawAmps: readonly Float64Array[], scale: Float64Array): void;
}

/** @param cases of which those before the base are judged one by one; `given` counts them */
export function prepareRows(model: Model, pairs: Pairs, cases: readonly Case[], given: number): JudgedRows {
  const { circuits } = model;
  const first = new Int32Array(circuits.length + 1);
  circuits.forEach((c, i) => (first[i + 1] = (first[i] ?? 0) + c.judged.length));
  const count = first[circuits.length] ?? 0;
  const pair = new Int32Array(count);
  const alone = new Float64Array(count);
  const start = new Float64Array(count);
  const on = new Uint8Array(count * given);
  const extras = circuits.map((): Extra => ({ steady: 0, start: 0, seconds: 0 }));
  let scales = new Float64Array(0);
  circuits.forEach((c, i) => {
    for (let k = 0; k < c.judged.length; k++) pair[(first[i] ?? 0) + k] = pairs.ofJudged[i]?.[k] ?? 0;
  });
  const times = (j: Judged): number => scales[j.draw] ?? 1;
  const steadyOf = (j: Judged): number => j.steadyExtra * times(j);
  const startOf = (j: Judged): number => j.startExtra * times(j);
  return {
    first,
    count,
    pair,
    alone,
    start,
    on,
    extra: (i) => extras[i] ?? { steady: 0, start: 0, seconds: 0 },
    steadyOf,
    startOf,
    update(drawAmps, scale) {
      scales = Float64Array.from(scale);
      circuits.forEach((c, i) => {
        const extra = extraOf(c, steadyOf, startOf);
        extras[i] = extra;
        c.judged.forEach((judged, k) => {
          const q = (first[i] ?? 0) + k;
          alone[q] = judged.draw < 0 ? Number.NaN : extra.steady;
          const starts = judged.draw >= 0 && judged.startsAbove > 0 && !Number.isNaN(judged.startExtra);
          start[q] = starts ? extra.steady - steadyOf(judged) + startOf(judged) : Number.NaN;
          for (let j = 0; j < given; j++) {
            on[q * given + j] = isJudged(judged, cases[j], drawAmps[j]) ? 1 : 0;
          }
        });
      });
    },
  };
}

/** Panels are judged in every state that is given, loads where they are on, the input of a converter where it draws. */
function isJudged({ draw, converter }: Judged, one: Case | undefined, drawAmps: Float64Array | undefined): boolean {
  if (one === undefined) return false;
  if (converter >= 0) {
    const mode = one.converter[converter];
    return one.kind === "given" ? mode !== CONVERTER.off : mode === CONVERTER.atItsRating;
  }
  return one.kind === "given" && (draw < 0 || (drawAmps?.[draw] ?? 0) > 0);
}

function extraOf(c: CircuitModel, steadyOf: (j: Judged) => number, startOf: (j: Judged) => number): Extra {
  let steady = 0;
  for (const j of c.judged) steady += steadyOf(j);
  let start = 0;
  let seconds = 0;
  for (const j of c.judged) {
    if (Number.isNaN(j.startExtra)) continue;
    const amps = steady - steadyOf(j) + startOf(j);
    if (amps > start) {
      start = amps;
      seconds = j.startSeconds;
    }
  }
  return { steady: Math.max(steady, 0), start, seconds };
}
