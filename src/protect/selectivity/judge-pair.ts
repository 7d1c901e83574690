import { deviceFamily, gatesOf, interruptRating, openingBand, preArcing } from "../../device/index.ts";
import { cite, weakestTrust, type Citation } from "../../explain/index.ts";
import { compareBands, isBreaker, nameOf, print, type Reach } from "./compare-bands.ts";
import type { PairJudgement, PairMethod, PairQuestion } from "./pair.ts";

/**
 * Judges whether the downstream one of two devices in series alone opens, at every current of a range.
 *
 * In this order: the two are of one kind and the upstream one is no larger; the source gives too little to open the downstream one; a tested table
 * of the maker; the ratio of gG fuses; bands of opening times down to 0.1 s; energy below; two breakers no further than the least current at which
 * the upstream one may open at once. What both edges of the bands do not prove is not proven: typical curves prove nothing, nor
 * does a band that is usual of a kind and that no standard fixes.
 *
 * Ignores other loads of the upstream device, which warm it and add to its current, warm devices, and the rise of the current.
 *
 * @returns never `selective` where a figure is missing that the answer needs, the greatest current and the downstream interrupt rating among them
 * @source IEC 60269-1 Table 7 and a fuse maker's guide for 1.6 to 1; IEC 60898-1 Table 7 for breakers; see the sources of the answer
 * @example
 * judgePair({ upstream: { family: "iec_gG", rating: 63 }, downstream: { family: "iec_gG", rating: 40 }, greatest: 6000, volts: 230, supply: "AC" }).verdict //=> "selective"
 * judgePair({ upstream: { family: "anl_limiter", rating: 200 }, downstream: { family: "blade_type_C", rating: 15 }, greatest: 900, volts: 14.6, supply: "DC" }).upTo //=> 200
 */
export function judgePair(pair: PairQuestion): PairJudgement {
  const least = pair.least ?? pair.downstream.rating;
  return sameOrSmaller(pair) ?? forOtherSupply(pair) ?? limitedBySource(pair) ?? inRange(pair, least);
}

/** What could have been found out before the interrupt rating is looked at. */
function inRange(pair: PairQuestion, least: number): PairJudgement {
  const top = topOfRange(pair, least);
  if ("verdict" in top) return top;
  const reach = byMaker(pair, least, top.amps) ?? byRatio(pair, least, top.amps) ?? byBands(pair, least, top.amps);
  const trust = weakestTrust(...reach.trusts);
  const sources = distinct(reach.sources);
  const [up, down] = [nameOf(pair, "upstream"), nameOf(pair, "downstream")];
  if (reach.doubt === null && top.stops === null) {
    const because = `the ${down} has opened before the ${up} may, at every current to ${print(reach.upTo)} A (${wordsOf[reach.method]})`;
    return { verdict: "selective", upTo: null, method: reach.method, because, missing: null, trust, sources };
  }
  const doubt = reach.doubt ?? top.stops;
  const missing = doubt?.missing ?? null;
  const why = doubt?.because ?? "";
  if (reach.upTo <= least) {
    const verdict = missing === null ? "not selective" : "not proven";
    const { source } = deviceFamily(pair.upstream.family);
    return {
      verdict,
      upTo: null,
      method: reach.method,
      because: why,
      missing,
      trust: missing === null ? trustOfBands(pair, least) : "missing",
      sources: [source],
    };
  }
  return {
    verdict: "selective up to",
    upTo: reach.upTo,
    method: reach.method,
    because: `the ${down} has opened before the ${up} may to ${print(reach.upTo)} A; above, ${why}`,
    missing,
    trust,
    sources,
  };
}

const wordsOf: Readonly<Record<PairMethod, string>> = {
  gates: "opening-time gates",
  "trip bands": "trip bands",
  I2t: "energy",
  ratio: "ratio of 1.6 to 1",
  "maker table": "the maker's tested table",
  source: "the source",
  identity: "what they are",
};

