import { otherEnd, type Edge, type Graph, type Vertex } from "./graph.ts";
import type { PartView } from "./part-view.ts";
import type { WireView } from "./wire-view.ts";

/** A step on the way from a bar to what hangs on it. */
export type Step =
  { readonly wire: WireView; readonly through: null } | { readonly wire: null; readonly through: PartView };

/** Whatever feeds a bar from the left: a source, or something on the way with what feeds it in turn. */
export interface Feeder {
  readonly vertex: Vertex;
  /** To its right neighbour; null: it stands beside it, or is its own inside. */
  readonly wire: WireView | null;
  /** Symbol in the line behind its kids: a converter, a switch; null: only a joint, or a source without kids. */
  readonly part: PartView | null;
  readonly kids: readonly Feeder[];
  readonly flows: "right" | "left";
}

/** A branch with a load, or what is drawn like one, at its end. */
export interface Row {
  readonly is: "row";
  readonly steps: readonly Step[];
  readonly vertex: Vertex;
}

/** A branch to a panel or a converter, with its own branches. */
export interface Group {
  readonly is: "group";
  readonly steps: readonly Step[];
  readonly vertex: Vertex;
  readonly rows: readonly (Row | Stub)[];
}

/** Where a wire leaves its block for another place on the paper. */
export interface Stub {
  readonly is: "stub";
  readonly link: Link;
}

/** A wire between two places that are drawn apart. */
export interface Link {
  readonly wire: WireView;
  readonly from: Vertex;
  readonly to: Vertex;
  /** Row that is drawn apart from what feeds it; it carries the wire's caption. */
  readonly row: Row | null;
}

/** Everything that hangs on one bar, or on one part where there is no bar. */
export interface Block {
  readonly root: Vertex;
  readonly lefts: readonly Feeder[];
  readonly rights: readonly (Row | Group | Stub)[];
  /** Wires that leave to the left, for what stands left of an earlier bar. */
  readonly backs: readonly Stub[];
  /** Wires that come from elsewhere to the root. */
  readonly feeds: readonly Link[];
  /** Rows whose feed comes from the left of the bar, over it or under it. */
  readonly over: readonly Link[];
  readonly under: readonly Link[];
}

/** Symbols left of a bar stand in two columns and that of the sources. */
const DEEPEST = 2;
/** So many parts fit into one line. */
const MOST_IN_LINE = 2;

const isBar = ({ part, side }: Vertex): boolean => !side && (part.is === "bar" || part.is === "panel");

/**
 * Cuts the graph into blocks that can be drawn one below the other, and the wires between them.
 *
 * All choices follow the order of the plan and how things hang together, never how large they are, so that a new rating moves nothing.
 */
