import type { Diagnostic } from "../diagnostic.ts";
import { placed, shown, type Plan } from "../plan/index.ts";
import type { BoundPart } from "./bind-parts.ts";
import type { NameIndex } from "./name-index.ts";
import type { SystemCircuit } from "./system.ts";

/**
 * Returns that are drawn as circuits of their own beside a pair that brings its own return: two ways back where one was meant, each counted.
 *
 * A second way back may be meant, so it is a hint. Says nothing of batteries, whose pair leaves its return out where one is drawn, nor of bars, where returns meet.
 */
export function checkDoubleReturns(
  plan: Plan,
  circuits: readonly SystemCircuit[],
  parts: NameIndex<BoundPart>,
  say: (d: Diagnostic) => void,
): void {
  // Of alternating current a neutral by itself may be where neutral is earthed.
  const drawn = circuits.filter(
    (c) => c.current === "DC" && c.conductors.length > 0 && c.conductors.every((k) => k.role === "return"),
  );
  if (drawn.length === 0) return;
  const pairs = new Map<string, string>();
  for (const { id, conductors } of circuits) {
    if (!conductors.some((k) => k.role === "live")) continue;
    for (const { role, from, to } of conductors) if (role === "return") for (const t of [from, to]) pairs.set(t, id);
  }
  for (const { id, conductors } of drawn) {
    const item = plan.circuits.find((c) => c.key === id);
    if (item === undefined) continue;
    // Between two things that take, it joins their minus, and is no way home.
    const leadsHome = conductors.some((k) =>
      [k.from, k.to].some((t) => {
        const traits = parts.get(t.slice(0, t.indexOf(":")))?.traits;
        return traits?.distributes === true || traits?.structure === true || traits?.store === true;
      }),
    );
    if (!leadsHome) continue;
    const told = conductors.flatMap((k) => [k.from, k.to]).find((t) => pairs.has(t) && /:−$/.test(t));
    const pair = told === undefined ? undefined : pairs.get(told);
    const part = told === undefined ? undefined : parts.get(told.slice(0, told.indexOf(":")));
    if (pair === undefined || part === undefined || part.traits.store === true) continue;
    const other = plan.circuits.find((c) => c.key === pair);
    say({
      id: "system/return-drawn-twice",
      level: "hint",
      at: [placed(item.base, item.keySpan), ...(other === undefined ? [] : [placed(other.base, other.keySpan)])],
      about: `circuits.${id}`,
      message: `\`${shown(id)}\` is the return of \`${shown(part.key)}\`, and \`${shown(pair)}\` brings a return of its own: both are counted, as two wires side by side`,
      hint: `write \`return: none\` on \`${shown(pair)}\`, or delete \`${shown(id)}\``,
    });
  }
}
