import type { ConstraintId, Design } from "./design.ts";
import { devicesAllow } from "./devices-allow.ts";
import { steadyAt } from "./ladder.ts";
import type { Settled } from "./settled.ts";

/** A wire that has another size after a change of the plan, and what holds it there. */
export interface MovedSize {
  readonly circuit: string;
  readonly from: string;
  readonly to: string;
  /** Thicker: what the size before would not meet now. Thinner: what the size now would not have met before. Empty: neither; it pays elsewhere. */
  readonly because: readonly { readonly constraint: ConstraintId; readonly of: string }[];
  /** Other wires that moved along, which is where it pays; empty where `because` says enough. */
  readonly beside: readonly string[];
  readonly says: string;
}

/** A settled build and its design, as they were before or are after a change. */
export interface Stand {
  readonly settled: Settled;
  readonly design: Pick<Design, "circuits">;
}

/**
 * Tells of two stands of a build which wires have another size, and why: the least copper over the whole build need not move one way, and a wire that nobody
 * touched may get thinner because the feeder before it became worth thickening.
 *
 * A thicker wire is held against its size before, all others as they are now; a thinner one against its size now, all others as they were. Where that
 * meets everything, the move is a trade with the other wires that moved.
 */
export function whyMoved(before: Stand, after: Stand): MovedSize[] {
  const old = new Map(before.design.circuits.map((c) => [c.id, c]));
  const moved = after.design.circuits.flatMap((now) => {
    const was = old.get(now.id);
    if (was === undefined || was.size === null || now.size === null || was.size.label === now.size.label) return [];
    if (now.outcome !== "chosen" || was.outcome !== "chosen") return [];
    return [{ id: now.id, was: was.size, now: now.size }];
  });
  return moved.map(({ id, was, now }): MovedSize => {
    const thicker = now.areaMm2 > was.areaMm2;
    const because = thicker ? unmetWith(after.settled, id, was.label) : unmetWith(before.settled, id, now.label);
    const beside = because.length > 0 ? [] : moved.flatMap((m) => (m.id === id ? [] : [m.id]));
    const [first] = because;
    const why =
      first === undefined
        ? `both sizes would do here; together with ${beside.length === 0 ? "what else changed" : beside.join(", ")} it is less`
        : thicker
          ? `${was.label} would no longer meet ${first.constraint} of ${first.of}`
          : `${now.label} would not have met ${first.constraint} of ${first.of} before`;
    return {
      circuit: id,
      from: was.label,
      to: now.label,
      because,
      beside,
      says: `${id}: ${was.label} → ${now.label}; ${why}`,
    };
  });
}

/** What is not met with one circuit at another size of its ladder, all else as it was settled, that is met as it was. */
function unmetWith(settled: Settled, id: string, label: string): MovedSize["because"][number][] {
  const { model, weigher, chosen, currents, devices } = settled;
  const c = model.circuits.find((one) => one.circuit.id === id);
  const rung = c?.rungs?.ladder.makes.findIndex((m) => m.size.label === label) ?? -1;
  if (c === undefined || c.rungs === null || rung < 0) return [];
  const found: MovedSize["because"][number][] = [];
  const [now, own] = [currents[c.position], devices.circuits[c.position]];
  if (rung < c.rungs.least) found.push({ constraint: "mechanical", of: id });
  if (now !== undefined && now.steady > steadyAt(c.rungs, rung) + 1e-9) found.push({ constraint: "ampacity", of: id });
  if (own !== undefined && !devicesAllow(c, own, c.rungs, rung)) found.push({ constraint: "device", of: id });
  const rungs = Int32Array.from(chosen.rungs);
  const short = (): string[] => {
    weigher.solveCore(rungs);
    weigher.layAll(rungs);
    return model.circuits.flatMap((one) => {
      const of = one.judged.flatMap((judged) => {
        const w = weigher.worst(one).find((x) => x.judged === judged);
        if (w === undefined) return [];
        const list: ConstraintId[] = [];
        if (w.dropVolts > judged.dropVolts + 1e-7) list.push("drop");
        if (w.startVolts < judged.startsAbove - 1e-7) list.push("start");
        if (w.leastVolts < judged.runsAbove - 1e-7) list.push("least-volts");
        return list.map((constraint) => `${constraint} ${judged.part}`);
      });
      const charges = one.charging !== null && weigher.chargingDrop(one).volts > one.charging.limitVolts + 1e-7;
      return charges ? [...of, `drop ${one.circuit.id}`] : of;
    });
  };
  const asItWas = new Set(short());
  // Wires that have to be alike move together.
  for (const i of model.coreGroups.find((g) => g.includes(c.position)) ?? [c.position]) rungs[i] = rung;
  for (const line of short().filter((l) => !asItWas.has(l))) {
    const at = line.indexOf(" ");
    found.push({ constraint: line.slice(0, at) as ConstraintId, of: line.slice(at + 1) }); // made above of one
  }
  rungs.set(chosen.rungs);
  weigher.solveCore(rungs);
  weigher.layAll(rungs);
  return found;
}