export function cutBlocks(graph: Graph): { readonly blocks: readonly Block[]; readonly links: readonly Link[] } {
  const blocks: Block[] = [];
  const links: Link[] = [];
  const seen = new Set<Vertex>();
  const used = new Set<Edge>();
  const toStore = distancesFrom(graph.vertices.filter(({ part }) => part.is === "store"));
  const pieces = [...components(graph.vertices)].sort((a, b) => rank(a) - rank(b));
  for (const piece of pieces) {
    const root = rootOf(piece, toStore);
    if (root !== undefined) grow(root);
  }
  const taken = new Set(links.map(({ wire }) => wire.id));
  for (const edge of graph.edges) {
    if (!used.has(edge) && edge.wire !== null && !taken.has(edge.wire.id)) addLink(edge);
  }
  return { blocks: inOrder(placeStubs(blocks, links), links), links };

  function addLink(edge: Edge, row: Row | null = null): Link | null {
    if (edge.wire === null) return null;
    const link = { wire: edge.wire, from: edge.from, to: edge.to, row };
    links.push(link);
    return link;
  }

  /** The tree of shortest ways from a vertex, and the blocks that it falls into. */
  function grow(root: Vertex): void {
    const kidsOf = new Map<Vertex, Edge[]>();
    seen.add(root);
    const queue = [root];
    for (let i = 0; i < queue.length; i++) {
      const vertex = queue[i];
      if (vertex === undefined) break;
      const kids: Edge[] = [];
      for (const edge of vertex.edges) {
        const kid = otherEnd(edge, vertex);
        if (edge.boundary || seen.has(kid)) continue;
        seen.add(kid);
        used.add(edge);
        kids.push(edge);
        queue.push(kid);
      }
      kidsOf.set(vertex, kids);
    }
    const waiting = [root];
    for (let next = waiting.shift(); next !== undefined; next = waiting.shift()) build(next, kidsOf, waiting);
  }

  function build(root: Vertex, kidsOf: ReadonlyMap<Vertex, readonly Edge[]>, waiting: Vertex[]): void {
    const lefts: Feeder[] = [];
    const rights: (Row | Group)[] = [];
    const over: Link[] = [];
    const under: Link[] = [];

    const cut = (edge: Edge, vertex: Vertex): void => {
      addLink(edge);
      waiting.push(otherEnd(edge, vertex));
    };
    const kidsTo = (vertex: Vertex, side: "left" | "right"): Edge[] =>
      (kidsOf.get(vertex) ?? []).filter((edge) => sideOf(edge, vertex) === side);

    /** Follows a line through the parts that sit in it. */
    const follow = (edge: Edge, vertex: Vertex): { steps: Step[]; end: Vertex } => {
      const steps = stepsOf(edge);
      let end = otherEnd(edge, vertex);
      for (;;) {
        const kids = kidsOf.get(end) ?? [];
        const [only] = kids;
        const parts = steps.reduce((n, s) => n + (s.through === null ? s.wire.inline.length : 1), 0);
        const fits = only?.through === null || parts < MOST_IN_LINE;
        if (!end.side || kids.length !== 1 || only === undefined || sideOf(only, end) !== "right" || !fits) break;
        steps.push(...stepsOf(only));
        end = otherEnd(only, end);
      }
      return { steps, end };
    };
    const isLeaf = (vertex: Vertex): boolean => (kidsOf.get(vertex) ?? []).length === 0;
    /** A side of what sits in a line that is reached by its other side, too: its picture stands there. */
    const isElsewhere = (end: Vertex, steps: readonly Step[]): boolean =>
      steps.length === 1 && end.edges.some((edge) => edge.through !== null && !used.has(edge));

    const feeder = (edge: Edge | null, vertex: Vertex, depth: number, first: boolean): Feeder => {
      const kids = kidsOf.get(vertex) ?? [];
      const wire = edge?.wire ?? null;
      const flows = edge === null || edge.to !== vertex ? "right" : "left";
      for (const right of kids.filter((kid) => sideOf(kid, vertex) === "right")) {
        const { steps, end } = follow(right, vertex);
        if (isElsewhere(end, steps)) addLink(right);
        else if (right.wire !== null && isLeaf(end) && !isBar(end)) {
          const link = addLink(right, { is: "row", steps, vertex: end });
          if (link !== null) (first ? over : under).push(link);
        } else if (right.wire !== null) cut(right, vertex);
        else rights.push({ is: "row", steps, vertex: end });
      }
      const lefts = kids.filter((kid) => sideOf(kid, vertex) === "left");
      const [only] = lefts;
      // What sits in the line, with nothing else at this side of it, is the symbol of its joint.
      if (lefts.length === 1 && only?.through !== null && only !== undefined) {
        const inner = feeder(only, otherEnd(only, vertex), depth, first);
        return { ...inner, wire, flows, part: inner.part ?? only.through };
      }
      const deeper = depth + 1;
      const inside = lefts.flatMap((kid): Feeder[] => {
        const far = otherEnd(kid, vertex);
        const isDeep = deeper > DEEPEST && (kidsOf.get(far) ?? []).length > 0;
        if (isDeep && kid.wire !== null) {
          cut(kid, vertex);
          return [];
        }
        const inner = feeder(kid, far, deeper, first);
        return [kid.through === null ? inner : { ...inner, part: inner.part ?? kid.through }];
      });
      const own: Feeder = { vertex, wire: null, part: null, kids: [], flows: "right" };
      // A battery with more on its terminals is drawn beside what else is joined there.
      const joined =
        vertex.part.is === "store" && !vertex.side && (inside.length > 0 || kids.length > lefts.length)
          ? [own, ...inside]
          : inside;
      const symbol =
        vertex.part.is === "converter" || isBar(vertex) || vertex.part.is === "choice" ? vertex.part : null;
      return { vertex, wire, part: symbol, kids: joined, flows };
    };

    const group = (steps: readonly Step[], vertex: Vertex): Group => {
      const rows: Row[] = [];
      for (const edge of kidsOf.get(vertex) ?? []) {
        const line = sideOf(edge, vertex) === "right" ? follow(edge, vertex) : null;
        if (line !== null && isLeaf(line.end) && line.steps.length <= 3)
          rows.push({ is: "row", ...line, vertex: line.end });
        else if (edge.wire !== null) cut(edge, vertex);
      }
      return { is: "group", steps, vertex, rows };
    };

    for (const edge of kidsTo(root, "left")) {
      const inner = feeder(edge, otherEnd(edge, root), 1, lefts.length === 0);
      // Of a switch that another picture begins behind the symbol stands in the line to it.
      lefts.push(edge.through === null ? inner : { ...inner, part: inner.part ?? edge.through });
    }
    for (const edge of kidsTo(root, "right")) {
      const { steps, end } = follow(edge, root);
      const small = isLeaf(end) && (end.part.is === "load" || end.part.is === "end" || end.side);
      if (isElsewhere(end, steps)) addLink(edge);
      else if (small) rights.push({ is: "row", steps, vertex: end });
      else if (isLeaf(end) || isBar(end) || end.part.is === "converter" || end.part.is === "choice")
        rights.push(group(steps, end));
      else cut(edge, root);
    }
    blocks.push({ root, lefts, rights, backs: [], feeds: [], over, under });
  }
}

