/** What is printed on the breaker of an alternating-current board, or said of it over the counter. */
export interface BreakerMarking {
  /** The text with family words and figures in place of the marking: `C32 30 mA` is `MCB C 32 A 30 mA`. */
  readonly plain: string;
  /** It opens on leakage too: the residual current that its standard gives it, or that has to be said. */
  readonly residual?: "5 mA" | "30 mA" | "to be said";
  /** It opens on leakage alone, `RCD 25 A 30 mA`: its rating guards nothing against too much current. */
  readonly isLeakageAlone: boolean;
  /** What it can open, as marked: `6 kA`. */
  readonly interrupt?: string;
  /** Nothing but letter and figure, which a part may be called as well. */
  readonly isBare: boolean;
}

/** Devices that open on leakage, with the residual current that is fixed for them: UL 943 class A, and what ABYC E-11 asks of an ELCI. */
const LEAKAGE: Readonly<Record<string, BreakerMarking["residual"]>> = {
  RCBO: "to be said",
  RCCB: "to be said",
  RCD: "to be said",
  GFCI: "5 mA",
  ELCI: "30 mA",
};

/** Letter and figure; the letters of blade fuses are no curves. */
const MARK = /(?<!type|class) ([BCD]) ?(\d{1,3}(?:\.\d)?)( ?A)?(?= )/;
const CURVE = / (?:curve ([BCD])|([BCD])[ -]curve|(?<=\d ?A )([BCD]))(?= )/i;
const OPENS = / (RCBO|RCCB|RCD|GFCI|ELCI)(?= )/i;

/** Poles and residual currents as makers print them, in the words of the plan language. */
const usual = (text: string): string =>
  text
    .replace(/ (?:1P ?\+ ?N|2P|DP)(?= )/i, " 2-pole")
    .replace(/ (?:1P|SP)(?= )/i, " 1-pole")
    .replace(/ (?:3P ?\+ ?N|4P)(?= )/i, " 4-pole")
    .replace(/ I[Δ∆]n ?=? ?(?=\d)/i, " ")
    .replace(
      /(?<=\d.*)(?:\/| )(0[.,](?:0\d+|[1-3]))(?: ?A)?(?= )/,
      (_, amps: string) => ` ${Number((Number(amps.replace(",", ".")) * 1000).toPrecision(3))} mA`,
    );

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
  const words = OPENS.exec(rest)?.[1]?.toUpperCase();
  if (words !== undefined || MARK.test(rest) || CURVE.test(rest) || / [BCD] ?\d+\/0/.test(rest)) rest = usual(rest);
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
  const curve = (isMark ? mark[1] : (word?.[1] ?? word?.[2] ?? word?.[3]))?.toUpperCase();
  const leakage = take(OPENS)?.[1]?.toUpperCase();
  if (curve === undefined && leakage === undefined) return null;
  const interrupt = take(/ (\d+(?:\.\d)? ?kA)(?= )/)?.[1];
  // Which kind of leakage it sees is no family.
  if (leakage !== undefined || / mA /.test(rest)) take(/ type (?:AC|A|F|B)(?= )/i);
  // The letter says which breaker it is.
  const isDirect = curve !== undefined && take(/ DC (?:MCB|miniature breaker)(?= )/i) !== null;
  take(/ (?:MCB|(?:miniature |circuit )?breaker)(?= )/i);
  const family = curve === undefined ? "" : isDirect ? `DC MCB${curve === "C" ? "" : ` ${curve}`}` : `MCB ${curve}`;
  const residual = LEAKAGE[leakage ?? ""];
  return {
    plain: `${family} ${rest.trim().replace(/\s+/g, " ")}`.trim(),
    ...(residual === undefined ? {} : { residual }),
    ...(interrupt === undefined ? {} : { interrupt }),
    isLeakageAlone: curve === undefined && (leakage === "RCD" || leakage === "RCCB"),
    isBare: /^[BCD]\d{1,3}(?:\.\d)?$/.test(text.trim()),
  };
}
