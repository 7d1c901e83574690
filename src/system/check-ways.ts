import type { Diagnostic } from "../diagnostic.ts";
import { placed, shown } from "../plan/index.ts";
import type { BoundCircuit } from "./find-currents.ts";

/** Two circuits on one way of a panel: lawful where one device guards both, and more often a slip of the finger. */
export function checkWays(bound: readonly BoundCircuit[], say: (d: Diagnostic) => void): void {
  const first = new Map<string, BoundCircuit>();
  for (const part of new Set(bound.flatMap((c) => c.segments.flatMap((s) => [s.from.part, s.to.part])))) {
    if (part.ports.filter((p) => p.name === "in").length < 2) continue;
    say({
      id: "system/way-called-in",
      level: "error",
      at: [placed(part.plan.base, part.plan.keySpan)],
      about: `parts.${part.key}`,
      message: `a way of \`${shown(part.key)}\` is called \`in\`, as its feed is: nothing tells them apart`,
      hint: "give the way another name",
    });
  }
  for (const circuit of bound) {
    for (const { part, port, text } of [circuit.segments[0]?.from, circuit.segments.at(-1)?.to].filter(
      (p) => p !== undefined,
    )) {
      if (part.traits.inWays === undefined || !/^\d+$/.test(port.name)) continue;
      const key = `${part.key}\u0000${port.name}`;
      const other = first.get(key);
      if (other === undefined) {
        first.set(key, circuit);
        continue;
      }
      say({
        id: "system/way-shared",
        level: "hint",
        at: [circuit.keyAt, other.keyAt],
        about: `circuits.${circuit.key}`,
        message: `\`${shown(circuit.key)}\` stands on \`${shown(text)}\`, where \`${shown(other.key)}\` stands already: one device guards both`,
        hint: "give it a way of its own, unless one device is meant for both",
      });
    }
  }
}
