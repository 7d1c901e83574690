import type { Build } from "../build.ts";
import { unknownAmps } from "../conductor/volts-on-the-way.ts";
import type { Needed } from "../finding.ts";
import { joinedPieces } from "./pieces.ts";

/**
 * Currents on one piece of metal, every contact closed, that nobody knows: of loads, and of sources whose input does not bound them.
 *
 * @param node any node of it, of the grid
 */
export function openAmps(build: Build, node: number): readonly Needed[] {
  const { settled } = build;
  const { draws, feeds, converters } = settled.model.grid;
  const unknown = [
    ...draws.flatMap(({ element, plus }) =>
      element.levels[0]?.amps.origin === "unknown" ? [{ part: element.part, plus }] : [],
    ),
    ...feeds.flatMap(({ element, plus }) => (element.amps.origin === "unknown" ? [{ part: element.part, plus }] : [])),
    ...converters.flatMap(({ element, out }) =>
      element.amps.origin === "unknown" && element.inputAmps === undefined
        ? [{ part: element.part, plus: out.plus }]
        : [],
    ),
  ];
  if (unknown.length === 0) return [];
  const pieces = joinedPieces(settled);
  const own = unknown.filter(({ plus }) => pieces[plus] === pieces[node]);
  return [...new Set(own.map((u) => u.part))].flatMap((part) => unknownAmps(build, part) ?? []);
}
