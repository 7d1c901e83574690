import { LAW } from "./circuit.ts";
import { findPathNodeVolts } from "./path-volts.ts";
import type { Session } from "./session.ts";

/**
 * What a small draw between two nodes changes: volts at a few nodes and currents in a few elements, by path solutions.
 * The matrix has to hold the slopes of the operating point.
 */

/** One side of a join: the nodes there and the branches that leave them. */
export interface Cut {
  readonly nodes: ReadonlySet<number>;
  readonly branches: readonly number[];
  /** By branch: 1 if it leaves that side at its plus, −1 at its minus. */
  readonly signs: readonly number[];
  /** 1 if the join flows from a to b towards that side. */
  readonly direction: number;
}

function findCut(s: Session, known: Map<number, Cut>, e: number): Cut {
  const before = known.get(e);
  if (before !== undefined) return before;
  const t = s.table;
  const m = t.elementCount;
  const { joined, joinElement, joinFrom, circuit } = s.shape;
  const j = joinElement.indexOf(e);
  const nodes = new Set<number>();
  let top = -1;
  for (const node of joined.walk) {
    const up = joined.above[node] ?? -1;
    if (joined.via[node] === j) top = node;
    if (node === top || (up >= 0 && nodes.has(up))) nodes.add(node);
  }
  const branches: number[] = [];
  const signs: number[] = [];
  for (let b = 0; b < circuit.branchCount; b++) {
    if (b < m && s.shape.isJoin[b] === 1) continue;
    const p = nodes.has((b < m ? t.plus[b] : t.outPlus[b - m]) ?? 0);
    const q = nodes.has((b < m ? t.minus[b] : t.outMinus[b - m]) ?? 0);
    if (p === q) continue;
    branches.push(b);
    signs.push(p ? 1 : -1);
  }
  const cut: Cut = { nodes, branches, signs, direction: joinFrom[j] === top ? -1 : 1 };
  known.set(e, cut);
  return cut;
}

/**
 * Fills in the response to one ampere drawn from `plus` to `minus`; false if they are not in one island.
 *
 * @param cuts what was worked out about joins before, kept as long as the session keeps its shape
 */
export function respondToDraw(
  session: Session,
  cuts: Map<number, Cut>,
  plus: number,
  minus: number,
  nodes: ArrayLike<number>,
  elements: ArrayLike<number>,
  voltsPerAmp: Float64Array,
  ampsPerAmp: Float64Array,
): boolean {
  const { joined, circuit } = session.shape;
  const p = joined.of[plus] ?? 0;
  const q = joined.of[minus] ?? 0;
  if (session.islands.of[p] !== session.islands.of[q]) return false;
  const wanted: number[] = [];
  for (let w = 0; w < nodes.length; w++) wanted.push(joined.of[nodes[w] ?? 0] ?? 0);
  // Of each wanted element the branches whose change tells its own: itself, or all that hang on one side of a join.
  const told: number[] = [];
  for (let w = 0; w < elements.length; w++) {
    const e = elements[w] ?? 0;
    if (session.shape.isJoin[e] === 0) told.push(e);
    else told.push(...findCut(session, cuts, e).branches);
  }
  for (const b of told) wanted.push(circuit.plus[b] ?? 0, circuit.minus[b] ?? 0);
  const at = new Float64Array(wanted.length);
  findPathNodeVolts(circuit, p, q, 1, wanted, at);
  for (let w = 0; w < nodes.length; w++) voltsPerAmp[w] = at[w] ?? 0;
  let cursor = nodes.length;
  const change = (b: number): number => {
    const dv = (at[cursor] ?? 0) - (at[cursor + 1] ?? 0);
    cursor += 2;
    if (circuit.on[b] === 0) return 0;
    return dv * (circuit.law[b] === LAW.linear ? (circuit.siemens[b] ?? 0) : (circuit.slope[b] ?? 0));
  };
  for (let w = 0; w < elements.length; w++) {
    const e = elements[w] ?? 0;
    if (session.shape.isJoin[e] === 0) {
      ampsPerAmp[w] = change(e);
      continue;
    }
    const cut = findCut(session, cuts, e);
    let sum = (cut.nodes.has(plus) ? 1 : 0) - (cut.nodes.has(minus) ? 1 : 0);
    cut.branches.forEach((b, k) => (sum += (cut.signs[k] ?? 0) * change(b)));
    ampsPerAmp[w] = sum * cut.direction;
  }
  return true;
}
