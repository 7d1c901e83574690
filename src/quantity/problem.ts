/** The words of every problem, in one place: what is, what was expected, one next step. */
import type { Span } from "../diagnostic.ts";
import type { Problem, ProblemId } from "./amount.ts";
import { decimalText } from "./decimal-text.ts";
import { dimensions, type Dimension } from "./dimension.ts";

type Asked = readonly Dimension[];
type Data = Problem["data"];

function error(id: ProblemId, at: Span, message: string, hint: string, data: Data = {}): Problem {
  return { id, level: "error", at, message, hint, data };
}

function hint(id: ProblemId, at: Span, message: string, next: string, data: Data): Problem {
  return { id, level: "hint", at, message, hint: next, data };
}

const LONGEST_EXCERPT = 40;

/** A stretch of the text between backticks, cut where it is long. */
function quote(text: string, start: number, end: number): string {
  const cut = Math.min(end, start + LONGEST_EXCERPT);
  return `\`${text.slice(start, cut)}${cut < end ? "…" : ""}\``;
}

/** "a length", "a time a day or an energy a day". */
const called = (asked: Asked): string => asked.map((dimension) => dimensions[dimension].called).join(" or ");

/** How the figures would look with a unit: "`3.2 m` or `3.2 ft`". */
function examples(asked: Asked, figures: string): string {
  const shown = asked.flatMap((dimension) =>
    dimensions[dimension].usual.map((unit) => (unit === "" ? `\`${figures}\`` : `\`${figures} ${unit}\``)),
  );
  return [...new Set(shown)].join(" or ");
}

const FIGURES = "12";

export const empty = (length: number, asked: Asked): Problem =>
  error(
    "empty",
    [0, length],
    `nothing is written here; ${called(asked)} was expected`,
    `write ${examples(asked, FIGURES)}, or \`unknown\``,
  );

export const notANumber = (text: string, start: number, end: number, asked: Asked): Problem =>
  error(
    "not-a-number",
    [start, end],
    `${quote(text, start, end)} is not a number; ${called(asked)} was expected`,
    `write ${examples(asked, FIGURES)}, or \`unknown\``,
    { found: text.slice(start, Math.min(end, start + LONGEST_EXCERPT)) },
  );

export const malformedNumber = (text: string, start: number, end: number): Problem =>
  error(
    "not-a-number",
    [start, end],
    `${quote(text, start, end)} is not one number`,
    "write one number with one decimal point, and a blank between two numbers",
    { found: text.slice(start, Math.min(end, start + LONGEST_EXCERPT)) },
  );

export const numberMissing = (text: string, start: number, end: number, asked: Asked): Problem =>
  error(
    "not-a-number",
    [start, end],
    `no number follows ${quote(text, start, end)}; ${called(asked)} was expected`,
    "write both numbers, or leave the sign out",
    { found: text.slice(start, end) },
  );

export function exponent(text: string, start: number, end: number): Problem {
  const number = Number(text.slice(start, end).replace("−", "-").replace(",", "."));
  const isPlain = Math.abs(number) < 1e15 && Math.abs(number) > 1e-15;
  const inFull = isPlain ? `\`${number < 0 ? "-" : ""}${decimalText(number, { figures: 15 })}\`` : "the number in full";
  return error(
    "exponent",
    [start, end],
    `powers of ten such as ${quote(text, start, end)} are not read`,
    `write ${inFull}`,
  );
}

export const tooManyDigits = (start: number, end: number, digits: number): Problem =>
  error("too-many-digits", [start, end], `a number of ${digits} digits stands here`, "write at most 40 digits", {
    digits,
  });

export function separatorAmbiguous(text: string, start: number, end: number): Problem {
  const written = text.slice(start, end);
  const decimal = written.replace(",", ".");
  const grouped = written.replace(",", "");
  return error(
    "separator-ambiguous",
    [start, end],
    `\`${written}\` can mean ${decimal} or ${grouped}`,
    `write \`${decimal}\` or \`${grouped}\``,
    { decimal, grouped },
  );
}

export const fractionAmbiguous = (text: string, start: number, end: number): Problem =>
  error(
    "fraction-ambiguous",
    [start, end],
    `${quote(text, start, end)} can mean two numbers, a name or a fraction`,
    "write one number, such as `5.5` or `5 1/2`",
  );

export const notWhole = (figures: string, at: Span): Problem =>
  error("not-whole", at, `a whole number was expected, \`${figures}\` is not one`, "write a number without a part", {
    figures,
  });

/** `16 ft 4`: the second number waits for its own unit. */
export const smallerUnitMissing = (figures: string, at: Span, whole: string, asked: Asked): Problem =>
  error("unit-missing", at, `${called(asked)} needs a unit behind each number`, `write \`${whole}\``, { figures });

export const unitMissing = (figures: string, at: Span, asked: Asked): Problem =>
  error("unit-missing", at, `${called(asked)} needs a unit`, `write ${examples(asked, figures)}`, { figures });

