import { judgePair, type PairJudgement } from "../protect/selectivity/index.ts";
import type { EndFault, FaultCourse, FaultDevice, EndFaults } from "../size/fault-study.ts";
import type { Settled } from "../size/index.ts";
import { studyEnds } from "../size/study-faults.ts";
import { darkLoads } from "./dark-loads.ts";
import { seriesIn } from "./series-in.ts";

/** Two devices in series. Numbers are places in the fault study's list of devices. */
export interface PairInSeries {
  /** Nearer to the sources. */
  readonly upstream: number;
  /** Nearer to the fault: it alone is to open. */
  readonly downstream: number;
  /** Whether nothing stands between the two. */
  readonly isNext: boolean;
  /** A, the greatest fault current through the downstream device, and the conductor and end at which it flows. */
  readonly greatest: number;
  readonly at: string;
  /** Share of it that the upstream device carries; it is judged as if it were all. */
  readonly upstreamShare: number;
  readonly judgement: PairJudgement;
  /** Loads that lose their supply for nothing when the upstream device opens too. */
  readonly lostToo: readonly string[];
}

/** What a fault at an end of a conductor leaves dark. */
export interface FaultDark {
  readonly circuit: string;
  readonly conductor: string;
  readonly end: "from" | "to";
  /** How the fault ends, by the fault study. */
  readonly outcome: FaultCourse["outcome"];
  /** The devices that part it from every battery, nearest first: the first alone is to open. Empty: none does, each battery has its own. */
  readonly whole: readonly number[];
  /** Loads without supply once the nearest has opened, or every device of `mayOpen` where there is none. */
  readonly dark: readonly string[];
  /** Further devices that may open with it, since nothing proves that they stay closed, and what they would leave dark besides. */
  readonly mayOpen: readonly number[];
  readonly mayBeDark: readonly string[];
}

/** A device that feeds others: what hangs behind it. */
export interface FeederLoad {
  readonly device: number;
  readonly rating: number;
  /** A, greatest steady current over all states, with all that can run together; null: not known. */
  readonly demand: number | null;
  /** A, what its branches' ratings sum to: no measure of what it carries. */
  readonly branchRatings: number;
  readonly branches: readonly number[];
}

/** Which device opens for which fault, over a whole build. Plain data. */
export interface Coordination {
  readonly devices: readonly FaultDevice[];
  readonly pairs: readonly PairInSeries[];
  readonly faults: readonly FaultDark[];
  readonly feeders: readonly FeederLoad[];
}

const known = new WeakMap<Settled, Coordination>();

/**
 * Judges every pair of devices in series over the currents that can really flow, tells which loads each fault leaves dark, and what each feeder carries.
 *
 * Only direct current; a range of current begins at the downstream device's rating and ends at the greatest fault behind it. A device that carries only a part of
 * a fault, as the fuse of one battery of two, is judged as if it carried the whole: it is selective at least as far as is said.
 *
 * @returns plain data; asked for again, the same
 * @source `docs/method.md`, Selectivity
 */
export function coordinate(settled: Settled): Coordination {
  let found = known.get(settled);
  if (found === undefined) known.set(settled, (found = makeCoordination(settled)));
  return found;
}

/** The pairs in series alone, for who asks of few of them what goes dark. */
export interface SeriesPairs {
  readonly pairs: readonly Omit<PairInSeries, "lostToo">[];
  /** Loads that lose their supply for nothing when the upstream device of a pair opens too. */
  readonly lostToo: (pair: Pick<PairInSeries, "upstream" | "downstream">) => readonly string[];
}

/** What is worked out on the way to the pairs. */
interface Placed extends SeriesPairs {
  readonly devices: readonly FaultDevice[];
  readonly places: readonly {
    readonly end: EndFault;
    readonly whole: readonly number[];
    readonly parts: readonly number[];
  }[];
  /** Loads without supply once some devices are open and a conductor carries nothing. */
  readonly darkWith: (opened: readonly number[], conductor?: string) => readonly string[];
}

const placed = new WeakMap<Settled, Placed>();

/** The pairs that `coordinate` tells of, without what each fault leaves dark. */
export const seriesPairs = (settled: Settled): SeriesPairs => placePairs(settled);

function placePairs(settled: Settled): Placed {
  let found = placed.get(settled);
  if (found === undefined) placed.set(settled, (found = findPairs(settled, studyEnds(settled))));
  return found;
}

function findPairs(settled: Settled, study: EndFaults): Placed {
  const { grid } = settled.model;
  const { devices } = study;
  const seriesOf = seriesIn(grid, devices);
  const worst = new Map<number, Omit<PairInSeries, "judgement" | "lostToo">>();
  const places: Placed["places"][number][] = [];
  for (const end of study.circuits.flatMap((c) => c?.ends ?? [])) {
    if (end.greatest === null) continue;
    const { whole, parts } = seriesOf(end, end.greatest);
    const numbers = (list: typeof whole): number[] => list.map(({ device }) => device);
    places.push({ end, whole: numbers(whole), parts: numbers(parts) });
    const [first, ...behind] = whole;
    if (first === undefined) continue;
    for (const [i, seen] of [...behind, ...parts].entries()) {
      const key = seen.device * devices.length + first.device;
      if ((worst.get(key)?.greatest ?? -1) >= first.amps) continue;
      worst.set(key, {
        upstream: seen.device,
        downstream: first.device,
        // Where no other parts the fault from every battery, those of the batteries are next.
        isNext: behind.length === 0 || i === 0,
        greatest: first.amps,
        at: `${end.conductor} at ${end.end}`,
        upstreamShare: Math.min(1, seen.amps / first.amps),
      });
    }
  }
  const judge = judgeKinds(devices);
  const pairs = [...worst.values()]
    .map((pair) => ({ ...pair, judgement: judge(pair) }))
    .sort((a, b) => a.downstream - b.downstream || a.upstream - b.upstream);
  const dark = darkLoads(grid);
  const edgeOf = new Map(grid.edges.map((edge, e) => [edge.id, e]));
  const darkWith: Placed["darkWith"] = (opened, conductor = "") =>
    dark([...opened.map((d) => devices[d]?.edge ?? -1), edgeOf.get(conductor) ?? -1]);
  const lostToo: Placed["lostToo"] = ({ upstream, downstream }) =>
    without(darkWith([upstream, downstream]), darkWith([downstream]));
  return { devices, places, pairs, darkWith, lostToo };
}

