import { cutBlocks, type Feeder, type Group, type Row, type Stub } from "../one-line/blocks.ts";
import { findReturns } from "../one-line/draw-returns.ts";
import type { Graph, Vertex } from "../one-line/graph.ts";
import type { OneLineBuild } from "../one-line/index.ts";
import { chained } from "../one-line/measure.ts";
import { devicesByName } from "../one-line/shown-of.ts";

/** Key paths of what the one-line shows, in the order in which it is drawn: down each side of a bar. */
export function drawnOrder({ plan, system }: OneLineBuild, graph: Graph): string[] {
  const order = new Set<string>();
  const vertex = ({ part }: Vertex): void => void order.add(part.about);
  const steps = (list: Row["steps"]): void => {
    for (const { wire, through } of list) {
      if (wire !== null) order.add(wire.about);
      for (const id of wire?.inline ?? []) order.add(`parts.${id}`);
      if (through !== null) order.add(through.about);
    }
  };
  const row = (item: Row): void => {
    steps(item.steps);
    for (const id of chained(item)) order.add(`parts.${id}`);
  };
  const feeder = (item: Feeder): void => {
    for (const kid of item.kids) feeder(kid);
    vertex(item.vertex);
    if (item.part !== null) order.add(item.part.about);
    if (item.wire !== null) steps([{ wire: item.wire, through: null }]);
  };
  const right = (item: Row | Group | Stub): void => {
    if (item.is === "row") {
      row(item);
      return;
    }
    if (item.is === "stub") {
      steps([{ wire: item.link.wire, through: null }]);
      return;
    }
    steps(item.steps);
    vertex(item.vertex);
    for (const one of item.rows) right(one);
  };
  const { blocks, links } = cutBlocks(graph);
  for (const block of blocks) {
    for (const { row: one } of block.over) if (one !== null) row(one);
    for (const stub of block.backs) right(stub);
    for (const left of block.lefts) feeder(left);
    for (const { wire } of block.feeds) steps([{ wire, through: null }]);
    vertex(block.root);
    for (const item of block.rights) right(item);
    for (const { row: one } of block.under) if (one !== null) row(one);
  }
  for (const { wire } of links) steps([{ wire, through: null }]);
  for (const { part, wires } of findReturns(system, graph)) {
    for (const { about } of wires) order.add(about);
    if (part !== null) order.add(part.about);
  }
  for (const wire of graph.wires) steps([{ wire, through: null }]);
  for (const part of devicesByName(plan).keys()) order.add(`parts.${part}`);
  const known = new Set([...graph.parts.values(), ...graph.wires].map(({ about }) => about));
  return [...order].filter((about) => known.has(about));
}
