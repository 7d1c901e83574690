import type { Supply } from "../../system/index.ts";
import type { Build, Subject } from "../build.ts";
import { isBonded, metalOf, metalPieces } from "./metal.ts";
import { returnsThrough } from "./returns-through.ts";

/** A place where a return is joined to earth, hull or protective conductors. */
export interface EarthJoinAt {
  /** Node of the returns. */
  readonly point: number;
  /** Piece of metal of those returns. */
  readonly piece: number;
  /** The conductor or part that joins them. */
  readonly subject: Subject;
  /** Where, in words. */
  readonly name: string;
}

const pieces = new WeakMap<Build, Int32Array>();

/** Pieces of the returns alone, by node of the metal, every contact closed; structures that bring nothing back are none of them. */
function returnPieces(build: Build): Int32Array {
  let found = pieces.get(build);
  if (found === undefined) {
    const idle = idleStructures(build);
    const isOf = (n: number): boolean => idle.has(n);
    found = metalPieces(metalOf(build), (e) => (e.is === "return" || e.is === "contact") && !isOf(e.a) && !isOf(e.b));
    pieces.set(build, found);
  }
  return found;
}

/** Nodes of structures that no current comes back through: they are earth. */
function idleStructures(build: Build): ReadonlySet<number> {
  const nodes = new Set<number>();
  for (const [id, own] of metalOf(build).structures) {
    const { users, own: engines } = returnsThrough(build, id);
    if (users.length === 0 && engines.length === 0) for (const n of own) nodes.add(n);
  }
  return nodes;
}

/** Every place where returns and earth meet, in the order of the plan. */
export function earthJoins(build: Build): readonly EarthJoinAt[] {
  const metal = metalOf(build);
  const byNode = returnPieces(build);
  const idle = idleStructures(build);
  const isReturn = (n: number): boolean => metal.isReturn[n] === 1 && !idle.has(n);
  const joins: EarthJoinAt[] = [];
  for (const { a, b, is, view, conductor } of metal.edges) {
    if (view === undefined || conductor === undefined || is === "contact" || is === "blocker") continue;
    if (isReturn(a) === isReturn(b)) continue;
    const point = isReturn(a) ? a : b;
    const terminal = isReturn(a) ? conductor.from : conductor.to;
    joins.push({ point, piece: byNode[point] ?? -1, subject: view.subject, name: terminal.replace(/:pole$/, "") });
  }
  for (const { id, subject, plan } of build.parts) {
    if (plan?.facts["minus at case"]?.value !== true || isBonded(build, id) !== true) continue;
    const point = metal.caseOf(id);
    if (point >= 0 && isReturn(point)) joins.push({ point, piece: byNode[point] ?? -1, subject, name: id });
  }
  return joins;
}

/** The piece of metal that the returns of a supply are; −1: it has none. */
export function pieceOfSupply(build: Build, supply: Supply): number {
  const metal = metalOf(build);
  const byNode = returnPieces(build);
  const at = (n: number): number => (n >= 0 && metal.isReturn[n] === 1 ? (byNode[n] ?? -1) : -1);
  const named = supply.returnPart === undefined ? -1 : at(pointOfPart(build, supply.returnPart));
  if (named >= 0) return named;
  for (const { part, elements } of build.parts) {
    if (part.supply !== supply.id) continue;
    for (const e of elements) {
      if (e.is !== "store" && e.is !== "draw" && e.is !== "feed") continue;
      const piece = at(metal.nodeOf(e.minus));
      if (piece >= 0) return piece;
    }
  }
  return -1;
}

/** Node at which returns land on a part; −1: none. */
export function pointOfPart(build: Build, id: string): number {
  const metal = metalOf(build);
  for (const port of ["", ":in", ":out", ":battery"])
    for (const fn of ["pole", "−"]) {
      const n = metal.nodeOf(`${id}${port}:${fn}`);
      if (n >= 0 && metal.isReturn[n] === 1) return n;
    }
  return -1;
}
