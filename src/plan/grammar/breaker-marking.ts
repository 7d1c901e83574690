/** What is printed on the breaker of an alternating-current board, or said of it over the counter. */
export interface BreakerMarking {
  /** The text with family words and figures in place of the marking: `C32 30 mA` is `MCB C 32 A 30 mA`. */
  readonly plain: string;
  /** It opens on leakage too: the residual current that its standard gives it, or that has to be said. */
  readonly residual?: "5 mA" | "30 mA" | "to be said";
  /** Nothing but letter and figure, which a part may be called as well. */
  readonly isBare: boolean;
}

/** Devices that open on leakage, with the residual current that is fixed for them: UL 943 class A, and what ABYC E-11 asks of an ELCI. */
const LEAKAGE: Readonly<Record<string, BreakerMarking["residual"]>> = {
  RCBO: "to be said",
  GFCI: "5 mA",
  ELCI: "30 mA",
};

/** Letter and figure; the letters of blade fuses are no curves. */
const MARK = /(?<!type|class) ([BCD]) ?(\d{1,3}(?:\.\d)?)( ?A)?(?= )/;
const CURVE = / (?:curve ([BCD])|([BCD])[ -]curve)(?= )/i;
/**
 * Reads the marking of a breaker as it is printed on it: `C32`, `B 16 A`, `RCBO C16 30 mA`, `GFCI 20 A`.
 *
 * The letters are those of IEC 60898-1; others (K, Z) belong to makers, and are left in the words.
 *
 * @returns null where nothing of the kind stands there
 * @source IEC 60898-1 clause 6, from memory: the rated current stands without its unit behind the letter of the instantaneous trip
 * @example
 * readBreakerMarking("RCBO C32 30 mA")?.plain //=> "MCB C 32 A 30 mA"
 * readBreakerMarking("breaker 32 A curve C")?.plain //=> "MCB C 32 A"
 * readBreakerMarking("16 A 30 mA") //=> null
 */
export function readBreakerMarking(text: string): BreakerMarking | null {
  let rest = ` ${text.trim().replace(/,?\s+/g, " ")} `; // a comma before words is no decimal
  const take = (pattern: RegExp, put = ""): RegExpExecArray | null => {
    const found = pattern.exec(rest);
    if (found !== null) rest = `${rest.slice(0, found.index)} ${put}${rest.slice(found.index + found[0].length)}`;
    return found;
  };
  const mark = MARK.exec(rest);
  const inAmps = [...rest.matchAll(/\d ?A(?= )/g)].length;
  // Where another figure is in amps, a letter with a number is a name.
  const isMark = mark !== null && inAmps === (mark[3] === undefined ? 0 : 1);
  if (isMark) take(MARK, `${mark[2] ?? ""} A`);
  const word = isMark ? null : take(CURVE);
  const curve = (isMark ? mark[1] : (word?.[1] ?? word?.[2]))?.toUpperCase();
  const leakage = take(/ (RCBO|GFCI|ELCI)(?= )/i)?.[1]?.toUpperCase();
  if (curve === undefined && leakage === undefined) return null;
  // The letter says which breaker it is.
  const isDirect = curve !== undefined && take(/ DC (?:MCB|miniature breaker)(?= )/i) !== null;
  take(/ (?:MCB|(?:miniature |circuit )?breaker)(?= )/i);
  const family = curve === undefined ? "" : isDirect ? `DC MCB${curve === "C" ? "" : ` ${curve}`}` : `MCB ${curve}`;
  const residual = LEAKAGE[leakage ?? ""];
  return {
    plain: `${family} ${rest.trim().replace(/\s+/g, " ")}`.trim(),
    ...(residual === undefined ? {} : { residual }),
    isBare: /^[BCD]\d{1,3}(?:\.\d)?$/.test(text.trim()),
  };
}
