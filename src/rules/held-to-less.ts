import { ampacityAmps } from "../ampacity/index.ts";
import { celsius } from "../quantity/index.ts";
import type { ConductorMake } from "../wire/index.ts";
import type { Build, CircuitView } from "./build.ts";

/** The conductor that a circuit was computed with; null: not known, or not studied. */
export const computedMake = ({ settled }: Build, { model }: CircuitView): ConductorMake | null =>
  model?.rungs?.ladder.makes[settled.chosen.rungs[model.position] ?? 0] ?? null;

/**
 * What a circuit would carry if something did not hold it to less, all parallel conductors together, A.
 *
 * @param without the terminals at its ends, or the thermal insulation around it
 * @returns null where no size is known or no rule set rates it
 */
export function ampsWithout(build: Build, c: CircuitView, without: "terminals" | "insulation"): number | null {
  const { ruleSet, run, circuit } = c;
  const make = computedMake(build, c);
  if (ruleSet === null || make === null) return null;
  const rules = without === "terminals" ? { ...ruleSet.ampacity, terminals: null } : ruleSet.ampacity;
  const stretches = run.stretches.map((s) => ({
    ...s,
    ambientC: celsius(s.ambientC),
    ...(without === "insulation" ? { insulated: false } : {}),
  }));
  return circuit.parallel * ampacityAmps(rules, make, circuit.insulationC.low, stretches, run.installed);
}
