import { canPush } from "./set-branches.ts";
import { factorCircuit, findVolts, setBase, type Circuit } from "./circuit.ts";
import { findFreeVolts } from "./free-volts.ts";
import { chooseReferences, findIslands, isTie } from "./find-islands.ts";
import { DEMAND, KIND } from "./read-network.ts";
import { isInLiveIsland, reportOnce, STATE, type Session } from "./session.ts";
import { settleVolts } from "./settle-volts.ts";

/** Below this part of the greatest source volts there are none. */
const NO_VOLTS = 1e-6;
/** A draw that has fallen to this part of its volts without load has none. */
const FADE = 0.05;

/** Works out islands, which converters are fed, and the volts of everything while nothing is drawn. */
export function settleWithoutLoad(s: Session): void {
  const t = s.table;
  const c = s.shape.circuit;
  const k = s.converters;
  const m = t.elementCount;
  const isLoad = (e: number) => t.kind[e] === KIND.draw && t.demandKind[e] !== DEMAND.ohms;
  for (let e = 0; e < m; e++) {
    const kind = t.kind[e];
    if (kind !== KIND.draw && kind !== KIND.converter) continue;
    if (s.state[e] !== STATE.collapsed && s.usable[e] === 1) s.state[e] = STATE.fine;
    if (kind === KIND.converter || isLoad(e)) c.on[e] = 0;
  }
  for (;;) {
    for (let j = 0; j < k.count; j++) {
      k.on[j] = s.state[k.input[j] ?? 0] === STATE.fine ? 1 : 0;
      c.on[m + j] = k.on[j] === 1 && canPush(c, m + j) ? 1 : 0;
      c.watts[m + j] = Infinity;
    }
    setIslands(s);
    if (dropUnfed(s)) continue;
    setBase(c);
    const { outcome, free } = findFreeVolts(c, s.free, s.told, () => {
      guessStart(c);
      // Where all chargers are blocked no law says at how many volts: a trace of leakage does.
      c.leaks = true;
      const found = settleVolts(c, s.told);
      c.leaks = false;
      return found;
    });
    s.free = free;
    if (outcome !== "settled") reportOnce(s, "volts did not settle");
    if (!dropReversed(s)) break;
  }
  s.start.set(c.x);
  for (let e = 0; e < m; e++) {
    if (t.kind[e] !== KIND.draw && t.kind[e] !== KIND.converter) continue;
    const v = findVolts(c, e);
    c.fade[e] = FADE * v;
    if (t.kind[e] === KIND.draw && isLoad(e) && s.state[e] === STATE.fine) s.state[e] = findReach(s, e, v);
  }
}

/**
 * Islands, one reference each, and where that leaves each branch in the matrix; nothing to do if the same branches tie
 * as before.
 */
function setIslands(s: Session): void {
  const c = s.shape.circuit;
  let changed = false;
  for (let b = 0; b < c.branchCount; b++) {
    const tie = isTie(c, b) ? 1 : 0;
    if (tie !== s.ties[b]) changed = true;
    s.ties[b] = tie;
  }
  if (changed) {
    s.islands = findIslands(c);
    c.island.set(s.islands.of);
    s.references = chooseReferences(s.islands, s.shape.wish);
    c.isReference.fill(0);
    for (const node of s.references) c.isReference[node] = 1;
    const ignored = c.matrix.beside.length - 1;
    for (let b = 0; b < c.branchCount; b++) {
      const slot = c.matrix.slots[b] ?? -1;
      const isCut = c.isReference[c.plus[b] ?? 0] === 1 || c.isReference[c.minus[b] ?? 0] === 1;
      c.place[b] = slot < 0 || isCut ? ignored : slot;
    }
  }
  // An island lives if a store or a feed that is on stands in it, or the output of a converter whose input lives.
  const t = s.table;
  s.live = new Uint8Array(s.islands.count);
  for (let e = 0; e < t.elementCount; e++) {
    const kind = t.kind[e];
    if (c.on[e] === 1 && (kind === KIND.store || kind === KIND.feed) && (c.volts[e] ?? 0) > 0) {
      s.live[s.islands.of[c.plus[e] ?? 0] ?? 0] = 1;
    }
  }
  const k = s.converters;
  for (let grew = true; grew;) {
    grew = false;
    for (let j = 0; j < k.count; j++) {
      const out = s.islands.of[c.plus[k.output[j] ?? 0] ?? 0] ?? 0;
      if (k.on[j] === 0 || c.on[k.output[j] ?? 0] === 0 || s.live[out] === 1 || !isInLiveIsland(s, k.input[j] ?? 0))
        continue;
      s.live[out] = 1;
      grew = true;
    }
  }
}

/** Takes off the converters that no source reaches; true if there were any, since islands may then fall apart. */
function dropUnfed(s: Session): boolean {
  let dropped = false;
  for (let j = 0; j < s.converters.count; j++) {
    const e = s.converters.input[j] ?? 0;
    if (s.converters.on[j] === 0 || isInLiveIsland(s, e)) continue;
    s.state[e] = STATE.noSource;
    dropped = true;
  }
  return dropped;
}

/** Takes off the converters whose input has no volts, or volts the wrong way round. */
function dropReversed(s: Session): boolean {
  const c = s.shape.circuit;
  let dropped = false;
  for (let j = 0; j < s.converters.count; j++) {
    const e = s.converters.input[j] ?? 0;
    if (s.converters.on[j] === 0) continue;
    s.state[e] = findReach(s, e, findVolts(c, e));
    if (s.state[e] !== STATE.fine) dropped = true;
  }
  return dropped;
}

function findReach(s: Session, branch: number, volts: number): number {
  const least = NO_VOLTS * s.shape.circuit.voltScale;
  if (!isInLiveIsland(s, branch) || Math.abs(volts) <= least) return STATE.noSource;
  return volts > 0 ? STATE.fine : STATE.reversed;
}

/** A first guess: every source holds its volts. */
function guessStart(c: Circuit): void {
  c.x.fill(0);
  const { step } = c;
  step.fill(0);
  const push = (b: number) => {
    const amps = (c.siemens[b] ?? 0) * (c.volts[b] ?? 0);
    const p = c.plus[b] ?? 0;
    const m = c.minus[b] ?? 0;
    step[p] = (step[p] ?? 0) + amps;
    step[m] = (step[m] ?? 0) - amps;
  };
  for (let k = 0; k < c.linearCount; k++) push(c.linear[k] ?? 0);
  for (let k = 0; k < c.curvedCount; k++) {
    const b = c.curved[k] ?? 0;
    c.slope[b] = c.siemens[b] ?? 0;
    push(b);
  }
  if (factorCircuit(c) >= 0) return;
  for (let i = 0; i < c.nodeCount; i++) if (c.isReference[i] === 1) step[i] = 0;
  c.matrix.solve(step);
  c.x.set(step);
}
