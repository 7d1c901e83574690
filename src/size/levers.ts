import type { Runs } from "../route/index.ts";
import { exactly, type System } from "../system/index.ts";
import { withCircuit, withDraws, withLength, withLevel, withLowestCharge } from "./change-system.ts";
import type { Settled } from "./settled.ts";

/** What kind of fact a lever moves. */
export type Input =
  "length" | "current" | "demand" | "ambient" | "bundle" | "drop" | "charge" | "insulation" | "least volts";

/** A fact that is moved until the answer is another one. */
export interface Lever {
  readonly input: Input;
  /** Key path of the plan: `circuits.W12.length`. */
  readonly fact: string;
  readonly unit: string;
  /** Present value, and how far it is moved, in that unit. */
  readonly now: number;
  readonly least: number;
  readonly most: number;
  readonly way: "up" | "down";
  /** Width of a step; absent: about a hundredth of the value. */
  readonly step?: number;
  readonly words: (value: string) => string;
  readonly change: (value: number) => System;
}

type Settling = Pick<Settled, "model">;

/** All facts that can be moved to see whether a circuit's size is another one; of a circuit that nothing is known of there are none. */
export function leversOf(system: System, runs: Runs, { model }: Settling, index: number): Lever[] {
  const circuit = system.circuits[index];
  const run = runs.runs[index];
  const c = model.circuits[model.at[index] ?? -1];
  if (circuit === undefined || run === undefined || c === undefined) return [];
  const about = `circuits.${circuit.id}`;
  const list: Lever[] = [];

  list.push(...lengthLevers(system, index, ""));
  const loads = c.judged.filter((j) => j.draw >= 0);
  const draw = loads.length === 1 ? model.grid.draws[loads[0]?.draw ?? -1] : undefined;
  if (draw !== undefined && draw.inverter === null) {
    const { element } = draw;
    const verb = { running: "takes", starting: "starts with", transmitting: "transmits with" };
    for (const { name, amps } of element.levels) {
      list.push({
        input: "current",
        fact: `parts.${element.part}.${name}`,
        unit: "A",
        now: amps.high,
        least: 0,
        most: amps.high * 8,
        way: "up",
        words: (v) => `${element.part} ${verb[name]} ${v} or more`,
        change: (a) => withLevel(system, element, name, a),
      });
    }
    for (const [key, name] of [
      ["runsAbove", "runs above"],
      ["startsAbove", "starts above"],
    ] as const) {
      const volts = element[key];
      if (volts === undefined) continue;
      const change = (v: number): System =>
        withDraws(system, (e) => (e.id === element.id ? { ...e, [key]: exactly(v, "given") } : e));
      const base = { input: "least volts", fact: `parts.${element.part}.${name}`, unit: "V", now: volts.high } as const;
      const ends = { least: volts.high / 2, most: element.atVolts * 1.1, step: 0.01, change };
      list.push({ ...base, ...ends, way: "up", words: (v) => `${element.part} ${name} ${v} or more` });
      list.push({ ...base, ...ends, way: "down", words: (v) => `${element.part} ${name} ${v} or less` });
    }
  }
  if (c.demand !== null) {
    const now = c.demand;
    const change = (a: number): System => withCircuit(system, index, { demand: exactly(a, "given") });
    const base = {
      input: "demand",
      fact: `${about}.demand`,
      unit: "A",
      now,
      least: now / 20,
      most: now * 6,
      change,
    } as const;
    list.push({ ...base, way: "up", words: (v) => `a demand of ${v} or more` });
    list.push({ ...base, way: "down", words: (v) => `a demand of ${v} or less` });
  }
  list.push({
    input: "ambient",
    fact: `${about}.ambient`,
    unit: "°C",
    now: Math.max(...run.stretches.map((s) => s.ambientC)),
    least: 0,
    most: circuit.insulationC.low,
    way: "up",
    words: (v) => `air of ${v} or more along all of it`,
    change: (t) => withCircuit(system, index, { ambient: exactly(t, "given") }),
  });
  const bundle = Math.max(...run.stretches.map((s) => s.bundle));
  const inBundle = (n: number): System => withCircuit(system, index, { bundle: n });
  const ofBundle = {
    input: "bundle",
    fact: `${about}.bundle`,
    unit: "",
    now: bundle,
    step: 1,
    change: inBundle,
  } as const;
  list.push({
    ...ofBundle,
    least: bundle,
    most: 60,
    way: "up",
    words: (n) => `${n} or more loaded conductors together`,
  });
  if (bundle > run.loaded)
    list.push({
      ...ofBundle,
      least: run.loaded,
      most: bundle,
      way: "down",
      words: (n) => `${n} or fewer loaded conductors together`,
    });
  const limits = c.judged.flatMap((j) => (j.dropVolts > 0 && j.dropVolts < Infinity ? [j.dropVolts] : []));
  const limit =
    c.charging !== null
      ? c.charging.limitVolts / c.charging.baseVolts
      : Math.min(...limits) / (c.supply?.nominal ?? 12);
  if (limit > 0 && limit < Infinity) {
    const now = Number((100 * limit).toPrecision(6));
    const change = (percent: number): System =>
      withCircuit(system, index, { dropLimit: exactly(percent / 100, "given") });
    const base = {
      input: "drop",
      fact: `${about}.drop`,
      unit: "%",
      now,
      step: 0.1,
      least: 0.1,
      most: 25,
      change,
    } as const;
    list.push({ ...base, way: "down", words: (v) => `a drop of ${v} at most, or less` });
    list.push({ ...base, way: "up", words: (v) => `a drop of ${v} at most, or more` });
  }
  const charges = model.grid.stores.map((s) => s.element.lowestCharge.low);
  if (charges.length > 0) {
    const now = Number((100 * Math.min(...charges)).toPrecision(6));
    const change = (percent: number): System => withLowestCharge(system, percent / 100);
    const base = { input: "charge", fact: "parts.lowest charge", unit: "%", now, step: 1, change } as const;
    list.push({ ...base, least: now, most: 100, way: "up", words: (v) => `every battery at ${v} or more` });
  }
  list.push({
    input: "insulation",
    fact: `${about}.insulation`,
    unit: "°C",
    now: circuit.insulationC.low,
    least: circuit.insulationC.low,
    most: 200,
    step: 5,
    way: "up",
    words: (v) => `insulation for ${v} or more`,
    change: (t) => withCircuit(system, index, { insulationC: exactly(t, "given") }),
  });
  const feeder = model.circuits[c.parent];
  if (feeder !== undefined) list.push(...lengthLevers(system, feeder.index, `${feeder.circuit.id} of `));
  return list;
}

function lengthLevers(system: System, index: number, of: string): Lever[] {
  const circuit = system.circuits[index];
  if (circuit === undefined || circuit.length.origin === "unknown" || !(circuit.length.high > 0)) return [];
  const now = circuit.length.high;
  const named = circuit.zones.reduce((sum, z) => sum + (typeof z.metres === "string" ? 0 : z.metres.high), 0);
  const base = {
    input: "length",
    fact: `circuits.${circuit.id}.length`,
    unit: "m",
    now,
    least: Math.max(named, now / 50),
    most: now * 6,
    change: (m: number): System => withLength(system, index, m),
  } as const;
  return [
    { ...base, way: "down", words: (v) => `${of}${v} or shorter, one way` },
    { ...base, way: "up", words: (v) => `${of}${v} or longer, one way` },
  ];
}
