import { decimalText } from "../../quantity/decimal-text.ts";
import type { Plan } from "../../plan/index.ts";
import type { System } from "../../system/index.ts";
import { gravityOf, isUnjudged, type DrawnFinding } from "./drawn-finding.ts";
import type { Graph } from "./graph.ts";

/**
 * Findings that a drawing marks, by the thing on it that they are about, or by what they name where that is not on it.
 *
 * @param asDevice circuits of parts that stand in them as their device: what is found of such a part is marked there
 */
export function findingsByPlace(
  all: readonly DrawnFinding[],
  graph: Graph,
  asDevice: ReadonlyMap<string, string> = new Map(),
): Map<string, DrawnFinding[]> {
  const findings = new Map<string, DrawnFinding[]>();
  const known = new Set([...graph.parts.values(), ...graph.wires].map(({ about }) => about));
  for (const finding of all) {
    if (gravityOf(finding) === null || isUnjudged(finding)) continue;
    const own = placeOf(finding.about, known);
    const circuit = asDevice.get(own.slice("parts.".length));
    const about = circuit === undefined ? own : `circuits.${circuit}`;
    findings.set(about, [...(findings.get(about) ?? []), finding]);
  }
  return findings;
}

/** What each load takes while it runs, for print. */
export const runningAmps = (system: System): Map<string, string> =>
  new Map(
    system.elements.flatMap((e) => {
      const running = e.is === "draw" ? e.levels.find(({ name }) => name === "running") : undefined;
      return running === undefined || running.amps.origin === "unknown"
        ? []
        : [[e.part, ampsText(running.amps.high)] as const];
    }),
  );

const ampsText = (x: number): string => decimalText(x, { figures: x >= 100 ? 3 : 2 });

/** Parts in which alternating current flows. */
export const alternatingParts = (system: System): Set<string> =>
  new Set(system.parts.filter(({ current }) => current === "AC").map(({ id }) => id));

/** Parts that circuits name as their fuse or breaker, and in which: they are drawn as such. */
export function devicesByName(plan: Plan): Map<string, string> {
  const names = new Map<string, string>();
  for (const { key, facts } of plan.circuits) {
    for (const fact of [facts.fuse, facts.breaker]) {
      if (fact === undefined || fact.value === "unknown") continue;
      for (const { value } of fact.value) if (value !== "unknown" && value.is === "part") names.set(value.part, key);
    }
  }
  return names;
}

/** What of a build no drawing has a place for, in words. */
export function lostOf(graph: Graph, shown: ReadonlySet<string>, plan: Plan): string[] {
  const asDevice = devicesByName(plan);
  const parts = [...graph.parts.values()]
    .filter(({ about, id }) => !shown.has(about) && !asDevice.has(id))
    .map(({ label, called }) => `${label}${called === null ? "" : ` ${called}`}: no circuit reaches it`);
  const wires = graph.wires.filter(({ about }) => !shown.has(about));
  return [...parts, ...wires.map(({ number, size, length }) => `${number} ${size}, ${length}`)];
}

/** The thing that a key path is about: itself, or the circuit or part that it belongs to. */
function placeOf(about: string, known: ReadonlySet<string>): string {
  for (let end = about.length; end > 0; end = about.lastIndexOf(".", end - 1)) {
    const path = about.slice(0, end);
    if (known.has(path)) return path;
  }
  return about;
}
