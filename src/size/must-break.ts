import { faultAmps } from "../fault/index.ts";
import { layGreatest } from "./fault-cases.ts";
import { listStanding } from "./fault-devices.ts";
import { coldEdges } from "./cold-edges.ts";
import { otherPoles } from "./fault-places.ts";
import type { Chosen } from "./chosen.ts";
import type { Devices, End } from "./placed-device.ts";
import type { Settled } from "./settled.ts";

/** What the devices at the ends of each circuit have to break, A, by position among the direct-current circuits; 0: none stands there. */
export type MustBreak = Readonly<Record<End, Float64Array>>;

/**
 * Greatest prospective current at the line side of each device: what it has to break.
 *
 * @param build a build with sizes and devices, at rest or on its way there
 * @source docs/method.md, Faults
 */
export function mustBreak(build: Pick<Settled, "model" | "cases" | "devices" | "chosen">): MustBreak {
  const { model } = build;
  const n = model.circuits.length;
  const most: MustBreak = { from: new Float64Array(n), to: new Float64Array(n) };
  const devices = listStanding(build);
  if (devices.length === 0) return most;
  const laid = layGreatest(build, coldEdges(build, devices));
  const against = otherPoles(model);
  const position = new Map(model.circuits.map((c) => [c.circuit.id, c.position]));
  const known = new Map<number, number>();
  const ampsAt = (node: number): number => {
    const minus = against[node] ?? -1;
    if (minus < 0) return 0;
    let amps = known.get(node);
    if (amps === undefined) {
      known.set(node, (amps = Math.abs(faultAmps(laid, { plus: { node }, minus: { node: minus } }))));
    }
    return amps;
  };
  for (const { circuit, end, edge, at } of devices) {
    const own = circuit === null || end === null ? undefined : position.get(circuit);
    const sides = model.grid.edges[edge];
    if (own === undefined || end === null || sides === undefined) continue;
    const list = most[end];
    list[own] = Math.max(list[own] ?? 0, ampsAt(sides[at]));
  }
  return most;
}

/**
 * The same for a build on its way to rest, round after round: what neither sizes nor devices have changed is not worked out again.
 */
export function askBreaks({
  model,
  cases,
}: Pick<Settled, "model" | "cases">): (devices: Devices, chosen: Chosen) => MustBreak {
  let last: { readonly devices: Devices; readonly rungs: Int32Array; readonly breaks: MustBreak } | null = null;
  return (devices, chosen) => {
    const { rungs } = chosen;
    if (last === null || !isSameRungs(last.rungs, rungs) || !isSamePlaced(last.devices, devices))
      last = { devices, rungs: rungs.slice(), breaks: mustBreak({ model, cases, devices, chosen }) };
    return last.breaks;
  };
}

const isSameRungs = (a: Int32Array, b: Int32Array): boolean => a.every((r, i) => r === b[i]);

/** Whether the same devices stand at the same ends. */
const isSamePlaced = (a: Devices, b: Devices): boolean =>
  a.circuits.length === b.circuits.length &&
  a.circuits.every(({ devices: before }, i) => {
    const now = b.circuits[i]?.devices ?? [];
    return (
      before.length === now.length &&
      before.every((d, k) => {
        const other = now[k];
        return (
          d === other ||
          (d.end === other?.end && d.way === other.way && d.family === other.family && d.rating === other.rating)
        );
      })
    );
  });

/** Both amount to the same, but for rounding. */
export function isSameBreak(a: MustBreak | null, b: MustBreak): boolean {
  if (a === null) return false;
  return (["from", "to"] as const).every((end) =>
    b[end].every((amps, i) => Math.abs(amps - (a[end][i] ?? 0)) <= 1e-6 * Math.max(1, amps)),
  );
}

/** The greater of both, so that what is asked only grows. */
export function greaterBreak(a: MustBreak | null, b: MustBreak): MustBreak {
  if (a === null) return b;
  const of = (end: End): Float64Array => b[end].map((amps, i) => Math.max(amps, a[end][i] ?? 0));
  return { from: of("from"), to: of("to") };
}
