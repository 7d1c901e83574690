import type { JudgedRows } from "./judged-rows.ts";
import type { CircuitModel, Judged } from "./model.ts";
import type { Held } from "./standing.ts";
import type { StartsInStates } from "./starts-in-states.ts";
import type { RoomFor, Weigher } from "./weigher.ts";

/** Volts lost on the way from a source, and volts at the source; Infinity there: it would have to push more than it can. */
export interface Lost {
  readonly drop: number;
  readonly source: number;
}

/** What loads are judged by, as the sizes were laid last. */
export interface JudgedBy {
  readonly base: number;
  readonly rows: JudgedRows;
  readonly starts: StartsInStates;
  /** How a row stands in a case before the base. */
  readonly givenAt: (caseIndex: number, row: number) => Lost;
  /** How it stands in the base with amps drawn above that. */
  readonly aloneAt: (row: number, amps: number) => Lost;
  readonly demandExtra: (circuit: CircuitModel) => number;
  readonly flowIn: (circuit: CircuitModel, caseIndex: number) => number;
  readonly overload: (caseIndex: number, pair: number, amps: number) => Held | null;
}

/** Judges each load in every case that counts for it. */
export function judgeLoads({ base, rows, starts, givenAt, aloneAt, demandExtra, flowIn, overload }: JudgedBy): Pick<
  Weigher,
  "worst" | "roomFor"
> & {
  /** The case in which a load has the least volts to start with, and the amps that it adds there. */
  readonly startIn: (circuit: CircuitModel, judged: Judged) => { readonly case: number; readonly amps: number };
  /** Calls back for each case in which a load starts, with the amps that it adds there. */
  readonly eachStart: (circuit: CircuitModel, judged: Judged, call: (caseIndex: number, amps: number) => void) => void;
} {
  /** Calls back with each case that a load is judged in: how it stands, which case, and the amps it adds to the base there (NaN: given). */
  const eachCase = (
    c: CircuitModel,
    judged: Judged,
    onSteady: (at: Lost, name: number, more: number) => void,
    onStart: (volts: number, name: number, more: number) => void,
  ): void => {
    const q = (rows.first[c.position] ?? 0) + c.judged.indexOf(judged);
    for (let j = 0; j < base; j++) if (rows.on[q * base + j] === 1) onSteady(givenAt(j, q), j, Number.NaN);
    if (judged.draw < 0) {
      const more = demandExtra(c);
      if (!Number.isNaN(more)) onSteady(aloneAt(q, more), -2, more);
      return;
    }
    const own = rows.extra(c.position).steady;
    onSteady(aloneAt(q, own), -1, own);
    if (Number.isNaN(judged.startExtra)) return;
    const more = own - rows.steadyOf(judged) + rows.startOf(judged);
    const { drop, source } = aloneAt(q, more);
    onStart(source - drop, -1, more);
    starts.each(q, (j, volts, amps) => {
      onStart(volts, j, amps);
    });
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

  const worst: Weigher["worst"] = (c) =>
    c.judged.map((judged) => {
      const w = {
        judged,
        dropVolts: -Infinity,
        dropCase: -1,
        leastVolts: Infinity,
        leastCase: -1,
        startVolts: Number.NaN,
        startCase: -1,
        overload: null as Held | null, // set below
        startOverload: null as Held | null, // set below
      };
      eachCase(
        c,
        judged,
        ({ drop, source }, name) => {
          if (source === Infinity) {
            w.overload ??= overload(name < 0 ? base : name, pairOf(c, judged), name < 0 ? moreAlone(c, name) : 0);
            return;
          }
          // Rounding must not choose between cases that are alike.
          if (drop > w.dropVolts + 1e-9) {
            w.dropVolts = drop;
            w.dropCase = name;
          }
          if (source - drop < w.leastVolts - 1e-9) {
            w.leastVolts = source - drop;
            w.leastCase = name;
          }
        },
        (volts, name, more) => {
          if (volts === Infinity) {
            w.startOverload ??= overload(name < 0 ? base : name, pairOf(c, judged), more);
            return;
          }
          if (!Number.isNaN(w.startVolts) && volts >= w.startVolts - 1e-9) return;
          w.startVolts = volts;
          w.startCase = name;
        },
      );
      return w;
    });

  const roomFor: Weigher["roomFor"] = (onTheWay, c, judged) => {
    const room: RoomFor = { drop: Infinity, start: Infinity, leastVolts: Infinity };
    const flow = flowIn(onTheWay, base);
    const per = (volts: number, amps: number): number => (amps > 1e-12 ? volts / amps : Infinity);
    eachCase(
      c,
      judged,
      ({ drop, source }, j, more) => {
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
