import { routeRuns } from "../route/index.ts";
import { settleDesign, type Design } from "../size/index.ts";
import { settle } from "../size/settle.ts";
import { exactly, type Draw, type System, type SystemCircuit } from "../system/index.ts";
import type { WireSize } from "../wire/index.ts";
import type { Built } from "./built.ts";
import type { Change } from "./explanation.ts";

/** A size that a circuit would have, as a label; null: nothing on sale is enough. */
type Answer = string | null;

/** The build with some circuits at another size and all others held at theirs. */
export function designWith({ system, settled }: Built, sizes: ReadonlyMap<string, WireSize>): Design {
  const circuits = system.circuits.map((circuit, index): SystemCircuit => {
    const position = settled.model.at[index] ?? -1;
    const rungs = settled.model.circuits[position]?.rungs;
    const now = rungs?.ladder.makes[settled.chosen.rungs[position] ?? 0]?.size;
    const size = sizes.get(circuit.id) ?? now;
    return size === undefined || circuit.size === "unknown" ? circuit : { ...circuit, size };
  });
  const changed = { ...system, circuits };
  return settleDesign(changed, routeRuns(changed).value).design;
}

/** Size that a circuit gets when the build is changed and everything is chosen anew. */
function sizeIn(system: System, index: number): Answer {
  const settled = settle(system, routeRuns(system).value);
  const i = settled.model.at[index] ?? -1;
  const rungs = settled.model.circuits[i]?.rungs;
  if (rungs === undefined || rungs === null || settled.chosen.short[i] === 1) return null;
  return rungs.ladder.makes[settled.chosen.rungs[i] ?? 0]?.size.label ?? null;
}

/** A fact that is moved until the answer is another one. */
interface Lever {
  readonly fact: string;
  readonly unit: string;
  readonly now: number;
  readonly least: number;
  readonly most: number;
  readonly way: "up" | "down";
  readonly words: (value: string) => string;
  readonly change: (value: number) => System;
}

/**
 * From which length, current or ambient on a circuit would get another size, everything else chosen anew. Each end is found by settling the whole
 * build again: the value before it still has the present answer, the value itself has the other.
 *
 * @param index of the circuit in the system
 */
export function findChanges(built: Built, index: number): Change[] {
  const now = sizeIn(built.system, index);
  return levers(built, index).flatMap((lever): Change[] => {
    const found = search(lever, now, (value) => sizeIn(lever.change(value), index));
    if (found === null) return [];
    const { fact, unit, words } = lever;
    const text = `${round(found.value)} ${unit}`;
    return [
      {
        fact,
        unit,
        when: words(text),
        then: found.answer ?? "no size on sale is enough",
        value: round(found.value),
        until: round(found.until),
      },
    ];
  });
}

/** Steps of a scale that people read: about a hundredth of the value, and 1, 2 or 5 of some power of ten. */
function stepFor(value: number): number {
  const raw = value / 100;
  const power = 10 ** Math.floor(Math.log10(raw));
  return ([1, 2, 5].find((k) => k * power >= raw * (1 - 1e-9)) ?? 10) * power;
}

const round = (x: number): number => Number(x.toPrecision(6));

function search(
  { now, least, most, way }: Lever,
  answer: Answer,
  ask: (value: number) => Answer,
): { value: number; until: number; answer: Answer } | null {
  if (!(now > 0)) return null;
  const step = stepFor(now);
  const sign = way === "up" ? 1 : -1;
  // In whole steps from the scale's nought, so that ends are figures as people write them.
  const first = way === "up" ? Math.floor(now / step + 1e-9) : Math.ceil(now / step - 1e-9);
  const last = Math.round((way === "up" ? most : least) / step);
  const at = (k: number): number => (first + sign * k) * step;
  const end = Math.abs(last - first);
  let same = 0;
  let other = -1;
  let found: Answer = null;
  for (let k = 1; same < end; k = Math.min(2 * k, end)) {
    const here = ask(at(k));
    if (here !== answer) {
      other = k;
      found = here;
      break;
    }
    same = k;
  }
  if (other < 0) return null;
  while (other - same > 1) {
    const middle = (same + other) >> 1;
    const here = ask(at(middle));
    if (here === answer) same = middle;
    else {
      other = middle;
      found = here;
    }
  }
  return { value: at(other), until: same === 0 ? now : at(same), answer: found };
}

function levers({ system, runs, settled }: Built, index: number): Lever[] {
  const circuit = system.circuits[index];
  const run = runs.runs[index];
  const model = settled.model.circuits[settled.model.at[index] ?? -1];
  if (circuit === undefined || run === undefined || model === undefined) return [];
  const list: Lever[] = [];
  const about = `circuits.${circuit.id}`;
  const withCircuit = (change: Partial<SystemCircuit>): System => ({
    ...system,
    circuits: system.circuits.map((c, i) => (i === index ? { ...c, ...change } : c)),
  });

  if (circuit.length.origin !== "unknown" && circuit.length.high > 0) {
    const now = circuit.length.high;
    const named = circuit.zones.reduce((sum, z) => sum + (typeof z.metres === "string" ? 0 : z.metres.high), 0);
    const change = (m: number): System =>
      withCircuit({
        length: exactly(m, "given"),
        conductors: circuit.conductors.map((c) => ({ ...c, length: exactly((c.length.high / now) * m, "given") })),
      });
    const base = { fact: `${about}.length`, unit: "m", now, least: Math.max(named, now / 50), most: now * 6, change };
    list.push({ ...base, way: "down", words: (v) => `${v} or shorter, one way` });
    list.push({ ...base, way: "up", words: (v) => `${v} or longer, one way` });
  }
  const loads = model.judged.filter((j) => j.draw >= 0);
  const draw = loads.length === 1 ? settled.model.grid.draws[loads[0]?.draw ?? -1] : undefined;
  if (draw !== undefined && draw.inverter === null) {
    for (const level of draw.element.levels) {
      const change = (amps: number): System => withLevel(system, draw.element, level.name, amps);
      const fact = `parts.${draw.element.part}.${level.name}`;
      const words = (v: string): string =>
        `${draw.element.part} ${level.name === "running" ? "takes" : level.name === "starting" ? "starts with" : "transmits with"} ${v} or more`;
      list.push({
        fact,
        unit: "A",
        now: level.amps.high,
        least: 0,
        most: level.amps.high * 8,
        way: "up",
        words,
        change,
      });
    }
  }
  if (model.demand !== null) {
    const now = model.demand;
    const change = (amps: number): System => withCircuit({ demand: exactly(amps, "given") });
    const base = { fact: `${about}.demand`, unit: "A", now, least: now / 20, most: now * 6, change };
    list.push({ ...base, way: "up", words: (v) => `a demand of ${v} or more` });
    list.push({ ...base, way: "down", words: (v) => `a demand of ${v} or less` });
  }
  const hottest = Math.max(...run.stretches.map((s) => s.ambientC));
  list.push({
    fact: `${about}.ambient`,
    unit: "°C",
    now: hottest,
    least: 0,
    most: circuit.insulationC.low,
    way: "up",
    words: (v) => `air of ${v} or more along all of it`,
    change: (c) => withCircuit({ ambient: exactly(c, "given") }),
  });
  return list;
}

/** The build with one level of one load moved. */
function withLevel(system: System, draw: Draw, name: string, amps: number): System {
  return {
    ...system,
    elements: system.elements.map((e) =>
      e.is === "draw" && e.id === draw.id
        ? { ...e, levels: e.levels.map((l) => (l.name === name ? { ...l, amps: exactly(amps, "given") } : l)) }
        : e,
    ),
  };
}
