import { ampacity } from "../ampacity/index.ts";
import { celsius } from "../quantity/index.ts";
import type { Settled } from "../size/index.ts";
import type { CircuitView } from "./build.ts";

/** What a wire of unknown insulation would carry if it were the best that it may be; 0 where the insulation is known. */
export function bestAmpacity(settled: Settled, { circuit, run, ruleSet, model }: CircuitView): number {
  const make = model?.rungs?.ladder.makes[settled.chosen.rungs[model.position] ?? 0];
  const { low, high } = circuit.insulationC;
  if (ruleSet === null || make === undefined || !(low < high)) return 0;
  const stretches = run.stretches.map((s) => ({ ...s, ambientC: celsius(s.ambientC) }));
  return (
    circuit.parallel *
    (ampacity({ ruleSet, make, insulationC: celsius(high), installed: run.installed, stretches }).amps ?? 0)
  );
}
