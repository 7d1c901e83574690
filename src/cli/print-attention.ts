import type { CircuitDesign, Design } from "../size/index.ts";
import { wrap } from "./text-width.ts";

/** What each unmet constraint means at sea, before its name. */
const danger: Readonly<Record<string, string>> = {
  ampacity: "the wire runs hotter than its insulation bears",
  drop: "too much voltage is lost on the way",
  start: "it may not start",
  "least-volts": "it may cut out",
  device: "the device does not guard the wire",
  mechanical: "the wire is thinner than the rules allow",
};

function unmet(circuit: CircuitDesign): string[] {
  const bad = circuit.constraints.filter((c) => c.outcome === "not met");
  const who = `${circuit.id} (${circuit.from} → ${circuit.to})`;
  if (bad.length === 0)
    return circuit.nothingIsEnough
      ? [`${who}: no size on sale is enough; ${circuit.size?.label ?? "none"} is the largest`]
      : [];
  const what =
    circuit.outcome === "chosen"
      ? "no size on sale is enough"
      : `${circuit.size?.label ?? ""} ${circuit.outcome === "found" ? "as found" : "as pinned"}`;
  return bad.map(({ id, alone }) => {
    const asked = alone === null ? "nothing on sale meets it" : `it asks for ${alone.label}`;
    return `${who}: ${danger[id] ?? "not met"} (${what}; ${id}: ${asked})`;
  });
}

/**
 * What a reader has to look at before anything else: wires that do not meet what is asked of them, loads that nothing reaches, loads that
 * the network cannot bear. Empty where all is well.
 */
export function printAttention(design: Design, width: number): string[] {
  const items = [
    ...(design.settled
      ? []
      : [`the sizes did not come to rest: ${design.unsettled.join(", ")}; take nothing below as final`]),
    ...design.circuits.flatMap(unmet),
    ...design.circuits.flatMap((c) =>
      c.devices
        .filter((d) => d.by === "proposed" && d.ratingA === null)
        .map((d) => `${c.id}: no device on sale carries its current at ${d.at}`),
    ),
    ...design.states.flatMap(({ id, dead, collapses, converged }) => [
      ...(converged ? [] : [`state \`${id}\`: no operating point was found; its figures are not to be used`]),
      ...dead.map((load) => `state \`${id}\`: \`${load}\` is on and no source reaches it`),
      ...collapses.map(({ load, says }) => `state \`${id}\`: \`${load}\` ${says}`),
    ]),
  ];
  if (items.length === 0) return [];
  return ["Look at these first", ...items.flatMap((item) => wrap(`! ${item}`, width, 2))];
}
