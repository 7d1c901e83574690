import { readFileSync } from "node:fs";
import { join } from "node:path";
import { compile } from "../src/compile.ts";
import { coordinate } from "../src/coordinate/index.ts";
import { fillCase, layNetwork, studyFaults, studyHeat, type Settled } from "../src/size/index.ts";
import type { Row } from "./bench.ts";
import { makePlan } from "./make-plan.ts";
import { timeWork } from "./time.ts";

/** Faults of a build, what opens for them, and the heat of its wires, beside solving the whole network alone in each of its states. */
export function faultRows(): Row[] {
  const plans = [
    {
      name: "sloop",
      text: readFileSync(join(import.meta.dirname, "..", "examples", "sloop.yaml"), "utf8"),
      goalMs: null,
    },
    { name: "400 circuits", text: makePlan(400), goalMs: 100 },
  ] as const;
  return plans.flatMap(({ name, text, goalMs }): Row[] => {
    const { settled, runs, design } = compile(text);
    const beside = { what: "solving its network in each state", ms: timeWork(solveStates(settled), 1500).median };
    // What is studied once is kept by the settled build, so each run gets one of its own.
    const heatAll = (): void => {
      const heat = studyHeat({ ...settled }, runs, design);
      for (const { position } of settled.model.circuits) heat.circuit(position);
    };
    return [
      {
        work: `every fault in every state: ${name}`,
        ...timeWork(() => void studyFaults({ ...settled }), 2000),
        goalMs,
        beside,
      },
      {
        work: `faults and coordination: ${name}`,
        ...timeWork(() => void coordinate({ ...settled }), 2000),
        goalMs: null,
        beside,
      },
      { work: `heat of every conductor in every state: ${name}`, ...timeWork(heatAll, 2000), goalMs: null, beside },
    ];
  });
}

function solveStates({ model: { grid }, cases, weigher, chosen }: Settled): () => void {
  const draws = grid.draws.map(({ element, plus, minus }) => ({ id: element.id, plus, minus, law: element.law }));
  const laid = layNetwork(grid, () => true, draws);
  const ohms = Float64Array.from(grid.edges.keys(), (e) => weigher.ohmsOf(e, chosen.rungs));
  const states = cases
    .filter((c) => c.kind === "given")
    .map((one) => ({
      one,
      demand: Float64Array.from(grid.draws, ({ element }, d) => {
        const amps = one.drawAmps[d] ?? 0;
        return element.law === "amps" ? amps : amps * element.atVolts;
      }),
    }));
  return () => {
    for (const { one, demand } of states) laid.prepared.solve(fillCase(laid, grid, one, ohms, demand));
  };
}
