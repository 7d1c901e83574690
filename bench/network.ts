import type { DcElement, DcNetwork } from "../src/network/dc-network.ts";
import { prepareDc } from "../src/network/prepare-dc.ts";
import { prepareLdlt } from "../src/network/sparse-ldlt.ts";

/** One thing to be timed: `prepare` does what is not timed and returns what is. */
export interface BenchCase {
  readonly name: string;
  /** Median of a warm run, ms. */
  readonly goalMs: number;
  /** How many of the thing one call does, where one alone would be too short to time. */
  readonly times: number;
  readonly prepare: () => () => void;
}

/** A sequence of numbers in 0…1, the same for the same seed. */
function seeded(seed: number): () => number {
  let s = seed >>> 0;
  return () => {
    s = (Math.imul(s, 1664525) + 1013904223) >>> 0;
    return s / 4294967296;
  };
}

/**
 * A build as it is wired: a bank of units in parallel on bus bars, a charger, panels of up to 40 circuits, each circuit with a
 * fuse and a lead out and back, now and then a structure as a second return.
 *
 * @param kind of the loads: amperes only, or half of them constant power, and a converter for every 20 circuits
 */
export function makeBuild(circuits: number, kind: "linear" | "full", seed = 1): DcNetwork {
  const random = seeded(seed);
  const elements: DcElement[] = [];
  const resistor = (id: string, a: string, b: string, ohms: number) =>
    elements.push({ kind: "resistor", id, a, b, ohms });
  const units = 4;
  for (let u = 0; u < units; u++) {
    elements.push({ kind: "store", id: `B${u}`, plus: `B${u}+`, minus: `B${u}-`, volts: 13.1 + 0.02 * u, ohms: 0.002 });
    resistor(`B${u} lead+`, `B${u}+`, "bus+", 2e-4 * (1 + random()));
    resistor(`B${u} lead-`, `B${u}-`, "bus-", 2e-4 * (1 + random()));
  }
  elements.push({ kind: "feed", id: "charger", plus: "charger+", minus: "charger-", volts: 13.4, amps: 60 });
  resistor("charger lead+", "charger+", "bus+", 2e-3);
  resistor("charger lead-", "charger-", "bus-", 2e-3);
  const panels = Math.ceil(circuits / 40);
  // Feeders stout enough that any number of panels stands.
  const feeder = 4e-3 / Math.max(1, circuits / 400);
  for (let p = 0; p < panels; p++) {
    resistor(`P${p} feeder+`, "bus+", `P${p}+`, feeder);
    resistor(`P${p} feeder-`, "bus-", `P${p}-`, feeder);
  }
  for (let k = 0; k < circuits; k++) {
    const p = Math.floor(k / 40);
    const ohms = 0.01 + 0.05 * random();
    resistor(`W${k} fuse`, `P${p}+`, `W${k}f`, 2e-3);
    resistor(`W${k} out`, `W${k}f`, `W${k}+`, ohms);
    resistor(`W${k} back`, `W${k}-`, `P${p}-`, ohms);
    if (k % 50 === 7) resistor(`W${k} frame`, `W${k}-`, "bus-", 0.02);
    const amps = (0.2 + 3 * random()) * Math.min(1, 400 / circuits);
    const port = { plus: `W${k}+`, minus: `W${k}-` };
    if (kind === "full" && k % 20 === 3) {
      const out = { plus: `W${k}o`, minus: `W${k}n` };
      elements.push({
        kind: "converter",
        id: `C${k}`,
        in: port,
        out,
        volts: 24,
        amps: 3,
        efficiency: 0.9,
        idleWatts: 0.5,
        input: "as needed",
      });
      resistor(`C${k} lead`, `W${k}o`, `W${k}x`, 0.05);
      elements.push({ kind: "draw", id: `L${k}`, plus: `W${k}x`, minus: `W${k}n`, law: { watts: amps * 12 } });
    } else
      elements.push({
        kind: "draw",
        id: `L${k}`,
        ...port,
        law: kind === "full" && k % 2 === 0 ? { watts: amps * 12 } : { amps },
      });
  }
  return { elements, ground: "bus-" };
}

