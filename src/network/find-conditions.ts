import { findAmps, findSlope, findVolts } from "./circuit.ts";
import type { DcCondition } from "./operating-point.ts";
import { DEMAND, KIND } from "./read-network.ts";
import { STATE, type Session } from "./session.ts";

/**
 * How each element stands, told from the volts and currents of a solved state.
 *
 * @param into receives the condition, by element
 */
export function findConditions(s: Session, volts: Float64Array, amps: Float64Array, into: DcCondition[]): void {
  const t = s.table;
  const c = s.shape.circuit;
  let scale = 0;
  for (const i of amps) scale = Math.max(scale, Math.abs(i));
  const atRest = 1e-9 * scale;
  s.shape.joinElement.forEach((e, j) => (into[e] = s.shape.joined.ring[j] === 1 ? "share unknown" : "joined"));
  const feedCondition = (b: number): DcCondition => {
    const v = findVolts(c, b);
    const most = c.amps[b] ?? 0;
    if (c.on[b] === 0) return "limited";
    const above = v - (c.volts[b] ?? 0);
    if (Math.abs(above) * (c.siemens[b] ?? 0) <= 1e-6 * most) return "holding";
    return above > 0 ? "blocked" : findSlope(c, b, v) === c.siemens[b] ? "holding" : "limited";
  };
  const STANDING: Readonly<Record<number, DcCondition>> = {
    [STATE.off]: "off",
    [STATE.noSource]: "no source",
    [STATE.reversed]: "reversed",
    [STATE.collapsed]: "collapsed",
  };
  for (let e = 0; e < t.elementCount; e++) {
    const standing = STANDING[s.state[e] ?? 0];
    if (standing !== undefined) {
      into[e] = standing;
      continue;
    }
    const v = volts[e] ?? 0;
    const i = amps[e] ?? 0;
    switch (t.kind[e]) {
      case KIND.resistor:
        if (s.shape.isJoin[e] === 0) into[e] = "carrying";
        break;
      case KIND.store:
        into[e] = i > atRest ? "taking" : i < -atRest ? "pushing" : "resting";
        break;
      case KIND.feed:
        into[e] = feedCondition(e);
        break;
      case KIND.draw:
        into[e] = "taking";
        if (t.demandKind[e] === DEMAND.ohms) {
          if (Math.abs(v) <= 1e-6 * c.voltScale) into[e] = "no source";
          else if (v < 0) into[e] = "reversed";
        }
        if (into[e] === "taking" && v < (t.leastVolts[e] ?? 0)) into[e] = "below least volts";
        break;
      default: {
        const k = t.converters.indexOf(e);
        const out = t.elementCount + k;
        if (s.converters.passes[k] === 0) into[e] = feedCondition(out);
        else if (s.converters.tracks[k] === 1) into[e] = "passing";
        else into[e] = findAmps(c, e, v) > 0 ? "input limited" : feedCondition(out);
      }
    }
  }
}
