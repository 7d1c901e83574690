import type { CableFamily, PrintedSize } from "../make/wire-make.ts";
import type { Draft, SizeThere } from "./draft.ts";
import type { LabelContext } from "./label-reading.ts";
import { printMetric, printSolid } from "./print-size.ts";
import { isIecArea } from "./size-options.ts";

/** What a label's sizes come to, one way of several. */
export interface DecidedSize {
  readonly size: PrintedSize | null;
  readonly by: readonly string[];
  readonly traps: readonly string[];
  /** Contexts that it is at home in; null: in all. */
  readonly home: readonly LabelContext[] | null;
  /** The names of the size are further apart than names of one wire ever are. */
  readonly disagrees: boolean;
}

const decided = (size: PrintedSize | null, more: Partial<DecidedSize> = {}): DecidedSize => ({
  size,
  by: [],
  traps: [],
  home: null,
  disagrees: false,
  ...more,
});

const percent = (share: number): string => `${Math.round(Math.abs(share) * 100)} %`;

/**
 * Two names of one wire: at most this far apart, since a name is printed with two or three digits and strands are drawn within 3 % of the gauge's area.
 */
const SAME = 0.035;
/**
 * Square millimetres printed beside a gauge number: the customary pairs go from 9 % below the gauge (0.75 mm² for 18) to 31 % above it
 * (70 mm² for 1/0); 13 stands beside 6 (IEC 60947-1 Table 1, and the smallest metric size with at least the area of the gauge).
 */
const PAIRED = [0.87, 1.33] as const;
/** Strands beside the square millimetres of a label: copper by a class of resistance is up to 14 % less than the label. */
const OF_LABEL = [0.85, 1.08] as const;

const near = (a: number, b: number): boolean => Math.abs(a / b - 1) <= SAME;
const isGauge = ({ system }: PrintedSize): boolean => system === "AWG" || system === "SAE" || system === "kcmil";

/** Of two names of the same metal, the one that is a size on sale. */
const betterName = (a: PrintedSize, b: PrintedSize): PrintedSize =>
  a.system === "mm²" && !isIecArea(a.areaMm2) && isGauge(b) ? b : a;

function pairs(a: SizeThere, b: SizeThere, mayBeVehicle: boolean): DecidedSize[] {
  const vehicle = mayBeVehicle ? (a.vehicleSize ?? b.vehicleSize) : null;
  if (vehicle !== null) return [...pairs(a, b, false), decided(vehicle)];
  const [one, other] = [a.size, b.size];
  // The label of vehicle cable and its gauge: what stands first is what it is sold as.
  if (one.label.includes(`(${other.label})`) || other.label.includes(`(${one.label})`)) return [decided(one)];
  if (near(one.areaMm2, other.areaMm2)) return [decided(betterName(one, other))];
  const ratio = isGauge(one) ? other.areaMm2 / one.areaMm2 : one.areaMm2 / other.areaMm2;
  const customary = isGauge(one) !== isGauge(other) && ratio >= PAIRED[0] && ratio <= PAIRED[1];
  const trap = `${one.label} and ${other.label} are ${percent(one.areaMm2 / other.areaMm2 - 1)} apart: one is only the customary name beside the other`;
  return [one, other].map((size) => decided(size, { traps: [trap], disagrees: !customary }));
}

/** Whether a `ga` may be the gauge of vehicle cable. */
const isVehicleWord = (family: CableFamily | null, maybe: readonly CableFamily[]): boolean =>
  family === "vehicle wire" || family === "trailer cable" || (family === null && maybe.includes("vehicle wire"));

/** Types of SAE J1127 and J1128: their gauge is the vehicle's. */
const SAE_TYPE = /^(?:GPT|TWP|HDT|GXL|SXL|TXL|GTE|HTE|TWE|STS|HTS|SGT|SGX|STX|SGR|SGE)$/;

/** mm² of the gauge numbers of which a reduced series of sellers of sound systems is known: an article on such wire gives these two. */
const REDUCED: Readonly<Record<string, number>> = { "4": 17.2, "1/0": 44.9 };