const stepsOf = (edge: Edge): Step[] => {
  if (edge.wire !== null) return [{ wire: edge.wire, through: null }];
  return edge.through === null ? [] : [{ wire: null, through: edge.through }];
};

/** On which side of a vertex what hangs on one of its edges is drawn. */
function sideOf(edge: Edge, vertex: Vertex): "left" | "right" {
  const kid = otherEnd(edge, vertex);
  if (!kid.side) {
    if (kid.part.is === "load") return "right";
    if (kid.part.is === "store" || kid.part.is === "source") return "left";
  }
  return edge.from === kid ? "left" : "right";
}

/** Direct current is drawn above alternating. */
const rank = (piece: readonly Vertex[]): number => {
  const isDirect = piece.some(({ edges }) => edges.some(({ wire }) => wire?.current === "DC"));
  return isDirect ? 0 : piece.length === 1 ? 2 : 1;
};

function* components(vertices: readonly Vertex[]): Generator<Vertex[]> {
  const seen = new Set<Vertex>();
  for (const start of vertices) {
    if (seen.has(start)) continue;
    seen.add(start);
    const piece = [start];
    for (const vertex of piece) {
      for (const edge of vertex.edges) {
        const next = otherEnd(edge, vertex);
        if (edge.boundary || seen.has(next)) continue;
        seen.add(next);
        piece.push(next);
      }
    }
    yield piece;
  }
}

function distancesFrom(starts: readonly Vertex[]): Map<Vertex, number> {
  const distances = new Map(starts.map((vertex) => [vertex, 0]));
  const queue = [...starts];
  for (const vertex of queue) {
    for (const edge of vertex.edges) {
      const next = otherEnd(edge, vertex);
      if (edge.boundary || distances.has(next)) continue;
      distances.set(next, (distances.get(vertex) ?? 0) + 1);
      queue.push(next);
    }
  }
  return distances;
}

