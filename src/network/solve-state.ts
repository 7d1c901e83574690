import { addCurved, factorCircuit, LAW, setBase, type Circuit } from "./circuit.ts";
import { findHopeless, setSlopes } from "./find-collapse.ts";
import { DEMAND, findUsable, KIND, type DcValues, type Table } from "./read-network.ts";
import { makeShapedPart, MOST_SINGLE, reportOnce, STATE, type Gone, type Session } from "./session.ts";
import { findJoins, setBranches } from "./set-branches.ts";
import { resetConverters, settleConverters } from "./settle-converters.ts";
import { settleWithoutLoad } from "./settle-without-load.ts";

/**
 * One operating state from beginning to end: what is joined, what hangs together, the volts without load, the volts
 * with load, and what has to be left out so that the rest stands. The method is told in `solve-dc.ts`.
 */

/** Solves one state; the result is left in the session and its circuit. */
export function solveState(s: Session, values: DcValues): void {
  const t = s.table;
  s.problems = [...t.problems];
  s.told = { rounds: 0, factorings: 0 };
  findUsable(t, values, s.usable, s.problems);
  if (findJoins(t, values, s.usable, s.isJoin)) Object.assign(s, makeShapedPart(t, s.isJoin));
  setBranches(t, s.shape, values, s.usable);
  for (let e = 0; e < t.elementCount; e++) s.state[e] = s.usable[e] === 1 ? STATE.fine : STATE.off;
  for (let k = 0; k < t.converters.length; k++) {
    const e = t.converters[k] ?? 0;
    s.converters.mostWatts[k] = (values.volts[e] ?? 0) * (values.amps[e] ?? 0);
  }

  const gone: Gone[] = [];
  const takeOff = (b: number, isAlone: boolean) => {
    const c = s.shape.circuit;
    gone.push({ element: b, asked: (c.law[b] === LAW.amps ? c.amps[b] : c.watts[b]) ?? 0, isAlone });
    s.state[b] = STATE.collapsed;
    c.on[b] = 0;
    if (t.kind[b] === KIND.converter) isOpen = false;
  };
  let isOpen = false;
  let singles = 0;
  for (;;) {
    if (!isOpen) settleWithoutLoad(s);
    const parts = settleWithLoad(s);
    if (parts === null) break;
    isOpen = true;
    const hopeless = findHopeless(s.shape.circuit, s.start);
    for (const b of hopeless) takeOff(b, true);
    if (hopeless.length === 0) {
      const leaving = chooseLeaving(t, parts, singles++ < MOST_SINGLE);
      for (const b of leaving) takeOff(b, false);
      if (leaving.length > 1) {
        s.problems.push({ problem: "collapsed together", about: "", field: "", found: String(leaving.length) });
      }
    }
    setBase(s.shape.circuit);
  }
  s.gone = gone.length > 1 ? giveSecondChance(s, gone) : gone;
}

/** Who was taken off early may stand now that others are off too. Returns those who do not. */
function giveSecondChance(s: Session, gone: readonly Gone[]): readonly Gone[] {
  const stays = new Set<Gone>(gone);
  let isLastTried = false;
  for (const one of gone.filter((g) => !g.isAlone).slice(0, MOST_SINGLE)) {
    s.state[one.element] = STATE.fine;
    settleWithoutLoad(s);
    isLastTried = settleWithLoad(s) !== null;
    if (isLastTried) s.state[one.element] = STATE.collapsed;
    else stays.delete(one);
  }
  if (isLastTried) {
    settleWithoutLoad(s);
    settleWithLoad(s);
  }
  return gone.filter((one) => stays.has(one));
}

/** Switches the loads on; null if all stand, else the branches that give way, each with its part in it. */
function settleWithLoad(s: Session): ReadonlyMap<number, number> | null {
  const t = s.table;
  const c = s.shape.circuit;
  for (let e = 0; e < t.elementCount; e++) {
    const isCurved = t.kind[e] === KIND.converter || (t.kind[e] === KIND.draw && t.demandKind[e] !== DEMAND.ohms);
    if (isCurved && c.on[e] === 0 && s.state[e] === STATE.fine) addCurved(c, e);
  }
  resetConverters(s.converters);
  c.x.set(s.start);
  const outcome = settleConverters(c, s.converters, s.start, s.told);
  if (outcome.collapse.size > 0) return outcome.collapse;
  if (!outcome.settled) reportOnce(s, "volts did not settle");
  else if (!outcome.agreed) reportOnce(s, "converters did not settle");
  return null;
}

/**
 * The branch with the greatest part; of equals the first by id, so that the order of elements decides nothing. After
 * many, half of all at once.
 */
function chooseLeaving(t: Table, parts: ReadonlyMap<number, number>, isSingle: boolean): number[] {
  let most = 0;
  for (const part of parts.values()) most = Math.max(most, part);
  const rank = (b: number) => {
    const part = parts.get(b) ?? 0;
    return part >= most * (1 - 1e-6) ? Infinity : part;
  };
  const sorted = Array.from(parts.keys()).sort((a, b) =>
    rank(a) === rank(b) ? ((t.ids[a] ?? "") < (t.ids[b] ?? "") ? -1 : 1) : rank(b) > rank(a) ? 1 : -1,
  );
  return sorted.slice(0, isSingle ? 1 : Math.ceil(sorted.length / 2));
}

/**
 * Takes the slopes at the operating point and factors the matrix with them, for what is asked about small changes;
 * false if it cannot be.
 */
export function linearise(c: Circuit): boolean {
  setSlopes(c);
  return factorCircuit(c) < 0;
}
