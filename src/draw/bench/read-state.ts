import type { Design } from "../../size/index.ts";
import { closedInStates, givesIn, type Contact, type System } from "../../system/index.ts";
import type { Blade } from "../set-blade.ts";
import { reachedByAlternating } from "./reached-by-alternating.ts";

/** What of a build is on in one of its states, and how its switches stand. */
export interface StateView {
  /** Empty: it is none of the plan. */
  readonly id: string;
  /** A, by key path: what flows through a circuit, what a load takes, what a source gives or takes. Alternating current is not among them. */
  readonly amps: ReadonlyMap<string, number>;
  /** Key paths of what carries current, or alternating volts where its current is not worked out. */
  readonly live: ReadonlySet<string>;
  /** Position of a part that has several; null: it has none. */
  readonly positionOf: (part: string) => string | null;
  /** How the contacts of a part stand; null: those of a device in a circuit. */
  readonly bladeOf: (part: string | null) => Blade;
}

/** Less is the rounding of a solved network, or a leak that no drawing shows, A. */
const LEAST = 0.0005;

/**
 * Reads what a state of the plan comes to, for who draws or tells it.
 *
 * @param id of an operating state
 * @returns null: none is asked for, or the plan has none of that name; contacts are at rest and nothing is told off
 */
export function readState(system: System, design: Design, id: string | null): StateView | null {
  const given = system.states.find((s) => s.id === id);
  const found = design.states.find((s) => s.id === id);
  if (id === null || given === undefined || found === undefined) return null;
  const amps = new Map<string, number>();
  for (const circuit of found.circuits) amps.set(`circuits.${circuit.id}`, Math.abs(circuit.amps));
  for (const { part, amps: a } of [...found.loads, ...found.sources]) {
    const about = `parts.${part}`;
    amps.set(about, Math.max(amps.get(about) ?? 0, Math.abs(a)));
  }
  const positions = new Map(system.parts.map((p) => [p.id, given.positions[p.id] ?? p.positions[0] ?? null]));
  const positionOf = (part: string): string | null => positions.get(part) ?? null;
  const draws = new Map(system.elements.flatMap((e) => (e.is === "draw" ? [[e.part, e] as const] : [])));
  const isOn = (part: string): boolean => given.on.includes(part) || draws.get(part)?.alwaysOn === true;

  const live = new Set([...amps].filter(([, a]) => a > LEAST).map(([about]) => about));
  const stores = new Set(system.parts.filter(({ traits }) => traits.store === true).map((p) => p.id));
  const reached = reachedByAlternating(system, given, (part) => live.has(`parts.${part}`));
  const partOf = new Map(
    system.elements.flatMap((e) => (e.is === "contact" || e.is === "join" ? [[e.a, e.part] as const, [e.b, e.part] as const] : [])), // prettier-ignore
  );
  for (const circuit of system.circuits) {
    const about = `circuits.${circuit.id}`;
    const isReached = circuit.conductors.some((c) => c.role === "live" && reached.has(c.from) && reached.has(c.to));
    if (circuit.current === "AC" && isReached && (circuit.draws.length === 0 || circuit.draws.some(isOn))) {
      live.add(about);
      for (const part of circuit.draws) if (isOn(part)) live.add(`parts.${part}`);
    }
    if (!live.has(about)) continue;
    // What passes current on is on with it; what takes or stores it may rest.
    const passed = circuit.conductors.flatMap((c) => (c.role === "live" ? [partOf.get(c.from), partOf.get(c.to)] : []));
    for (const part of [circuit.from.part, circuit.to.part, ...passed])
      if (part !== undefined && !draws.has(part) && !stores.has(part)) live.add(`parts.${part}`);
  }
  for (const { id: part, traits } of system.parts)
    if (traits.enters === true && givesIn(given, part, system)) live.add(`parts.${part}`);

  return withBlades(system, { id, amps, live, positionOf });
}

/** Puts to where each part stands how its contacts stand then. */
export function withBlades(system: System, view: Omit<StateView, "bladeOf">): StateView {
  const contacts = new Map<string, Contact[]>();
  for (const e of system.elements) {
    if (e.is !== "contact" || closedInStates(e) === undefined) continue;
    const list = contacts.get(e.part);
    if (list === undefined) contacts.set(e.part, [e]);
    else list.push(e);
  }
  return {
    ...view,
    bladeOf: (part) => (part === null ? "closed" : bladeAt(contacts.get(part), view.positionOf(part))),
  };
}

/** Where the blade of a part stands in a position: a part without contacts that move guards something, and is closed. */
function bladeAt(contacts: readonly Contact[] | undefined, position: string | null): Blade {
  if (contacts === undefined) return "closed";
  const ways = [...new Set(contacts.map(({ closedIn = [] }) => closedIn.join("|")))];
  const on = ways.findIndex((way) => position !== null && way.split("|").includes(position));
  if (ways.length === 1) return on < 0 ? "rest" : "closed";
  return on < 0 ? "none" : on === 0 ? "first" : "second";
}
