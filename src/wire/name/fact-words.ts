import { colourName } from "../colour/index.ts";
import { wireOfAwg } from "../label/print-size.ts";
import type { PrintedColour, PrintedMetal, WireMake } from "../make/wire-make.ts";
import type { MakeFact } from "./make-facts.ts";
import type { NameDialect } from "./wire-name.ts";

const metalWords: Readonly<Record<PrintedMetal, string>> = {
  copper: "copper",
  aluminium: "aluminium",
  "copper-clad aluminium": "CCA",
};

const fitParts = ["wet", "oil", "sun", "flame", "flexible"] as const satisfies readonly (keyof WireMake["fitness"])[];

/** Where colours are letters by habit: vehicles and Europe. */
const usesLetters = (dialect: NameDialect): boolean => dialect === "vehicle" || dialect === "european";

const inWords = (colour: PrintedColour): string => colour.map((letters) => colourName([letters])).join("/");

/**
 * How a label says a fact of a make, in the ways to try, the most usual first.
 *
 * @returns empty: no label says it but by a type
 */
export function factWords(make: WireMake, fact: MakeFact, dialect: NameDialect): readonly string[] {
  switch (fact) {
    case "stranding":
      return strandingWords(make);
    case "plating":
      return make.plating === null ? [] : [`${make.plating} copper`, make.plating];
    case "metal":
      return make.metal === null ? [] : [metalWords[make.metal], make.metal];
    case "volts":
      return make.volts === null ? [] : [`${make.voltsSay ?? make.volts} V`];
    case "temperatureC": {
      const { temperatureC: dry, wetTemperatureC: wet } = make;
      if (dry === null) return [];
      return wet === null || wet === dry
        ? [`${dry} °C`]
        : [`${dry} °C dry ${wet} °C wet`, `${dry} °C dry, ${wet} °C wet`];
    }
    case "form":
      return make.form === null ? [] : [make.form];
    case "colours":
      return colourLists(make.colours, dialect);
    case "outsideMm":
      return make.outsideMm === null ? [] : [`OD ${make.outsideMm} mm`, `⌀ ${make.outsideMm} mm`];
    case "fitness":
      return fitnessWords(make);
    default:
      return [];
  }
}

/** Words for what wire bears; that it does not bear a thing no label says. */
const bears: Readonly<Record<keyof WireMake["fitness"], string>> = {
  wet: "wet location",
  oil: "oil resistant",
  sun: "sunlight resistant",
  flame: "flame retardant",
  flexible: "flexible",
};

function fitnessWords({ fitness }: WireMake): string[] {
  const all = fitParts.filter((part) => fitness[part] === true).map((part) => bears[part]);
  return all.length === 0 ? [] : [...new Set([...all, all.join(" ")])];
}

function strandingWords({ stranding, size }: WireMake): string[] {
  if (stranding === null) return [];
  const { name, wires, wireMm } = stranding;
  // A size that is counted strands says them already.
  const strands =
    wires === null || size?.system === "strands"
      ? []
      : wireMm === null
        ? [`${wires} strands`]
        : [...strandsAwg(wires, wireMm), `${wires}/${wireMm.toFixed(2)} mm`, `${wires}/${wireMm.toFixed(2)}`];
  if (name === null) return strands;
  return strands.length === 0 ? [name] : [...strands.map((one) => `${name} ${one}`), name];
}

/** `65/30`: strands of an American gauge, where the wire is one. */
function strandsAwg(wires: number, wireMm: number): string[] {
  for (let gauge = 20; gauge <= 44; gauge++) if (wireOfAwg(gauge) === wireMm) return [`(${wires}/${gauge})`];
  return [];
}

function colourLists(colours: readonly PrintedColour[], dialect: NameDialect): string[] {
  if (colours.length === 0) return [];
  const letters = colours.map((colour) => colour.join(""));
  const words = colours.map(inWords);
  const [letter = ""] = letters;
  const [word = ""] = words;
  if (colours.length === 1) return usesLetters(dialect) ? [letter, word] : [word, letter];
  const asWords = [`(${words.join(", ")})`, words.join(", ")];
  const asLetters = [letters.join(" "), letters.join(", ")];
  return usesLetters(dialect) ? [...asLetters, ...asWords] : [...asWords, ...asLetters];
}
