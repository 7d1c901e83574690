import type { AcNetwork } from "./ac-network.ts";
import type { AcSolution } from "./ac-solution.ts";
import { describeAc } from "./describe-ac.ts";
import { layAc } from "./lay-ac.ts";
import { phasor, type Phasor } from "./phasor.ts";
import { settleAc } from "./settle-ac.ts";

/**
 * Effective volts and currents of an alternating-current network, with their phases.
 *
 * Complex nodal analysis at one frequency: sources are volts behind an impedance, conductors R + jX each for itself (so that what a shared neutral carries is the sum of
 * phases that it is), loads a power, a current or an impedance. Nodes without impedance between them are one; what is not tied together by anything is an island of its own
 * with a reference of its own. A source past its limit sags until it keeps to it, and where that does not help it is overloaded.
 *
 * Ignores harmonics (a neutral of many rectifiers carries more), coupling between conductors beyond the reactance stated for each, starts, and frequency.
 *
 * @param network plain data, see `ac-network.ts`; what cannot be used of it is reported and left out
 * @returns plain data; where the network does not stand `converged` is false, and it is said how much of what is asked could be borne
 * @accuracy Kirchhoff's law and the balance of power to 1e-9 of the greatest current and power; volts within 1e-9 of a circuit simulator; that a network does
 * not stand is said up to a hundredth below the true brink
 * @source Kirchhoff's laws; nodal analysis with loads as injected currents, as in any text on power flow
 * @example 230 V, 0.5 Ω out and back, a kettle of 26 Ω: 230 / 26.5 A
 * const point = solveAc({ elements: [
 *   { kind: "source", id: "shore", neutral: "N", lines: [{ node: "L", volts: 230, degrees: 0 }], ohms: 0, reactance: 0 },
 *   { kind: "branch", id: "lead L", a: "L", b: "inlet L", ohms: 0.25, reactance: 0 },
 *   { kind: "branch", id: "lead N", a: "inlet N", b: "N", ohms: 0.25, reactance: 0 },
 *   { kind: "load", id: "kettle", a: "inlet L", b: "inlet N", law: { ohms: 26, reactance: 0 } },
 * ] });
 * point.loads[0]?.amps.size //=> 8.67921
 * point.loads[0]?.volts.size //=> 225.6595
 * point.sources[0]?.watts //=> 1996.21
 */
export function solveAc(network: AcNetwork): AcSolution {
  const laid = layAc(network);
  return describeAc(laid, settleAc(laid));
}

/**
 * Volts between two nodes of a solved network.
 *
 * @returns a against b; null where a name is not known, or nothing ties the two together
 */
export function voltsBetween({ nodes }: Pick<AcSolution, "nodes">, a: string, b: string): Phasor | null {
  const from = nodes.find(({ id }) => id === a);
  const to = nodes.find(({ id }) => id === b);
  if (from === undefined || to === undefined || from.island !== to.island) return null;
  return phasor(from.volts.re - to.volts.re, from.volts.im - to.volts.im);
}
