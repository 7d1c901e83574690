import { cite, printCitation } from "../../explain/index.ts";
import { areaByEarthLoop, type LoopRung } from "../../protect/earth-fault/area-by-earth-loop.ts";
import { inSeries, NO_IMPEDANCE, type Impedance } from "../../protect/earth-fault/impedance.ts";
import { onPaper, stocked, type Constraint, type Design, type SizeOnPaper } from "../../size/index.ts";
import type { EarthFault, EarthFaultStudy, LoopPiece } from "../../size/study-earth-faults-shapes.ts";
import { resistancePerMetre20, type ConductorMake } from "../../wire/index.ts";
import { viewBuild, type Build, type Computed } from "../build.ts";
import { figure, printFigure } from "../figure.ts";
import { earthFaultsAt, earthFaultsOf } from "./as-designed.ts";
import { isLoopAsked, stiffFaults, whyNoLoopIsAsked } from "./asked-of-loop.ts";

const SOURCE = cite("iec-60364-4-41", "Table 41.1", "read");

/** What earth faults ask of the wires of a circuit of alternating current. */
export interface EarthLoopAnswer {
  readonly outcome: "met" | "not met" | "not stated" | "cannot tell";
  /** The figures, or why there are none. */
  readonly says: string;
  /** Faults that were asked, each of one source. */
  readonly faults: readonly EarthFault[];
}

/**
 * Tells whether the loop of a circuit lets enough through to open what guards it in time, for every source that does not limit its own current.
 *
 * @returns not stated: nothing is asked of its wires, and why
 */
export function earthLoopOf(build: Build, circuit: string): EarthLoopAnswer {
  const study = earthFaultsOf(build);
  const found = earthFaultsAt(build, circuit);
  if (found === undefined || found.faults.length === 0) return notStated("no source drives an earth fault through it");
  const stiff = stiffFaults(study, found.faults);
  const faults = stiff.filter((f) => isLoopAsked(f, study));
  if (faults.length === 0) return notStated(whyNoLoopIsAsked(stiff, study));
  const outcome = (["too late", "cannot tell"] as const).find((o) => faults.some((f) => f.outcome === o));
  return {
    outcome: outcome === "too late" ? "not met" : (outcome ?? "met"),
    says: faults
      .filter((f) => outcome === undefined || f.outcome === outcome)
      .map((f) => saysOf(f, study))
      .join("; "),
    faults,
  };
}

const notStated = (says: string): EarthLoopAnswer => ({ outcome: "not stated", says, faults: [] });

function saysOf(fault: EarthFault, study: EarthFaultStudy): string {
  const { zsHot, greatestLoop, isResidualInTime, outcome, residual, disconnection, untold } = fault;
  const from = study.sources[fault.source]?.part ?? "";
  if (isResidualInTime) {
    const parts = [...new Set(residual.flatMap((r) => study.residual[r]?.part ?? []))];
    return `fed by ${from}: the residual device of ${parts.join(" or ")} opens, whatever the wire`;
  }
  if (outcome === "cannot tell")
    return `fed by ${from}, not proven: ${missingOf(disconnection?.missing ?? null, untold)}`;
  if (zsHot === null || greatestLoop === null) return `fed by ${from}: nothing is sure to open what guards it in time`;
  const ohms = (x: number): string => printFigure(figure(x, "Ω"));
  return `fed by ${from}: ${ohms(zsHot)} of ${ohms(greatestLoop)}`;
}

/** What is not known of a fault, in words. */
export const missingOf = (
  missing: NonNullable<EarthFault["disconnection"]>["missing"],
  untold: readonly string[],
): string =>
  missing === "loop"
    ? `the loop of ${untold.join(", ")} is not known`
    : missing === "residual device"
      ? "the residual current of its device is not known"
      : missing === "device"
        ? "the rating or the kind of its device is not known"
        : "what is published of its device does not tell whether it opens in time at that current";

/**
 * A design with what earth faults ask of its sizes, each circuit alone. No size is chosen for it, as none is for shorts.
 *
 * The way before the circuit stays as it is; of the circuit's own conductors the protective one keeps its share of the line. Circuits of direct current are asked
 * for nothing.
 *
 * @source IEC 60364-4-41 411.4.4
 */
export function withEarthLoop(computed: Computed, design: Design = computed.design): Design {
  const build = viewBuild(computed);
  const circuits = design.circuits.map((circuit, index) => {
    if (circuit.constraints.length === 0) return circuit;
    const answer: Constraint =
      circuit.current === "AC"
        ? constraintOf(build, computed, index)
        : { id: "earth-loop", outcome: "not stated", alone: null, source: "", trust: null };
    return { ...circuit, constraints: circuit.constraints.map((k) => (k.id === "earth-loop" ? answer : k)) };
  });
  return { ...design, circuits };
}

function constraintOf(build: Build, computed: Computed, index: number): Constraint {
  const circuit = computed.design.circuits[index];
  const { outcome, faults } = earthLoopOf(build, circuit?.id ?? "");
  return {
    id: "earth-loop",
    outcome,
    alone: outcome === "met" || outcome === "not met" ? leastSize(computed, index, faults) : null,
    ...(outcome === "not stated"
      ? { source: "", trust: null }
      : { source: printCitation(SOURCE), trust: SOURCE.trust }),
  };
}

/** The least size on sale with which all faults open their devices in time; null: none is enough, or the way before is not known. */
function leastSize(
  { alternating, runs, design }: Computed,
  index: number,
  faults: readonly EarthFault[],
): SizeOnPaper | null {
  if (alternating == null) return null;
  const model = alternating.model.circuits[alternating.model.at[index] ?? -1];
  const stock = model === undefined ? null : stocked(alternating, runs, model);
  if (stock === null) return null;
  let most = 0;
  for (const fault of faults) {
    const rung = rungOf(fault, design.circuits[index]?.id ?? "", stock.ladder.makes);
    if (rung === null) return null;
    most = Math.max(most, rung);
  }
  return onPaper(stock, most);
}

function rungOf(fault: EarthFault, circuit: string, makes: readonly ConductorMake[]): number | null {
  const { pieces, inside, volts, voltsShare, disconnection, isResidualInTime } = fault;
  if (isResidualInTime) return 0;
  const own = pieces.filter((p) => p.circuit === circuit);
  const laid = own.find((p) => p.is !== "protective")?.laid;
  if (laid == null || inside === null || pieces.some((p) => p.laid === null)) return null;
  const as = sumOf(own);
  const now = resistancePerMetre20(laid.make).ohmsPerMetre;
  const rungs = makes.map((make): LoopRung => ({
    areaMm2: make.size.areaMm2,
    own: { r: (as.r * resistancePerMetre20(make).ohmsPerMetre) / now, x: as.x },
  }));
  const before = inSeries(inside, sumOf(pieces.filter((p) => p.circuit !== circuit)));
  const openingAmps = disconnection?.openingAmps ?? Infinity;
  return areaByEarthLoop({ volts, voltsShare, openingAmps, before, sourceAmps: null }, rungs);
}

const sumOf = (pieces: readonly LoopPiece[]): Impedance => inSeries(NO_IMPEDANCE, ...pieces.map((p) => p.range.hot));
