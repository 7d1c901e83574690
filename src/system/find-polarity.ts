import type { Diagnostic, Span } from "../diagnostic.ts";
import { listed, shown } from "../plan/index.ts";
import type { InternalElement } from "./element.ts";
import { conductorName } from "./make-conductors.ts";
import type { Conductor, SystemCircuit } from "./system.ts";

/** One piece of metal, with every contact closed. */
interface Metal {
  readonly plusOf: Set<string>;
  readonly minusOf: Set<string>;
  /** Of batteries alone. */
  readonly storePlus: Set<string>;
  readonly storeMinus: Set<string>;
}

/**
 * Tells which pole the conductors between points of one pole belong to, by what else their metal is joined to: a shunt between a battery's
 * minus and a bar is a return, and so is that bar's lead to the chassis. What lies between the units of a string is live on both sides.
 *
 * A battery, source or load whose plus and minus are one metal is reported.
 *
 * @param root the terminal that stands for the metal of another, from `joinMetal`
 * @param placeOf where a part or circuit stands in the plan
 */
export function findPolarity(
  circuits: readonly SystemCircuit[],
  elements: readonly InternalElement[],
  root: (terminal: string) => string,
  placeOf: (part: string) => readonly Span[],
  say: (d: Diagnostic) => void,
): SystemCircuit[] {
  const metals = new Map<string, Metal>();
  const metalOf = (terminal: string): Metal => {
    const at = root(terminal);
    let metal = metals.get(at);
    if (metal === undefined) {
      metal = { plusOf: new Set(), minusOf: new Set(), storePlus: new Set(), storeMinus: new Set() };
      metals.set(at, metal);
    }
    return metal;
  };
  const pairs = elements.flatMap(pairsOf);
  for (const { part, plus, minus, isStore } of pairs) {
    metalOf(plus).plusOf.add(part);
    metalOf(minus).minusOf.add(part);
    if (isStore) {
      metalOf(plus).storePlus.add(part);
      metalOf(minus).storeMinus.add(part);
    }
  }
  const shorted = [...new Set(pairs.filter((p) => root(p.plus) === root(p.minus)).map((p) => p.part))];
  for (const part of shorted) say(shortCircuit(part, pairs, circuits, elements, placeOf));

  return circuits.map((circuit) => {
    if (circuit.current !== "DC") return circuit;
    const conductors = circuit.conductors.map((c): Conductor => {
      if (c.role === "protective") return c;
      const metal = metalOf(c.from);
      const isOfString = [...metal.storePlus].some((p) => !metal.storeMinus.has(p)) && metal.storeMinus.size > 0;
      if (isOfString && c.role === "return") return { ...c, role: "live" };
      if (c.fn !== "pole" || !isPole(c.from) || !isPole(c.to)) return c;
      const fn = metal.minusOf.size > 0 && metal.plusOf.size === 0 ? "−" : "+";
      const id = conductorName(circuit.id, fn, stretchOf(c));
      return { ...c, id, fn, role: fn === "−" ? "return" : "live" };
    });
    return { ...circuit, conductors };
  });
}

const isPole = (terminal: string): boolean => terminal.endsWith(":pole");

/** The number of the stretch in the name that a conductor without a function has: `W7.2` is of the second, counted from 0. */
function stretchOf({ id, circuit }: Conductor): number {
  const more = /^\.(\d+)/.exec(id.slice(circuit.length));
  return more === null ? 0 : Number(more[1]) - 1;
}

interface Pair {
  readonly part: string;
  readonly plus: string;
  readonly minus: string;
  readonly isStore: boolean;
}

/** The direct-current terminals between which an element pushes or takes. */
function pairsOf(e: InternalElement): Pair[] {
  switch (e.is) {
    case "store":
    case "feed":
      return [{ part: e.part, plus: e.plus, minus: e.minus, isStore: e.is === "store" }];
    case "draw":
      return e.current === "DC" ? [{ part: e.part, plus: e.plus, minus: e.minus, isStore: false }] : [];
    case "converter":
      return [
        ...(e.inCurrent === "DC" ? [{ part: e.part, plus: e.inPlus, minus: e.inMinus, isStore: false }] : []),
        ...(e.outCurrent === "DC" ? [{ part: e.part, plus: e.outPlus, minus: e.outMinus, isStore: false }] : []),
      ];
    case "join":
    case "contact":
    case "source":
    case "earth join":
    case "residual guard":
    case "mover":
      return [];
  }
}

function shortCircuit(
  part: string,
  pairs: readonly Pair[],
  circuits: readonly SystemCircuit[],
  elements: readonly InternalElement[],
  placeOf: (part: string) => readonly Span[],
): Diagnostic {
  const pair = pairs.find((p) => p.part === part);
  const way = pair === undefined ? [] : wayBetween(pair.plus, pair.minus, circuits, elements);
  return {
    id: "system/short-circuit",
    level: "warning",
    at: placeOf(part),
    about: `parts.${part}`,
    message: `\`${shown(part)}\` is short-circuited: ${way.length === 0 ? "bare metal leads" : `${listed(way)} ${way.length === 1 ? "leads" : "lead"}`} from its plus to its minus`,
    hint: "look for a circuit that lands on the wrong bar; name the terminal that is meant, as in `B1:−`",
  };
}

/** The circuits on the shortest way from one terminal to another. */
function wayBetween(
  from: string,
  to: string,
  circuits: readonly SystemCircuit[],
  elements: readonly InternalElement[],
): string[] {
  const edges = new Map<string, { to: string; circuit: string | undefined }[]>();
  const add = (a: string, b: string, circuit: string | undefined): void => {
    edges.set(a, [...(edges.get(a) ?? []), { to: b, circuit }]);
    edges.set(b, [...(edges.get(b) ?? []), { to: a, circuit }]);
  };
  for (const { id, current, conductors } of circuits) {
    if (current === "DC") for (const c of conductors) if (c.role !== "protective") add(c.from, c.to, id);
  }
  for (const e of elements) if (e.is === "join" || e.is === "contact") add(e.a, e.b, undefined);
  const before = new Map<string, { from: string; circuit: string | undefined } | null>([[from, null]]);
  const queue = [from];
  for (let at = queue.shift(); at !== undefined && at !== to; at = queue.shift()) {
    for (const edge of edges.get(at) ?? []) {
      if (before.has(edge.to)) continue;
      before.set(edge.to, { from: at, circuit: edge.circuit });
      queue.push(edge.to);
    }
  }
  const way: string[] = [];
  for (let step = before.get(to); step !== undefined && step !== null; step = before.get(step.from)) {
    if (step.circuit !== undefined && way[0] !== step.circuit) way.unshift(step.circuit);
  }
  return [...new Set(way)];
}
