import type { Compiled } from "../compile.ts";
import { dangersOf, moverName, namesOf, type StateDanger } from "../draw/states/index.ts";
import { everyAlternatingLoad, studyAlternatingAt } from "../size/study-alternating.ts";
import { saySteps, stateAt, type SystemSwitching } from "../switching/index.ts";

/** One position of everything that moves, with volts and currents. */
export interface PositionOnPaper {
  /** Where each stands once it rests. */
  readonly stands: readonly { readonly mover: string; readonly position: string }[];
  /** What moved by itself, in words. */
  readonly follows: readonly string[];
  /** Interlocks that forbid it. */
  readonly forbiddenBy: readonly string[];
  readonly gives: readonly string[];
  readonly joins: readonly PositionJoinOnPaper[];
  readonly dangers: readonly StateDanger[];
  readonly loads: readonly PositionLoadOnPaper[];
  readonly sources: readonly PositionSourceOnPaper[];
  /** Circuits that carry current. */
  readonly circuits: readonly PositionCircuitOnPaper[];
  /** The volts are those of a network that came to rest. */
  readonly converged: boolean;
}

export interface PositionJoinOnPaper {
  readonly sources: readonly string[];
  /** How many places there are at least and at most at which its neutral meets earth. */
  readonly low: number;
  readonly high: number;
  readonly places: readonly string[];
}

export interface PositionLoadOnPaper {
  readonly load: string;
  /** How it is fed: fed, dead, what is wrong, or unsure: its source may give. */
  readonly state: string;
  readonly sources: readonly string[];
  /** Null: it is dead, or see `cannotTell`. */
  readonly volts: number | null;
  /** Volts lost on the way; null: cannot be told. */
  readonly dropV: number | null;
  readonly amps: number;
  /** What it takes, W. */
  readonly watts: number;
  readonly earth: string;
  /** What is not known on its way. */
  readonly cannotTell: readonly string[];
}

export interface PositionCircuitOnPaper {
  readonly circuit: string;
  /** By core: `L`, `L1`, `N`, `PE`. */
  readonly cores: readonly {
    readonly core: string;
    /** Null: it closes a ring without impedance. */
    readonly amps: number | null;
    /** Volts lost along it; null: its size is not known. */
    readonly dropV: number | null;
  }[];
}

export interface PositionSourceOnPaper {
  readonly source: string;
  /** In each of its lines, A. */
  readonly amps: readonly number[];
  readonly neutralAmps: number;
  /** What it gives, W. */
  readonly watts: number;
  /** Null: cannot be told. */
  readonly volts: number | null;
}

/** What holds in one position, with every load on. */
export function positionOnPaper(
  compiled: Compiled,
  { problem }: SystemSwitching,
  asked: Readonly<Record<string, string>>,
): PositionOnPaper {
  const state = stateAt(problem, asked);
  // The study of volts takes direct current as live: an inverter that has none is told not to give.
  const off = problem.sources.flatMap(({ id, gives, kind }): [string, string][] => {
    const mover = gives === null || kind === "store" ? undefined : problem.movers[gives.mover];
    if (mover === undefined || state.gives.includes(id)) return [];
    // A relay that leads a supply on stands where its source rests as it is.
    const stands = state.positions[mover.id];
    if (stands !== undefined && gives?.in.includes(mover.positions.indexOf(stands)) !== true) return [];
    const position = mover.positions.find((_, i) => gives?.in.includes(i) !== true);
    return position === undefined ? [] : [[mover.id, position]];
  });
  const positions = { ...asked, ...state.positions, ...Object.fromEntries(off) };
  const at = studyAlternatingAt(compiled, { id: "as asked", positions, on: everyAlternatingLoad(compiled) });
  const { source: sourceName, taker: takerName, join: joinName } = namesOf(problem);
  const takers = new Map(state.takers.map((t) => [t.taker, t]));
  const unsure = new Set(state.mayGive.flatMap((m) => m.takers));
  return {
    stands: Object.entries(state.positions).map(([mover, position]) => ({ mover: moverName(mover), position })),
    follows: state.follows.map((step) => saySteps([step])),
    forbiddenBy: state.forbiddenBy,
    gives: state.gives.map(sourceName),
    joins: state.islands.map(({ sources, joinsLow, joinsHigh, joins }) => ({
      sources: sources.map(sourceName),
      low: joinsLow,
      high: joinsHigh,
      places: joins.map(({ id, where }) => (where === "aboard" ? joinName(id) : `${joinName(id)}, ${where}`)),
    })),
    dangers: [
      ...state.mayGive.map(({ source, by }): StateDanger => ({
        grade: "unknown",
        says: `with no battery on, ${by.join(" or ")} may or may not keep ${sourceName(source)} up: take what it feeds as live`,
        rule: null,
      })),
      ...dangersOf(state, namesOf(problem)),
    ],
    loads: at.loads.map((load) => ({
      load: takerName(load.id),
      state:
        unsure.has(load.id) || unsure.has(load.part)
          ? "unsure"
          : ((takers.get(load.id) ?? takers.get(load.part))?.state ?? (load.condition === "dead" ? "dead" : "fed")),
      sources: load.sources.map(sourceName),
      volts: load.condition === "dead" ? null : load.volts,
      dropV: load.condition === "dead" ? null : load.drop,
      amps: load.amps,
      watts: load.watts,
      earth: (takers.get(load.id) ?? takers.get(load.part))?.earth ?? "unknown",
      cannotTell: load.cannotTell,
    })),
    sources: at.sources
      .filter(({ id }) => state.gives.includes(id))
      .map(({ id, lines, neutralAmps, watts, volts }) => ({
        source: sourceName(id),
        amps: lines.map(({ amps }) => amps),
        neutralAmps,
        watts,
        volts,
      })),
    circuits: [...new Set(at.conductors.map((c) => c.circuit))].flatMap((circuit) => {
      const own = at.conductors.filter((c) => c.circuit === circuit);
      if (own.every(({ amps }) => amps === 0)) return [];
      return [{ circuit, cores: own.map(({ fn, amps, drop }) => ({ core: fn, amps, dropV: drop })) }];
    }),
    converged: at.converged,
  };
}
