import type { LabelFact } from "../label/label-reading.ts";
import type { CableCores, Stranding, WireMake } from "../make/wire-make.ts";
import { isSingle } from "./compound-names.ts";

/** A fact that a make can hold: all that a label tells but how much is ordered. */
export type MakeFact = Exclude<LabelFact, "quantity">;

/** The facts in the order in which names put them. */
export const makeFacts = [
  "family",
  "size",
  "cores",
  "runs",
  "type",
  "stranding",
  "plating",
  "metal",
  "volts",
  "temperatureC",
  "form",
  "colours",
  "outsideMm",
  "fitness",
] as const satisfies readonly MakeFact[];

/** Whether a make knows a fact. That it is one wire alone is nothing that a label would say. */
export function isKnown(make: WireMake, fact: MakeFact): boolean {
  switch (fact) {
    case "runs":
      return make.runs !== 1;
    case "cores":
      return make.cores !== null && !isSingle(make);
    case "colours":
      return make.colours.length > 0;
    case "fitness":
      return Object.values(make.fitness).some((value) => value !== null);
    default:
      return make[fact] !== null;
  }
}

/** Whether one make says all that another knows of a fact, and the same. */
export function tells(said: WireMake, known: WireMake, fact: MakeFact): boolean {
  switch (fact) {
    case "size":
      return said.size?.system === known.size?.system && said.size?.name === known.size?.name;
    case "cores":
      return isSingle(known) ? isSingle(said) : said.cores !== null && sameCores(said.cores, known.cores);
    case "stranding":
      return partsOf(known.stranding).every(([part, value]) => said.stranding?.[part] === value);
    case "colours":
      return JSON.stringify(said.colours) === JSON.stringify(known.colours);
    case "fitness":
      return fitnessOf(known).every(([part, value]) => said.fitness[part] === value);
    case "temperatureC":
      return (
        said.temperatureC === known.temperatureC &&
        (known.wetTemperatureC === null || said.wetTemperatureC === known.wetTemperatureC)
      );
    default:
      return said[fact] === known[fact];
  }
}

/** Whether two makes cannot be the same wire by one fact that both know. */
export function contradicts(a: WireMake, b: WireMake, fact: MakeFact): boolean {
  switch (fact) {
    case "runs":
      return a.runs !== b.runs;
    case "cores":
      // A label without a word of cores is one wire.
      return isSingle(a) !== isSingle(b) || (a.cores !== null && b.cores !== null && !mayBeSame(a.cores, b.cores));
    case "stranding":
      return partsOf(a.stranding).some(([part, value]) => {
        const other = b.stranding?.[part] ?? null;
        // `stranded` says no more than that it is not solid.
        if (value === "stranded") return other === "solid" || other === "class 1";
        if (other === "stranded") return value === "solid" || value === "class 1";
        return other !== null && other !== value;
      });
    case "fitness":
      return fitnessOf(a).some(([part, value]) => b.fitness[part] !== null && b.fitness[part] !== value);
    default:
      return isKnown(a, fact) && isKnown(b, fact) && !tells(a, b, fact);
  }
}

/** Whether two counts can be of one cable: what one of them leaves open decides nothing. */
function mayBeSame(a: CableCores, b: CableCores): boolean {
  const grounds = [a.ground, b.ground];
  return (
    a.insulated === b.insulated &&
    a.total === b.total &&
    a.paired === b.paired &&
    (a.ground === b.ground || grounds.includes("not stated")) &&
    (a.groundSize === null || b.groundSize === null || a.groundSize.name === b.groundSize.name) &&
    othersOf(a) === othersOf(b)
  );
}

const othersOf = ({ others }: CableCores): string => others.map(({ count, size }) => `${count} of ${size.name}`).join();

function sameCores(said: CableCores, known: CableCores | null): boolean {
  if (known === null) return false;
  return (
    said.insulated === known.insulated &&
    said.total === known.total &&
    said.ground === known.ground &&
    said.paired === known.paired &&
    (known.groundSize === null || said.groundSize?.name === known.groundSize.name) &&
    othersOf(said) === othersOf(known)
  );
}

type Part = keyof Stranding;
const strandingParts = ["name", "wires", "wireMm"] as const satisfies readonly Part[];

const partsOf = (stranding: Stranding | null): (readonly [Part, string | number])[] =>
  strandingParts.flatMap((part) => {
    const value = stranding?.[part] ?? null;
    return value === null ? [] : [[part, value] as const];
  });

const fitnessParts = ["wet", "oil", "sun", "flame", "flexible"] as const;

const fitnessOf = ({ fitness }: WireMake): (readonly [(typeof fitnessParts)[number], boolean])[] =>
  fitnessParts.flatMap((part) => {
    const value = fitness[part];
    return value === null ? [] : [[part, value] as const];
  });
