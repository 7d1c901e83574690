import { shownDrawing } from "../../act/wire-card/drawings.ts";
import type { BenchDrawing, StateView } from "../../draw/bench/index.ts";
import type { Compiled } from "../../judge.ts";
import type { LaidOut, Standing } from "./standing-at.ts";
import type { StateDrawing } from "./position-answers.ts";
import { solvedAt } from "./volts-at.ts";

/** What is on; how blades stand follows from it. */
type PositionView = Omit<StateView, "bladeOf">;

/** Draws the one-line: given by the worker, which has it at hand. */
export type DrawView = (compiled: Compiled, view: PositionView) => BenchDrawing;

/** Room around what alternates, mm. */
const AROUND = 4;

/** The one-line with what is live in some positions; direct current stands in it as not told. */
export function drawPositions(compiled: Compiled, laid: LaidOut, standing: Standing, draw: DrawView): StateDrawing {
  const { system } = compiled;
  const { scene, places } = draw(compiled, viewOf(compiled, laid, standing));
  const alternating = [
    ...system.circuits.flatMap(({ id, current }) => (current === "AC" ? [`circuits.${id}`] : [])),
    ...system.parts.flatMap(({ id, current }) => (current === "AC" ? [`parts.${id}`] : [])),
    ...laid.problem.sources.flatMap(({ kind, part }) => (kind === "store" ? [] : [`parts.${part}`])),
  ].flatMap((about) => places[about] ?? []);
  const top = Math.max(0, Math.min(scene.height, ...alternating.map(({ y }) => y - AROUND)));
  const foot = Math.min(scene.height, Math.max(0, ...alternating.map(({ y, height }) => y + height + AROUND)));
  const joins = standing.state.islands.flatMap((island) =>
    island.joins.flatMap(({ part, certain, id }) => {
      const place = places[`parts.${part}`];
      return place === undefined ? [] : [{ name: id, x: place.x + 1, y: place.y + place.height, certain }];
    }),
  );
  return {
    ...shownDrawing(scene),
    window: { x: 0, y: top, width: scene.width, height: Math.max(1, foot - top) },
    joins: joins.filter(({ x, y }, i) => joins.findIndex((j) => j.x === x && j.y === y) === i),
  };
}

function viewOf(compiled: Compiled, { problem, terminals }: LaidOut, standing: Standing): PositionView {
  const { system } = compiled;
  const { state, positions, open } = standing;
  const cut = new Set(open.flatMap(({ leaf }) => leaf.nodes));
  const liveNodes = state.islands.flatMap(({ lineNodes }) => lineNodes).filter((n) => !cut.has(n));
  const liveAt = new Set(liveNodes.flatMap((n) => terminals[n] ?? []));
  const live = new Set<string>();
  for (const { id, current, conductors, from, to } of system.circuits) {
    if (current !== "AC" || !conductors.some((c) => c.role === "live" && liveAt.has(c.from))) continue;
    live.add(`circuits.${id}`);
    for (const { part } of [from, to]) live.add(`parts.${part}`);
  }
  const sources = new Map(problem.sources.map((s) => [s.id, s.part]));
  for (const id of state.gives) live.add(`parts.${sources.get(id) ?? id}`);
  const amps = new Map<string, number>();
  for (const { circuit, amps: a } of solvedAt(compiled, standing, null).conductors) {
    const about = `circuits.${circuit}`;
    if (live.has(about)) amps.set(about, Math.max(amps.get(about) ?? 0, a ?? 0));
  }
  const parts = new Map(system.parts.map((p) => [p.id, p]));
  const positionOf = (part: string): string | null =>
    Object.hasOwn(positions, part) ? (positions[part] ?? null) : (parts.get(part)?.positions[0] ?? null);
  return { id: "", amps, live, positionOf };
}
