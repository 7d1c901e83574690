import { isNoThinner } from "../ruleset/index.ts";
import { ampacityAt, rungsFor, runOhms, type Rungs } from "./ladder.ts";
import { constraintIds, type Constraint, type ConstraintId, type SizeOnPaper } from "./design.ts";
import type { CircuitModel } from "./model.ts";
import { devicesAllow } from "./place-devices.ts";
import type { Settled } from "./settle.ts";
import type { JudgedWorst } from "./weigh.ts";
import type { Runs } from "../route/index.ts";
import type { SystemCircuit } from "../system/index.ts";

/** What each constraint alone asks of each circuit, every other circuit as it is. */
export interface Weighed {
  readonly constraints: readonly Constraint[];
  readonly decidedBy: ConstraintId | null;
}

type VoltKind = "drop" | "start" | "least-volts";

/**
 * Finds for each circuit the least size that each constraint alone would ask for. In trees that is arithmetic on what was solved; in the core
 * the network is solved again with thinner wire until a load no longer has enough.
 */
export function weighConstraints(settled: Settled, runs: Runs): Weighed[] {
  const { model, weigher, chosen } = settled;
  const worst = model.circuits.map((c) => weigher.worst(c));
  const room = roomBelow(settled, worst);
  const coreAlone = aloneInCore(settled);
  weigher.solveCore(chosen.rungs);
  weigher.layAll(chosen.rungs);

  return model.circuits.map((c, i): Weighed => {
    if (c.rungs === null) return { constraints: [], decidedBy: null };
    const { circuit } = c;
    const run = runs.runs[c.index];
    const pinned = circuit.size !== undefined;
    // What a pinned size is measured against is the stock, as if it were to be chosen.
    const ladder: Rungs =
      pinned && c.ruleSet !== null && run !== undefined
        ? rungsFor(withoutSize(circuit), run, c.ruleSet, model.system.stock)
        : c.rungs;
    const top = ladder.ladder.makes.length;
    const amps = settled.currents[i]?.steady ?? 0;
    const first = (passes: (rung: number) => boolean): number => {
      for (let r = 0; r < top; r++) if (passes(r)) return r;
      return top;
    };
    const ohmsNow = runOhms(c.rungs, chosen.rungs[i] ?? 0, amps);
    const here = chosen.rungs[i] ?? 0;
    const iz = ampacityAt(c.rungs, here);
    const devices = settled.devices.circuits[i];
    const unknownLength = circuit.length.origin === "unknown";

    const volts = (kind: VoltKind): { rung: number | null; met: boolean; stated: boolean } => {
      const space = room[i]?.[kind] ?? Infinity;
      const met = room[i]?.met[kind] ?? true;
      const own = room[i]?.stated[kind] ?? false;
      const alone = c.radial ? 0 : (coreAlone[i]?.[kind] ?? 0);
      const stated = own || alone > 0;
      if (!stated) return { rung: null, met: true, stated };
      if (!c.radial) return { rung: alone, met, stated };
      const allowed = ohmsNow + space;
      return { rung: first((r) => runOhms(ladder, r, amps) <= allowed * (1 + 1e-12)), met, stated };
    };

    const answers: Record<ConstraintId, { rung: number | null; outcome: Constraint["outcome"]; source: string }> = {
      ampacity: {
        rung: first((r) => amps <= ampacityAt(ladder, r) + 1e-9),
        outcome: amps <= iz + 1e-9 ? "met" : "not met",
        source: c.ruleSet?.ampacity.table.id ?? "",
      },
      drop: told(volts("drop"), unknownLength, dropSource(c, worst[i] ?? [])),
      start: told(volts("start"), unknownLength, "method 4"),
      "least-volts": told(volts("least-volts"), unknownLength, "method 4"),
      device: deviceAnswer(),
      mechanical: mechanicalAnswer(),
      withstand: { rung: null, outcome: "not judged yet", source: "" },
      terminal: { rung: null, outcome: "not judged yet", source: "" },
      "earth-loop": { rung: null, outcome: "not judged yet", source: "" },
      stock: { rung: 0, outcome: "met", source: "stock" },
    };

    function deviceAnswer(): { rung: number | null; outcome: Constraint["outcome"]; source: string } {
      if (devices === undefined) return { rung: null, outcome: "cannot tell", source: "method 5" };
      if (devices.unknown) return { rung: null, outcome: "cannot tell", source: "method 5" };
      if (devices.devices.length === 0 && devices.answersFor === 0) {
        return { rung: null, outcome: "not stated", source: "method 5" };
      }
      return {
        rung: first((r) => devicesAllow(c, devices, ampacityAt(ladder, r))),
        outcome: devicesAllow(c, devices, iz) ? "met" : "not met",
        source: c.ruleSet === null ? "" : `${c.ruleSet.id} device limit`,
      };
    }

    function mechanicalAnswer(): { rung: number | null; outcome: Constraint["outcome"]; source: string } {
      const rule = ladder.leastSize;
      const make = c.rungs?.ladder.makes[here];
      const met = rule === null || make === undefined || isNoThinner(make, rule.size, rule.strands);
      return {
        rung: Math.max(ladder.leastByRule, ladder.least),
        outcome: met ? "met" : "not met",
        source: rule?.source.clause ?? "stock",
      };
    }

    let decidedBy: ConstraintId | null = null;
    let largest = -1;
    const constraints = constraintIds.map((id): Constraint => {
      const { rung, outcome, source } = answers[id];
      if (rung !== null && rung > largest) {
        largest = rung;
        decidedBy = id;
      }
      return { id, outcome, alone: rung === null ? null : onPaper(ladder, rung), source };
    });
    return { constraints, decidedBy: unknownLength ? null : decidedBy };
  });
}

