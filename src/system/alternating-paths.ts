import { closedInStates } from "./element.ts";
import { givesIn, mayWork } from "./gives-in.ts";
import { inLines } from "./line-devices.ts";
import type { GivenState, System } from "./system.ts";

/** What live conductors, joins and contacts of the alternating side lead to. */
export interface AlternatingPaths {
  /** Whether an alternating circuit, or metal of its side, comes to a terminal. */
  readonly has: (terminal: string) => boolean;
  /** All that closed paths lead to; without a state each contact counts as closed. `seeks`: a switch that moves by itself goes to what is walked from, unless the state says where it stands. */
  readonly walk: (starts: Iterable<string>, state: GivenState | null, seeks?: boolean) => Set<string>;
}

interface Link {
  readonly to: string;
  readonly part: string;
  readonly closedIn: readonly string[] | undefined;
  /** From an input of a switch that moves by itself to its output. */
  readonly isSought: boolean;
}

/** Lays out the live metal of the alternating side once, to be walked in one state after another. */
export function alternatingPaths(system: System): AlternatingPaths {
  const links = new Map<string, Link[]>();
  const put = (from: string, link: Link): void => {
    const list = links.get(from);
    if (list === undefined) links.set(from, [link]);
    else list.push(link);
  };
  const link = (a: string, b: string, part: string, closedIn?: readonly string[], isSought = false): void => {
    put(a, { to: b, part, closedIn, isSought });
    put(b, { to: a, part, closedIn, isSought: false });
  };
  for (const circuit of system.circuits) {
    if (circuit.current !== "AC") continue;
    for (const c of circuit.conductors) if (c.role === "live") link(c.from, c.to, "");
  }
  const isInLine = inLines(system.circuits);
  const alternating = new Set(system.parts.filter((p) => p.current === "AC").map((p) => p.id));
  const seekers = new Set(system.elements.flatMap((e) => (e.is === "mover" && e.rules !== undefined ? [e.id] : [])));
  for (const e of system.elements) {
    if (e.is === "join" && alternating.has(e.part)) link(e.a, e.b, e.part);
    if (e.is === "contact" && (alternating.has(e.part) || isInLine(e)))
      link(e.a, e.b, e.part, closedInStates(e), seekers.has(e.part));
  }
  const first = new Map(system.parts.map((p) => [p.id, p.positions[0]]));
  return {
    has: (terminal) => links.has(terminal),
    walk: (starts, state, seeks = false) => {
      const seen = new Set(starts);
      for (const at of seen) {
        for (const { to, part, closedIn, isSought } of links.get(at) ?? []) {
          const said = state?.positions[part];
          const position = said ?? first.get(part);
          const isClosed = closedIn === undefined || (position !== undefined && closedIn.includes(position));
          if (state === null || isClosed || (seeks && isSought && said === undefined)) seen.add(to);
        }
      }
      return seen;
    },
  };
}

/**
 * Tells whether a supply from outside, shore or a generator, comes to the alternating input of a charger or a transfer relay in a state: through contacts as the
 * state has them, transformers, and inverter/chargers that pass it on.
 *
 * Where the plan draws no way from a supply to an input, `shore` stands for it. What an inverter makes is no supply from outside.
 */
export function suppliedIn(
  system: System,
  { walk }: AlternatingPaths = alternatingPaths(system),
): (state: GivenState) => (terminal: string) => boolean {
  const entries: { part: string; lines: readonly string[] }[] = [];
  const onward: { from: readonly string[]; to: readonly string[]; leads: (state: GivenState) => boolean }[] = [];
  const may = mayWork(system);
  for (const e of system.elements) {
    if (e.is === "source") {
      const lines = Object.entries(e.terminals).flatMap(([fn, t]) => (fn.startsWith("L") ? [t] : []));
      if (e.from === "transformer") onward.push({ from: e.fedBy ?? [], to: lines, leads: () => true });
      else entries.push({ part: e.part, lines });
    }
    if (e.is !== "converter" || e.passesFrom === undefined) continue;
    const from = e.passesFrom;
    const relay = system.elements.filter((c) => c.is === "contact" && c.a === from);
    const leads = (state: GivenState): boolean => relay.every((c) => c.is !== "contact" || may(c, state));
    onward.push({ from: [from], to: e.outLines ?? [e.outPlus], leads });
  }
  const spread = (starts: Iterable<string>, state: GivenState | null): ReadonlySet<string> => {
    let reached = walk(starts, state, true);
    for (let size = -1; size !== reached.size;) {
      size = reached.size;
      for (const { from, to, leads } of onward)
        if (from.some((t) => reached.has(t)) && (state === null || leads(state)))
          reached = walk([...reached, ...to], state, true);
    }
    return reached;
  };
  const drawn = spread(
    entries.flatMap((e) => e.lines),
    null,
  );
  return (state) => {
    const giving = entries.filter((e) => givesIn(state, e.part, system));
    const reached = spread(
      giving.flatMap((e) => e.lines),
      state,
    );
    return (terminal) => (drawn.has(terminal) && state.isImplied !== true ? reached.has(terminal) : state.shore);
  };
}
