import type { Settled } from "../../size/index.ts";
import type { System } from "../../system/index.ts";
import { solvedStandpoint } from "../../why/standpoint.ts";
import type { OneLineBuild } from "../one-line/index.ts";

/** What is lost in a circuit in a state, V, out and back together. */
export interface VoltsOnWay {
  readonly device: number;
  readonly wire: number;
}

/**
 * What a circuit's device and its wire lose in an operating state.
 *
 * @param settled what the design was settled with
 * @param state operating state
 * @returns null: it is not solved, or nothing flows there, or it carries alternating current
 */
export function voltsOnWay(build: OneLineBuild, settled: Settled, circuitId: string, state: string): VoltsOnWay | null {
  const index = build.system.circuits.findIndex(({ id }) => id === circuitId);
  const at = settled.cases.findIndex((one) => one.kind === "given" && one.name === state);
  const stand = index < 0 || at < 0 ? null : solvedStandpoint({ ...build, settled }, at);
  if (stand === null) return null;
  const ways = waysOf(build.system, circuitId);
  let [device, wire] = [0, 0];
  settled.model.grid.edges.forEach((edge, e) => {
    const isWay = edge.contact !== null && ways.has(edge.contact.id);
    if (edge.circuit !== index && !isWay) return;
    const volts = Math.abs(stand.voltsAt(edge.a) - stand.voltsAt(edge.b));
    const ohms = settled.weigher.ohmsOf(e, settled.chosen.rungs);
    // A way's own contact counts with the device that stands in it.
    const own = isWay ? ohms : (settled.devices.ohms[e] ?? 0);
    const inDevice = ohms <= 0 ? 0 : (volts * own) / ohms;
    device += inDevice;
    wire += volts - inDevice;
  });
  return device + wire > 0.0005 ? { device, wire } : null;
}

/** Contacts of the ways that a circuit begins or ends in. */
function waysOf(system: System, circuitId: string): ReadonlySet<string> {
  const circuit = system.circuits.find(({ id }) => id === circuitId);
  const ends = circuit === undefined ? [] : [circuit.from, circuit.to];
  return new Set(
    system.elements.flatMap((e) =>
      e.is === "contact" && ends.some(({ part, port }) => e.part === part && e.way === port) ? [e.id] : [],
    ),
  );
}
