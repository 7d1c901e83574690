import { decimalText } from "../quantity/decimal-text.ts";
import { isVerified, printCitation, printTrust } from "../explain/index.ts";
import { usualKind, type Conversion, type ConvertedSize, type ConvertInput } from "../wire/convert/index.ts";
import type { PrintedSize } from "../wire/make/wire-make.ts";
import { printRows } from "./stack-rows.ts";
import type { Paint } from "./terminal.ts";
import { wrap } from "./text-width.ts";

interface Row {
  readonly size: PrintedSize;
  readonly ohmsPerMetre: number;
  readonly says: string;
}

/** The answer: a sentence, the sizes side by side, what was compared, what published lists say, and what misleads. */
export function printConversion(
  conversion: Conversion,
  input: ConvertInput & { readonly conductorC: number },
  notes: readonly string[],
  width: number,
  paint: Paint,
): string {
  const { says, pairing, otherPairs, cautions, trust } = conversion;
  const lists = [
    ...(pairing === null
      ? ["no published list has this pair"]
      : [`published pair: ${pairing.says}${doubt(pairing.trust)} [${printCitation(pairing.source)}]`]),
    ...otherPairs.map((pair) => `otherwise: ${pair.says}`),
  ];
  const blocks = [
    wrap(`${says}${doubt(trust)}`, width).map((line) => paint("bold", line)),
    rows(conversion, width, paint),
    [comparedSays(conversion, input), ...notes, ...(conversion.to === null ? [] : lists)].flatMap((line) =>
      wrap(line, width, 2),
    ),
    cautions.length === 0 ? [] : ["Cautions", ...cautions.flatMap((caution) => wrap(`- ${caution}`, width, 2))],
  ];
  return blocks
    .filter((block) => block.length > 0)
    .map((block) => `${block.join("\n")}\n`)
    .join("\n");
}

const doubt = (trust: Conversion["trust"]): string => (isVerified(trust) ? "" : ` (${printTrust(trust)})`);

function rows({ from, to, smaller }: Conversion, width: number, paint: Paint): string[] {
  if (to === null) return [];
  const all: Row[] = [
    { ...from, says: "given" },
    { ...to, says: `taken: ${against(to)}` },
    ...(smaller === null ? [] : [{ ...smaller, says: `next smaller: ${against(smaller)}` }]),
  ];
  return printRows<Row>(
    [
      { head: "size", cell: ({ size }) => size.label },
      { head: "mm²", cell: ({ size }) => decimalText(size.areaMm2, { figures: 4 }), align: "number" },
      { head: "", cell: ({ size }) => (size.basis === "metal" ? "metal" : "label") },
      { head: "Ω/km", cell: ({ ohmsPerMetre }) => decimalText(ohmsPerMetre * 1000, { figures: 4 }), align: "number" },
      { head: "", cell: ({ says }) => says, least: 16 },
    ],
    all,
    width,
    paint,
  );
}

/** A change with its sign: a loss must not be overlooked. */
function signed(change: number, of: string): string {
  const percent = 100 * change;
  const figure = Math.abs(percent) < 0.05 ? "±0" : `${percent > 0 ? "+" : "−"}${Math.abs(percent).toFixed(1)}`;
  return `${figure} % ${of}`;
}

const against = ({ areaChange, resistanceChange }: ConvertedSize): string =>
  `${signed(areaChange, "area")}, ${signed(resistanceChange, "resistance")}`;

/** Of what make both are taken: it decides a comparison of resistances. */
function comparedSays({ from, to }: Conversion, { from: given, into, conductorC }: ConvertInput): string {
  const own = { ...usualKind(from.size), ...given };
  const kind = ({ strands, plating, metal }: typeof own): string =>
    `${strands}, ${plating === "tinned" ? "tinned " : ""}${metal}`;
  const other =
    to === null
      ? ""
      : `; ${to.size.label}: ${kind({ ...usualKind(to.size), metal: own.metal, plating: own.plating, ...into })}`;
  return `compared: ${from.size.label}: ${kind(own)}${other}; at ${conductorC ?? 20} °C`;
}
