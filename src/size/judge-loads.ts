import type { JudgedRows } from "./judged-rows.ts";
import type { Lost } from "./lost-to-pair.ts";
import type { CircuitModel, Judged } from "./model.ts";
import type { Held } from "./standing.ts";
import type { StartsInStates } from "./starts-in-states.ts";
import type { RoomFor, Weigher } from "./weigher.ts";

/** What loads are judged by, as the sizes were laid last. */
export interface JudgedBy {
  readonly base: number;
  readonly rows: JudgedRows;
  readonly starts: StartsInStates;
  /** Writes how a row stands in a case before the base. */
  readonly givenAt: (caseIndex: number, row: number, into: Lost) => void;
  /** Writes how it stands in the base with amps drawn above that. */
  readonly aloneAt: (row: number, amps: number, into: Lost) => void;
  readonly demandExtra: (circuit: CircuitModel) => number;
  readonly flowIn: (circuit: CircuitModel, caseIndex: number) => number;
  readonly overload: (caseIndex: number, pair: number, amps: number) => Held | null;
}

/** A tenth of a microvolt is rounding, not a lack. */
const SHORT = 1e-7;

/** Judges each load in every case that counts for it. */
export function judgeLoads({ base, rows, starts, givenAt, aloneAt, demandExtra, flowIn, overload }: JudgedBy): Pick<
  Weigher,
  "worst" | "countShort" | "roomFor"
> & {
  /** The case in which a load has the least volts to start with, and the amps that it adds there. */
  readonly startIn: (circuit: CircuitModel, judged: Judged) => { readonly case: number; readonly amps: number };
  /** Calls back for each case in which a load starts, with the amps that it adds there. */
  readonly eachStart: (circuit: CircuitModel, judged: Judged, call: (caseIndex: number, amps: number) => void) => void;
} {
  // Judging is asked for every load again and again while sizes are weighed, so it makes no objects of its own.
  const at: Lost = { drop: 0, source: 0 };
  /** Calls back with each case that a load is judged in: how it stands, which case, and the amps it adds to the base there (NaN: given). */
  const eachCase = (
    c: CircuitModel,
    judged: Judged,
    onSteady: (drop: number, source: number, name: number, more: number) => void,
    onStart: (volts: number, name: number, more: number) => void,
  ): void => {
    const q = (rows.first[c.position] ?? 0) + c.judged.indexOf(judged);
    for (let j = 0; j < base; j++) {
      if (rows.on[q * base + j] !== 1) continue;
      givenAt(j, q, at);
      onSteady(at.drop, at.source, j, Number.NaN);
    }
    if (judged.draw < 0) {
      const more = demandExtra(c);
      if (Number.isNaN(more)) return;
      aloneAt(q, more, at);
      onSteady(at.drop, at.source, -2, more);
      return;
    }
    const own = rows.extra(c.position).steady;
    aloneAt(q, own, at);
    onSteady(at.drop, at.source, -1, own);
    if (Number.isNaN(judged.startExtra)) return;
    const more = own - rows.steadyOf(judged) + rows.startOf(judged);
    aloneAt(q, more, at);
    onStart(at.source - at.drop, -1, more);
    starts.each(q, onStart);
  };

  const startIn = (c: CircuitModel, judged: Judged): { case: number; amps: number } => {
    let least = Infinity;
    let found = { case: base, amps: 0 };
    eachCase(
      c,
      judged,
      () => undefined,
      (volts, j, amps) => {
        if (volts >= least - 1e-9) return;
        least = volts;
        found = { case: j < 0 ? base : j, amps };
      },
    );
    return found;
  };

  const pairOf = (c: CircuitModel, judged: Judged): number =>
    rows.pair[(rows.first[c.position] ?? 0) + c.judged.indexOf(judged)] ?? 0;
  const moreAlone = (c: CircuitModel, name: number): number =>
    name === -2 ? demandExtra(c) : rows.extra(c.position).steady;

  // How the load that is looked at stands at its worst.
  let who: { readonly c: CircuitModel; readonly judged: Judged } | null = null;
  let dropVolts = 0;
  let dropCase = -1;
  let leastVolts = 0;
  let leastCase = -1;
  let startVolts = 0;
  let startCase = -1;
  let overloaded: Held | null = null;
  let startOverloaded: Held | null = null;
  const takeSteady = (drop: number, source: number, name: number): void => {
    if (source === Infinity) {
      if (who === null) return;
      const { c, judged } = who;
      overloaded ??= overload(name < 0 ? base : name, pairOf(c, judged), name < 0 ? moreAlone(c, name) : 0);
      return;
    }
    // Rounding must not choose between cases that are alike.
    if (drop > dropVolts + 1e-9) {
      dropVolts = drop;
      dropCase = name;
    }
    if (source - drop < leastVolts - 1e-9) {
      leastVolts = source - drop;
      leastCase = name;
    }
  };
  const takeStart = (volts: number, name: number, more: number): void => {
    if (volts === Infinity) {
      if (who !== null) startOverloaded ??= overload(name < 0 ? base : name, pairOf(who.c, who.judged), more);
      return;
    }
    if (!Number.isNaN(startVolts) && volts >= startVolts - 1e-9) return;
    startVolts = volts;
    startCase = name;
  };
  const findWorst = (c: CircuitModel, judged: Judged): void => {
    who = { c, judged };
    dropVolts = -Infinity;
    leastVolts = Infinity;
    startVolts = Number.NaN;
    dropCase = leastCase = startCase = -1;
    overloaded = startOverloaded = null;
    eachCase(c, judged, takeSteady, takeStart);
  };

  const worst: Weigher["worst"] = (c) =>
    c.judged.map((judged) => {
      findWorst(c, judged);
      return {
        judged,
        dropVolts,
        dropCase,
        leastVolts,
        leastCase,
        startVolts,
        startCase,
        overload: overloaded,
        startOverload: startOverloaded,
      };
    });

  const countShort: Weigher["countShort"] = (c, into) => {
    for (const judged of c.judged) {
      findWorst(c, judged);
      if (dropVolts > judged.dropVolts + SHORT) into.drop++;
      if (leastVolts < judged.runsAbove - SHORT) into["least-volts"]++;
      if (startVolts < judged.startsAbove - SHORT) into.start++;
    }
  };

  const roomFor: Weigher["roomFor"] = (onTheWay, c, judged) => {
    const room: RoomFor = { drop: Infinity, start: Infinity, leastVolts: Infinity };
    const flow = flowIn(onTheWay, base);
    const per = (volts: number, amps: number): number => (amps > 1e-12 ? volts / amps : Infinity);
    eachCase(
      c,
      judged,
      (drop, source, j, more) => {
        if (source === Infinity) return;
        const amps = Number.isNaN(more) ? flowIn(onTheWay, j) : flow + more;
        room.drop = Math.min(room.drop, per(judged.dropVolts - drop, amps));
        if (judged.runsAbove > 0)
          room.leastVolts = Math.min(room.leastVolts, per(source - drop - judged.runsAbove, amps));
      },
      (volts, j, more) => {
        const amps = more + (j < 0 ? flow : flowIn(onTheWay, j));
        if (judged.startsAbove > 0) room.start = Math.min(room.start, per(volts - judged.startsAbove, amps));
      },
    );
    return room;
  };

  return {
    worst,
    countShort,
    roomFor,
    startIn,
    eachStart: (c, judged, call) => {
      eachCase(
        c,
        judged,
        () => undefined,
        (_, j, amps) => {
          call(j < 0 ? base : j, amps);
        },
      );
    },
  };
}
