import { findVolts } from "./circuit.ts";
import type { DcNetwork } from "./dc-network.ts";
import { describePoint } from "./describe-point.ts";
import { findConditions } from "./find-conditions.ts";
import { findCurrents } from "./find-currents.ts";
import { findJoinAmps } from "./join-nodes.ts";
import type { DcCondition, DcSolution, OperatingPoint } from "./operating-point.ts";
import { copyValues, readNetwork, type DcValues } from "./read-network.ts";
import { respondToDraw, type Cut } from "./respond-to-draw.ts";
import { makeSession, type Session } from "./session.ts";
import { linearise, solveState } from "./solve-state.ts";

/** A network whose pattern has been worked out once and that is solved again and again with other numbers. */
export interface PreparedDc {
  /** Names by index, as the arrays below use them. */
  readonly nodes: readonly string[];
  readonly elements: readonly string[];
  /** The network's own numbers, as a copy to be altered and given to `solve`. */
  values(): DcValues;
  /**
   * Solves with the numbers given, or with the network's own. The same numbers give the same answer, whatever was
   * solved before.
   */
  solve(values?: DcValues): DcSolution;
  /** The last solution as plain data. */
  describe(): OperatingPoint;
  /**
   * What one ampere more, drawn between two nodes, does at the last solution: small changes, the rest following its
   * slopes.
   *
   * Feeds and converters stay in their conditions, draws in watts follow −P/v², draws in amperes stay as they are,
   * draws in ohms are resistors; a converter goes on taking and passing the watts it does.
   *
   * @param plus node at which the ampere is drawn, by index
   * @param minus node at which it comes back
   * @param nodes nodes wanted, by index
   * @param elements elements wanted, by index
   * @param voltsPerAmp receives the change of volts of each wanted node, V/A
   * @param ampsPerAmp receives the change of current of each wanted element, A/A, signs as in `PortPoint`
   * @returns false if the two nodes are not in one island, or the network stands so near to collapse that it has no
   * slope; nothing is then filled in
   */
  respond(
    plus: number,
    minus: number,
    nodes: ArrayLike<number>,
    elements: ArrayLike<number>,
    voltsPerAmp: Float64Array,
    ampsPerAmp: Float64Array,
  ): boolean;
}

/**
 * Prepares a network to be solved many times: nodes of no resistance joined, elements numbered, the order of
 * elimination and the pattern of the factors worked out.
 *
 * All numbers may be changed from one solution to the next, and any element may be switched on or off. What is worked
 * out here is kept, except where a resistor becomes or ceases to be one of 0 Ω: then nodes join or part, and the
 * pattern is made anew (as costly as preparing). A switch that is to be thrown often should therefore have the
 * resistance of its contacts.
 *
 * @param network any; what cannot be used is left out and reported in the solution
 * @example a battery, a lead that is made twice as thick, a lamp
 * const prepared = prepareDc({ elements: [
 *   { kind: "store", id: "B1", plus: "B1+", minus: "B1-", volts: 12.8, ohms: 0.01 },
 *   { kind: "resistor", id: "W1", a: "B1+", b: "lamp+", ohms: 0.04 },
 *   { kind: "draw", id: "lamp", plus: "lamp+", minus: "B1-", law: { amps: 5 } },
 * ] });
 * prepared.solve().volts[2] //=> 12.55
 * const thicker = prepared.values();
 * thicker.ohms[1] = 0.02;
 * prepared.solve(thicker).volts[2] //=> 12.65
 */
export function prepareDc(network: DcNetwork): PreparedDc {
  const table = readNetwork(network);
  const session = makeSession(table);
  const m = table.elementCount;
  const nodeVolts = new Float64Array(table.nodes.length);
  const taken = new Float64Array(table.nodes.length);
  const volts = new Float64Array(m);
  const amps = new Float64Array(m);
  const outVolts = new Float64Array(m);
  const outAmps = new Float64Array(m);
  const branchAmps = new Float64Array(m + table.converters.length);
  const conditions = new Array<DcCondition>(m).fill("off");
  let solution: DcSolution | null = null;
  let lineariseFirst = true;
  let canRespond = false;
  let cuts = new Map<number, Cut>();

  const solve = (values: DcValues = table.values): DcSolution => {
    const shapeBefore = session.shape;
    solveState(session, values);
    if (session.shape !== shapeBefore) cuts = new Map();
    lineariseFirst = true;
    const { joined, circuit } = session.shape;
    const worst = findCurrents(circuit, branchAmps);
    for (let i = 0; i < nodeVolts.length; i++) nodeVolts[i] = circuit.x[joined.of[i] ?? 0] ?? 0;
    for (let e = 0; e < m; e++) {
      volts[e] = (nodeVolts[table.plus[e] ?? 0] ?? 0) - (nodeVolts[table.minus[e] ?? 0] ?? 0);
      amps[e] = branchAmps[e] ?? 0;
    }
    table.converters.forEach((e, k) => {
      outVolts[e] = findVolts(circuit, m + k);
      outAmps[e] = branchAmps[m + k] ?? 0;
    });
    fillJoinAmps(session, branchAmps, taken, amps);
    let power = 0;
    for (let e = 0; e < m; e++) power += (volts[e] ?? 0) * (amps[e] ?? 0) + (outVolts[e] ?? 0) * (outAmps[e] ?? 0);
    findConditions(session, volts, amps, conditions);
    solution = {
      converged: !session.problems.some((p) => p.problem.endsWith("did not settle")),
      worstKirchhoffAmps: worst,
      powerErrorWatts: Math.abs(power),
      nodeVolts,
      volts,
      amps,
      conditions,
      outVolts,
      outAmps,
      collapsed: session.gone.map((g) => g.element),
      problems: session.problems,
      rounds: session.told.rounds,
      factorings: session.told.factorings,
    };
    return solution;
  };

  return {
    nodes: table.nodes,
    elements: table.ids,
    values: () => copyValues(table.values),
    solve,
    describe: () => {
      const told = solution ?? solve();
      // Looking into a collapse leaves other slopes in the matrix than those of the operating point.
      lineariseFirst = true;
      return describePoint(session, told);
    },
    respond: (plus, minus, nodes, elements, voltsPerAmp, ampsPerAmp) => {
      if (solution === null) solve();
      if (lineariseFirst) canRespond = linearise(session.shape.circuit);
      lineariseFirst = false;
      return canRespond && respondToDraw(session, cuts, plus, minus, nodes, elements, voltsPerAmp, ampsPerAmp);
    },
  };
}

/** What flows in resistors of 0 Ω: what the nodes beyond them need. */
function fillJoinAmps(s: Session, branchAmps: Float64Array, taken: Float64Array, amps: Float64Array): void {
  const { joined, joinElement, joinFrom, circuit } = s.shape;
  if (joinElement.length === 0) return;
  const t = s.table;
  const m = t.elementCount;
  taken.fill(0);
  for (let b = 0; b < circuit.branchCount; b++) {
    const i = branchAmps[b] ?? 0;
    const p = (b < m ? t.plus[b] : t.outPlus[b - m]) ?? 0;
    const q = (b < m ? t.minus[b] : t.outMinus[b - m]) ?? 0;
    taken[p] = (taken[p] ?? 0) + i;
    taken[q] = (taken[q] ?? 0) - i;
  }
  const joinAmps = new Float64Array(joinElement.length);
  findJoinAmps(joined, joinFrom, taken, joinAmps);
  joinElement.forEach((e, j) => (amps[e] = joinAmps[j] ?? 0));
}
