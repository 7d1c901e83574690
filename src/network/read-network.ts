import type { DcElement, DcNetwork, DcProblem } from "./dc-network.ts";

/**
 * From elements by name to numbers in arrays, and what cannot be used of them.
 *
 * Whatever is given is looked at as if it came from a stranger: an element with an unknown kind or an unusable number
 * is left out and reported, and the rest is solved.
 */

export const KIND = { resistor: 0, store: 1, feed: 2, draw: 3, converter: 4, unusable: 5 } as const;
export const DEMAND = { amps: 0, watts: 1, ohms: 2 } as const;

/** Wide of any build, and narrow enough that no product of two of them leaves the range of a number. */
const MOST_VOLTS = 1e6;
const MOST_AMPS = 1e6;
const MOST_WATTS = 1e9;
const MOST_OHMS = 1e9;
const LEAST_EFFICIENCY = 0.01;
const LEAST_TRACK = 1e-3;

/** The numbers of a network that may differ from one solution to the next, each by index of element. */
export interface DcValues {
  /** 0 = switched off: an open switch, a battery taken off, a load not in use. */
  readonly on: Uint8Array;
  /** Resistor, store, feed (there 0 = as if left out), Ω. */
  readonly ohms: Float64Array;
  /** Electromotive force of a store, set point of a feed or of a converter's output, V. */
  readonly volts: Float64Array;
  /** Limit of a feed or of a converter's output, A. */
  readonly amps: Float64Array;
  /** What a draw asks for: A, W or Ω as its law says. */
  readonly demand: Float64Array;
}

export interface Table {
  readonly elementCount: number;
  readonly ids: readonly string[];
  /** One of `KIND`, by element. */
  readonly kind: Uint8Array;
  /** One of `DEMAND`, by element. */
  readonly demandKind: Uint8Array;
  readonly tracks: Uint8Array;
  /** By element: its first port (a and b of a resistor, plus and minus, the input of a converter), by node. */
  readonly plus: Int32Array;
  readonly minus: Int32Array;
  /** By converter: which element it is, and its output. */
  readonly converters: Int32Array;
  readonly outPlus: Int32Array;
  readonly outMinus: Int32Array;
  readonly nodes: readonly string[];
  /** Index of the ground node, or −1. */
  readonly ground: number;
  /** The network's own numbers. */
  readonly values: DcValues;
  readonly efficiency: Float64Array;
  readonly idleWatts: Float64Array;
  /** Infinity = no limit. */
  readonly inputAmps: Float64Array;
  readonly trackVolts: Float64Array;
  /** 0 = none stated. */
  readonly leastVolts: Float64Array;
  readonly problems: readonly DcProblem[];
}

export const copyValues = (v: DcValues): DcValues => ({
  on: v.on.slice(),
  ohms: v.ohms.slice(),
  volts: v.volts.slice(),
  amps: v.amps.slice(),
  demand: v.demand.slice(),
});

export function readNetwork(network: DcNetwork): Table {
  const elements: readonly DcElement[] = network.elements;
  const m = elements.length;
  const problems: DcProblem[] = [];
  const nodes: string[] = [];
  const nodeOf = new Map<string, number>();
  const node = (name: string): number => {
    let i = nodeOf.get(name);
    if (i === undefined) {
      i = nodes.length;
      nodeOf.set(name, i);
      nodes.push(name);
    }
    return i;
  };
  const numbers = (value = 0) => new Float64Array(m).fill(value);
  const values = {
    on: new Uint8Array(m).fill(1),
    ohms: numbers(),
    volts: numbers(),
    amps: numbers(),
    demand: numbers(),
  };
  const kind = new Uint8Array(m).fill(KIND.unusable);
  const demandKind = new Uint8Array(m);
  const tracks = new Uint8Array(m);
  const plus = new Int32Array(m);
  const minus = new Int32Array(m);
  const [efficiency, idleWatts, leastVolts, trackVolts] = [numbers(1), numbers(), numbers(), numbers()];
  const inputAmps = numbers(Infinity);
  const converters: number[] = [];
  const outs: DcElement[] = [];
  const ids: string[] = [];
  const seen = new Set<string>();

  elements.forEach((element, e) => {
    // Typed or not, it may have come out of a file.
    const given: { readonly kind?: unknown; readonly id?: unknown } | null = element;
    const id = typeof given?.id === "string" ? given.id : `#${e}`;
    ids.push(id);
    if (seen.has(id)) problems.push({ problem: "repeated id", about: id, field: "id", found: id });
    seen.add(id);
    const shape = findUnknownWord(element);
    if (shape !== null) {
      problems.push({ problem: "unknown kind", about: id, ...shape });
      return;
    }
    const [a, b] =
      element.kind === "resistor"
        ? [element.a, element.b]
        : element.kind === "converter"
          ? [element.in.plus, element.in.minus]
          : [element.plus, element.minus];
    plus[e] = node(a);
    minus[e] = node(b);
    kind[e] = KIND[element.kind];
    switch (element.kind) {
      case "resistor":
        values.ohms[e] = element.ohms;
        break;
      case "store":
        values.volts[e] = element.volts;
        values.ohms[e] = element.ohms;
        break;
      case "feed":
        values.volts[e] = element.volts;
        values.amps[e] = element.amps;
        values.ohms[e] = element.ohms ?? 0;
        break;
      case "draw": {
        const { law } = element;
        demandKind[e] = "amps" in law ? DEMAND.amps : "watts" in law ? DEMAND.watts : DEMAND.ohms;
        values.demand[e] = "amps" in law ? law.amps : "watts" in law ? law.watts : law.ohms;
        leastVolts[e] = element.leastVolts ?? 0;
        break;
      }
      case "converter":
        converters.push(e);
        outs.push(element);
        values.volts[e] = element.volts;
        values.amps[e] = element.amps;
        efficiency[e] = element.efficiency;
        idleWatts[e] = element.idleWatts ?? 0;
        inputAmps[e] = element.inputAmps ?? Infinity;
        tracks[e] = element.input === "tracks" ? 1 : 0;
        trackVolts[e] = element.trackVolts ?? (element.input === "tracks" ? NaN : 0);
    }
  });
  const outPlus = Int32Array.from(outs, (o) => (o.kind === "converter" ? node(o.out.plus) : 0));
  const outMinus = Int32Array.from(outs, (o) => (o.kind === "converter" ? node(o.out.minus) : 0));
  let ground = -1;
  if (network.ground !== undefined) {
    ground = nodeOf.get(network.ground) ?? -1;
    if (ground < 0) {
      problems.push({ problem: "unknown ground", about: "", field: "ground", found: network.ground });
    }
  }

  const table = {
    elementCount: m,
    ids,
    kind,
    demandKind,
    tracks,
    plus,
    minus,
    converters: Int32Array.from(converters),
    outPlus,
    outMinus,
    nodes,
    ground,
    values,
    efficiency,
    idleWatts,
    inputAmps,
    trackVolts,
    leastVolts,
  };
  return { ...table, problems };
}

