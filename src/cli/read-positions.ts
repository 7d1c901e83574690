import { moverName } from "../draw/states/index.ts";
import { foldName } from "../plan/index.ts";
import type { ProblemMover } from "../switching/index.ts";

type Asked =
  | { readonly ok: true; readonly positions: Readonly<Record<string, string>> }
  | { readonly ok: false; readonly problem: string; readonly hint: string };

/**
 * Reads where switches, plugs and relays are to stand: `INL in, TS shore`.
 *
 * @param movers that there are; called by their id, with a blank in place of its colon, or by name
 */
export function readPositions(text: string, movers: readonly ProblemMover[]): Asked {
  const positions = Object.create(null) as Record<string, string>; // an object without a prototype has no type of its own
  const calls = movers.flatMap((mover) =>
    [...new Set([mover.id, moverName(mover.id), mover.name])].map((name) => ({ mover, folded: foldName(name) })),
  );
  for (const part of text.split(",")) {
    const asked = foldName(part.trim());
    if (asked === "") continue;
    // The longest name that fits: `CU main` may be a switch beside `CU`.
    const found = calls
      .filter(({ folded }) => asked.startsWith(`${folded} `))
      .sort((a, b) => b.folded.length - a.folded.length)[0];
    if (found === undefined)
      return {
        ok: false,
        problem: `\`${part.trim()}\` names nothing that moves`,
        hint:
          movers.length === 0
            ? "the plan has nothing that moves"
            : `write ${movers.slice(0, 8).map((m) => `\`${moverName(m.id)}\``).join(", ")} and a position`, // prettier-ignore
      };
    const { mover, folded } = found;
    const position = mover.positions.find((p) => foldName(p) === asked.slice(folded.length + 1).trim());
    if (position === undefined)
      return {
        ok: false,
        problem: `\`${moverName(mover.id)}\` has no position \`${asked.slice(folded.length + 1).trim()}\``,
        hint: `it has ${mover.positions.join(", ")}`,
      };
    positions[mover.id] = position;
  }
  return { ok: true, positions: { ...positions } };
}
