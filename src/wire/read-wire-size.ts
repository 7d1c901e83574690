import type { Span } from "../diagnostic.ts";
import { findRow } from "../explain/index.ts";
import { saeGauge } from "../reference/sae-gauge.ts";
import { swg } from "../reference/swg.ts";
import * as problem from "./size-problem.ts";
import type { WireSizeProblem } from "./size-problem.ts";
import { isIecSize } from "./stocked-sizes.ts";
import { awgSize, kcmilSize, LARGEST, metricSize, saeSize, type SizeSystem, type WireSize } from "./wire-size.ts";

/** What the reader may lean on where a text leaves something open. */
export interface WireSizeContext {
  /** System in which the build is bought; decides what a bare `ga` means. */
  readonly system?: SizeSystem;
}

/** A size with what could be written better, or what is wrong with the text. */
export type WireSizeReading =
  | { readonly ok: true; readonly size: WireSize; readonly hints: readonly WireSizeProblem[] }
  | { readonly ok: false; readonly problems: readonly WireSizeProblem[] };

interface Found {
  readonly groups: Readonly<Record<string, string | undefined>>;
  /** The text without blanks at its ends, as written. */
  readonly written: string;
  readonly at: Span;
  readonly context: WireSizeContext;
}

/** One way in which sizes are written. Forms are tried in order; each fits a whole text or not at all. */
interface Form {
  readonly pattern: RegExp;
  readonly read: (found: Found) => WireSizeReading;
}

const size = (value: WireSize, ...hints: readonly WireSizeProblem[]): WireSizeReading => ({
  ok: true,
  size: value,
  hints,
});
const wrong = (...problems: readonly WireSizeProblem[]): WireSizeReading => ({ ok: false, problems });

const GAUGES = "a gauge from 40 to 4/0";

function gauge({ groups, written, at, context }: Found): WireSizeReading {
  const { name = "", noughts } = groups;
  const isVehicle = groups["sae"] !== undefined || (groups["ga"] !== undefined && context.system === "SAE");
  const asked = (noughts ?? name).replace(/^0+(?=[1-9])/, "").replace(/\s/g, "");
  const american = awgSize(asked);
  const vehicle = saeSize(asked);
  if (isVehicle)
    return vehicle === null ? wrong(problem.notASize(at, written, "an SAE gauge from 20 to 4/0")) : size(vehicle);
  if (american === null) return wrong(problem.notASize(at, written, GAUGES));
  if (groups["ga"] !== undefined && vehicle !== null)
    return size(american, problem.gaugeOfWhichKind(at, american.label, vehicle.label));
  return size(american);
}

/** Figures with a decimal point, or why they cannot be told apart from grouped thousands. */
function figures(
  written: string,
  at: Span,
): { readonly value: number; readonly hints: readonly WireSizeProblem[] } | WireSizeProblem {
  if (/^[1-9]\d{0,2},\d{3}$/.test(written)) return problem.separatorAmbiguous(at, written);
  const point = written.replace(",", ".");
  return { value: Number(point), hints: written === point ? [] : [problem.decimalComma(at, written, point)] };
}

function metric({ groups, written, at }: Found): WireSizeReading {
  const read = figures(groups["number"] ?? "", at);
  if ("id" in read) return wrong(read);
  if (!(read.value > 0 && read.value <= LARGEST.mm2))
    return wrong(problem.notASize(at, written, `an area above 0 to ${LARGEST.mm2} mm²`));
  const value = metricSize(read.value);
  if (isIecSize(value)) return size(value, ...read.hints);
  // 13, 19 and 32 mm² stand on vehicle cable beside its gauge, and the metal is not that.
  const sae = saeGauge.rows.find(
    ({ saeMetricLabelMm2, saeGauge: name }) => saeMetricLabelMm2 === value.areaMm2 && /^([6421]|\d\/0)$/.test(name),
  );
  const next =
    sae === undefined
      ? "check the label; where it counts strands, their area is the safest figure"
      : `write \`${sae.saeGauge} SAE\` if it is vehicle cable with that label`;
  return size(value, ...read.hints, problem.noStandardSize(at, value.label, next));
}

