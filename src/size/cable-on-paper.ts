import { coresOf, type SystemCircuit } from "../system/index.ts";
import type { WrittenCable } from "../plan/index.ts";
import type { CableOnPaper } from "./design.ts";

const GROUNDS = {
  none: "",
  insulated: ", earth counted",
  bare: " and a bare earth",
  concentric: " and a concentric earth",
  "not stated": "",
} as const;

/** What a cable is made of, by what its cores do in this circuit. */
function makeUpOf({ make, cores, size }: WrittenCable, functions: readonly string[], isShared: boolean): string {
  const own = cores.ground === "bare" || cores.ground === "concentric" ? cores.insulated : cores.total;
  const sizeOf = (cores.others.length > 0 ? make.size?.label : size?.label) ?? make.size?.label ?? "";
  const wires = own * make.runs;
  const count = wires === 1 && sizeOf !== "" ? sizeOf : `${wires}${sizeOf === "" ? " cores" : ` × ${sizeOf}`}`;
  const others = cores.others.map((o) => `, ${o.count * make.runs} of them ${o.size.label}`).join("");
  const earth = GROUNDS[cores.ground] + (cores.groundSize === null ? "" : ` of ${cores.groundSize.label}`);
  // Of a cable that several circuits share, these are its cores for this one; what is over is theirs.
  // Of cables side by side each has all functions.
  const used = functions.filter((f) => f !== "PE" || cores.ground === "insulated").length * make.runs;
  const over = isShared ? 0 : wires - used;
  const spare = over > 0 && functions.length > 0 ? `, ${over} not used` : "";
  return [functions.join(" "), `${count}${others}${earth}${spare}`].filter((t) => t !== "").join(" ");
}

/** The cable of a circuit; null where the plan names none. */
export function cableOnPaper(circuit: SystemCircuit): CableOnPaper | null {
  const { cable } = circuit;
  if (cable === undefined) return null;
  // Which pole a conductor between two points of one pole is, its ends tell.
  const functions = coresOf(circuit.conductors).filter((fn) => fn !== "pole");
  const { label, name, circuits } = cable;
  return {
    name,
    label: label?.label ?? null,
    makeUp: label === null ? null : makeUpOf(label, functions, circuits.length > 1),
  };
}