/** The first word of an element that is not one of those known, or null. */
function findUnknownWord(element: unknown): { readonly field: string; readonly found: string } | null {
  const has = (thing: unknown): thing is Record<string, unknown> => typeof thing === "object" && thing !== null;
  const unknown = (field: string, found: unknown) => ({ field, found: String(found) });
  if (!has(element)) return unknown("kind", element);
  const { kind } = element;
  const port = (thing: unknown, name: string) =>
    !has(thing)
      ? unknown(name, thing)
      : typeof thing["plus"] !== "string"
        ? unknown(`${name}plus`, thing["plus"])
        : typeof thing["minus"] !== "string"
          ? unknown(`${name}minus`, thing["minus"])
          : null;
  if (kind === "resistor") {
    if (typeof element["a"] !== "string") return unknown("a", element["a"]);
    return typeof element["b"] === "string" ? null : unknown("b", element["b"]);
  }
  if (kind === "store" || kind === "feed") return port(element, "");
  if (kind === "draw") {
    const law = element["law"];
    if (!has(law) || !("amps" in law || "watts" in law || "ohms" in law)) return unknown("law", law);
    return port(element, "");
  }
  if (kind === "converter") {
    if (element["input"] !== "as needed" && element["input"] !== "tracks") return unknown("input", element["input"]);
    return port(element["in"], "in.") ?? port(element["out"], "out.");
  }
  return unknown("kind", kind);
}

/**
 * Marks the elements whose present numbers can be used, and reports the others.
 *
 * @param usable receives 1 or 0, by element
 * @param problems receives one entry an element that cannot be used
 */
export function findUsable(t: Table, values: DcValues, usable: Uint8Array, problems: DcProblem[]): void {
  for (let e = 0; e < t.elementCount; e++) {
    if (t.kind[e] === KIND.unusable || values.on[e] === 0) {
      usable[e] = 0;
      continue;
    }
    const bad = findUnusableNumber(t, values, e);
    usable[e] = bad === null ? 1 : 0;
    if (bad === null) continue;
    problems.push({ problem: "unusable number", about: t.ids[e] ?? "", field: bad.field, found: String(bad.value) });
  }
}

function findUnusableNumber(t: Table, values: DcValues, e: number): { field: string; value: number } | null {
  const isWithin = (value: number, most: number) => value >= 0 && value <= most;
  const ohms = values.ohms[e] ?? NaN;
  const volts = values.volts[e] ?? NaN;
  const amps = values.amps[e] ?? NaN;
  const kind = t.kind[e];
  if (kind === KIND.resistor) return isWithin(ohms, MOST_OHMS) ? null : { field: "ohms", value: ohms };
  if (kind === KIND.draw) {
    const demand = values.demand[e] ?? NaN;
    const least = t.leastVolts[e] ?? NaN;
    if (!isWithin(least, MOST_VOLTS)) return { field: "leastVolts", value: least };
    const law = t.demandKind[e];
    if (law === DEMAND.amps) return isWithin(demand, MOST_AMPS) ? null : { field: "amps", value: demand };
    if (law === DEMAND.watts) return isWithin(demand, MOST_WATTS) ? null : { field: "watts", value: demand };
    return isWithin(demand, MOST_OHMS) ? null : { field: "ohms", value: demand };
  }
  if (!isWithin(volts, MOST_VOLTS)) return { field: "volts", value: volts };
  if (kind === KIND.store || kind === KIND.feed) {
    if (!isWithin(ohms, MOST_OHMS)) return { field: "ohms", value: ohms };
  }
  if (kind === KIND.store) return null;
  if (!isWithin(amps, MOST_AMPS)) return { field: "amps", value: amps };
  if (kind === KIND.feed) return null;
  const efficiency = t.efficiency[e] ?? NaN;
  const idle = t.idleWatts[e] ?? NaN;
  const input = t.inputAmps[e] ?? NaN;
  const track = t.trackVolts[e] ?? NaN;
  if (!(efficiency >= LEAST_EFFICIENCY && efficiency <= 1)) return { field: "efficiency", value: efficiency };
  if (!isWithin(idle, MOST_WATTS)) return { field: "idleWatts", value: idle };
  if (input !== Infinity && !isWithin(input, MOST_AMPS)) return { field: "inputAmps", value: input };
  if (!isWithin(track, MOST_VOLTS) || (t.tracks[e] === 1 && track < LEAST_TRACK))
    return { field: "trackVolts", value: track };
  return null;
}
