import type { LabelFact, WireReading } from "../wire/label/label-reading.ts";
import type { CableCores, Fitness, Stranding } from "../wire/make/wire-make.ts";
import { decimalText } from "../quantity/decimal-text.ts";

/** A fact of a reading in words. */
export interface SaidFact {
  readonly fact: LabelFact;
  readonly says: string;
}

const names: Readonly<Record<LabelFact, string>> = {
  family: "kind",
  size: "size",
  cores: "conductors",
  runs: "runs",
  stranding: "strands",
  metal: "metal",
  plating: "plating",
  type: "type",
  volts: "voltage",
  temperatureC: "temperature",
  fitness: "bears",
  colours: "colours",
  form: "form",
  outsideMm: "over everything",
  quantity: "quantity",
};

/** A fact as people call it. */
export const factName = (fact: LabelFact): string => names[fact];

/** All that a reading knows, in one order; what is not stated is left out. */
export function factsOf({ make, quantity }: WireReading): SaidFact[] {
  const { size, cores, runs, stranding, volts, voltsSay, temperatureC, wetTemperatureC, colours, outsideMm } = make;
  const rows: (readonly [LabelFact, string | null])[] = [
    ["size", size === null ? null : sizeText(size)],
    ["cores", cores === null ? null : coresText(cores)],
    ["runs", runs === 1 ? null : `${runs} side by side`],
    ["family", make.family],
    ["type", make.type],
    ["stranding", stranding === null ? null : strandingText(stranding)],
    ["metal", make.metal],
    ["plating", make.plating],
    ["volts", volts === null ? null : voltsText(voltsSay ?? String(volts))],
    ["temperatureC", temperatureC === null ? null : temperatureText(temperatureC, wetTemperatureC)],
    ["fitness", fitnessText(make.fitness)],
    ["colours", colours.length === 0 ? null : colours.map((colour) => colour.join("/")).join(", ")],
    ["form", make.form],
    ["outsideMm", outsideMm === null ? null : `⌀ ${outsideMm} mm`],
    ["quantity", quantity === null ? null : `${quantity.value} ${quantity.unit}`],
  ];
  return rows.flatMap(([fact, says]) => (says === null || says === "" ? [] : [{ fact, says }]));
}

/** `60 DC` is 60 V DC. */
const voltsText = (say: string): string => {
  const [figures = "", ...kind] = say.split(" ");
  return [figures, "V", ...kind].join(" ");
};

function sizeText({ label, areaMm2, basis }: NonNullable<WireReading["make"]["size"]>): string {
  const area = `${decimalText(areaMm2, { figures: areaMm2 < 100 ? 3 : 4 })} mm²`;
  if (basis === "label") return `${label} by its label; the copper may be less`;
  return label.includes(area) ? label : `${label}, ${area} of metal`;
}

function coresText({ insulated, total, ground, groundSize, others, paired }: CableCores): string {
  const grounds: Readonly<Record<CableCores["ground"], string>> = {
    none: "no ground",
    insulated: "one of them the green ground",
    bare: `and a bare ground: ${total} in all`,
    concentric: `and a ground laid round them: ${total} in all`,
    "not stated": "whether one is the ground is not said",
  };
  return [
    `${insulated} insulated`,
    grounds[ground],
    ...(groundSize === null ? [] : [`ground of ${groundSize.label}`]),
    ...others.map(({ count, size }) => `${count} of them ${size.label}`),
    ...(paired ? ["in pairs"] : []),
  ].join(", ");
}

function strandingText({ name, wires, wireMm }: Stranding): string {
  const strands = wires === null ? "" : wireMm === null ? `${wires} wires` : `${wires} wires of ${wireMm} mm`;
  return [name ?? "", strands].filter((part) => part !== "").join(", ");
}

const temperatureText = (dry: number, wet: number | null): string =>
  wet === null || wet === dry ? `${dry} °C` : `${dry} °C dry, ${wet} °C wet`;

const fitWords: Readonly<Record<keyof Fitness, readonly [yes: string, no: string]>> = {
  wet: ["wet places", "not wet places"],
  oil: ["oil", "not oil"],
  sun: ["sunlight", "not sunlight"],
  flame: ["a flame test", "no flame test"],
  flexible: ["moving in use", "not moving in use"],
};

function fitnessText(fitness: Fitness): string {
  return (Object.keys(fitWords) as (keyof Fitness)[]) // the keys above
    .flatMap((key) => {
      const value = fitness[key];
      return value === null ? [] : [fitWords[key][value ? 0 : 1]];
    })
    .join(", ");
}
