import { studyAlternating } from "../../size/study-alternating.ts";
import type { AlternatingStudy } from "../../size/study-alternating-shape.ts";
import { studyEarthFaults } from "../../size/study-earth-faults.ts";
import type { SizesOf } from "../../size/study-earth-faults-feeding.ts";
import { statedSizes } from "../../size/study-earth-faults-metal.ts";
import type { CircuitEarthFaults, EarthFaultStudy } from "../../size/study-earth-faults-shapes.ts";
import { exactly, type GivenDevice, type SystemCircuit } from "../../system/index.ts";
import { stockedSizes, type WireSize } from "../../wire/index.ts";
import type { Build } from "../build.ts";

/** Volts and currents of the alternating side in each state of the plan. */
export const alternatingOf = (build: Build): AlternatingStudy => studyAlternating(build);

const studies = new WeakMap<Build["design"], EarthFaultStudy>();
const byCircuit = new WeakMap<EarthFaultStudy, ReadonlyMap<string, CircuitEarthFaults>>();

/** Earth faults with the sizes and the devices that the design came to, where the plan leaves them open. */
export function earthFaultsOf(build: Build): EarthFaultStudy {
  let study = studies.get(build.design);
  if (study === undefined) {
    const { system, design } = build;
    const circuits = system.circuits.map((c, i) => withDevices(c, design.circuits[i]));
    const sizesOf: SizesOf = (circuit, i) => statedSizes(circuit) ?? allAlike(design.circuits[i]?.size?.label);
    study = studyEarthFaults({ model: { system: { ...system, circuits } } }, sizesOf);
    studies.set(build.design, study);
  }
  return study;
}

/** What the study says of a circuit. */
export function earthFaultsAt(build: Build, circuit: string): CircuitEarthFaults | undefined {
  const study = earthFaultsOf(build);
  let map = byCircuit.get(study);
  if (map === undefined) byCircuit.set(study, (map = new Map(study.circuits.map((c) => [c.circuit, c]))));
  return map.get(circuit);
}

function withDevices(circuit: SystemCircuit, row: Build["design"]["circuits"][number] | undefined): SystemCircuit {
  if (circuit.current !== "AC" || circuit.devices !== "propose") return circuit;
  const devices = (row?.devices ?? []).flatMap((d): GivenDevice[] =>
    d.ratingA === null || d.family === null
      ? []
      : [
          {
            kind: d.kind,
            rating: exactly(d.ratingA, "derived"),
            family: d.family,
            end: d.end,
            distance: exactly(d.distanceM, "derived"),
          },
        ],
  );
  return devices.length === 0 ? circuit : { ...circuit, devices };
}

const everySize = new Map<string, WireSize>(
  (["mm²", "AWG", "kcmil", "SAE"] as const).flatMap((system) => stockedSizes(system)).map((s) => [s.label, s]),
);

/** Cores of a circuit whose cable is not bought yet are all of one size. */
function allAlike(label: string | undefined) {
  const size = label === undefined ? undefined : everySize.get(label);
  return size === undefined ? null : { live: size, protective: size, isProtectiveTold: true };
}
