const ONES =
  "nought one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen".split(
    " ",
  );
const TENS = "zero ten twenty thirty forty fifty sixty seventy eighty ninety".split(" ");

/**
 * A number as it is spoken in a workshop.
 *
 * @param value 0 to 9999, with at most two decimals
 * @example
 * sayNumber(35) //=> "thirty-five"
 * sayNumber(2.5) //=> "two and a half"
 * sayNumber(0.75) //=> "nought point seven five"
 * sayNumber(185) //=> "one eighty-five"
 */
export function sayNumber(value: number): string {
  const whole = Math.floor(value);
  const rest = Number((value - whole).toFixed(3));
  if (rest === 0) return sayWhole(whole);
  if (rest === 0.5 && whole > 0) return `${sayWhole(whole)} and a half`;
  const digits = String(rest)
    .slice(2)
    .split("")
    .map((digit) => ONES[Number(digit)] ?? "");
  return `${sayWhole(whole)} point ${digits.join(" ")}`;
}

/** Hundreds are left out between a hundred and a thousand, as people do: `two fifty`, but `three hundred`. */
function sayWhole(value: number): string {
  if (value < 20) return ONES[value] ?? "";
  if (value < 100) {
    const ten = TENS[Math.floor(value / 10)] ?? "";
    return value % 10 === 0 ? ten : `${ten}-${sayWhole(value % 10)}`;
  }
  if (value >= 1000) {
    const rest = value % 1000;
    return `${sayWhole(Math.floor(value / 1000))} thousand${rest === 0 ? "" : ` ${sayWhole(rest)}`}`;
  }
  const hundred = sayWhole(Math.floor(value / 100));
  const rest = value % 100;
  if (rest === 0) return `${hundred} hundred`;
  return rest < 10 ? `${hundred} hundred and ${sayWhole(rest)}` : `${hundred} ${sayWhole(rest)}`;
}
