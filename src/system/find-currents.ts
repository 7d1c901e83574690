import type { Diagnostic } from "../diagnostic.ts";
import { listed, shown } from "../plan/index.ts";
import type { BoundPart } from "./bind-parts.ts";
import type { BoundSegment } from "./bound-segment.ts";
import type { CurrentKind, Port } from "./terminal.ts";

/** A circuit with its path found. */
export interface BoundCircuit {
  readonly key: string;
  readonly keyAt: readonly [number, number];
  readonly segments: readonly BoundSegment[];
  /** What the plan says outright, by cores or by system. */
  readonly said: CurrentKind | undefined;
  /** A protective or bonding conductor on its own says nothing about the parts at its ends. */
  readonly protectiveOnly: boolean;
}

/** What flows where, found by following the wiring from the parts that leave no choice. */
export interface Currents {
  ofPort(part: BoundPart, port: Port): CurrentKind;
  ofCircuit(circuit: BoundCircuit): CurrentKind;
}

/**
 * Direct or alternating: a battery, an inlet, one side of a charger leave no choice; switches, panels and loads are what they are wired to.
 *
 * @param fallback for what is wired to nothing
 */
export function findCurrents(
  circuits: readonly BoundCircuit[],
  fallback: CurrentKind,
  say: (d: Diagnostic) => void,
): Currents {
  const parent = new Map<string, string>();
  const kind = new Map<string, CurrentKind>();
  const root = (key: string): string => {
    let at = key;
    for (let up = parent.get(at); up !== undefined && up !== at; up = parent.get(at)) {
      const above = parent.get(up);
      if (above !== undefined) parent.set(at, above);
      at = up;
    }
    return at;
  };
  const keyOf = (part: BoundPart, port: Port): string => {
    const key = port.current === "either" ? part.key : `${part.key}\u0000${port.name}`;
    if (port.current !== "either" && !kind.has(key)) kind.set(key, port.current);
    return key;
  };
  const unite = (a: string, b: string): boolean => {
    const ra = root(a);
    const rb = root(b);
    const ka = kind.get(ra);
    const kb = kind.get(rb);
    if (ka !== undefined && kb !== undefined && ka !== kb) return false;
    if (ra === rb) return true;
    parent.set(ra, rb);
    const k = ka ?? kb;
    if (k !== undefined) kind.set(rb, k);
    return true;
  };

  for (const circuit of circuits) {
    if (circuit.protectiveOnly) continue;
    const name = `circuit\u0000${circuit.key}`;
    if (circuit.said !== undefined) kind.set(name, circuit.said);
    for (const { from, to } of circuit.segments) {
      // A bar or structure that is one point of metal carries whatever lands on it, and may join both worlds (earth).
      for (const point of [from, to]) {
        const fits = unite(name, keyOf(point.part, point.port));
        if (!fits) {
          say({
            id: "system/currents-mixed",
            level: "error",
            at: [point.span],
            about: `circuits.${circuit.key}`,
            message: `${listed([circuit.key])} joins alternating and direct current: \`${shown(point.text)}\` is ${
              kind.get(root(keyOf(point.part, point.port))) === "AC" ? "alternating" : "direct"
            }, the other end is not`,
            hint: "name the terminal that is meant, or put a charger or inverter between them",
          });
        }
      }
    }
  }
  return {
    ofPort: (part, port) => (port.current === "either" ? (kind.get(root(part.key)) ?? fallback) : port.current),
    ofCircuit: (circuit) =>
      circuit.said ?? kind.get(root(`circuit\u0000${circuit.key}`)) ?? (circuit.protectiveOnly ? "AC" : fallback),
  };
}
