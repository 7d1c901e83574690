import type { Diagnostic } from "../diagnostic.ts";
import { foldName, known, placed, shown, type Fact, type Measure, type Plan } from "../plan/index.ts";
import type { BoundPart } from "./bind-parts.ts";
import type { BoundPoint, BoundSegment } from "./bind-path.ts";
import type { BoundCircuit, Currents } from "./find-currents.ts";
import { supplyNamed } from "./resolve-supplies.ts";
import type { Supply } from "./system.ts";
import type { Port } from "./terminal.ts";

/**
 * Which supply a part belongs to: what it or its circuit says, else the only one of its current, else the one whose nominal volts are
 * nearest a store's or a converter's, else that of the parts it is wired to. A converter belongs to the supply of its output.
 */
export function findSupplies(
  parts: readonly BoundPart[],
  circuits: readonly BoundCircuit[],
  supplies: readonly Supply[],
  currents: Currents,
  plan: Plan,
  say: (d: Diagnostic) => void,
): Map<string, Supply> {
  const found = new Map<string, Supply>();
  const queue: string[] = [];
  const settle = (part: string, supply: Supply | undefined): void => {
    if (supply === undefined || found.has(part)) return;
    found.set(part, supply);
    queue.push(part);
  };
  const strings = seriesVolts(parts, circuits);
  for (const { key, plan: part } of parts) {
    const fact = part.facts.system;
    if (fact === undefined || fact.value === "unknown") continue;
    settle(key, supplyNamed(fact.value, placed(part.base, fact.span), `parts.${key}.system`, supplies, say));
  }
  const byKey = new Map(circuits.map((c) => [c.key, c]));
  for (const { key, facts } of plan.circuits) {
    const name = known(facts.system);
    // A name that no supply has is told where the circuit is made.
    const supply = name === undefined ? undefined : supplies.find((s) => foldName(s.id) === foldName(name));
    for (const { from, to } of byKey.get(key)?.segments ?? []) {
      for (const point of [from, to]) if (isOwnSide(point)) settle(point.part.key, supply);
    }
  }
  for (const part of parts) {
    const [first] = part.ports;
    if (first === undefined || found.has(part.key)) continue;
    // What turns one current into the other is rated by its direct-current side.
    const direct = part.ports.some((p) => currents.ofPort(part, p) === "DC");
    const candidates = supplies.filter((s) => s.current === (direct ? "DC" : "AC"));
    const volts = strings.get(part.key) ?? nominalOf(part);
    if (candidates.length === 1) settle(part.key, candidates[0]);
    else if (volts !== undefined && (part.traits.store === true || ownPort(part) !== undefined)) {
      const far = (s: Supply): number => Math.abs(Math.log(s.nominal / volts));
      settle(part.key, [...candidates].sort((a, b) => far(a) - far(b))[0]);
    }
  }

  // A return bar, chassis or minus lead may serve several supplies, so it tells nothing. The ways of a board that holds the bar do.
  const tells = (point: BoundPoint): boolean =>
    isOwnSide(point) &&
    point.part.traits.structure !== true &&
    !(isReturnOf(supplies, point.part.key) && !hasWays(point.part));
  const edges = circuits.flatMap((circuit) =>
    circuit.protectiveOnly
      ? []
      : circuit.segments
          .filter(({ from, to }) => tells(from) && tells(to) && (from.fn ?? to.fn) !== "−")
          .map((s) => ({ ...s, circuit })),
  );
  const neighbours = neighboursOf(edges);
  for (let key = queue.shift(); key !== undefined; key = queue.shift()) {
    const supply = found.get(key);
    for (const next of neighbours.get(key) ?? []) settle(next, supply);
  }

  settleSolar(parts, circuits, found);
  for (const supply of supplies) {
    if (supply.returnPart !== undefined && !found.has(supply.returnPart)) found.set(supply.returnPart, supply);
  }
  const told = new Set<string>();
  for (const { from, to, circuit } of edges) {
    const [a, b] = [found.get(from.part.key), found.get(to.part.key)];
    if (a === undefined || b === undefined || a === b || a.current !== b.current || told.has(circuit.key)) continue;
    // A tap of a string lies between the volts of its ends.
    if (strings.has(from.part.key) || strings.has(to.part.key)) continue;
    if (a.nominal === b.nominal) continue;
    told.add(circuit.key);
    say({
      id: "system/supplies-joined",
      level: "warning",
      at: [circuit.keyAt],
      about: `circuits.${circuit.key}`,
      message: `\`${shown(circuit.key)}\` joins two supplies without a converter: \`${shown(from.part.key)}\` belongs to ${a.id}, \`${shown(to.part.key)}\` to ${b.id}`,
      hint: "mend the path, or write `system:` on the part that was taken for the wrong supply",
    });
  }
  return found;
}