/** `4 GA B-spec`: the gauge, or what the series makes of it. */
const reduced = (size: PrintedSize): DecidedSize[] => {
  const areaMm2 = REDUCED[size.name];
  const trap = "sellers' series give gauge numbers to less copper; the strands tell: count them and measure one";
  if (areaMm2 === undefined) return [decided(size, { traps: [trap], disagrees: true })];
  const series: PrintedSize = {
    system: "mm²",
    name: String(areaMm2),
    label: `${areaMm2} mm²`,
    areaMm2,
    basis: "metal",
  };
  return [decided(size, { traps: [trap] }), decided(series, { traps: [trap] })];
};

/**
 * Which gauge a number means.
 *
 * `14 ga` with nothing beside it is read as American gauge, with a word of warning, and not asked back: that is what house, boat and workshop mean by it, and a question at
 * every such label would be answered the same. On vehicle cable the trade means both by it, 3 to 11 % apart, and the reader asks unless the type or the
 * standard says it.
 */
function decideGauge(
  { size, vehicleSize, isUnitless }: SizeThere,
  draft: Draft,
  family: CableFamily | null,
  context: LabelContext | null,
): DecidedSize[] {
  if (draft.single.sellersSeries === true && size.system === "AWG") return reduced(size);
  const saeType = draft.types.find(({ code }) => SAE_TYPE.test(code));
  const warning = `vehicle cable of ${vehicleSize?.label ?? "SAE gauge"} holds less copper`;
  if (vehicleSize !== null) {
    if (draft.single.saeGauge === true) return [decided(vehicleSize)];
    if (saeType !== undefined)
      return [decided(vehicleSize, { by: [`${saeType.code} is made to SAE gauge, and nothing says AWG`] })];
    if (isUnitless) return [decided(size)];
    if (
      isVehicleWord(family, draft.maybeFamilies) ||
      (context === "vehicle" &&
        (family === null || family === "battery cable") &&
        draft.single.metal !== "copper-clad aluminium" &&
        !draft.maybeFamilies.includes("boat cable"))
    )
      return context === "vehicle" && REDUCED[size.name] !== undefined
        ? [...reduced(size), decided(vehicleSize)]
        : [decided(size, { traps: [warning] }), decided(vehicleSize)];
    const isSeries = draft.single.metal === "copper-clad aluminium" || context === "vehicle";
    if (isSeries && REDUCED[size.name] !== undefined && (family === null || family === "battery cable"))
      return reduced(size);
    const series =
      REDUCED[size.name] !== undefined
        ? [`sellers of sound systems have a reduced series whose ${size.label} holds 16 to 19 % less copper`]
        : [];
    return [decided(size, { traps: [warning, ...series] })];
  }
  if (size.system === "AWG" && draft.single.saeGauge === true && family !== "boat cable") {
    const other = draft.sizes.find((each) => each.size.system === "SAE");
    return other === undefined && SAE_NAMES.has(size.name)
      ? [decided(size, { traps: ["the standard that is named counts in SAE gauge, up to 11 % less copper"] })]
      : [decided(size)];
  }
  if (size.system === "AWG" && saeType !== undefined)
    return [
      decided(size, {
        traps: [`${saeType.code} is usually made to SAE gauge, which holds up to 11 % less copper; the strands tell`],
      }),
    ];
  return [decided(size)];
}

const SAE_NAMES = new Set(["20", "18", "16", "14", "12", "10", "8", "6", "4", "2", "1", "1/0", "2/0", "3/0", "4/0"]);

