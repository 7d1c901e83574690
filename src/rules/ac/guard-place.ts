import type { Build } from "../build.ts";
import { factsOf } from "../stated.ts";

/** A board that a part hangs on. */
export interface BoardAhead {
  readonly board: string;
  /** The way that leads to the part; null: it leads by no way of the board. */
  readonly way: string | null;
  /** The circuit that leaves the board there. */
  readonly circuit: string;
  readonly hasMain: boolean;
}

/** The boards of alternating current ahead of a part, nearest first, by the paths as they are drawn: from what feeds to what takes. */
export function boardsAhead(build: Build, part: string): readonly BoardAhead[] {
  const found = new Map<string, BoardAhead>();
  const seen = new Set([part]);
  for (const at of seen) {
    for (const { circuit } of build.circuits) {
      if (circuit.current !== "AC" || circuit.to.part !== at) continue;
      const { from } = circuit;
      seen.add(from.part);
      if (!isBoard(build, from.part) || found.has(from.part)) continue;
      const way = from.port === "in" || from.port === "" ? null : from.port;
      found.set(from.part, { board: from.part, way, circuit: circuit.id, hasMain: hasMain(build, from.part) });
    }
  }
  return [...found.values()];
}

/** The first boards behind a part that feeds, by the paths as they are drawn. */
export function boardsBehind(build: Build, part: string): readonly string[] {
  const found = new Set<string>();
  const seen = new Set([part]);
  for (const at of seen) {
    for (const { circuit } of build.circuits) {
      if (circuit.current !== "AC" || circuit.from.part !== at) continue;
      if (isBoard(build, circuit.to.part)) found.add(circuit.to.part);
      else seen.add(circuit.to.part);
    }
  }
  return [...found];
}

/** Whether a part is a board of alternating current, and no box in which cores are joined. */
export const isBoard = (build: Build, id: string): boolean => {
  const part = build.part(id)?.part;
  return part?.traits.distributes === true && part.current === "AC" && part.kind !== "combiner";
};

const hasMain = (build: Build, id: string): boolean => {
  const view = build.part(id);
  return view !== undefined && factsOf(view)["main"] !== undefined;
};

/** Where a device that guards all that an inlet feeds goes, in words. */
export function mainInWords(build: Build, part: string): string {
  const [board] = boardsBehind(build, part);
  return board === undefined ? `the breaker of ${part}` : `the main of ${board}`;
}

/** Where a device that guards one thing goes, in words: the nearest main, else the way that leads to it. */
export function guardInWords(build: Build, part: string): string {
  const ahead = boardsAhead(build, part);
  const main = ahead.find((b) => b.hasMain);
  if (main !== undefined) return `the main of ${main.board}`;
  return wayInWords(build, part);
}

/** The way of a board that leads to a part, in words; else the line to it. */
export function wayInWords(build: Build, part: string): string {
  const [near] = boardsAhead(build, part);
  if (near === undefined) return `the line to ${part}`;
  return near.way === null ? `the line from ${near.board}` : `way ${near.way} of ${near.board}`;
}
