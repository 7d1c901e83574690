import type { Item, Point, Scene } from "../../src/draw/scene.ts";
import { readGraph, type Vertex } from "../../src/draw/one-line/graph.ts";
import type { OneLineBuild } from "../../src/draw/one-line/index.ts";
import { boxAround, shapeBox, type Box } from "../../src/draw/shape-box.ts";

/**
 * Whether a drawing shows the circuit that the plan describes: metal is followed over the shapes alone, and what each connected piece of it
 * touches is held against what the plan joins there.
 */
export function wrongNets(build: OneLineBuild, scenes: readonly Scene[]): string[] {
  const drawn = scenes.flatMap((scene) => drawnNets(build, scene));
  const names = new Set(drawn.flatMap((net) => [...net.things]));
  const wanted = wantedNets(build, (name) => names.has(name));
  const says = (net: ReadonlySet<string>): string => [...net].sort().join(" + ");
  const faults = drawn
    .filter(({ things }) => things.size > 1 && !wanted.some((net) => [...things].every((thing) => net.has(thing))))
    .map(({ things }) => `drawn together, but not in the plan: ${says(things)}`);
  // What has no way on a sheet is named at both ends, with an arrow, and a bar that goes on elsewhere has one picture with a name.
  const goesOn = scenes.some(({ items }) => items.some(({ role, about }) => role === "bar" && about === null));
  if (goesOn || drawn.some(({ isFlagged }) => isFlagged)) return faults;
  const own = new Set([...build.system.parts.map(({ id }) => id)].filter((id) => isBox(build, id)));
  for (const whole of wanted) {
    // What is not drawn at all is named below the drawing.
    const net = new Set([...whole].filter((thing) => names.has(thing)));
    const [first] = net;
    if (first === undefined || net.size < 2) continue;
    const pieces = drawn.filter(({ things }) => [...things].every((thing) => net.has(thing)) && things.size > 1);
    const met = new Set([...(pieces.find(({ things }) => things.has(first))?.things ?? [])]);
    for (let grown = -1; grown < met.size;) {
      grown = met.size;
      for (const { things } of pieces)
        if ([...things].some((thing) => met.has(thing) && own.has(thing))) for (const thing of things) met.add(thing);
    }
    if (![...net].every((thing) => met.has(thing))) faults.push(`joined in the plan, but not drawn so: ${says(net)}`);
  }
  return faults;
}

/** Wires of one terminal may come to a box at several of its sides. */
const isBox = (build: OneLineBuild, id: string): boolean =>
  readGraph(build.plan, build.system, build.design).parts.get(id)?.is !== "through";

interface DrawnNet {
  readonly things: Set<string>;
  readonly isFlagged: boolean;
}

const NEAR = 0.06;
const holds = ([[x1, y1], [x2, y2]]: Box, [x, y]: Point, by: number): boolean =>
  x >= x1 - by && x <= x2 + by && y >= y1 - by && y <= y2 + by;

const DEVICE = /^(?:fuse|breaker) (\S+) .* in /;

function drawnNets(build: OneLineBuild, { items }: Scene): DrawnNet[] {
  const graph = readGraph(build.plan, build.system, build.design);
  const returns = new Set(graph.returns.map(({ about }) => about));
  const lines = items
    .filter(({ role, about }) => role === "wire" && !(about !== null && returns.has(about)))
    .flatMap(({ shapes }) => shapes.flatMap((s) => (s.is === "polyline" ? [s.points] : [])));
  const up = lines.map((_, i) => i);
  const top = (i: number): number => (up[i] === i || up[i] === undefined ? i : top(up[i]));
  const touches = (p: Point, points: readonly Point[]): boolean =>
    points.slice(1).some((to, i) => holds(boxAround([points[i] ?? to, to]), p, NEAR));
  const ends = lines.map((points): Point[] => [points[0] ?? [0, 0], points.at(-1) ?? [0, 0]]);
  lines.forEach((points, i) => {
    ends.forEach((pair, k) => {
      if (i !== k && pair.some((p) => touches(p, points))) up[top(k)] = top(i);
    });
  });
  const bodies = items.flatMap((item): { item: Item; name: string; box: Box; joins: boolean }[] => {
    if (item.role !== "symbol" && item.role !== "bar") return [];
    const isMain = item.name.startsWith("main device of ");
    const device = DEVICE.exec(item.name)?.[1];
    const part = item.about?.startsWith("parts.") === true ? item.about.slice("parts.".length) : undefined;
    const name = isMain ? "" : (device ?? part);
    if (name === undefined) return [];
    return [{ item, name, box: boxAround(item.shapes.flatMap(shapeBox)), joins: isMain || item.role === "bar" }];
  });
  const at = bodies.map(({ box }) => lines.flatMap((_, i) => (ends[i]?.some((p) => holds(box, p, 0.3)) === true ? [i] : []))); // prettier-ignore
  bodies.forEach(({ joins }, b) => {
    const [first, ...rest] = at[b] ?? [];
    if (joins && first !== undefined) for (const other of rest) up[top(other)] = top(first);
  });
  const nets = new Map<number, DrawnNet>();
  const arrows = items.filter(({ role, name, shapes }) => role === "mark" && name === "" && shapes.some((s) => s.is === "polyline" && s.fill === "ink")); // prettier-ignore
  bodies.forEach(({ name }, b) => {
    for (const line of at[b] ?? []) {
      const net = nets.get(top(line)) ?? { things: new Set<string>(), isFlagged: arrows.length > 0 };
      nets.set(top(line), net);
      if (name !== "") net.things.add(name);
    }
  });
  return [...nets.values()];
}

/** What the plan joins: parts and devices that are on one piece of metal; a device without a symbol of its own is passed over. */
function wantedNets(build: OneLineBuild, isDrawn: (name: string) => boolean): Set<string>[] {
  const graph = readGraph(build.plan, build.system, build.design);
  const nodes = new Map<string, { up: string; things: Set<string> }>();
  const top = (key: string): string => {
    const node = nodes.get(key);
    if (node === undefined) nodes.set(key, { up: key, things: new Set() });
    return node === undefined || node.up === key ? key : top(node.up);
  };
  const join = (a: string, b: string): void => {
    const [one, two] = [nodes.get(top(a)), nodes.get(top(b))];
    if (one === undefined || two === undefined || one === two) return;
    for (const thing of one.things) two.things.add(thing);
    one.up = two.up;
  };
  const add = (key: string, thing: string): void => {
    nodes.get(top(key))?.things.add(thing);
  };
  const keyOf = ({ part, key, side }: Vertex, port: string): string => !side && (part.is === "choice" || part.is === "converter") ? `${part.id}|${port}` : key; // prettier-ignore
  for (const { wire, from, to } of graph.edges) {
    if (wire === null) continue;
    const start = keyOf(from, wire.from.port);
    const end = keyOf(to, wire.to.port);
    add(start, from.part.id);
    add(end, to.part.id);
    for (const id of wire.draws) add(end, id);
    const steps = [
      ...wire.devices.filter((d) => d.end === "from").map(({ name }) => name),
      ...wire.inline,
      ...wire.devices.filter((d) => d.end === "to").map(({ name }) => name),
    ].filter(isDrawn);
    let last = start;
    steps.forEach((thing, i) => {
      add(last, thing);
      last = `${wire.id} ${i}`;
      add(last, thing);
    });
    join(last, end);
  }
  return [...nodes].filter(([key, { up }]) => key === up).map(([, { things }]) => things);
}
