import type { Diagnostic } from "../diagnostic.ts";
import { shown } from "../plan/index.ts";
import type { BoundPart } from "./bind-parts.ts";
import type { NameIndex } from "./name-index.ts";
import type { CurrentKind } from "./terminal.ts";

/** The part that is set into the protective conductor: one that has a way through it, in a circuit that has such a conductor. */
export function findInPE(
  name: string,
  at: readonly [number, number],
  circuit: string,
  current: CurrentKind,
  { parts, say }: { readonly parts: NameIndex<BoundPart>; readonly say: (d: Diagnostic) => void },
): BoundPart | undefined {
  const about = `circuits.${circuit}.in PE`;
  const part = parts.find(name, at, about, say);
  if (part === undefined) return undefined;
  if (current === "AC" && part.traits.passes === true) return part;
  say({
    id: "system/not-in-protective-conductor",
    level: "error",
    at: [at],
    about,
    message:
      current === "AC"
        ? `\`${shown(part.key)}\` has no way through it, so it cannot be set into a protective conductor`
        : `\`${shown(circuit)}\` carries direct current and has no protective conductor that \`${shown(part.key)}\` could be set into`,
    hint: current === "AC" ? "name a galvanic isolator, or another part with `in` and `out`" : "leave the key out",
  });
  return undefined;
}