/** The main bar: of the bars the one nearest to a store, the first in the plan among equals. */
function rootOf(piece: readonly Vertex[], toStore: ReadonlyMap<Vertex, number>): Vertex | undefined {
  const best = (list: readonly Vertex[]): Vertex | undefined => {
    let found: Vertex | undefined;
    let least = Infinity;
    for (const vertex of list) {
      const distance = toStore.get(vertex) ?? Number.MAX_SAFE_INTEGER;
      if (distance < least) [found, least] = [vertex, distance];
    }
    return found;
  };
  return (
    best(piece.filter(isBar)) ??
    piece.find(({ part }) => part.is === "choice") ??
    piece.find(({ part }) => part.is === "converter") ??
    // What leads on to a converter is where all that feeds it comes together.
    piece.find(({ side, edges }) => side && edges.some(({ boundary }) => boundary)) ??
    piece.find(({ part }) => part.is !== "load") ??
    piece[0]
  );
}

/** Gives every wire that leaves a bar for another place a row of its own at that bar, and every root its wires from elsewhere. */
function placeStubs(blocks: readonly Block[], links: readonly Link[]): Block[] {
  const loose = links.filter(({ row, from }) => row === null && isBar(from));
  const onLeft = new Set(blocks.flatMap(({ lefts }) => lefts.flatMap(verticesOf)));
  const stubs = (vertex: Vertex): Stub[] =>
    loose.filter(({ from }) => from === vertex).map((link) => ({ is: "stub", link }));
  const linksOf = (item: Row | Group | Stub): number =>
    item.is === "stub"
      ? 0
      : links.filter(({ from, to, row }) => row !== item && (from === item.vertex || to === item.vertex)).length;
  return blocks.map((block) => {
    const own = stubs(block.root);
    const goesBack = ({ link }: Stub): boolean =>
      onLeft.has(link.to) && !block.lefts.some((l) => verticesOf(l).includes(link.to));
    const rights = block.rights.map((item) =>
      item.is === "group" ? { ...item, rows: [...item.rows, ...stubs(item.vertex)] } : item,
    );
    return {
      ...block,
      lefts: [...block.lefts.filter((l) => !isReached(l, links)), ...block.lefts.filter((l) => isReached(l, links))],
      rights: [...[...rights].sort((a, b) => linksOf(a) - linksOf(b)), ...own.filter((stub) => !goesBack(stub))],
      backs: own.filter(goesBack),
      feeds: links.filter(({ to, row }) => row === null && to === block.root),
    };
  });
}

const verticesOf = ({ vertex, kids }: Feeder): Vertex[] => [vertex, ...kids.flatMap(verticesOf)];

const isReached = (feeder: Feeder, links: readonly Link[]): boolean =>
  links.some(({ to, row }) => row === null && verticesOf(feeder).includes(to));

/** Each block followed by what feeds into it, then by what it feeds, its lowest branch first: so the wires between them nest. */
function inOrder(blocks: readonly Block[], links: readonly Link[]): Block[] {
  const ordered: Block[] = [];
  const emitted = new Set<Block>();
  const loose = links.filter(({ row }) => row === null);
  const holder = new Map<Vertex, Block>();
  for (const block of blocks) {
    holder.set(block.root, block);
    for (const item of block.rights) if (item.is !== "stub") holder.set(item.vertex, block);
  }
  const into = new Map<Block, Vertex[]>();
  const outOf = new Map<Vertex, Vertex[]>();
  for (const { from, to } of loose) {
    const block = holder.get(to);
    if (block !== undefined && block.root !== to) into.set(block, [...(into.get(block) ?? []), from]);
    outOf.set(from, [...(outOf.get(from) ?? []), to]);
  }
  const waiting = [...blocks].reverse();
  for (let block = waiting.pop(); block !== undefined; block = waiting.pop()) {
    if (emitted.has(block)) continue;
    emitted.add(block);
    ordered.push(block);
    const feeding = (into.get(block) ?? []).flatMap((from) => holder.get(from) ?? []);
    const lowestFirst = [...block.rights].reverse().map((item) => (item.is === "stub" ? item.link.to : item.vertex));
    const fed = lowestFirst
      .flatMap((vertex) => [vertex, ...(outOf.get(vertex) ?? [])])
      .flatMap((to) => {
        const target = holder.get(to);
        return target?.root === to ? [target] : [];
      });
    waiting.push(...[...feeding, ...fed].reverse());
  }
  return ordered;
}