/** The circuit as if its size were still to be chosen. */
function withoutSize(circuit: SystemCircuit): SystemCircuit {
  const copy: { -readonly [K in keyof SystemCircuit]: SystemCircuit[K] } = { ...circuit };
  delete copy.size;
  return copy;
}

export function onPaper(rungs: Rungs, rung: number): SizeOnPaper | null {
  const size = rungs.ladder.makes[rung]?.size;
  return size === undefined ? null : { label: size.label, areaMm2: size.areaMm2 };
}

function told(
  answer: { rung: number | null; met: boolean; stated: boolean },
  unknownLength: boolean,
  source: string,
): { rung: number | null; outcome: Constraint["outcome"]; source: string } {
  if (!answer.stated) return { rung: null, outcome: "not stated", source };
  if (unknownLength) return { rung: null, outcome: "cannot tell", source };
  return { rung: answer.rung, outcome: answer.met ? "met" : "not met", source };
}

function dropSource(c: CircuitModel, worst: readonly JudgedWorst[]): string {
  const found = worst.find((w) => w.judged.dropClass !== null)?.judged.dropClass;
  if (found !== undefined && found !== null) return found.source.clause;
  return c.charging !== null ? "charging circuits, common practice" : "the circuit's own `drop`";
}

interface Room extends Record<VoltKind, number> {
  readonly met: Record<VoltKind, boolean>;
  readonly stated: Record<VoltKind, boolean>;
}

/**
 * Ohms of run, one way, that could be added to each radial circuit before a load at or behind it no longer has enough; negative where one has
 * too little already.
 */
function roomBelow(settled: Settled, worst: readonly (readonly JudgedWorst[])[]): Room[] {
  const { model, weigher } = settled;
  const result: Room[] = model.circuits.map(() => ({
    drop: Infinity,
    start: Infinity,
    "least-volts": Infinity,
    met: { drop: true, start: true, "least-volts": true },
    stated: { drop: false, start: false, "least-volts": false },
  }));
  model.circuits.forEach((c, i) => {
    const mine = result[i];
    const list = worst[i] ?? [];
    if (mine === undefined) return;
    for (const w of list) {
      // Every circuit on the way to the load is asked, with the current that it carries in the load's own case.
      for (let k = i; k >= 0; k = model.circuits[k]?.parent ?? -1) {
        const at = result[k];
        const above = model.circuits[k];
        if (at === undefined || above === undefined) break;
        const shares = above.shares.reduce((sum, s) => sum + s, 0);
        const rooms = weigher.roomFor(above, c, w.judged);
        const lower = (kind: VoltKind, space: number): void => {
          if (space === Infinity) return;
          at.stated[kind] = true;
          at[kind] = Math.min(at[kind], space / (shares > 0 ? shares : 1));
          if (space < -1e-7) at.met[kind] = false;
        };
        lower("drop", rooms.drop);
        lower("start", rooms.start);
        lower("least-volts", rooms.leastVolts);
        if (!above.radial) break;
      }
    }
    if (c.charging !== null) {
      const { volts } = weigher.chargingDrop(c);
      mine.stated.drop = true;
      if (volts > c.charging.limitVolts + 1e-7) mine.met.drop = false;
    }
  });
  return result;
}

/** For each circuit of the core the least rung at which nothing that has enough now loses it. */
function aloneInCore(settled: Settled): (Record<VoltKind, number> | undefined)[] {
  const { model, weigher, chosen } = settled;
  const result: (Record<VoltKind, number> | undefined)[] = model.circuits.map(() => undefined);
  const before = shortNow(settled);
  const rungs = Int32Array.from(chosen.rungs);
  for (const group of model.coreGroups) {
    const [head] = group;
    const c = head === undefined ? undefined : model.circuits[head];
    if (head === undefined || c === undefined || c.circuit.size !== undefined) continue;
    const here = chosen.rungs[head] ?? 0;
    const least: Record<VoltKind, number> = { drop: here, start: here, "least-volts": here };
    const open = new Set<VoltKind>(["drop", "start", "least-volts"]);
    for (let r = here - 1; r >= 0 && open.size > 0; r--) {
      for (const i of group) rungs[i] = r;
      weigher.solveCore(rungs);
      weigher.layAll(rungs);
      const now = shortNow(settled);
      for (const kind of [...open]) {
        if (now[kind] > before[kind]) open.delete(kind);
        else least[kind] = r;
      }
    }
    for (const i of group) {
      rungs[i] = chosen.rungs[i] ?? 0;
      result[i] = least;
    }
  }
  return result;
}

/** How many loads have too little, by kind. */
function shortNow({ model, weigher }: Settled): Record<VoltKind, number> {
  const count = { drop: 0, start: 0, "least-volts": 0 };
  for (const c of model.circuits) {
    for (const w of weigher.worst(c)) {
      if (w.dropVolts > w.judged.dropVolts + 1e-7) count.drop++;
      if (w.leastVolts < w.judged.runsAbove - 1e-7) count["least-volts"]++;
      if (w.startVolts < w.judged.startsAbove - 1e-7) count.start++;
    }
    if (c.charging !== null && weigher.chargingDrop(c).volts > c.charging.limitVolts + 1e-7) count.drop++;
  }
  return count;
}