export function unitUnknown(
  text: string,
  start: number,
  end: number,
  figures: string,
  nearest: string | null,
  asked: Asked,
): Problem {
  const next = nearest === null ? `write ${examples(asked, figures)}` : `did you mean \`${figures} ${nearest}\`?`;
  const data = { found: text.slice(start, Math.min(end, start + LONGEST_EXCERPT)) };
  return error(
    "unit-unknown",
    [start, end],
    `no unit is written ${quote(text, start, end)}; ${called(asked)} was expected`,
    next,
    nearest === null ? data : { ...data, nearest },
  );
}

export function unitWrong(
  text: string,
  start: number,
  end: number,
  figures: string,
  measures: Dimension,
  asked: Asked,
): Problem {
  return error(
    "unit-wrong",
    [start, end],
    `${quote(text, start, end)} is the unit of ${dimensions[measures].called}; ${called(asked)} was expected`,
    `write ${examples(asked, figures)}`,
    { found: text.slice(start, end), measures, expected: asked.join(" or ") },
  );
}

/** `6 mm` is said of an area, of the outside of a cable and of a solid conductor. */
export function areaOrDiameter(
  text: string,
  start: number,
  end: number,
  figures: string,
  unit: string,
  round: string,
): Problem {
  const area = unit === "mm" ? `\`${figures} mm²\` if that is the area` : "the area";
  return error(
    "area-or-diameter",
    [start, end],
    `${quote(text, start, end)} measures a width; an area was expected`,
    `write ${area}; a round wire so thick has ${round}`,
    { figures, unit, round },
  );
}

export const twoNumbers = (text: string, start: number, end: number, asked: Asked): Problem =>
  error(
    "two-numbers",
    [start, end],
    `one number was expected for ${called(asked)}, and ${quote(text, start, end)} is another`,
    "write one number, or a range such as `2…3` with its unit",
  );

export const doesNotAddUp = (at: Span, large: string, small: string, parts: number): Problem =>
  error(
    "two-numbers",
    at,
    `these two do not make one number: ${large} must be whole, and ${small} below ${parts}`,
    `write it in one unit, all in ${large} or all in ${small}`,
    { large, small, parts },
  );

export const mixedForms = (at: Span): Problem =>
  error(
    "mixed-forms",
    at,
    "`about` stands with a range or a tolerance, which already says how far off the number may be",
    "leave out `about`",
  );

export const relativeTemperature = (at: Span): Problem =>
  error(
    "relative-temperature",
    at,
    "a percentage of a temperature has no meaning, since its zero is a convention",
    "write the tolerance in degrees, such as `± 2 °C`",
  );

export const negativeSpread = (at: Span): Problem =>
  error("out-of-range", at, "a tolerance of 0 or more was expected behind `±`", "leave out its sign");

export const tooSmall = (at: Span, written: string, least: string, dimension: Dimension): Problem =>
  error(
    "out-of-range",
    at,
    `${called([dimension])} of at least ${least} was expected, \`${written}\` is less`,
    `write ${least} or more`,
    { least },
  );

/** Below nought where nothing negative is lawful: the sign is one too many more often than the figure is wrong. */
export const belowZero = (at: Span, written: string, unsigned: string, dimension: Dimension): Problem =>
  error(
    "out-of-range",
    at,
    `\`${written}\` is below zero; ${called([dimension])} of at least 0 was expected`,
    `write \`${unsigned}\`, without its sign`,
    { least: "0" },
  );

export const tooLarge = (at: Span, written: string, most: string, dimension: Dimension): Problem =>
  error(
    "out-of-range",
    at,
    `${called([dimension])} of at most ${most} was expected, \`${written}\` is more`,
    `write ${most} or less`,
    { most },
  );

export const beyondReason = (at: Span, dimension: Dimension): Problem =>
  error(
    "out-of-range",
    at,
    `${called([dimension])} of a size between 10⁻¹⁵ and 10¹⁵ was expected`,
    "check the digits and the unit",
  );

export const trailingText = (text: string, start: number, end: number, asked: Asked): Problem =>
  error(
    "trailing-text",
    [start, end],
    `${quote(text, start, end)} follows ${called(asked)}, and nothing was expected there`,
    "leave it out, or move it to a comment",
    { found: text.slice(start, Math.min(end, start + LONGEST_EXCERPT)) },
  );

export function hiddenCharacter(text: string, at: number): Problem {
  const code = (text.codePointAt(at) ?? 0).toString(16).toUpperCase().padStart(4, "0");
  return error(
    "hidden-character",
    [at, at + ((text.codePointAt(at) ?? 0) > 0xffff ? 2 : 1)],
    `a character that does not show stands here, U+${code}`,
    "delete it, or type the value anew",
    { code: `U+${code}` },
  );
}

export const decimalComma = (written: string, at: Span, point: string): Problem =>
  hint("decimal-comma", at, `\`${written}\` is read as ${point}`, `write \`${point}\``, { written, point });

export const rangeReversed = (at: Span, inOrder: string): Problem =>
  hint("range-reversed", at, `the range runs downwards; it is read as ${inOrder}`, `write \`${inOrder}\``, { inOrder });
