import type { LabelFact, WireReading } from "../../wire/label/label-reading.ts";
import type { CableCores, Fitness, Ground, Stranding, WireMake } from "../../wire/make/wire-make.ts";

/** A fact of a reading in words. */
export interface FactSaid {
  readonly fact: LabelFact;
  /** What the fact is called: `cores`. */
  readonly name: string;
  /** `3, one of them an insulated ground`; null: the label does not tell. */
  readonly says: string | null;
}

const names: Readonly<Record<LabelFact, string>> = {
  quantity: "ordered",
  family: "kind",
  type: "type",
  runs: "side by side",
  cores: "conductors",
  size: "size",
  stranding: "strands",
  metal: "metal",
  plating: "plating",
  colours: "colours",
  volts: "voltage",
  temperatureC: "insulation",
  fitness: "bears",
  form: "form",
  outsideMm: "over everything",
};

/** Facts whose want nobody misses: most labels do not tell them. */
const QUIET: readonly LabelFact[] = ["quantity", "runs", "type", "form", "outsideMm", "fitness", "colours", "cores"];

// every key of the table of names is one
const FACTS = Object.keys(names) as readonly LabelFact[];

/**
 * What a reading tells, fact by fact, and which of the facts that matter it does not.
 *
 * @returns in the order in which they are read; without those that are missing and missed by nobody
 */
export function sayFacts({ make, quantity }: WireReading): readonly FactSaid[] {
  return FACTS.flatMap((fact) => {
    const says =
      fact === "quantity" ? (quantity === null ? null : `${quantity.value} ${quantity.unit}`) : sayFact(make, fact);
    return says === null && QUIET.includes(fact) ? [] : [{ fact, name: names[fact], says }];
  });
}

function sayFact(make: WireMake, fact: Exclude<LabelFact, "quantity">): string | null {
  switch (fact) {
    case "family":
      return make.family;
    case "type":
      return make.type;
    case "runs":
      return make.runs > 1 ? `${make.runs} equal` : null;
    case "cores":
      return make.cores === null ? null : sayCores(make.cores);
    case "size":
      return make.size?.label ?? null;
    case "stranding":
      return make.stranding === null ? null : sayStranding(make.stranding);
    case "metal":
      return make.metal;
    case "plating":
      return make.plating;
    case "colours":
      return make.colours.length === 0 ? null : make.colours.map((colour) => colour.join("")).join(", ");
    case "volts":
      return make.volts === null ? null : sayVolts(`${make.voltsSay ?? make.volts}`);
    case "temperatureC":
      return make.temperatureC === null
        ? null
        : `${make.temperatureC} °C${make.wetTemperatureC === null ? "" : `, wet ${make.wetTemperatureC} °C`}`;
    case "fitness":
      return sayFitness(make.fitness);
    case "form":
      return make.form;
    case "outsideMm":
      return make.outsideMm === null ? null : `⌀ ${make.outsideMm} mm`;
  }
}

/** Types say `60 DC`: the unit belongs to the figure. */
const sayVolts = (text: string): string => (/ [AD]C$/.test(text) ? text.replace(/ ([AD]C)$/, " V $1") : `${text} V`);

const grounds: Readonly<Record<Ground, string>> = {
  none: "no ground",
  insulated: "one of them the ground",
  bare: "and a bare ground",
  concentric: "and a concentric ground",
  "not stated": "whether one is the ground is not stated",
};

function sayCores({ insulated, total, ground, groundSize, others, paired }: CableCores): string {
  const size = groundSize === null ? "" : ` of ${groundSize.label}`;
  const more = others.map(({ count, size: { label } }) => `, ${count} of them ${label}`).join("");
  const pairs = paired ? " in pairs" : "";
  return total === 1 ? "one" : `${insulated} insulated${pairs}${more}, ${grounds[ground]}${size}`;
}

function sayStranding({ name, wires, wireMm }: Stranding): string | null {
  const counted = wires === null ? "" : `${wires} wires`;
  const thick = wireMm === null ? "" : `of ${Number(wireMm.toPrecision(3))} mm`;
  const made = `${counted} ${thick}`.trim();
  return [name ?? "", made].filter((text) => text !== "").join(", ") || null;
}

const fitnesses: readonly (readonly [keyof Fitness, yes: string, no: string])[] = [
  ["wet", "wet places", "not wet places"],
  ["oil", "oil", "not oil"],
  ["sun", "sun", "not sun"],
  ["flame", "a flame test", "no flame test"],
  ["flexible", "being moved", "not being moved"],
];

function sayFitness(fitness: Fitness): string | null {
  const said = fitnesses.flatMap(([key, yes, no]) => {
    const is = fitness[key];
    return is === null ? [] : [is ? yes : no];
  });
  return said.length === 0 ? null : said.join(", ");
}
