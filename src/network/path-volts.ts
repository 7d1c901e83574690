import type { Circuit } from "./circuit.ts";

/**
 * By how much the volts of a few nodes change when a current is drawn between two nodes, everything else following the
 * slopes with which the matrix was last factored.
 *
 * @param drawn A, taken out at plus and put back at minus
 * @param into receives V, by place in `wanted`
 */
export function findPathNodeVolts(
  c: Circuit,
  plus: number,
  minus: number,
  drawn: number,
  wanted: ArrayLike<number>,
  into: Float64Array,
): void {
  // What a reference has to carry changes no volts.
  const atPlus = c.isReference[plus] === 1 ? 0 : -drawn;
  const atMinus = c.isReference[minus] === 1 ? 0 : drawn;
  c.matrix.pathSolve([plus, minus], [atPlus, atMinus], wanted, into);
}

/** The same for the volts across branches, when the current is drawn at the two ends of a branch. */
export function findPathVolts(c: Circuit, branch: number, drawn: number, wanted: Int32Array, into: Float64Array): void {
  const count = wanted.length;
  const nodes = new Int32Array(2 * count);
  for (let w = 0; w < count; w++) {
    const b = wanted[w] ?? 0;
    nodes[2 * w] = c.plus[b] ?? 0;
    nodes[2 * w + 1] = c.minus[b] ?? 0;
  }
  const at = new Float64Array(2 * count);
  findPathNodeVolts(c, c.plus[branch] ?? 0, c.minus[branch] ?? 0, drawn, nodes, at);
  for (let w = 0; w < count; w++) into[w] = (at[2 * w] ?? 0) - (at[2 * w + 1] ?? 0);
}
