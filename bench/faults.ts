import { readFileSync } from "node:fs";
import { join } from "node:path";
import { compile } from "../src/compile.ts";
import { studyFaults } from "../src/size/study-faults.ts";
import { fillCase, layNetwork, type Settled } from "../src/size/index.ts";
import type { Row } from "./bench.ts";
import { makePlan } from "./make-plan.ts";
import { timeWork } from "./time.ts";

/** Every fault of a build in all its states, beside solving the whole network alone in each of those states. */
export function faultRows(): Row[] {
  const plans = [
    {
      name: "sloop",
      text: readFileSync(join(import.meta.dirname, "..", "examples", "sloop.yaml"), "utf8"),
      goalMs: null,
    },
    { name: "400 circuits", text: makePlan(400), goalMs: 100 },
  ] as const;
  return plans.map(({ name, text, goalMs }): Row => {
    const { settled } = compile(text);
    const beside = { what: "solving its network in each state", ms: timeWork(solveStates(settled), 1500).median };
    // What is studied once is kept by the settled build, so each run gets one of its own.
    return {
      work: `every fault in every state: ${name}`,
      ...timeWork(() => void studyFaults({ ...settled }), 2000),
      goalMs,
      beside,
    };
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
