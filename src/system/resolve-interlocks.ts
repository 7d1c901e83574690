import type { Diagnostic } from "../diagnostic.ts";
import { foldName, known, listed, nearestNames, placed, shown, type Plan } from "../plan/index.ts";
import type { InternalElement } from "./element.ts";
import type { Interlock, SystemPart } from "./system.ts";

interface Moves {
  readonly id: string;
  readonly positions: readonly string[];
}

/** The interlocks that the plan gives, with what they hold found: `GEN running` is the mover `GEN` in its position `running`. */
export function resolveInterlocks(
  plan: Plan,
  elements: readonly InternalElement[],
  parts: readonly SystemPart[],
  say: (d: Diagnostic) => void,
): Interlock[] {
  if (plan.interlocks.length === 0) return [];
  const movers = moversOf(elements, parts);
  return plan.interlocks.flatMap(({ key, base, facts }) => {
    const named = known(facts.never) ?? [];
    const never = named.flatMap(({ value, span }) => {
      if (value === "unknown") return [];
      const found = findPosition(value, movers);
      if (found !== undefined) return [found];
      const near = nearestNames(
        value,
        movers.flatMap((m) => m.positions.map((p) => `${m.id} ${p}`)),
      );
      say({
        id: "system/interlock-position-unknown",
        level: "error",
        at: [placed(base, span)],
        about: `interlocks.${key}`,
        message: `nothing moves that could stand at \`${shown(value)}\``,
        hint:
          near.length > 0
            ? `did you mean ${listed(near, "or")}?`
            : "write a switch, plug or source, then its position: `GEN running`",
      });
      return [];
    });
    // With one of its positions lost it would forbid more than is meant.
    return never.length < 2 || never.length < named.length ? [] : [{ id: key, never }];
  });
}

/** All that can stand in one of several positions, by its name. */
function moversOf(elements: readonly InternalElement[], parts: readonly SystemPart[]): Moves[] {
  const movers: Moves[] = elements.flatMap((e) => (e.is === "mover" ? [{ id: e.id, positions: e.positions }] : []));
  const there = new Set(movers.map((m) => m.id));
  return [...movers, ...parts.filter((p) => p.positions.length > 0 && !there.has(p.id))];
}

/** The longest name of a mover with which the text begins, and what is left of it as a position. */
function findPosition(text: string, movers: readonly Moves[]): Interlock["never"][number] | undefined {
  const folded = foldName(text);
  const byLength = [...movers].sort((a, b) => b.id.length - a.id.length);
  for (const { id, positions } of byLength) {
    const name = foldName(id);
    if (!folded.startsWith(`${name} `)) continue;
    const position = positions.find((p) => foldName(p) === folded.slice(name.length + 1));
    if (position !== undefined) return { mover: id, in: [position] };
  }
  return undefined;
}