function neighboursOf(edges: readonly BoundSegment[]): Map<string, string[]> {
  const neighbours = new Map<string, string[]>();
  for (const { from, to } of edges) {
    for (const [a, b] of [
      [from.part.key, to.part.key],
      [to.part.key, from.part.key],
    ] as const) {
      const list = neighbours.get(a);
      if (list === undefined) neighbours.set(a, [b]);
      else list.push(b);
    }
  }
  return neighbours;
}

/** Modules and what stands between them and a controller have volts of their own; they are counted to the supply that they charge. */
function settleSolar(parts: readonly BoundPart[], circuits: readonly BoundCircuit[], found: Map<string, Supply>): void {
  const open = parts.filter((p) => p.traits.solar === true && !found.has(p.key));
  if (open.length === 0) return;
  const byKey = new Map(parts.map((p) => [p.key, p]));
  const neighbours = neighboursOf(circuits.flatMap((c) => (c.protectiveOnly ? [] : c.segments)));
  for (const module of open) {
    const seen = new Set([module.key]);
    let supply: Supply | undefined;
    for (const key of seen) {
      const part = byKey.get(key);
      if (part !== undefined && ownPort(part) !== undefined) supply ??= found.get(key);
      else for (const next of neighbours.get(key) ?? []) seen.add(next);
    }
    if (supply !== undefined) for (const key of seen) if (!found.has(key)) found.set(key, supply);
  }
}

/** A board whose ways have a plus and a minus each: its bar of minus is but one side of it. */
const hasWays = (part: BoundPart): boolean =>
  part.traits.distributes === true && part.ports.some((p) => p.shape === "pair");

const isReturnOf = (supplies: readonly Supply[], part: string): boolean => supplies.some((s) => s.returnPart === part);

/** Of a part with a side for each of two supplies, the side that it belongs to; undefined for a part that is all of one. */
function ownPort(part: BoundPart): Port | undefined {
  if (part.traits.passes === true || part.ports.length < 2 || part.ports.every((p) => p.current === "either"))
    return undefined;
  const direct = part.ports.filter((p) => p.current === "DC");
  return direct.find((p) => p.name === "out") ?? direct.find((p) => p.name === "battery") ?? direct[0];
}

/** Whether a point lies on the side of its part that the part's supply is about. */
export function isOwnSide({ part, port }: BoundPoint): boolean {
  const own = ownPort(part);
  return own === undefined || own === port;
}

function nominalOf(part: BoundPart): number | undefined {
  const { nominal, "in series": series } = part.plan.kindFacts;
  const volts = known(nominal as Fact<Measure> | undefined)?.low; // every kind that has it reads it as volts
  return volts === undefined ? undefined : volts * (known(series as Fact<number> | undefined) ?? 1); // and this as a count
}

/** Volts of whole strings, by the stores in them: each link from one unit's minus to another's plus adds up. */
function seriesVolts(parts: readonly BoundPart[], circuits: readonly BoundCircuit[]): Map<string, number> {
  const string = new Map<string, Set<BoundPart>>();
  for (const { segments } of circuits) {
    const [from, to] = [segments[0]?.from, segments.at(-1)?.to];
    if (from?.part.traits.store !== true || to?.part.traits.store !== true) continue;
    if (from.fn === undefined || to.fn === undefined || from.fn === to.fn || from.part === to.part) continue;
    const joined = new Set([...(string.get(from.part.key) ?? [from.part]), ...(string.get(to.part.key) ?? [to.part])]);
    for (const part of joined) string.set(part.key, joined);
  }
  const volts = new Map<string, number>();
  for (const part of parts) {
    const all = string.get(part.key);
    if (all === undefined) continue;
    volts.set(
      part.key,
      [...all].reduce((sum, p) => sum + (nominalOf(p) ?? 12), 0),
    );
  }
  return volts;
}
