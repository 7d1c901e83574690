import { namesIn, textOf } from "../cure/write.ts";
import { dimensions } from "../quantity/dimension.ts";
import type { Dimension } from "../quantity/index.ts";
import { refuse } from "./draft.ts";
import type { NotActed } from "./request.ts";
import type { Stand } from "./stand.ts";

/** What a figure looks like, by dimension; a length in the unit that the plan counts in. */
const LIKE: Partial<Readonly<Record<Dimension, string>>> = { current: "4 A", power: "45 W" };
const LENGTHS = { m: "3.5 m", ft: "11 ft" } as const;

/** The unit in which most lengths of a plan are written; of none the one of its wire. */
export function lengthUnit({ document, compiled }: Stand): "m" | "ft" {
  const lengths = namesIn(document, ["circuits"]).flatMap((key) => textOf(document, ["circuits", key, "length"]) ?? []);
  const feet = lengths.filter((text) => /\d\s*(?:ft|feet|foot|in|inch|inches|yd|'|"|′|″)(?![a-z])/i.test(text)).length;
  const metres = lengths.filter((text) => /\d\s*(?:[mc]?m|met(?:re|er)s?)(?![a-z])/i.test(text)).length;
  if (feet !== metres) return feet > metres ? "ft" : "m";
  return compiled.system.stock.system === "mm²" ? "m" : "ft";
}

/** A number whose comma can be read in two ways. */
const DOUBTFUL = /(?<![\d.,])([1-9]\d{0,2}),(\d{3})(?![\d.,])/;
const POWER = /[-−]?\d[\d.,]*e[-+−]?\d+/i;
const ALONE = /^\d+(?:[.,]\d+)?$/;

/**
 * Says to a figure that cannot be read what to write, in a unit that the plan itself uses.
 *
 * @param refusal what its reader has to say
 * @param asked dimensions that may stand there
 * @param again the reader, for the text as it may have been meant; null: it can be read
 */
export function askBack(
  stand: Stand,
  refusal: NotActed,
  typed: string,
  asked: readonly Dimension[],
  again: (text: string) => NotActed | null,
): NotActed {
  const say = (hint: string, message = refusal.message): NotActed => refuse(message, hint, refusal.at);
  const text = typed.trim();
  const doubt = DOUBTFUL.exec(text);
  if (doubt !== null) {
    const [point, whole] = [`${doubt[1] ?? ""}.${doubt[2] ?? ""}`, `${doubt[1] ?? ""}${doubt[2] ?? ""}`].map((number) =>
      text.replace(DOUBTFUL, number),
    );
    const other = again(whole ?? "");
    // Where the unit is wrong as well, the separator is not what matters.
    if (other !== null) return askBack(stand, other, whole ?? "", asked, again);
    return say(`write \`${point ?? ""}\` or \`${whole ?? ""}\``);
  }
  if (ALONE.test(text) && Number(text.replace(",", ".")) > 0) {
    return say(`write ${eachUnit(stand, asked, (unit) => `\`${text.replace(",", ".")} ${unit}\``)}`);
  }
  const inFull = /^write `([-\d.]+)`$/.exec(refusal.hint)?.[1];
  if (inFull !== undefined) return say(`write \`${text.replace(POWER, inFull)}\``);
  // A hint that names one thing knows better; one with a choice of units, or with none, says less than an example.
  if (!/` or `|^check /.test(refusal.hint)) return refusal;
  return say(`write it as in ${examples(stand, asked)}, or \`unknown\``);
}

const examples = (stand: Stand, asked: readonly Dimension[]): string =>
  asked
    .map(
      (one) =>
        `\`${one === "length" ? LENGTHS[lengthUnit(stand)] : (LIKE[one] ?? `12 ${dimensions[one].usual[0] ?? ""}`)}\``,
    )
    .join(" or ");

const eachUnit = (stand: Stand, asked: readonly Dimension[], say: (unit: string) => string): string =>
  [...new Set(asked.flatMap((one) => (one === "length" ? [lengthUnit(stand)] : dimensions[one].usual)))]
    .map(say)
    .join(" or ");

/** Longer than any run of a boat, a vehicle or a hut, m: a slip of the unit. Common practice. */
const LONGEST_RUN = 1000;

/** Asks back a length that no run has; null: it may be. */
export function tooLong(stand: Stand, text: string, metres: number): NotActed | null {
  if (metres <= LONGEST_RUN) return null;
  const unit = lengthUnit(stand);
  return refuse(
    `\`${text}\` is longer than any run here: a length up to ${unit === "m" ? "1000 m" : "3280 ft"} was expected`,
    `check the figure and its unit, as in \`${LENGTHS[unit]}\``,
  );
}
