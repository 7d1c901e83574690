import type { Value } from "../../system/index.ts";
import { caseName } from "../../size/index.ts";
import type { Build } from "../build.ts";
import type { Needed } from "../finding.ts";
import { openAmps } from "./open-amps.ts";
import { joinedPieces } from "./pieces.ts";

/** What is asked of a source in a condition: amps, or volt-amperes. */
export interface Asked {
  /** Core that it is asked for on, where a source has several lines. */
  readonly line?: string | undefined;
  readonly amount: number;
  readonly state: string;
  /** It lasts for as long as a start. */
  readonly isStart: boolean;
}

/** What is asked of a source of direct current; or why nothing is. */
export interface DirectDemand {
  readonly part: string;
  readonly limit: Value;
  readonly asks: readonly Asked[] | string;
  readonly unknown: readonly Needed[];
}

/** What hangs on each source of direct current that has no battery beside it, in every state and alone. */
export function directDemands(build: Build): readonly DirectDemand[] {
  const { settled } = build;
  const { grid } = settled.model;
  const { look, base } = settled.weigher;
  const sources = [
    ...grid.converters.map(({ element, out }) => ({
      part: element.part,
      plus: out.plus,
      amps: element.amps,
      isSolar: false,
    })),
    ...grid.feeds.map(({ element, plus }) => ({
      part: element.part,
      plus,
      amps: element.amps,
      isSolar: element.runsWith === "sun",
    })),
  ];
  if (sources.length === 0) return [];
  const pieces = joinedPieces(settled);
  const stores = new Set(grid.stores.map((s) => pieces[s.plus]));
  const any = settled.model.circuits[0];
  return sources.map(({ part, plus, amps, isSolar }): DirectDemand => {
    const own = { part, limit: amps, unknown: [] };
    if (isSolar) return { ...own, asks: "it gives what the sun gives" };
    if (stores.has(pieces[plus])) return { ...own, asks: "a battery beside it gives what it does not" };
    // Several on one bar bear it together.
    const beside = sources.filter((s) => pieces[s.plus] === pieces[plus]);
    const limit: Value = {
      low: beside.reduce((sum, s) => sum + s.amps.low, 0),
      high: beside.reduce((sum, s) => sum + s.amps.high, 0),
      origin: beside.some((s) => s.amps.origin === "unknown") ? "unknown" : amps.origin,
    };
    const draws = grid.draws.flatMap((d, i) => (pieces[d.plus] === pieces[plus] ? [{ ...d, i }] : []));
    const starts = draws.flatMap(({ element, i }) => {
      const start = element.levels.find((l) => l.name === "starting")?.amps.high;
      return start === undefined ? [] : [{ part: element.part, i, start }];
    });
    const asks: Asked[] = draws.map(({ element }) => ({
      amount: element.levels[0]?.amps.high ?? 0,
      state: `${element.part} alone`,
      isStart: false,
    }));
    settled.cases.slice(0, base + 1).forEach((one, j) => {
      if (one.kind === "rating") return;
      const taken = look.taken(j);
      const together = draws.reduce((sum, d) => sum + (taken[d.i] ?? 0), 0);
      const state = any === undefined ? one.name : caseName(settled, any, j);
      if (together > 0) asks.push({ amount: together, state, isStart: false });
      for (const s of starts) {
        const now = taken[s.i] ?? 0;
        if (one.kind === "given" && now <= 0) continue;
        asks.push({ amount: together - now + s.start, state: `${s.part} starting, ${state}`, isStart: true });
      }
    });
    return { part, limit, asks, unknown: openAmps(build, plus) };
  });
}
