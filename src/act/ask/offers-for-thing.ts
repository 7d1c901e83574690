import { foldName, shown } from "../../plan/index.ts";
import { readQuantity } from "../../quantity/index.ts";
import { readLabel } from "../../wire/label/read-label.ts";
import type { AskOffer } from "./ask-offer.ts";
import type { Known } from "./known-names.ts";
import { actOffer, goTo, needs, whyOffer, type Asking } from "./offers.ts";

/** Words for a field behind a name: `W13 length 6 m`. */
const FIELDS: Readonly<Record<Known["section"], readonly string[]>> = {
  circuits: ["length", "size", "wire", "device", "fuse", "breaker", "zone", "demand", "drop", "name"],
  parts: [
    "load",
    "running",
    "amps",
    "watts",
    "start",
    "starting",
    "runs above",
    "starts above",
    "rated",
    "capacity",
    "name",
    "ways",
  ],
  states: ["charge", "engine", "shore", "sun"],
  systems: ["volts", "nominal", "rules", "return"],
};

/** What can be done with a thing: go there, ask why, or give it the figure that stands behind its name. */
export function offersForThing({ names }: Asking, thing: Known, rest: string, near: boolean): readonly AskOffer[] {
  const go = goTo(thing, near);
  const isJudged = thing.section === "circuits" || thing.section === "parts";
  if (rest === "") return isJudged ? [go, whyOffer(thing)] : [go];
  const folded = foldName(rest);
  const field = [...FIELDS[thing.section]].sort((a, b) => b.length - a.length).find((f) => folded === f || folded.startsWith(`${f} `)); // prettier-ignore
  if (field !== undefined) {
    const value = rest.slice(field.length).trim();
    if (value === "")
      return [needs(`${field} of ${shown(thing.name)}`, "type the value", `${thing.name} ${rest} `), go];
    return [setOffer(thing, field, value), go];
  }
  const guessed = guessField(thing, rest, names.build.part(thing.name)?.part.traits.load === true);
  return guessed === null ? [] : [setOffer(thing, guessed, rest), go];
}

export function setOffer(thing: Known, field: string, value: string): AskOffer {
  const isDevice = field === "fuse" || field === "breaker";
  const text = isDevice ? `${field} ${value}` : value;
  return actOffer(`${shown(thing.name)} ${field} ${shown(value)}`, thing.more, {
    do: "set-figure",
    about: thing.about,
    field: isDevice ? "device" : field,
    text,
  });
}

/** Which figure of a thing is meant, by its unit. */
function guessField({ section }: Known, value: string, isLoad: boolean): string | null {
  const is = (dimension: Parameters<typeof readQuantity>[1]): boolean => readQuantity(value, dimension).ok;
  if (section === "circuits") {
    if (is("length")) return "length";
    if (is("current")) return "device";
    const label = readLabel(value);
    return label.verdict === "exact" && label.readings[0].make.size !== null ? "size" : null;
  }
  if (section === "parts")
    return isLoad && is(["current", "power"]) ? "load" : is("current") ? "rated" : is("charge") ? "capacity" : null;
  if (section === "states") return is("ratio") ? "charge" : null;
  return is("voltage") ? "volts" : null;
}
