import { colourName } from "../colour/index.ts";
import type { CableCores, WireMake } from "../make/wire-make.ts";
import type { OrderQuantity } from "./label-reading.ts";

const figures = (value: number): string => String(Number(value.toPrecision(3)));

function sayCores({ insulated, total, ground, groundSize, others, paired }: CableCores): string {
  const counted = `${insulated} insulated conductor${insulated === 1 ? "" : "s"}`;
  // Of feeder cable, whose conductors are listed one by one, the last is the bare one.
  const bareSize = groundSize ?? (total > insulated ? (others.at(-1)?.size ?? null) : null);
  const size = bareSize === null ? "" : ` of ${bareSize.label}`;
  const grounds: Readonly<Record<CableCores["ground"], string>> = {
    none: total > insulated ? ` and a bare neutral${size} round them` : insulated > 1 ? ", none for the ground" : "",
    insulated: `, one of them${size} the ground`,
    bare: ` and a bare ground${size}`,
    concentric: ` and a concentric ground${size}`,
    "not stated": size === "" ? ", a ground not stated" : ` and a ground${size}`,
  };
  const coated = total > insulated && groundSize === null ? others.slice(0, -1) : others;
  const odd = coated.map(({ count, size: other }) => `, ${count} of them ${other.label}`).join("");
  return `${counted}${paired ? " in pairs" : ""}${odd}${grounds[ground]}${total === insulated ? "" : `, ${total} in all`}`;
}

/** What is read, in words that nobody can misread: one sentence. */
export function sayReading(make: WireMake, quantity: OrderQuantity | null): string {
  const { size, cores, family, stranding, metal, plating, type, colours } = make;
  const said: string[] = [];
  if (size !== null) {
    const area =
      size.system === "mm²" || size.system === "JIS"
        ? ""
        : ` (${figures(size.areaMm2)} mm² ${size.basis === "metal" ? "of metal" : "by its label"})`;
    const system = size.system === "JIS" ? " of the Japanese sizes" : "";
    said.push(`${size.label}${system}${area}`);
  }
  if (make.runs > 1) said.push(`${make.runs} side by side`);
  if (cores !== null) said.push(sayCores(cores));
  if (family !== null) said.push(family);
  if (type !== null) said.push(`type ${type}`);
  if (stranding !== null) {
    const wires =
      stranding.wires === null
        ? ""
        : `${stranding.wires} wires${stranding.wireMm === null ? "" : ` of ${figures(stranding.wireMm)} mm`}`;
    said.push([stranding.name, wires].filter((each) => each !== null && each !== "").join(", "));
  }
  if (plating !== null || metal !== null) said.push([plating, metal].filter((each) => each !== null).join(" "));
  if (make.voltsSay !== null) said.push(make.voltsSay.replace(/^([\d/]+)/, "$1 V"));
  if (make.temperatureC !== null) said.push(`${make.temperatureC} °C`);
  if (make.wetTemperatureC !== null) said.push(`${make.wetTemperatureC} °C wet`);
  if (colours.length > 0) said.push(colours.map(colourName).join(", "));
  if (make.outsideMm !== null) said.push(`${figures(make.outsideMm)} mm over everything`);
  if (quantity !== null) said.push(sayQuantity(quantity));
  return said.join("; ");
}

function sayQuantity({ value, unit }: OrderQuantity): string {
  if (unit === "m" || unit === "ft") return `${value} ${unit}`;
  return `${value} ${unit}${value === 1 ? "" : "s"}`;
}
