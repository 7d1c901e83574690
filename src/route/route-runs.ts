import type { Diagnostic, Told } from "../diagnostic.ts";
import {
  loadedConductors,
  straightDistance,
  type System,
  type SystemCircuit,
  type Value,
  type Zone,
} from "../system/index.ts";
import { celsius } from "../quantity/index.ts";
import type { Run, ShortRun, Runs, Stretch } from "./runs.ts";

/** Air in an engine space that states none; the engine-space factors of the small-craft tables are those of 50 °C (derived). */
const ENGINE_SPACE_C = 50;

/**
 * Cuts each circuit's run by zone and says for each stretch how hot its air is and how many loaded conductors lie with it. Lengths are
 * those given: nothing is routed yet.
 *
 * @returns one run for each circuit, in the order of the plan
 */
export function routeRuns(system: System): Told<Runs> {
  const diagnostics: Diagnostic[] = [];
  const zones = new Map(system.zones.map((z) => [z.id, z]));
  const positions = new Map(system.parts.map((p) => [p.id, p.position]));
  const runs = system.circuits.map((circuit) => {
    const straightM = straightDistance(positions.get(circuit.from.part), positions.get(circuit.to.part));
    // A hand's breadth of measuring error is not worth a message.
    if (straightM !== undefined && circuit.length.origin === "given" && circuit.length.high < straightM - 0.05) {
      diagnostics.push(tooShort(circuit, straightM));
    }
    return {
      circuit: circuit.id,
      lengthM: circuit.length,
      ...(straightM === undefined ? {} : { straightM }),
      stretches: cutByZone(circuit, zones, system, diagnostics),
      loaded: loadedConductors(circuit),
      installed: installedOf(circuit),
    };
  });
  return { value: { runs }, diagnostics };
}

/** How it lies and ends, as far as the plan says it; what it does not say the rule set takes as usual. */
function installedOf(circuit: SystemCircuit): Run["installed"] {
  const { method, terminals, sheathed, parallel } = circuit;
  return {
    ...(method === undefined ? {} : { method }),
    sheathed: sheathed === true,
    loaded: loadedConductors(circuit) / parallel,
    // Of a range, and of terminals that nobody knows, the coolest.
    ...(terminals === undefined ? {} : { terminalsC: celsius(terminals.low) }),
  };
}

function tooShort(circuit: SystemCircuit, straightM: number): Diagnostic {
  const short: ShortRun = { lengthM: circuit.length.high, straightM };
  return {
    id: "route/shorter-than-straight",
    level: "warning",
    at: [circuit.lengthSpan ?? circuit.keySpan],
    about: `circuits.${circuit.id}.length`,
    message: `\`${circuit.id}\` is ${round(short.lengthM)} m long, its ends are ${round(straightM)} m apart in a straight line`,
    hint: "measure the run along the hull, or mend a position",
    data: { ...short },
  };
}

const round = (m: number): number => Math.round(m * 100) / 100;

function cutByZone(
  circuit: SystemCircuit,
  zones: ReadonlyMap<string, Zone>,
  system: System,
  diagnostics: Diagnostic[],
): Stretch[] {
  const own = loadedConductors(circuit);
  const bundleIn = (zone: string | undefined): number => {
    const { bundle } = circuit;
    if (bundle === "own") return own;
    if (typeof bundle === "number") return bundle;
    return bundle.find((b) => b.zone === zone)?.count ?? bundle.find((b) => b.zone === "rest")?.count ?? own;
  };
  const stretch = (name: string | undefined, lengthM: Value): Stretch => {
    const zone = name === undefined ? undefined : zones.get(name);
    const engine = zone?.engine ?? false;
    const ambient = circuit.ambient ?? zone?.ambient;
    return {
      ...(name === undefined ? {} : { zone: name }),
      lengthM,
      engineSpace: engine,
      ambientC: ambient?.high ?? (engine ? Math.max(ENGINE_SPACE_C, system.ambient.high) : system.ambient.high),
      ambientStated: ambient !== undefined,
      bundle: bundleIn(name),
      insulated: zone?.kinds.includes("insulated") ?? false,
      buried: name === "buried" || (zone?.kinds.includes("buried") ?? false),
      onRoof: zone?.kinds.includes("on roof") ?? false,
    };
  };

  const { length } = circuit;
  const several = circuit.zones.filter((z) => z.metres === "rest").length;
  // Metres are missing: the whole run may lie there, so each such zone is taken over the whole length, and the hottest counts for all.
  if (circuit.zones.some((z) => z.metres === "some") || several > 1) {
    const all = circuit.zones.map((z) => stretch(z.zone, length));
    // The hottest air of them all, and engine space if any of them is.
    const hottest = all.reduce((a, b) => (b.ambientC > a.ambientC ? b : a));
    const worst: Stretch = {
      ...hottest,
      engineSpace: all.some((s) => s.engineSpace),
      bundle: Math.max(...all.map((s) => s.bundle)),
      insulated: all.some((s) => s.insulated),
      buried: all.some((s) => s.buried),
      onRoof: all.some((s) => s.onRoof),
      ...(circuit.zones.some((z) => z.metres === "some") ? { metresMissing: true as const } : {}),
    };
    return [worst];
  }
  const stretches: Stretch[] = [];
  let named = 0;
  for (const { zone, metres } of circuit.zones) {
    if (typeof metres === "string") continue;
    named += metres.high;
    stretches.push(stretch(zone, metres));
  }
  if (named > length.high + 0.005 && length.origin === "given") {
    diagnostics.push({
      id: "route/zones-longer-than-run",
      level: "warning",
      at: [circuit.lengthSpan ?? circuit.keySpan],
      about: `circuits.${circuit.id}.zones`,
      message: `the zones of \`${circuit.id}\` add up to ${round(named)} m, its run is ${round(length.high)} m`,
      hint: "mend the metres of a zone, or write `rest` for one of them",
    });
  }
  const left = Math.max(0, length.high - named);
  const rest = circuit.zones.find((z) => z.metres === "rest");
  if (left > 1e-9 || stretches.length === 0) {
    stretches.push(stretch(rest?.zone, { low: Math.max(0, length.low - named), high: left, origin: length.origin }));
  }
  return stretches;
}