function circularMils({ groups, written, at }: Found): WireSizeReading {
  const grouped = (groups["number"] ?? "").replace(/[ ,](?=\d{3})/g, "");
  const kcmil =
    groups["thousands"] === undefined ? Number(grouped) / 1000 : Number((groups["number"] ?? "").replace(",", "."));
  if (!(kcmil > 0 && kcmil <= LARGEST.kcmil))
    return wrong(problem.notASize(at, written, `an area above 0 to ${LARGEST.kcmil} kcmil`));
  return size(kcmilSize(kcmil));
}

const NUMBER = String.raw`(?<number>\d{1,6}(?:[.,]\d{1,6})?|[.,]\d{1,6})`;
const WHOLE = String.raw`(?<number>\d{1,3}(?:[ ,]\d{3})+|\d{1,7})`;
const SQUARE_MM = String.raw`(?:mm ?[2²]|mm\^2|sq\.? ?mm|mm\.? ?sq\.?|square (?:millimet(?:re|er)s?|mm)|sq|mmq|qmm|кв\.? ?мм)\.?`;
const GAUGE = String.raw`(?:(?<noughts>[1-4] ?\/ ?0|0{1,4})|(?<name>\d{1,3}))`;
const AWG = String.raw`(?:awg|a\.w\.g\.|b ?& ?s)`;
const GA = String.raw`(?<ga>ga\.?|gauge|gage)`;
const SAE = String.raw`(?<sae>sae(?: ?j ?112[78])?)`;

const form = (pattern: string, read: Form["read"], flags = "iu"): Form => ({
  pattern: new RegExp(`^(?:${pattern})$`, flags),
  read,
});

const forms: readonly Form[] = [
  form(`${AWG} ?(?:#|no\\.? ?|size )?${GAUGE}`, gauge),
  form(`(?:#|no\\.?)? ?${GAUGE} ?-? ?${AWG}(?: (?:gauge|gage|ga\\.?))?`, gauge),
  form(`(?:#|no\\.?) ?${GAUGE}`, gauge),
  form("(?<noughts>[1-4] ?\\/ ?0|0{2,4})", gauge),
  form(`${GAUGE} ?-? ?${SAE}(?: (?:gauge|gage|ga\\.?))?`, gauge),
  form(`${SAE} ?#?${GAUGE}`, gauge),
  form(`${GAUGE} ?-? ?(?:ga\\.?|gauge|gage) ${SAE}`, gauge),
  form(`(?:#|no\\.?)? ?${GAUGE} ?-? ?${GA}`, gauge),
  form(`${NUMBER} ?${SQUARE_MM}`, metric),
  form("(?<number>\\d{1,4}(?:[.,]\\d{1,3})?) ?(?<thousands>kcmil|mcm|kcm)", circularMils),
  form(`${WHOLE} ?(?:cmils?|circ(?:ular|\\.)? ?mils?)`, circularMils),
  form(`${WHOLE} ?C\\.?M\\.?`, circularMils, "u"), // in small letters these are centimetres
  // What follows is understood well enough to be asked back.
  form(`${NUMBER} ?(?:mm|millimet(?:re|er)s?|м?мм)`, ({ groups, at }) =>
    wrong(problem.areaOrDiameter(at, groups["number"] ?? "")),
  ),
  form("(?<digit>[1-4]) ?\\/ ?o(?: ?awg)?", ({ groups, at }) =>
    wrong(problem.letterForDigit(at, `${groups["digit"] ?? ""}/0 AWG`)),
  ),
  form("(?<swg>\\d{1,2}|[1-7]\\/0) ?s\\.?w\\.?g\\.?", ({ groups, written, at }) =>
    wrong(problem.otherGauge(at, written, findRow(swg, groups["swg"] ?? "")?.areaMm2 ?? null)),
  ),
  form("(?<count>\\d{1,4}) ?\\/ ?(?<thick>0?[.,]\\d{1,3})(?: ?mm)?", ({ groups, written, at }) => {
    const thickness = Number((groups["thick"] ?? "").replace(",", "."));
    return wrong(problem.strandCount(at, written, (Number(groups["count"]) * Math.PI * thickness ** 2) / 4));
  }),
  form("(?<count>\\d{1,4}) ?\\/ ?(?<thin>[2-4]\\d)(?: ?awg)?", ({ groups, written, at }) => {
    const strand = awgSize(groups["thin"] ?? "");
    return wrong(
      strand === null
        ? problem.sizeExpected(at, written)
        : problem.strandCount(at, written, Number(groups["count"]) * strand.areaMm2),
    );
  }),
  form(
    "(?<gauge>\\d{1,2}) ?[\\/-] ?(?<cores>[1-9]|1\\d)(?: ?(?:awg|w ?\\/ ?g.*|with ground.*))?",
    ({ groups, written, at }) => {
      const conductor = awgSize(groups["gauge"] ?? "")?.label ?? "one conductor";
      const next = `write \`${conductor}\` for one conductor, and say which conductors the cable has`;
      return wrong(
        problem.cableLabel(
          at,
          written,
          "and whether its second figure counts the ground depends on the kind of cable",
          next,
        ),
      );
    },
  ),
  form(`(?<cores>\\d{1,2}) ?(?<kind>[gx×]) ?${NUMBER}(?: ?${SQUARE_MM})?`, ({ groups, written, at }) =>
    wrong(
      problem.cableLabel(
        at,
        written,
        `of ${groups["cores"] ?? ""} conductors`,
        `write \`${groups["number"] ?? ""} mm²\` for one of them`,
      ),
    ),
  ),
  form(NUMBER, ({ groups, at }) => {
    const number = (groups["number"] ?? "").replace(",", ".");
    // Thinner than 18 AWG is not used for power, so a larger number alone is an area.
    return wrong(problem.sizeUnitMissing(at, number, awgSize(number) !== null && Number(number) <= 18));
  }),
];

