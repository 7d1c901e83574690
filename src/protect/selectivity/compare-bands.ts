import {
  conventional,
  deviceFamily,
  gatesOf,
  letThrough,
  openingBand,
  preArcing,
  type OpeningBand,
  type OpeningBound,
} from "../../device/index.ts";
import type { Citation, Trust } from "../../explain/index.ts";
import type { PairMethod, PairQuestion } from "./pair.ts";

/** Below this time devices are compared by energy, since neither heat loss nor the wave of an alternating current evens out: s. */
const ENERGY_BELOW = 0.1;
/** What holds so long is taken to hold for good: the shortest conventional time, s. */
const AN_HOUR = 3600;

/** Why the order of opening is not certain at a current. */
export interface Doubt {
  /** Null: nothing is missing, and the bands overlap. */
  readonly missing: string | null;
  readonly because: string;
}

/** How far up the downstream device certainly opens first. */
export interface Reach {
  /** A; the least current of the range where it is in doubt from there on. */
  readonly upTo: number;
  /** Null: certain to the end of the range. */
  readonly doubt: Doubt | null;
  readonly method: PairMethod;
  readonly trusts: readonly Trust[];
  readonly sources: readonly Citation[];
}

interface Look {
  readonly method: PairMethod;
  readonly trusts: readonly Trust[];
  readonly sources: readonly Citation[];
  readonly doubt: Doubt | null;
}

/**
 * Walks up a range of currents as long as the downstream device certainly opens first.
 *
 * Between two gates neither edge jumps, so that one look in the middle of each stretch tells of all of it.
 *
 * @param least A
 * @param greatest A, not below least
 */
export function compareBands(pair: PairQuestion, least: number, greatest: number): Reach {
  const at = [least, ...breaks(pair).filter((amps) => amps > least && amps < greatest), greatest];
  const trusts: Trust[] = [];
  const sources: Citation[] = [];
  let method: PairMethod = "gates";
  for (const [i, from] of at.slice(0, -1).entries()) {
    const look = lookAt(pair, Math.sqrt(from * (at[i + 1] ?? from)));
    if (look.doubt !== null) return { upTo: from, doubt: look.doubt, method: look.method, trusts, sources };
    trusts.push(...look.trusts);
    sources.push(...look.sources);
    method = look.method;
  }
  return { upTo: greatest, doubt: null, method, trusts, sources };
}

/** Every current at which an edge of either band jumps or the two could cross, ascending. */
function breaks({ upstream, downstream }: PairQuestion): readonly number[] {
  const gates = [upstream, downstream].flatMap(({ family, rating }) =>
    gatesOf(family, rating).map(({ multiple }) => multiple * rating),
  );
  const energy = preArcing(upstream.family, upstream.rating).min?.value;
  const times = gatesOf(downstream.family, downstream.rating).flatMap(({ maxS }) => (maxS === null ? [] : [maxS]));
  const crossings =
    energy === undefined ? [] : [...times, ENERGY_BELOW, AN_HOUR].map((seconds) => Math.sqrt(energy / seconds));
  return [...new Set([...gates, ...crossings, upstream.rating])].sort((a, b) => a - b);
}

function lookAt(pair: PairQuestion, amps: number): Look {
  const { upstream, downstream } = pair;
  const up = openingBand(upstream.family, upstream.rating, amps);
  const down = openingBand(downstream.family, downstream.rating, amps);
  const byBands: PairMethod = isBreaker(pair, "upstream") || isBreaker(pair, "downstream") ? "trip bands" : "gates";
  const holds = certainty(pair, amps, up);
  if (holds !== null) return { method: byBands, ...holds, doubt: null };
  const unproven = usualOnly(pair, up, down);
  if (unproven !== null) return { method: byBands, trusts: [], sources: [], doubt: unproven };
  if (up.min !== null && down.max !== null && up.min.s >= ENERGY_BELOW && down.max.s <= up.min.s) {
    const [trusts, sources] = [
      [up.min.trust, down.max.trust],
      [up.min.source, down.max.source],
    ];
    return { method: byBands, trusts, sources, doubt: null };
  }
  return byEnergy(pair, amps, up, down, byBands);
}

/** What is usual of a kind and fixed by no standard is no promise of the device at hand. */
const isPromised = ({ trust }: OpeningBound): boolean => trust !== "practice";

