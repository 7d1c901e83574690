import type { Level, Span } from "../diagnostic.ts";

/** What can be said of a text that should name a wire size. The first of a pair of places is inclusive, the second is not. */
export interface WireSizeProblem {
  readonly id: WireSizeProblemId;
  readonly level: Extract<Level, "error" | "hint">;
  readonly at: Span;
  readonly message: string;
  readonly hint?: string;
  readonly data: Readonly<Record<string, string | number>>;
}

export type WireSizeProblemId =
  | "size-expected"
  | "size-unit-missing"
  | "area-or-diameter"
  | "separator-ambiguous"
  | "not-a-size"
  | "letter-for-digit"
  | "cable-label"
  | "strand-count"
  | "other-gauge"
  | "gauge-of-which-kind"
  | "no-standard-size"
  | "decimal-comma";

type Data = WireSizeProblem["data"];

const EXAMPLES = "`12 AWG`, `2/0 AWG`, `250 kcmil`, `2.5 mm²` or `12 SAE`";
const LONGEST_EXCERPT = 40;
/** A stretch of a person's text: cut where it is long, with a mark for what does not show. */
const quote = (text: string) =>
  `\`${text.slice(0, LONGEST_EXCERPT).replace(/\p{C}/gu, "�")}${text.length > LONGEST_EXCERPT ? "…" : ""}\``;

const say =
  (level: WireSizeProblem["level"]) =>
  (id: WireSizeProblemId, at: Span, message: string, hint: string, data: Data = {}): WireSizeProblem => ({
    id,
    level,
    at,
    message,
    hint,
    data,
  });
const error = say("error");
const hint = say("hint");

export const sizeExpected = (at: Span, written: string): WireSizeProblem =>
  error(
    "size-expected",
    at,
    written === ""
      ? "nothing is written here; a wire size was expected"
      : `${quote(written)} is not a wire size that is known here`,
    `write ${EXAMPLES}`,
  );

export const sizeUnitMissing = (at: Span, figures: string, canBeGauge: boolean): WireSizeProblem =>
  error(
    "size-unit-missing",
    at,
    canBeGauge
      ? `a wire size of \`${figures}\` can be a gauge number or an area`
      : `a wire size of \`${figures}\` needs a unit`,
    canBeGauge ? `write \`${figures} AWG\` or \`${figures} mm²\`` : `write \`${figures} mm²\``,
    { figures },
  );

export const areaOrDiameter = (at: Span, figures: string): WireSizeProblem =>
  error(
    "area-or-diameter",
    at,
    `\`${figures} mm\` is a width: the trade says it of the area, of the outside diameter and of a solid wire`,
    `write \`${figures} mm²\` if that is the area; otherwise the area that the label or the data sheet gives`,
    { figures },
  );

export const separatorAmbiguous = (at: Span, written: string): WireSizeProblem => {
  const decimal = written.replace(",", ".");
  const grouped = written.replace(",", "");
  return error(
    "separator-ambiguous",
    at,
    `\`${written}\` can mean ${decimal} or ${grouped}`,
    `write \`${decimal}\` or \`${grouped}\``,
    { decimal, grouped },
  );
};

export const notASize = (at: Span, written: string, expected: string): WireSizeProblem =>
  error("not-a-size", at, `${quote(written)} is no size of its system; ${expected} was expected`, `write ${EXAMPLES}`, {
    expected,
  });

export const letterForDigit = (at: Span, meant: string): WireSizeProblem =>
  error("letter-for-digit", at, "a letter stands where a nought was expected", `did you mean \`${meant}\`?`, { meant });

export const cableLabel = (at: Span, written: string, what: string, next: string): WireSizeProblem =>
  error(
    "cable-label",
    at,
    `${quote(written)} is the label of a cable, ${what}; the size of one conductor was expected`,
    next,
  );

export const strandCount = (at: Span, written: string, areaMm2: number): WireSizeProblem => {
  const area = String(Number(areaMm2.toPrecision(3)));
  return error(
    "strand-count",
    at,
    `${quote(written)} counts strands and their thickness, together ${area} mm² of metal; the size of the conductor was expected`,
    `write \`${area} mm²\`, or the size that is printed beside it`,
    { areaMm2 },
  );
};

export const otherGauge = (at: Span, written: string, areaMm2: number | null): WireSizeProblem => {
  const area = areaMm2 === null ? "" : ` of ${areaMm2} mm²`;
  return error(
    "other-gauge",
    at,
    `${quote(written)} is a British gauge${area}, another thickness than the American gauge of that number`,
    areaMm2 === null ? "write the area in mm²" : `write \`${areaMm2} mm²\``,
    areaMm2 === null ? {} : { areaMm2 },
  );
};

export const gaugeOfWhichKind = (at: Span, awg: string, sae: string): WireSizeProblem =>
  hint(
    "gauge-of-which-kind",
    at,
    `the gauge is read as ${awg}; vehicle cable of SAE gauge holds up to 11 % less copper`,
    `write \`${awg}\` or \`${sae}\``,
    {
      awg,
      sae,
    },
  );

export const noStandardSize = (at: Span, label: string, next: string): WireSizeProblem =>
  hint("no-standard-size", at, `${label} is not a size of IEC 60228; it is taken as written`, next, { label });

export const decimalComma = (at: Span, written: string, point: string): WireSizeProblem =>
  hint("decimal-comma", at, `\`${written}\` is read as ${point}`, `write \`${point}\``, { written, point });