/** What is in a list and not in another. */
function without(all: readonly string[], some: readonly string[]): readonly string[] {
  if (all === some) return [];
  const known = new Set(some);
  return all.filter((part) => !known.has(part));
}

function makeCoordination(settled: Settled): Coordination {
  const { devices, places, darkWith, ...found } = placePairs(settled);
  const pairs = found.pairs.map((pair): PairInSeries => ({ ...pair, lostToo: found.lostToo(pair) }));
  const verdictOf = new Map(pairs.map((p) => [`${p.upstream} ${p.downstream}`, p.judgement]));
  const faults = places.map(({ end, whole, parts }): FaultDark => {
    const { circuit, conductor, end: at, greatest } = end;
    const [first] = whole;
    const others = [...whole.slice(1), ...parts];
    const mayOpen =
      first === undefined ? parts : others.filter((d) => verdictOf.get(`${d} ${first}`)?.verdict !== "selective");
    const dark = darkWith(first === undefined ? parts : [first], conductor);
    const all = first === undefined ? dark : darkWith([first, ...mayOpen], conductor);
    const outcome = greatest?.course.outcome ?? "none";
    return { circuit, conductor, end: at, outcome, whole, dark, mayOpen, mayBeDark: without(all, dark) };
  });
  return { devices, pairs, faults, feeders: feedersOf(settled, devices, pairs) };
}

type Question = Pick<PairInSeries, "upstream" | "downstream" | "greatest" | "upstreamShare">;

/** Judges pairs of a list of devices; two pairs of the same kinds, over the same currents, are one question. */
function judgeKinds(devices: readonly FaultDevice[]): (question: Question) => PairJudgement {
  const numbers = new Map<string, number>();
  const kindOf = devices.map((d, i) => {
    const { family, rating, volts, interrupt } = d;
    // One of which nothing is known is asked for by its own place.
    const kind = family === null || rating === null ? i : `${family} ${rating} ${volts} ${interrupt?.current ?? ""}`;
    const key = String(kind);
    const number = numbers.get(key) ?? numbers.size;
    numbers.set(key, number);
    return number;
  });
  const known = new Map<number, Map<number, PairJudgement>>();
  return (question) => {
    const { upstream, downstream, greatest } = question;
    const isAlone = !isShared(question);
    const key = 2 * ((kindOf[upstream] ?? 0) * numbers.size + (kindOf[downstream] ?? 0)) + (isAlone ? 1 : 0);
    let byGreatest = known.get(key);
    if (byGreatest === undefined) known.set(key, (byGreatest = new Map<number, PairJudgement>()));
    let judgement = byGreatest.get(greatest);
    if (judgement === undefined) {
      const plain = judged(devices[upstream], devices[downstream], greatest);
      judgement = isAlone ? plain : { ...plain, because: `with its source alone on: ${plain.because}` };
      byGreatest.set(greatest, judgement);
    }
    return judgement;
  };
}

/** Of several sources that share a fault each is taken alone, for the others may be off: then all of it goes through its own device. */
const isShared = ({ upstreamShare }: Question): boolean => !(upstreamShare > 0.95);

function judged(up: FaultDevice | undefined, down: FaultDevice | undefined, greatest: number): PairJudgement {
  const missing = [up, down].find((d) => d === undefined || d.family === null || d.rating === null);
  if (
    missing !== undefined ||
    up?.family == null ||
    up.rating === null ||
    down?.family == null ||
    down.rating === null
  ) {
    return {
      verdict: "not proven",
      upTo: null,
      method: "identity",
      because: "the kind or rating of one of the two is not known",
      missing: `kind and rating of the device at ${missing?.part ?? "its place"}`,
      trust: "missing",
      sources: [],
    };
  }
  const marked = (d: FaultDevice): { readonly interruptAmps?: number } =>
    d.interrupt?.current == null ? {} : { interruptAmps: d.interrupt.current };
  return judgePair({
    upstream: { family: up.family, rating: up.rating, ...marked(up) },
    downstream: { family: down.family, rating: down.rating, ...marked(down) },
    greatest,
    volts: down.volts,
    supply: "DC",
  });
}

function feedersOf(
  settled: Settled,
  devices: readonly FaultDevice[],
  pairs: readonly PairInSeries[],
): readonly FeederLoad[] {
  const branches = new Map<number, number[]>();
  for (const { upstream, downstream, isNext } of pairs) {
    if (!isNext) continue;
    const list = branches.get(upstream);
    if (list === undefined) branches.set(upstream, [downstream]);
    else list.push(downstream);
  }
  return [...branches].flatMap(([device, behind]): FeederLoad[] => {
    const own = devices[device];
    if (own?.rating == null) return [];
    const index = settled.model.circuits.findIndex(({ circuit }) => circuit.id === own.circuit);
    return [
      {
        device,
        rating: own.rating,
        demand: settled.currents[index]?.steady ?? null,
        branches: behind,
        branchRatings: behind.reduce((sum, d) => sum + (devices[d]?.rating ?? 0), 0),
      },
    ];
  });
}