/** What would prove it where an edge that the answer needs is only usual of its kind; null: both are promised, or not known at all. */
function usualOnly(pair: PairQuestion, up: OpeningBand, down: OpeningBand): Doubt | null {
  const side =
    up.min !== null && !isPromised(up.min)
      ? "upstream"
      : down.max !== null && !isPromised(down.max)
        ? "downstream"
        : null;
  if (side === null) return null;
  return lacks(`the maker's opening curve of the ${nameOf(pair, side)}`, "no standard fixes when it opens");
}

/** The upstream device carries the current whatever the other does. */
function certainty(
  { upstream }: PairQuestion,
  amps: number,
  up: OpeningBand,
): { trusts: readonly Trust[]; sources: readonly Citation[] } | null {
  const { ratingsTrust, source } = deviceFamily(upstream.family);
  // That a device carries its rating is what the rating means.
  if (amps <= upstream.rating) return { trusts: ratingsTrust === "practice" ? [] : [ratingsTrust], sources: [source] };
  if (up.min !== null && up.min.s >= AN_HOUR && isPromised(up.min))
    return { trusts: [up.min.trust], sources: [up.min.source] };
  return null;
}

function byEnergy(pair: PairQuestion, amps: number, up: OpeningBand, down: OpeningBand, byBands: PairMethod): Look {
  const { upstream, downstream, volts, supply } = pair;
  const melts = preArcing(upstream.family, upstream.rating).min;
  const marked = downstream.interruptAmps === undefined ? {} : { interruptAmps: downstream.interruptAmps };
  const clears = letThrough(downstream.family, downstream.rating, amps, volts, { supply, ...marked });
  if (melts !== null && clears.i2t !== null && clears.i2t < melts.value) {
    return { method: "I2t", trusts: [melts.trust, clears.trust], sources: [melts.source, clears.source], doubt: null };
  }
  const isEnergy = up.min === null || up.min.s < ENERGY_BELOW;
  const doubt = doubtOf(pair, amps, up, down, { melts: melts !== null, clears: clears.how, isEnergy });
  return { method: isEnergy ? "I2t" : byBands, trusts: [], sources: [], doubt };
}

function doubtOf(
  pair: PairQuestion,
  amps: number,
  up: OpeningBand,
  down: OpeningBand,
  known: { readonly melts: boolean; readonly clears: string; readonly isEnergy: boolean },
): Doubt {
  const [upName, downName] = [nameOf(pair, "upstream"), nameOf(pair, "downstream")];
  if (down.lacks.includes("max"))
    return lacks(`the greatest opening time of the ${downName}`, `nothing is published of when it has opened`);
  if (up.lacks.includes("min"))
    return lacks(`the least opening time of the ${upName}`, `nothing is published of how long it stays closed`);
  if (down.max === null) {
    const { trip } = conventional(pair.downstream.family, pair.downstream.rating);
    const till = trip === null ? "" : ` below ${print(trip.current)} A`;
    return { missing: null, because: `the ${downName} need not open${till}, where the ${upName} may` };
  }
  if (isBreaker(pair, "upstream") && up.min === null) {
    return isBreaker(pair, "downstream")
      ? {
          missing: null,
          because: `the ${upName} may open at once, as the ${downName}; only a tested table of the maker tells more`,
        }
      : lacks(`the energy that unlatches the ${upName}`, `it may open at once`);
  }
  if (known.isEnergy && !known.melts) {
    return lacks(`the least melting I²t of the ${upName}`, `only energy tells below 0.1 s`);
  }
  if (known.isEnergy && known.clears !== "limit of the standard") {
    return lacks(`the clearing I²t of the ${downName}`, `only energy tells below 0.1 s`);
  }
  const early = up.min === null ? "at once" : `after ${print(up.min.s)} s`;
  const at = ` at ${print(amps)} A`;
  return {
    missing: null,
    because: `${at.trim()} the ${upName} may open ${early}, the ${downName} only after ${print(down.max.s)} s`,
  };
}

const lacks = (missing: string, because: string): Doubt => ({
  missing,
  because: `${missing} is not known: ${because}`,
});

type Side = "upstream" | "downstream";

export const isBreaker = (pair: PairQuestion, side: Side): boolean =>
  deviceFamily(pair[side].family).kind === "breaker";

/** `40 A large blade fuse`. */
export const nameOf = (pair: PairQuestion, side: Side): string =>
  `${print(pair[side].rating)} A ${deviceFamily(pair[side].family).name}`;

export const print = (value: number): string => String(Number(value.toPrecision(3)));
