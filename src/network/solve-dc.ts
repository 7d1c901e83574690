import type { DcNetwork } from "./dc-network.ts";
import type { OperatingPoint } from "./operating-point.ts";
import { prepareDc } from "./prepare-dc.ts";

/**
 * The direct-current operating point of a whole build: how it is found.
 *
 * 1. WHAT IS KNOWN OF EACH PART. Between any two nodes stands a law that says which current i flows at which volts v:
 *
 *        resistor            i = v / R
 *        battery             i = (v − E) / R              pushes below E, takes above
 *        charger, alternator i = −min(I, (U − v) / R)     holds its volts, is at its limit, or (v ≥ U) is blocked: i = 0
 *        load in amperes     i = I
 *        load in watts       i = P / v                    the lower the volts, the more current
 *        load in ohms        i = v / R
 *
 * 2. THE EQUATIONS. At every node as much flows out as in (Kirchhoff). One node of each island is called 0 V; the volts
 *    of the others are the unknowns. For resistors and batteries alone this is one linear system, G·v = b, where G
 *    holds on its diagonal all conductances that meet at a node, beside it the negative ones between two nodes, and b
 *    the E/R of the batteries. G is symmetric, positive definite and nearly empty: it is factored as L·D·Lᵀ in an order
 *    that keeps it so (`sparse-ldlt.ts`).
 *
 * 3. NODES OF NO RESISTANCE between them are made one before anything else (`join-nodes.ts`); what flows in the joint
 *    follows afterwards from what the nodes behind it need.
 *
 * 4. LAWS THAT ARE NOT STRAIGHT are replaced by their tangent at the volts at hand, the system is solved, and again,
 *    until nothing moves (Newton). For a load in watts the tangent at v0 is a current 2P/v0 beside a *negative*
 *    conductance −P/v0². Starting from the volts without load, the volts fall from round to round onto the highest
 *    point at which the network can stand, which is the one that is really met. Charger limits are corners in the law;
 *    because all currents are slopes of one function of the volts that is gone down on, each round makes that smaller,
 *    and no combination of conditions comes up twice (`settle-volts.ts`).
 *
 * 5. COLLAPSE. Behind E and R no load gets more than E²/4R, at E/2. If more is asked for there is no operating point:
 *    the negative conductance outweighs the lead, and the matrix ceases to be positive definite. Then the volts are
 *    followed down, to where another source comes in and the network stands again, or to where loads have less than a
 *    twentieth of their volts without load. Those have collapsed, which is told apart from "no source". Loads that ask
 *    for too much even alone are taken off at once; of those that are too many only together, the one that weighs most
 *    at the brink, and so on; whoever can stand again afterwards is put back. What a collapsed load could have had, and
 *    what loses most on the way to it, is worked out for the description (`find-collapse.ts`, `find-shortage.ts`).
 *
 * 6. CONVERTERS tie two islands (or two places in one) by power: P(in) = P(out) / η + idle. One number each is settled
 *    around steps 4 and 5 (`settle-converters.ts`).
 *
 * 7. CURRENTS are worked out apart from the volts so that they add up at every node to the last places
 *    (`find-currents.ts`).
 *
 * Every loop has a cap, and where it is met `converged` is false and `problems` says which. That is met where there is
 * nothing to converge to: gear without any battery, whose limits make two chargers take turns. The same network gives
 * the same answer, whatever the order of its elements.
 *
 * Not in it: anything that changes in time (starting, chopping, ripple), the temperature of the wire (whoever gives the
 * ohms has to know it), the inner rules of chargers beyond volts and limit. A module has no bypass diode of its own:
 * where one is wanted, a feed of 0 V between the same two terminals is an ideal diode.
 *
 * @param network plain data, signs and units as in `dc-network.ts`; what cannot be used of it is reported and left out
 * @returns plain data; amps are positive where they flow into an element at a or plus
 * @accuracy Kirchhoff's law and the energy balance to 1e-9 of the greatest current and power; volts within 20 nV of a
 * circuit simulator on builds of 12 V by chance; a source without ohms of its own falls by a millionth of its volts
 * over its range
 * @source Kirchhoff's laws and Ohm's law; nodal analysis and Newton's method as in any text on circuit simulation
 * @example a battery of 12 V and 10 mΩ, 90 mΩ of lead, a load of 270 W: V² − 12·V + 0.1·270 = 0, the upper root
 * const point = solveDc({ elements: [
 *   { kind: "store", id: "battery", plus: "+", minus: "-", volts: 12, ohms: 0.01 },
 *   { kind: "resistor", id: "lead", a: "+", b: "load+", ohms: 0.09 },
 *   { kind: "draw", id: "load", plus: "load+", minus: "-", law: { watts: 270 } },
 * ] });
 * point.elements[2]?.volts //=> 9
 * point.elements[2]?.amps //=> 30
 * point.elements[0]?.watts //=> -351
 */
export function solveDc(network: DcNetwork): OperatingPoint {
  const prepared = prepareDc(network);
  prepared.solve();
  return prepared.describe();
}
