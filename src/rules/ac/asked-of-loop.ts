import type { EarthFault, EarthFaultStudy } from "../../size/study-earth-faults-shapes.ts";

/** Faults whose loop is asked to let enough through: those of sources that do not limit their own current. */
export const stiffFaults = ({ sources }: EarthFaultStudy, faults: readonly EarthFault[]): readonly EarthFault[] =>
  // A generator or an inverter whose loop is open is no matter of a loop either.
  faults.filter((f) => f.limitedBy === null && sources[f.source]?.limit === null);

/** Whether a time is asked of a fault aboard, and can be held against what is published of its devices. */
export function isLoopAsked(fault: EarthFault, study: EarthFaultStudy): boolean {
  const { loop, limit, disconnection, devices, outcome } = fault;
  if (loop !== "closed" || limit === null || disconnection === null) return false;
  if (devices.length === 0 && study.sources[fault.source]?.from === "shore") return false;
  return outcome === "in time" || !isAmerican(study, fault);
}

/** Why of none of some faults a loop is asked. */
export function whyNoLoopIsAsked(faults: readonly EarthFault[], study: EarthFaultStudy): string {
  if (faults.length === 0) return "only sources that limit their own current feed it";
  if (faults.every((f) => f.loop === "no protective conductor"))
    return "it has no protective conductor, which ac/missing-protective-conductor tells";
  if (faults.every((f) => f.loop !== "closed")) return "neutral is joined to no earth, so that a fault of it drives no current"; // prettier-ignore
  if (faults.every((f) => f.devices.length === 0)) return "what protects it stands ashore";
  return faults.some((f) => isAmerican(study, f)) ? "no times of its breaker are published, and its rule set names none" : "no time is asked of it"; // prettier-ignore
}

/** Whether its set asks for no time and its breaker is one of which none is published. */
const isAmerican = ({ devices }: EarthFaultStudy, fault: EarthFault): boolean =>
  fault.limit?.binds === false &&
  fault.residual.length === 0 &&
  fault.devices.some((d) => devices[d]?.families.includes("branch_breaker") === true);
