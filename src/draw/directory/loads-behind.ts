import type { System, SystemCircuit, SystemPart } from "../../system/index.ts";
import { milliamps } from "./residual-text.ts";

/**
 * What goes dark when a circuit does, as people call it: its loads; a board, a charger or an inverter by its name; of a switch that it leads to
 * what lies behind as well.
 *
 * @param circuit fed from its `from` end
 */
export function loadsBehind(system: System, circuit: SystemCircuit): string[] {
  const told: string[] = [];
  const seen = new Set<string>();
  const follow = ({ draws, to }: SystemCircuit): void => {
    for (const id of new Set([...draws, to.part])) {
      if (seen.has(id)) continue;
      seen.add(id);
      const part = system.parts.find((p) => p.id === id);
      if (part === undefined) continue;
      const inside = system.elements.filter((e) => e.part === id);
      const isLoad = inside.some((e) => e.is === "draw");
      const leadsOn = !isLoad && part.traits.distributes !== true && inside.some(({ is }) => is === "contact");
      const next = leadsOn ? system.circuits.filter((c) => c.from.part === id && c.current === circuit.current) : [];
      const before = told.length;
      for (const one of next) follow(one);
      const behind = told.splice(before);
      // Of a board with sections it is one of them.
      const section = part.traits.distributes === true && to.part === id && to.port !== "" && to.port !== "in" ? `, ${to.port}` : ""; // prettier-ignore
      told.push(
        `${called(part, isLoad)}${section}${behind.length === 0 ? "" : `: ${behind.join(", ")}`}${atOutlet(system, id)}`,
      );
    }
  };
  follow(circuit);
  return told;
}

const called = ({ id, name, kind }: SystemPart, isLoad: boolean): string =>
  isLoad || name !== id ? name : `${kind} ${id}`;

/** An outlet with a residual device of its own says so. */
function atOutlet({ elements }: System, part: string): string {
  const own = elements.find((e) => e.is === "residual guard" && e.part === part && e.contacts.length === 0);
  return own?.is === "residual guard" ? ` (${milliamps(own.amps)} in the outlet)` : "";
}
