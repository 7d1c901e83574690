import { readGraph } from "../one-line/graph.ts";
import type { OneLineBuild } from "../one-line/index.ts";
import type { PartView } from "../one-line/part-view.ts";
import { devicesByName } from "../one-line/shown-of.ts";
import type { WireView } from "../one-line/wire-view.ts";
import { drawnOrder } from "./drawn-order.ts";

/** Where one comes from a thing by a step along the copper; key paths. */
export interface Ways {
  /** Toward the loads, in drawn order. */
  readonly next: readonly string[];
  /** Toward the sources. */
  readonly back: readonly string[];
  /** Along the bar that it hangs on, or past what hangs beside it. */
  readonly up: string | null;
  readonly down: string | null;
}

export interface Travel {
  readonly ways: Readonly<Record<string, Ways>>;
  /** The first store, else the first source; null: nothing is drawn. */
  readonly home: string | null;
}

interface Node {
  readonly about: string;
  readonly next: string[];
  readonly back: string[];
  up: string | null;
  down: string | null;
}

/**
 * How one travels along the copper of the one-line by the arrow keys: from sources to loads and back, and along bars in drawn order, never by where
 * things happen to lie.
 *
 * Each step can be undone by its opposite, and all that is drawn can be reached from home: what hangs on no copper comes below the rest.
 *
 * @param build what a plan came to
 */
export function travelOf(build: OneLineBuild): Travel {
  const graph = readGraph(build.plan, build.system, build.design);
  const order = drawnOrder(build, graph);
  const rank = new Map(order.map((about, i) => [about, i]));
  const nodes = new Map(order.map((about): [string, Node] => [about, { about, next: [], back: [], up: null, down: null }])); // prettier-ignore
  const join = (from: string, to: string): void => {
    const [a, b] = [nodes.get(from), nodes.get(to)];
    if (a === undefined || b === undefined || a === b || a.next.includes(to) || a.back.includes(to)) return;
    a.next.push(to);
    b.back.push(from);
  };
  for (const wire of graph.wires) {
    const [from, to] = endsOf(wire, graph.parts);
    // A path through a switch that stands in a wire: the wire, the switch, what is behind it.
    const inline = wire.inline.map((id) => `parts.${id}`);
    const steps = [`parts.${from}`, wire.about, ...(wire.from.part === from ? inline : [...inline].reverse())];
    steps.slice(1).forEach((step, i) => {
      join(steps[i] ?? step, step);
    });
    for (const id of new Set([to, ...wire.draws])) if (id !== from) join(steps.at(-1) ?? wire.about, `parts.${id}`);
  }
  for (const [part, circuit] of devicesByName(build.plan)) join(`circuits.${circuit}`, `parts.${part}`);
  const byRank = (a: string, b: string): number => (rank.get(a) ?? 0) - (rank.get(b) ?? 0);
  for (const { next, back } of nodes.values()) {
    next.sort(byRank);
    back.sort(byRank);
  }

  const chained = new Set<string>();
  const chain = (members: readonly string[]): void => {
    const own = [...new Set(members)].filter((about) => !chained.has(about)).sort(byRank);
    if (own.length < 2) return;
    own.forEach((about, i) => {
      const node = nodes.get(about);
      if (node === undefined) return;
      chained.add(about);
      node.up = own[i - 1] ?? null;
      node.down = own[i + 1] ?? null;
    });
  };
  // What leaves a bar, then what comes to it; then what is at the far ends of these.
  const all = [...nodes.values()];
  for (const { next } of all) chain(next);
  for (const { back } of all) chain(back);
  for (const { next } of all) chain(next.flatMap((about) => nodes.get(about)?.next ?? []));
  for (const { back } of all) chain(back.flatMap((about) => nodes.get(about)?.back ?? []));
  bridge(all, nodes);

  const views = order.flatMap((about) => (about.startsWith("parts.") ? (graph.parts.get(about.slice(6)) ?? []) : []));
  const home = views.find((v) => v.is === "store") ?? views.find((v) => v.is === "source") ?? views[0];
  return {
    ways: Object.fromEntries(all.map(({ about, next, back, up, down }) => [about, { next, back, up, down }])),
    home: home?.about ?? all[0]?.about ?? null,
  };
}

/** Ends of a wire, the one nearer to a source first. */
function endsOf({ from, to }: WireView, parts: ReadonlyMap<string, PartView>): [string, string] {
  const height = (id: string): number => {
    const is = parts.get(id)?.is;
    return is === "source" ? 0 : is === "store" ? 1 : is === "load" || is === "end" ? 3 : 2;
  };
  const [a, b] = [height(from.part), height(to.part)];
  // A charger feeds a battery, and a battery a starter; else as the plan writes it.
  const isBack = (b < a && a !== 2) || (b === 0 && a === 2) || (a === 3 && b < 3);
  return isBack ? [to.part, from.part] : [from.part, to.part];
}

/** Sets pieces that no copper joins one below the other. */
function bridge(all: readonly Node[], nodes: ReadonlyMap<string, Node>): void {
  const seen = new Set<string>();
  let last: Node | undefined;
  for (const start of all) {
    if (seen.has(start.about)) continue;
    const piece = [start];
    seen.add(start.about);
    for (const node of piece) {
      for (const about of [...node.next, ...node.back, node.up, node.down]) {
        const far = about === null ? undefined : nodes.get(about);
        if (far === undefined || seen.has(far.about)) continue;
        seen.add(far.about);
        piece.push(far);
      }
    }
    const [top, bottom] = [piece.find(({ up }) => up === null), piece.findLast(({ down }) => down === null)];
    if (top !== undefined && last !== undefined) {
      last.down = top.about;
      top.up = last.about;
    }
    last = bottom ?? last;
  }
}