/** Longest text that can name a size; what is longer is not searched. */
const LONGEST = 60;

/**
 * Reads the size of one conductor as people write it.
 *
 * Reads AWG (`12 AWG`, `AWG 12`, `12 ga`, `#12`, `2/0`, `0000`, `8 B&S`), kcmil (`250 MCM`, `250,000 CM`), mm² (`2,5 mm²`, `35 sq mm`, `10 SQ`) and SAE
 * gauge (`12 SAE`). Asks back where two readings are lawful: `6 mm`, `12/2`, a number alone. Does not read strands, metal or colours.
 *
 * @param text one line; never trusted
 * @returns a size with hints, or what is wrong, each with its place in the text
 * @source size notations: ASTM B258, IEC 60228, SAE J1127 and J1128
 * @example
 * readWireSize("2,5 mm2").size.label //=> "2.5 mm²"
 * readWireSize("0000").size.label //=> "4/0 AWG"
 * readWireSize("6 mm").problems[0].id //=> "area-or-diameter"
 */
export function readWireSize(text: string, context: WireSizeContext = {}): WireSizeReading {
  const start = text.length - text.trimStart().length;
  const written = text.trim();
  const at: Span = [start, start + written.length];
  if (written.length > LONGEST || written === "") return wrong(problem.sizeExpected(at, written));
  const plain = plainText(written);
  for (const { pattern, read } of forms) {
    const match = pattern.exec(plain);
    if (match !== null) return read({ groups: match.groups ?? {}, written: plain, at, context });
  }
  return wrong(problem.sizeExpected(at, plain));
}

/** One blank for any number of any kind, one slash for those that look alike. What does not show is left in, and fits no form. */
const plainText = (text: string): string =>
  text
    .replace(/[\s\u00a0\u2007\u2009\u202f]+/g, " ")
    .replace(/[⁄∕]/g, "/")
    .replace(/[‐-―−]/g, "-");