/** The metal that counted strands tell, against the size that is printed beside them. */
function withStrands(chosen: DecidedSize, strands: PrintedSize): DecidedSize[] {
  const { size } = chosen;
  if (size === null) return [{ ...chosen, size: strands }];
  const share = strands.areaMm2 / size.areaMm2;
  if (size.basis === "label" && !isGauge(size)) {
    if (share >= OF_LABEL[0] && share <= OF_LABEL[1]) return [chosen];
  } else if (near(strands.areaMm2, size.areaMm2) || (size.system === "SAE" && share >= 0.95 && share <= 1.1))
    return [chosen];
  const trap = `the strands come to ${Number(strands.areaMm2.toPrecision(3))} mm², ${percent(share - 1)} ${share < 1 ? "less" : "more"} than ${size.label}`;
  // Vehicle cable is sold under American numbers with up to 11 % less copper: the strands tell.
  const vehicleHabit = size.system === "AWG" && share >= 0.86 && share < 1;
  if (vehicleHabit)
    return [
      {
        ...chosen,
        size: strands,
        by: [...chosen.by, "the counted strands tell the metal"],
        traps: [trap, ...chosen.traps],
      },
    ];
  return [
    { ...chosen, traps: [trap, ...chosen.traps], disagrees: true },
    { ...chosen, size: strands, traps: [trap, ...chosen.traps], disagrees: true },
  ];
}

/** Telephone and alarm cable: `2x2x0.8` is two pairs of solid wires of 0.8 mm diameter. */
const BY_DIAMETER = /^(?:J|JE|A)-/;

/** Types that are made in metric areas alone, 2 and 3 mm² (ISO 6722) among them. */
const METRIC_VEHICLE = /^(?:thin wall|FL|TRI-RATED|H0)/;

/**
 * The size that all names of it in a label come to; several where they leave it open.
 *
 * @param family as far as it is known
 */
export function decideSize(
  draft: Draft,
  family: CableFamily | null,
  context: LabelContext | null,
): readonly DecidedSize[] {
  const unique: SizeThere[] = [];
  const byDiameter = draft.types.some(({ code }) => BY_DIAMETER.test(code));
  const isMetric = draft.types.some(({ code }) => METRIC_VEHICLE.test(code));
  for (const there of draft.sizes) {
    const area = Number(there.size.name);
    const meant = byDiameter
      ? printSolid(area)
      : isMetric && (there.size.system === "JIS" || there.size.system === "SAE metric label")
        ? printMetric(area)
        : null;
    const each = meant === null ? there : { ...there, size: meant };
    // `#10` beside a terminal is its screw, where another size stands as well.
    const isScrew = each.hash && draft.single.fitting !== undefined && draft.sizes.length > 1;
    if (!isScrew && !unique.some(({ size }) => size.label === each.size.label)) unique.push(each);
  }
  const [first, second, third] = unique;
  const screw = draft.sizes.find((each) => each.hash && !unique.includes(each));
  const screwTrap = screw === undefined ? [] : [`#${screw.size.name} is the screw of the terminal, not the wire`];
  let sizes: DecidedSize[];
  if (first === undefined) sizes = [decided(null)];
  else if (second === undefined) sizes = decideGauge(first, draft, family, context);
  else if (third === undefined)
    sizes = pairs(first, second, context === "vehicle" || isVehicleWord(family, draft.maybeFamilies));
  else sizes = unique.map(({ size }) => decided(size, { disagrees: true }));
  const [strands, otherStrands] = draft.strands;
  if (strands !== undefined) {
    // Of two names the strands decide: a gauge gives way to them, a metric label beside it was only the nearest in a catalogue.
    const gauge =
      second !== undefined && third === undefined
        ? [first, second].find((each) => each !== undefined && isGauge(each.size))
        : undefined;
    const basis =
      gauge === undefined
        ? sizes
        : [decided(gauge.size, { traps: sizes[0]?.traps ?? [], disagrees: sizes[0]?.disagrees ?? false })];
    const weighed = basis.flatMap((each) => withStrands(each, strands));
    // Of several that may be meant the strands leave those that they come to.
    const fitting = weighed.filter(({ disagrees }) => !disagrees);
    sizes = basis.length > 1 && fitting.length > 0 ? fitting : weighed;
  }
  if (otherStrands !== undefined) sizes = sizes.map((each) => ({ ...each, disagrees: true }));
  return screwTrap.length === 0 ? sizes : sizes.map((each) => ({ ...each, traps: [...screwTrap, ...each.traps] }));
}
