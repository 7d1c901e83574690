import type { CircuitDesign, DeviceDesign } from "../../size/index.ts";
import type { Units } from "../contract.ts";
import { inSentence, NOTHING, otherSize, printAmps, printLength, printLengthValue } from "../look/print-in-units.ts";
import type { Cell, CellEdit } from "./table.ts";

export const words = (text: string, edit?: CellEdit): Cell => ({
  text: text === "" ? NOTHING : text,
  by: text === "" ? null : text,
  ...(edit === undefined ? {} : { edit }),
});

export const number = (text: string, by: number | null | undefined, edit?: CellEdit): Cell => ({
  text,
  by: by ?? null,
  ...(edit === undefined ? {} : { edit }),
});

/** A length one way, to be typed over. */
export function lengthCell(circuit: CircuitDesign, units: Units): Cell {
  const { id, lengthM } = circuit;
  const text = printLengthValue(lengthM, units);
  const edit = { about: `circuits.${id}`, field: "length", text, label: `length of ${id}` };
  return number(text, lengthM.origin === "unknown" ? null : lengthM.high, edit);
}

/** The label of a size, and in few words where it comes from. */
export function sizeCell(circuit: CircuitDesign, units: Units): Cell {
  const { id, size, make, nothingIsEnough, outcome } = circuit;
  const parallel = make.parallel > 1 ? `${make.parallel} × ` : "";
  const by = outcome === "chosen" || outcome === "cannot tell" ? "" : `, ${outcome}`;
  const text =
    size === null
      ? NOTHING
      : `${parallel}${inSentence(size.label, units)}${by}${nothingIsEnough ? ", not enough" : ""}`;
  const edit = { about: `circuits.${id}`, field: "size", text: size?.label ?? "", label: `wire of ${id}` };
  const more = size === null ? null : otherSize(size, units);
  return { ...number(text, size?.areaMm2, edit), ...(more === null ? {} : { more }) };
}

/** The size that the label of the bought wire tells, beside the drawn one; what the label says is told of the cell. */
export function boughtCell({ bought }: CircuitDesign): Cell {
  if (bought === null) return words("");
  const more = bought.question ?? [bought.says ?? bought.label, ...bought.follows].join(". ");
  return { ...number(bought.size?.label ?? "cannot be told", bought.size?.areaMm2 ?? 0), more };
}

/** `RD BK`; in brackets what is only proposed. */
export function coloursCell({ colours }: CircuitDesign): Cell {
  const by = (who: "plan" | "proposed"): string =>
    colours
      .filter((c) => c.by === who)
      .map(({ letters }) => letters)
      .join(" ");
  const proposed = by("proposed");
  const text = [by("plan"), proposed === "" ? "" : `(${proposed})`].filter((t) => t !== "").join(" ");
  const more = colours.map((c) => `${c.core === "" ? "the conductor" : c.core}: ${c.letters}, ${c.by}`).join("; ");
  return { ...words(text), ...(more === "" ? {} : { more }) };
}

/** `10 A breaker`, and whether it is only proposed. */
export function deviceText({ ratingA, kind, by }: DeviceDesign, units: Units): string {
  const rating = ratingA === null ? "no rating is enough" : printAmps(ratingA, units);
  return `${rating} ${kind}${by === "proposed" ? ", proposed" : ""}`;
}

/** Where a device sits: `PNL:1`, `BP + 150 mm`. */
export const devicePlace = ({ at, distanceM }: DeviceDesign, units: Units): string =>
  distanceM > 0 ? `${at} + ${printLength(distanceM, units)}` : at;

/** The field that sets a device: the first is `device`, the next `device 2`. */
export function deviceEdit(circuit: CircuitDesign, index: number, units: Units): CellEdit {
  const device = circuit.devices[index];
  const which = index === 0 ? "device" : `device ${index + 1}`;
  return {
    about: `circuits.${circuit.id}`,
    field: which,
    text: device?.ratingA === null || device === undefined ? "" : `${device.kind} ${printAmps(device.ratingA, units)}`,
    label: `${which} of ${circuit.id}`,
  };
}
