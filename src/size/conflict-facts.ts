import type { Runs } from "../route/index.ts";
import { exactly, type System } from "../system/index.ts";
import { withCircuit, withDraws, withLength, withLowestCharge, withoutSize } from "./change-system.ts";
import type { ConstraintId } from "./design.ts";
import type { CircuitModel } from "./model.ts";
import type { Settled } from "./settled.ts";

/** A fact that may be part of a conflict, and how it is let go. */
export interface ConflictFact {
  /** Key path of the plan: `circuits.W12.length`. */
  readonly fact: string;
  /** As it is, in words: `14 m one way`. */
  readonly says: string;
  /** As if it asked for nothing. */
  readonly relaxed: (system: System) => System;
  /** Where it is a figure: between which ends it may be moved, and how it is then said. */
  readonly scale?: {
    readonly now: number;
    readonly to: number;
    readonly step: number;
    readonly change: (system: System, value: number) => System;
    readonly says: (value: number) => string;
  };
  /** The way out by letting it go, in words, where it is no figure. */
  readonly way?: string;
}

const figure = (x: number, digits = 3): string => String(Number(x.toPrecision(digits)));

/** Facts that a constraint on a circuit can hang on, those first that are least often to blame. */
export function conflictFacts(
  system: System,
  runs: Runs,
  { model, chosen }: Pick<Settled, "model" | "chosen">,
  c: CircuitModel,
  constraint: ConstraintId,
): ConflictFact[] {
  const { circuit, index } = c;
  const about = `circuits.${circuit.id}`;
  const run = runs.runs[index];
  const isVolts = constraint === "drop" || constraint === "start" || constraint === "least-volts";
  const isAmps = constraint === "ampacity" || constraint === "device" || constraint === "terminal";
  const list: ConflictFact[] = [];

  if (isVolts && constraint !== "drop") {
    const now = Math.min(...model.grid.stores.map((s) => s.element.lowestCharge.low));
    if (now < 1) {
      list.push({
        fact: "parts.lowest charge",
        says: `batteries down to ${figure(100 * now)} % charge`,
        relaxed: (s) => withLowestCharge(s, 1),
        scale: {
          now: 100 * now,
          to: 100,
          step: 1,
          change: (s, v) => withLowestCharge(s, v / 100),
          says: (v) => `batteries at ${figure(v)} % at least`,
        },
      });
    }
  }
  // Other wires whose size the plan gives can only be to blame where volts are lost in them too.
  if (isVolts) {
    for (const other of model.circuits) {
      const size = other.circuit.size;
      if (other === c || size === undefined || size === "unknown" || !isOnTheWay(model.circuits, c, other)) continue;
      list.push({
        fact: `circuits.${other.circuit.id}.wire`,
        says: `${other.circuit.id} ${other.circuit.asFound ? "found" : "pinned"} at ${size.label}`,
        relaxed: (s) => withoutSize(s, other.index),
        way: `let the size of ${other.circuit.id} be chosen`,
      });
    }
  }
  if (run !== undefined && isAmps) {
    const bundle = Math.max(...run.stretches.map((s) => s.bundle));
    if (bundle > run.loaded) {
      list.push({
        fact: `${about}.bundle`,
        says: `${bundle} loaded conductors together`,
        relaxed: (s) => withCircuit(s, index, { bundle: run.loaded }),
        scale: {
          now: bundle,
          to: run.loaded,
          step: 1,
          change: (s, v) => withCircuit(s, index, { bundle: v }),
          says: (v) => `no more than ${v} loaded conductors together`,
        },
      });
    }
    const hottest = Math.max(...run.stretches.map((s) => s.ambientC));
    const inEngine = run.stretches.some((s) => s.engineSpace);
    if (inEngine || hottest > 30) {
      list.push({
        fact: inEngine ? `${about}.zones` : `${about}.ambient`,
        says: inEngine ? "the engine space" : `air of ${figure(hottest)} °C`,
        relaxed: (s) => withCircuit(s, index, { zones: [], ambient: exactly(30, "given") }),
        way: inEngine ? "lead it clear of the engine space" : "lead it through air of 30 °C",
      });
    }
  }
  if (
    constraint === "device" &&
    circuit.devices !== "propose" &&
    circuit.devices !== "unknown" &&
    circuit.devices.length > 0
  ) {
    const rated = circuit.devices.map(
      ({ rating, kind }) => `${rating === "unknown" ? "?" : figure(rating.high)} A ${kind}`,
    );
    list.push({
      fact: `${about}.${circuit.devices[0]?.kind ?? "fuse"}`,
      says: `the ${rated.join(" and ")} that the plan gives`,
      relaxed: (s) => withCircuit(s, index, { devices: "propose" }),
      way: "let its device be proposed",
    });
  }
  if (isVolts && circuit.length.origin !== "unknown" && circuit.length.high > 0) {
    const now = circuit.length.high;
    list.push({
      fact: `${about}.length`,
      says: `${figure(now)} m one way`,
      relaxed: (s) => withLength(s, index, now / 100),
      scale: {
        now,
        to: now / 100,
        step: now / 200,
        change: (s, v) => withLength(s, index, v),
        says: (v) => `${figure(v)} m or shorter, one way`,
      },
    });
  }
  list.push(...loadFacts(system, model.circuits, c, constraint));
  const { size, sameSizeAs } = circuit;
  if (size !== undefined && size !== "unknown") {
    list.push({
      fact: `${about}.wire`,
      says: `${circuit.asFound ? "found" : "pinned"} at ${size.label}`,
      relaxed: (s) => withoutSize(s, index),
      way: `let its size be chosen`,
    });
  } else {
    const top = c.rungs?.ladder.makes.at(-1)?.size.label ?? "";
    list.push({
      fact: system.stock.sizes.length > 0 ? "stock.sizes kept" : "stock.sizes",
      says: `no size ${system.stock.sizes.length > 0 ? "kept" : "on sale"} above ${top}`,
      relaxed: (s) => withCircuit(s, index, { parallel: 12 * circuit.parallel }),
    });
  }
  if (sameSizeAs !== undefined && size === undefined && chosen.short[c.position] === 1) {
    list.push({
      fact: `${about}.same size as`,
      says: `one size with ${sameSizeAs.join(", ")}`,
      relaxed: (s) => ({ ...s, circuits: s.circuits.map(alone) }),
      way: "let each have its own size",
    });
  }
  return list;
}

