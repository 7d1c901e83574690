import { isStrands, ratedTemperature, type Strands, type WireSize } from "../../wire/index.ts";
import type { CableCores, CableFamily, PrintedColour, WireMake } from "../../wire/make/wire-make.ts";
import type { Measure } from "../fact.ts";
import type { FactTold } from "./rule.ts";

/** One conductor as its label says it. */
export interface WrittenWire {
  readonly size: WireSize;
  /** All that the label says. */
  readonly make: WireMake;
}

/** A cable as its label says it. */
export interface WrittenCable {
  /** As it is written, without blanks at its ends. */
  readonly label: string;
  readonly make: WireMake;
  readonly cores: CableCores;
  /** Of the thinnest core; null: the label does not say it. */
  readonly size: WireSize | null;
}

type MetalWord = "tinned copper" | "copper" | "aluminium";

/** What a circuit's metal is called, where the label says enough: copper of which nobody says whether it is tinned is none. */
function metalWord({ metal, plating }: WireMake): MetalWord | null {
  // Copper-clad aluminium conducts no worse than aluminium, and is counted as that.
  if (metal === "aluminium" || metal === "copper-clad aluminium") return "aluminium";
  if (plating === null) return null;
  return plating === "tinned" ? "tinned copper" : "copper";
}

/** The strand class that a label names. */
function strandsWord({ stranding }: WireMake): Strands | null {
  const name = stranding?.name ?? null;
  if (name === "solid") return "class 1";
  return name !== null && isStrands(name) ? name : null;
}

const same =
  (value: unknown) =>
  (written: unknown): boolean =>
    written === value;

/** A colour as it is written under its key: a list of facts, or one by core. */
interface WrittenColour {
  readonly value: PrintedColour | "unknown";
}

const isList = (value: unknown): value is readonly WrittenColour[] => Array.isArray(value); // the rule of the key reads nothing but colours

/** What the label of one conductor tells of the other keys of its circuit. */
export const tellsOfWire = ({ make }: WrittenWire): readonly FactTold[] => tellsOfMake(make);

function tellsOfMake(make: WireMake): readonly FactTold[] {
  const told: FactTold[] = [];
  const metal = metalWord(make);
  if (metal !== null) told.push({ key: "metal", value: metal, says: make.metal ?? metal, agrees: same(metal) });
  const strands = strandsWord(make);
  if (strands !== null) told.push({ key: "strands", value: strands, says: strands, agrees: same(strands) });
  const { colours, runs } = make;
  const temperatureC = ratedTemperature(make);
  if (temperatureC !== null) {
    const value: Measure = { low: temperatureC, high: temperatureC, text: `${temperatureC} °C` };
    // Measures are read in °C; a plan may give a range, or one rounded from °F.
    const agrees = (written: unknown): boolean =>
      Math.abs((written as Measure).low - temperatureC) < 0.6 &&
      Math.abs((written as Measure).high - temperatureC) < 0.6; // read by the rule of a temperature
    told.push({ key: "insulation", value, says: value.text, agrees });
  }
  if (colours.length > 0) {
    const letters = colours.map((c) => c.join(" "));
    const agrees = (written: unknown): boolean =>
      !isList(written) ||
      written.every(({ value }, i) => value === "unknown" || value.join(" ") === (letters[i] ?? value.join(" ")));
    told.push({
      key: "colour",
      value: colours.map((value) => ({ value, span: [0, 0] })),
      says: letters.join(", "),
      agrees,
    });
  }
  if (runs > 1) told.push({ key: "parallel", value: runs, says: `${runs} in parallel`, agrees: same(runs) });
  return told;
}

/** Kinds whose conductors hang together without a sheath over them. */
const UNSHEATHED: ReadonlySet<CableFamily> = new Set([
  "speaker cable",
  "service cable",
  "vehicle wire",
  "building wire",
]);

/** What the label of a cable tells of the other keys of its circuit; the cable pins the size as `wire` does. */
export function tellsOfCable({ make, cores, size }: WrittenCable): readonly FactTold[] {
  const told: FactTold[] = [...tellsOfMake(make)];
  if (size !== null) {
    const value: WrittenWire = { size, make };
    // That of a thicker core may be meant.
    const sizes = [size.label, ...(cores.others.length > 0 && make.size !== null ? [make.size.label] : [])];
    const agrees = (written: unknown): boolean => sizes.includes((written as WrittenWire).size.label); // read by the rule of a wire
    told.push({ key: "wire", value, says: size.label, agrees });
  }
  if (cores.total > 1 && !(make.family !== null && UNSHEATHED.has(make.family)))
    told.push({ key: "sheathed", value: true, says: "that all lies in one sheath", agrees: same(true) });
  return told;
}
