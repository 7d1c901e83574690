import { shownDrawing } from "../../act/wire-card/drawings.ts";
import { coordinate, type FaultDark } from "../../coordinate/index.ts";
import { drawTimeCurrent, plotCircuit } from "../../draw/time-current/index.ts";
import { studyFaults } from "../../size/study-faults.ts";
import { studyHeat } from "../../size/study-heat.ts";
import type { EndFault, FaultCourse, GreatestFault, LeastFault } from "../../size/fault-study.ts";
import type { Compiled } from "../../judge.ts";
import type { CircuitFaultsAnswer, FaultCase, FaultPlace, NamedDevice } from "./fault-answers.ts";
import { nameDevices, pairRow, partNames, terminalText } from "./name-faults.ts";

/** All that faults say of one circuit; null: there is no such circuit of direct current. */
export function circuitFaults({ system, runs, design, settled }: Compiled, id: string): CircuitFaultsAnswer | null {
  const index = system.circuits.findIndex((c) => c.id === id);
  const study = studyFaults(settled);
  const own = study.circuits[index] ?? null;
  const model = settled.model.circuits.find(({ circuit }) => circuit.id === id);
  if (own === null || model === undefined) return null;
  const { devices } = study;
  const names = nameDevices(devices);
  const named = (device: number): NamedDevice => names[device] ?? { name: "", about: "plan", what: "" };
  const partName = partNames(system);
  const { pairs, faults } = coordinate(settled);
  // One entry for every end that any current reaches, in their order.
  const dark = faults.filter(({ circuit }) => circuit === id);
  const reached = own.ends.filter(({ greatest }) => greatest !== null);
  const places = own.ends.map((end): FaultPlace => {
    const dim: FaultDark | undefined = dark[reached.indexOf(end)];
    return {
      conductor: end.conductor,
      end: end.end,
      terminal: terminalOf(settled, end),
      to: end.to,
      greatest: end.greatest === null ? null : caseOf(end.greatest, named, partName),
      least: end.least[0] === undefined ? null : caseOf(end.least[0], named, partName),
      cannotTell: end.cannotTell,
      dark: (dim?.dark ?? []).map(partName),
      mayOpen: (dim?.mayOpen ?? []).map((d) => named(d).name),
      mayBeDark: (dim?.mayBeDark ?? []).map(partName),
    };
  });
  const plot = plotCircuit(settled, id);
  const chain = new Set(own.ends.flatMap((end) => (end.greatest?.course.sees ?? []).map(({ device }) => device)));
  // The nearest device and those above it; of others that see the fault from elsewhere nothing is judged.
  const nearest = new Set(dark.flatMap(({ whole }) => whole));
  return {
    circuit: id,
    places,
    curves: plot === null ? null : shownDrawing(drawTimeCurrent(plot, { on: "screen" })),
    pairs: pairs
      .filter(({ upstream, downstream }) => nearest.has(downstream) && chain.has(upstream))
      .map((pair) => pairRow(pair, named, partName)),
    heat: studyHeat(settled, runs, design).circuit(model.position),
  };
}

function terminalOf({ model: { grid } }: Compiled["settled"], { conductor, end }: EndFault): string {
  const edge = grid.edges.find(({ id }) => id === conductor);
  return edge === undefined ? conductor : terminalText(grid.nodeNames[end === "from" ? edge.a : edge.b] ?? conductor);
}

/** A fault in words. */
function caseOf(
  fault: GreatestFault | LeastFault,
  named: (device: number) => NamedDevice,
  partName: (part: string) => string,
): FaultCase {
  const { amps, course } = fault;
  const isLeast = "sources" in fault;
  return {
    amps,
    sources: isLeast ? fault.sources.map(partName) : [],
    state: isLeast && fault.state !== "" ? fault.state : null,
    sees: seesOf(course, named),
    outcome: course.outcome,
    seconds: course.seconds,
    left: course.left.map(({ part, amps: on }) => ({ part: partName(part), amps: on })),
    mayOpenItself: isLeast && fault.opens !== null,
  };
}

function seesOf({ sees, opened }: FaultCourse, named: (device: number) => NamedDevice): FaultCase["sees"] {
  const order = new Map(opened.map(({ device }, i) => [device, i + 1]));
  return sees.map(({ device, amps, from, least, most, why }) => ({
    ...named(device),
    from: terminalText(from),
    amps,
    least,
    most,
    why,
    order: order.get(device) ?? null,
  }));
}
