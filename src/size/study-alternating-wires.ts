import { conductorImpedance, type Raceway } from "../network/alternating/index.ts";
import { known, type Fact, type Plan, type WrittenCable } from "../plan/index.ts";
import type { InstallMethod } from "../ruleset/index.ts";
import type { Fn, Supply, System, SystemCircuit } from "../system/index.ts";
import { stockedSizes, type WireSize } from "../wire/index.ts";
import type { Design } from "./design.ts";
import { makeOf } from "./ladder.ts";
import { JOINT_OHMS } from "./model.ts";

/** A conductor of an alternating circuit with its impedance from end to end. */
export interface WireAt {
  readonly id: string;
  readonly circuit: string;
  readonly fn: Fn;
  readonly from: string;
  readonly to: string;
  readonly ohms: number;
  readonly reactance: number;
  /** Its size is not known, and only its joints count. */
  readonly isUntold: boolean;
}

/** The lead that stands before an inlet. */
export interface LeadAt {
  readonly metres: number | null;
  readonly label: string | null;
  readonly layers: number | null;
  readonly ohms: number;
  readonly reactance: number;
  /** What is missing of it; null: nothing. */
  readonly untold: string | null;
}

/** The wires of the alternating side of a build, the same in every moment. */
export interface AlternatingWires {
  readonly conductors: readonly WireAt[];
  /** By inlet; an inlet of which no lead is stated is not in it. */
  readonly leads: ReadonlyMap<string, LeadAt>;
  readonly untold: readonly { readonly circuit: string; readonly why: string }[];
  readonly supplyAt: (terminal: string) => Supply | undefined;
  readonly hertz: number;
  readonly hertzStated: boolean;
}

/** Frequency where the plan states none, Hz: the one at which reactance is the greater. */
const USUAL_HERTZ = 60;
/** Metal of a lead in use whose cable says no temperature, °C: that of PVC and of ordinary rubber. */
const LEAD_C = 60;

const SHEATHED = new Set<InstallMethod | "unknown">(["A2", "B2", "C", "D", "E", "cable", "cord"]);

/** Single wires in a pipe of which nobody says what it is made of count as in PVC, and so do wires in air, whose nearest published reactance that is. */
const racewayOf = ({ method, sheathed }: SystemCircuit): Raceway =>
  sheathed === true || (method !== undefined && SHEATHED.has(method)) ? "cable" : "PVC";

const everySize = (["mm²", "AWG", "kcmil", "SAE"] as const).flatMap((system) => stockedSizes(system));

/** Works out the impedance of every conductor: size and temperature as designed, else as the plan says; the temperature that its insulation bears where no current was worked out. */
export function alternatingWires(plan: Plan, system: System, design: Pick<Design, "circuits">): AlternatingWires {
  const stated = system.supplies.find((s) => s.current === "AC" && s.hertz !== undefined)?.hertz;
  const hertz = stated ?? USUAL_HERTZ;
  const untold: { circuit: string; why: string }[] = [];
  const designed = new Map(design.circuits.map((c) => [c.id, c]));
  const supplies = new Map(system.supplies.map((s) => [s.id, s]));
  const byTerminal = new Map<string, Supply>();
  const conductors = system.circuits.flatMap((circuit): WireAt[] => {
    if (circuit.current !== "AC") return [];
    const supply = circuit.supply === undefined ? undefined : supplies.get(circuit.supply);
    const chosen = designed.get(circuit.id);
    const size = sizeOf(circuit, chosen?.size?.label);
    if (size === null) untold.push({ circuit: circuit.id, why: `the size of ${circuit.id} is not known` });
    const z =
      size === null
        ? null
        : conductorImpedance({
            make: { ...makeOf(circuit), size },
            conductorC: clampC(chosen?.conductorC ?? circuit.insulationC.low),
            hertz,
            raceway: racewayOf(circuit),
          });
    return circuit.conductors.map(({ id, fn, from, to, length }) => {
      if (supply !== undefined) for (const t of [from, to]) byTerminal.set(t, supply);
      const metres = length.high / circuit.parallel;
      return {
        id,
        circuit: circuit.id,
        fn,
        from,
        to,
        // Of no known size: its joints alone, so that rings of it keep an answer.
        ohms: (z?.ohmsPerMetre ?? 0) * metres + 2 * JOINT_OHMS,
        reactance: (z?.reactancePerMetre ?? 0) * metres,
        isUntold: z === null,
      };
    });
  });
  const leads = new Map<string, LeadAt>();
  for (const part of plan.parts) {
    const lead = leadOf(part.kindFacts, hertz);
    if (lead !== null) leads.set(part.key, lead);
  }
  const only = system.supplies.filter((s) => s.current === "AC");
  const supplyAt = (terminal: string): Supply | undefined =>
    byTerminal.get(terminal) ?? (only.length === 1 ? only[0] : undefined);
  return { conductors, leads, untold, supplyAt, hertz, hertzStated: stated !== undefined };
}

/** Within what `conductorResistance` knows. */
const clampC = (c: number): number => Math.min(250, Math.max(-40, c));

function sizeOf(circuit: SystemCircuit, label: string | undefined): WireSize | null {
  const own = circuit.size === undefined || circuit.size === "unknown" ? null : circuit.size;
  if (label === undefined || own?.label === label) return own;
  return everySize.find((size) => size.label === label) ?? own;
}

function leadOf(facts: Readonly<Record<string, Fact<unknown>>>, hertz: number): LeadAt | null {
  const length = facts["lead"];
  const cable = facts["lead cable"];
  const coiled = facts["lead layers"];
  if (length === undefined && cable === undefined && coiled === undefined) return null;
  const metres = (known(length) as { readonly high: number } | undefined)?.high ?? null; // read by the rules of the inlet
  const label = known(cable) as WrittenCable | undefined; // the same
  const size = label?.size ?? null;
  const missing = [...(metres === null ? ["length"] : []), ...(size === null ? ["cable"] : [])];
  const z =
    size === null || metres === null
      ? null
      : conductorImpedance({
          make: { size, metal: "copper", plating: "plain", strands: "class 5" },
          conductorC: clampC(label?.make.temperatureC ?? LEAD_C),
          hertz,
          raceway: "cable",
        });
  return {
    metres,
    label: label?.label ?? null,
    layers: (known(coiled) as number | undefined) ?? null, // a count
    ohms: (z?.ohmsPerMetre ?? 0) * (metres ?? 0),
    reactance: (z?.reactancePerMetre ?? 0) * (metres ?? 0),
    untold:
      missing.length === 0
        ? null
        : `the ${missing.join(" and the ")} of the supply lead ${missing.length > 1 ? "are" : "is"} not known`,
  };
}