function distinct(sources: readonly Citation[]): readonly Citation[] {
  const seen = new Set<string>();
  return sources.filter(({ id, clause, trust }) => {
    const key = `${id} ${clause} ${trust}`;
    return !seen.has(key) && seen.add(key);
  });
}

function trustOfBands({ upstream, downstream }: PairQuestion, amps: number): PairJudgement["trust"] {
  const up = openingBand(upstream.family, upstream.rating, amps * 1.0001).min;
  const down = openingBand(downstream.family, downstream.rating, amps * 1.0001).max;
  return weakestTrust(up?.trust ?? "derived", down?.trust ?? "derived");
}

/** Two of one kind, the upstream one no larger: the same device twice is never selective, and the smaller opens first. */
function sameOrSmaller(pair: PairQuestion): PairJudgement | null {
  const { upstream, downstream } = pair;
  if (upstream.family !== downstream.family || upstream.rating > downstream.rating) return null;
  const isSame = upstream.rating === downstream.rating;
  return {
    verdict: "not selective",
    upTo: null,
    method: "identity",
    because: isSame
      ? `both are a ${nameOf(pair, "upstream")}: which opens first is chance`
      : `the ${nameOf(pair, "upstream")} is the smaller of two of a kind and opens first`,
    missing: null,
    trust: "derived",
    sources: [cite("own-derivation", "two devices of one kind in series", "derived")],
  };
}

/** Bands of a device that is made for the other supply hold on that one only: a magnetic release takes more of direct current. */
function forOtherSupply(pair: PairQuestion): PairJudgement | null {
  const side = (["upstream", "downstream"] as const).find(
    (each) => !deviceFamily(pair[each].family).supplies.includes(pair.supply),
  );
  if (side === undefined) return null;
  const missing = `when the ${nameOf(pair, side)} opens on ${pair.supply}`;
  const { source } = deviceFamily(pair[side].family);
  const because = `${missing} is not known: its kind is not made for it`;
  return {
    verdict: "not proven",
    upTo: null,
    method: "identity",
    because,
    missing,
    trust: "missing",
    sources: [source],
  };
}

/** The downstream device would have to open by a current that the source does not give, or gives for too short a time. */
function limitedBySource({ downstream, sourceLimit, greatest }: PairQuestion): PairJudgement | null {
  if (sourceLimit === undefined) return null;
  const amps = Math.min(sourceLimit.amps, greatest ?? Infinity);
  const { name } = deviceFamily(downstream.family);
  const device = `${print(downstream.rating)} A ${name}`;
  const { max } = openingBand(downstream.family, downstream.rating, amps);
  const { seconds } = sourceLimit;
  if (max !== null && (seconds === null || max.s <= seconds)) return null;
  const because =
    max === null
      ? `limited by the source: it gives ${print(amps)} A, at which the ${device} need not open`
      : `limited by the source: it stops after ${print(seconds ?? 0)} s, and the ${device} may need ${print(max.s)} s`;
  const missing = `a current that opens the ${device} before the source stops`;
  return { verdict: "not proven", upTo: null, method: "source", because, missing, trust: "missing", sources: [] };
}

type Stop = { readonly missing: string | null; readonly because: string };

/** How far the range goes at most: to its own end, to what the source gives, or to what the downstream device opens. */
function topOfRange(pair: PairQuestion, least: number): { amps: number; stops: Stop | null } | PairJudgement {
  const { downstream, volts, supply, sourceLimit } = pair;
  const name = nameOf(pair, "downstream");
  const listed = interruptRating(downstream.family, volts, { supply, rating: downstream.rating });
  const opens = downstream.interruptAmps ?? listed.current;
  const { source } = deviceFamily(downstream.family);
  if (opens === null) {
    const missing = `the interrupt rating of the ${name} at ${print(volts)} V ${supply}`;
    const because = `${missing} is not known: it may not open a fault at all`;
    return {
      verdict: "not proven",
      upTo: null,
      method: "identity",
      because,
      missing,
      trust: "missing",
      sources: [source],
    };
  }
  const because = `${print(opens)} A is all that the ${name} opens`;
  if (least > opens) {
    const { trust } = listed;
    return {
      verdict: "not selective",
      upTo: null,
      method: "identity",
      because,
      missing: null,
      trust,
      sources: [listed.source],
    };
  }
  const end = Math.min(pair.greatest ?? Infinity, sourceLimit?.amps ?? Infinity);
  if (end <= opens) return { amps: Math.max(end, least), stops: null };
  return end === Infinity
    ? { amps: opens, stops: { missing: "the greatest current", because: "the greatest current is not known" } }
    : { amps: opens, stops: { missing: null, because } };
}