function resolveCase(name: string, network: DcNetwork, goalMs: number): BenchCase {
  return {
    name,
    goalMs,
    times: 1,
    prepare: () => {
      const prepared = prepareDc(network);
      const values = prepared.values();
      let turn = 0;
      return () => {
        // A resistance changes from one time to the next, as when a size is tried.
        turn = (turn + 1) % values.ohms.length;
        const ohms = values.ohms[turn] ?? 0;
        values.ohms[turn] = ohms * 1.1;
        prepared.solve(values);
        values.ohms[turn] = ohms;
      };
    },
  };
}

function firstCase(name: string, network: DcNetwork, goalMs: number): BenchCase {
  return { name, goalMs, times: 1, prepare: () => () => void prepareDc(network).solve() };
}

/** A tree with ties, as a pattern for the factorisation alone. */
function factoringCases(nodes: number): readonly BenchCase[] {
  const random = seeded(3);
  const from = Array.from({ length: nodes - 1 }, (_, i) => i + 1);
  const to = from.map((i) => Math.floor(random() * i));
  for (let t = 0; t < nodes / 20; t++) {
    from.push(Math.floor(random() * nodes));
    to.push(Math.floor(random() * nodes));
  }
  const make = () => {
    const ldlt = prepareLdlt(nodes, Int32Array.from(from), Int32Array.from(to));
    from.forEach((a, e) => {
      const slot = ldlt.slots[e] ?? -1;
      if (slot < 0) return;
      for (const row of [a, to[e] ?? 0]) ldlt.diagonal[row] = (ldlt.diagonal[row] ?? 0) + 1;
      ldlt.beside[slot] = (ldlt.beside[slot] ?? 0) - 1;
    });
    ldlt.diagonal[0] = (ldlt.diagonal[0] ?? 0) + 1;
    return ldlt;
  };
  return [
    { name: `order and pattern, ${nodes} nodes`, goalMs: 3, times: 1, prepare: () => () => void make() },
    {
      name: `factor, ${nodes} nodes`,
      goalMs: 0.5,
      times: 1,
      prepare: () => {
        const ldlt = make();
        return () => void ldlt.factor();
      },
    },
    {
      name: `solve, ${nodes} nodes`,
      goalMs: 0.1,
      times: 1,
      prepare: () => {
        const ldlt = make();
        ldlt.factor();
        const b = new Float64Array(nodes);
        return () => {
          b.fill(1);
          ldlt.solve(b);
        };
      },
    },
  ];
}

function respondCase(name: string, network: DcNetwork, goalMs: number): BenchCase {
  const times = 1000;
  return {
    name,
    goalMs,
    times,
    prepare: () => {
      const prepared = prepareDc(network);
      prepared.solve();
      const index = new Map(prepared.nodes.map((id, i) => [id, i]));
      const element = new Map(prepared.elements.map((id, i) => [id, i]));
      const loads = prepared.nodes.filter((id) => /^W\d+\+$/.test(id)).map((id) => id.slice(0, -1));
      const cases = loads.map((w) => ({
        nodes: [index.get(`${w}+`) ?? 0, index.get(`${w}-`) ?? 0],
        elements: [element.get(`${w} out`) ?? 0, element.get(`${w} fuse`) ?? 0],
      }));
      const volts = new Float64Array(2);
      const amps = new Float64Array(2);
      let turn = 0;
      return () => {
        for (let i = 0; i < times; i++) {
          const one = cases[turn++ % cases.length];
          if (one !== undefined)
            prepared.respond(one.nodes[0] ?? 0, one.nodes[1] ?? 0, one.nodes, one.elements, volts, amps);
        }
      };
    },
  };
}

// 330 circuits have 1,000 nodes, 5,000 have 15,000.
export const networkCases: readonly BenchCase[] = [
  ...factoringCases(1000),
  firstCase("first answer, 1,000 nodes, linear", makeBuild(330, "linear"), 5),
  resolveCase("solved again, 1,000 nodes, linear", makeBuild(330, "linear"), 1),
  resolveCase("a state of 1,000 nodes with converters and constant power", makeBuild(330, "full"), 10),
  firstCase("first answer, 15,000 nodes", makeBuild(5000, "full"), 150),
  resolveCase("solved again, 15,000 nodes, linear", makeBuild(5000, "linear"), 15),
  resolveCase("solved again, 15,000 nodes, converters and constant power", makeBuild(5000, "full"), 15),
  respondCase("1,000 loads alone by path, 15,000 nodes", makeBuild(5000, "full"), 10),
];