const alone = <C extends { readonly sameSizeAs?: readonly string[] }>(circuit: C): C => ({
  ...circuit,
  sameSizeAs: [],
});

/** Whether what flows to the loads of a circuit, or to those beyond it, may pass another one. */
function isOnTheWay(all: readonly CircuitModel[], c: CircuitModel, other: CircuitModel): boolean {
  if (!other.radial) return true;
  const passes = (from: CircuitModel, to: CircuitModel): boolean => {
    for (let k = from.position; k >= 0; k = all[k]?.parent ?? -1) if (k === to.position) return true;
    return false;
  };
  return passes(c, other) || passes(other, c);
}

/** What flows: the loads at and beyond it, and its demand. */
function loadFacts(
  system: System,
  all: readonly CircuitModel[],
  c: CircuitModel,
  constraint: ConstraintId,
): ConflictFact[] {
  const { circuit, index } = c;
  const beyond = all.filter((o) => o === c || (o.radial && isBeyond(all, o, c)));
  const parts = new Set(beyond.flatMap((o) => o.judged.flatMap((j) => (j.draw >= 0 ? [j.part] : []))));
  const list: ConflictFact[] = [];
  if (c.demand !== null && constraint !== "start") {
    const now = c.demand;
    list.push({
      fact: `circuits.${circuit.id}.demand`,
      says: `a demand of ${figure(now)} A`,
      relaxed: (s) => withCircuit(s, index, { demand: exactly(now / 100, "given") }),
      scale: {
        now,
        to: now / 100,
        step: now / 200,
        change: (s, v) => withCircuit(s, index, { demand: exactly(v, "given") }),
        says: (v) => `a demand of ${figure(v)} A or less`,
      },
    });
  }
  if (parts.size === 0) return list;
  const level = constraint === "start" ? "starting" : null;
  const draws = system.elements.flatMap((e) => (e.is === "draw" && parts.has(e.part) ? [e] : []));
  const scaled = (s: System, share: number): System =>
    withDraws(s, (e) =>
      parts.has(e.part)
        ? {
            ...e,
            levels: e.levels.map((l) =>
              (level === null ? l.name !== "starting" : l.name === level)
                ? { ...l, amps: exactly(l.amps.high * share, "given") }
                : l,
            ),
          }
        : e,
    );
  const [only] = draws;
  const amps =
    draws.length === 1 && only !== undefined
      ? Math.max(
          ...only.levels
            .filter((l) => (level === null ? l.name !== "starting" : l.name === level))
            .map((l) => l.amps.high),
        )
      : Number.NaN;
  const named = draws.length === 1 ? (only?.part ?? "") : `what hangs on it (${draws.length} loads)`;
  const does = level === null ? "takes" : "starts with";
  list.push({
    fact: draws.length === 1 ? `parts.${only?.part ?? ""}.${level ?? "running"}` : `circuits.${circuit.id}.path`,
    says: amps > 0 ? `${named} ${does} ${figure(amps)} A` : `${named} ${does} what it does`,
    relaxed: (s) => scaled(s, 0.01),
    scale: {
      now: 100,
      to: 1,
      step: 0.5,
      change: (s, v) => scaled(s, v / 100),
      says: (v) =>
        amps > 0
          ? `${named} ${does} ${figure((amps * v) / 100)} A or less`
          : `${named} ${does} ${figure(v)} % of that or less`,
    },
  });
  return list;
}

function isBeyond(all: readonly CircuitModel[], o: CircuitModel, c: CircuitModel): boolean {
  for (let k = o.parent; k >= 0; k = all[k]?.parent ?? -1) if (k === c.position) return true;
  return false;
}