function byMaker({ makerTable }: PairQuestion, least: number, top: number): Reach | null {
  if (makerTable === undefined) return null;
  const { upTo, source } = makerTable;
  const common = { method: "maker table", trusts: [source.trust], sources: [source] } as const;
  if (upTo >= top) return { upTo: top, doubt: null, ...common };
  const because = `the maker's table ends at ${print(upTo)} A`;
  return { upTo: Math.max(upTo, least), doubt: { missing: null, because }, ...common };
}

/** s: down to this time the standard's own test proves the ratio; below, the arc counts. */
const TESTED_FROM = 0.01;

/**
 * gG fuses from 16 A, two steps of the series apart: the greatest melting energy of the one is at most the least of the other.
 *
 * The table holds melting alone. On alternating current the trade takes the step as it is; on direct current the arc can add more than the step
 * allows, so there it is taken down to 0.01 s only.
 */
function byRatio({ upstream, downstream, supply }: PairQuestion, least: number, top: number): Reach | null {
  if (upstream.family !== "iec_gG" || downstream.family !== "iec_gG") return null;
  const melts = preArcing("iec_gG", upstream.rating).min;
  const { min, max } = preArcing("iec_gG", downstream.rating);
  if (melts === null || min === null || max === null || max.value > melts.value) return null;
  const guide = cite("data-sheets", "gG fuses of 1.6 to 1 are selective", "article");
  const common = {
    method: "ratio",
    trusts: [melts.trust, max.trust, guide.trust],
    sources: [melts.source, guide],
  } as const;
  if (supply === "AC") return { upTo: top, doubt: null, ...common };
  const end = Math.sqrt(min.value / TESTED_FROM);
  if (end >= top) return { upTo: top, doubt: null, ...common };
  const missing = `the clearing I²t of the ${print(downstream.rating)} A gG fuse on direct current`;
  return {
    upTo: Math.max(end, least),
    doubt: { missing, because: `${missing} is not known: the arc adds to what melting takes` },
    ...common,
  };
}

function byBands(pair: PairQuestion, least: number, top: number): Reach {
  const cap = bothAtOnce(pair);
  if (cap === null || cap >= top) return compareBands(pair, least, top);
  const [up, down] = [nameOf(pair, "upstream"), nameOf(pair, "downstream")];
  const because = `the ${up} may open at once, as the ${down} does; only a tested table of the maker tells more`;
  const doubt = { missing: null, because };
  if (cap <= least) return { upTo: least, doubt, method: "trip bands", trusts: [], sources: [] };
  const reach = compareBands(pair, least, cap);
  return reach.doubt === null ? { ...reach, doubt } : reach;
}

/**
 * The current above which two breakers may both open at once, A: the lower tolerance of the upstream one's instantaneous trip.
 *
 * @returns null where one of the two is a fuse, or the upstream breaker has no published band
 */
function bothAtOnce(pair: PairQuestion): number | null {
  if (!isBreaker(pair, "upstream") || !isBreaker(pair, "downstream")) return null;
  const { family, rating } = pair.upstream;
  const last = gatesOf(family, rating).findLast(({ minS }) => minS !== null);
  return last === undefined ? null : last.multiple * rating;
}
