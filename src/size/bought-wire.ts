import { ampacityAmps } from "../ampacity/index.ts";
import { celsius } from "../quantity/index.ts";
import type { Run } from "../route/index.ts";
import { smallConductor, type RuleSet } from "../ruleset/index.ts";
import type { LabelContext } from "../wire/label/label-reading.ts";
import { readLabel } from "../wire/label/read-label.ts";
import type { WireMake } from "../wire/make/wire-make.ts";
import {
  isIecSize,
  isStrands,
  metalSize,
  ratedTemperature,
  resistancePerMetre20,
  sizeOfPrint,
  type ConductorMake,
  type Strands,
  type WireSize,
} from "../wire/index.ts";
import type { BoughtOnPaper } from "./design.ts";
import { mostAllowed } from "./devices-allow.ts";
import type { Rungs } from "./ladder.ts";
import type { CircuitModel } from "./model.ts";
import type { PlacedDevice } from "./place-devices.ts";
import { labelContextOf } from "./rule-set-of.ts";

/** A conductor that a label can mean. */
export interface BoughtMake {
  /** The label's facts, and the drawn ones where it says none. */
  readonly make: ConductorMake;
  /** Temperature of the insulation, °C; null: the label does not say it. */
  readonly insulationC: number | null;
  readonly says: string;
  /** Another size or make out of the tables that designs are made by: somebody chose it in place of the drawn one. */
  readonly isSubstitute: boolean;
}

/** What the label of a bought wire comes to beside the drawn one. */
export interface BoughtWire {
  /** Every conductor that it can mean, the poorest first; empty: it tells no size in one of its readings. */
  readonly makes: readonly BoughtMake[];
  /** What settles which of them it is; null: nothing is open, or it tells no size at all. */
  readonly question: string | null;
}

/**
 * Reads what the label of a bought wire says of its copper, beside the drawn wire.
 *
 * An area in mm² that is no size of the standard is that of the metal, as are counted strands. A label with several readings tells them all: what is true of each is
 * true of the wire, and the rest is a question.
 *
 * @param drawn lends metal, plating and strands where the label says none; `insulationC`, °C: poorer insulation makes another wire of the same size
 * @param context where the wire was bought for; absent: not known
 * @example
 * const drawn = { size: metricSize(6), metal: "copper", plating: "plain", strands: "class 5" };
 * readBoughtWire("10 AWG tinned", drawn).makes.map((m) => m.make.size.label) //=> ["10 AWG"]
 * readBoughtWire("6 mm", drawn).question === null //=> false
 */
export function readBoughtWire(
  label: string,
  drawn: ConductorMake & { readonly insulationC?: number },
  context?: LabelContext,
): BoughtWire {
  // Gauges of vehicle cable are leaner: where nobody says what it was bought for, `6 ga` may be one.
  const told = context ?? (/\d\s*(?:ga|gauge|gage)(?!\p{L})/iu.test(label) ? "vehicle" : undefined);
  const read = readLabel(label, told === undefined ? {} : { context: told });
  if (read.verdict === "rejected") return { makes: [], question: null };
  const makes = new Map<string, BoughtMake>();
  const own = keyOf(drawn);
  for (const { make, says, from } of read.readings) {
    const [span] = from.size ?? [];
    // That a width is said of an area is a habit, and what was bought is no place to lean on one.
    if (make.size?.system === "mm²" && span !== undefined && /\d\s*mm$/iu.test(label.slice(...span)))
      return { makes: [], question: `is \`${label.slice(...span)}\` the area in mm², or a width?` };
    const bought = makeBought(make, drawn);
    if (bought === null) return { makes: [], question: read.verdict === "ambiguous" ? read.question : null };
    const insulationC = ratedTemperature(make);
    const key = `${keyOf(bought)} ${insulationC ?? ""}`;
    const isPoorer = (insulationC ?? Infinity) < (drawn.insulationC ?? -Infinity);
    const isSubstitute = isTableSize(make, bought.size) && (keyOf(bought) !== own || isPoorer);
    if (!makes.has(key)) makes.set(key, { make: bought, insulationC, says, isSubstitute });
  }
  const ohms = ({ make }: BoughtMake): number => resistancePerMetre20(make).ohmsPerMetre;
  const sorted = [...makes.values()].sort((a, b) => ohms(b) - ohms(a));
  return { makes: sorted, question: read.verdict === "ambiguous" && sorted.length > 1 ? read.question : null };
}

const keyOf = ({ size, metal, plating, strands }: ConductorMake): string =>
  [size.label, metal, plating, strands].join();

/** Sizes that designs are made by; an area that is no size of the standard, counted strands and other gauges tell their metal. */
const isTableSize = (make: WireMake, size: WireSize): boolean =>
  make.size?.system === "AWG" || make.size?.system === "kcmil" || (make.size?.system === "mm²" && isIecSize(size));

function makeBought(make: WireMake, drawn: ConductorMake): ConductorMake | null {
  // Which core is whose, nobody says: where they differ, the thinnest counts.
  const sizes = [make.size, ...(make.cores?.others ?? []).map((other) => other.size)].flatMap((s) => s ?? []);
  const printed = sizes.sort((a, b) => a.areaMm2 - b.areaMm2)[0];
  const read = printed === undefined ? null : sizeOfPrint(printed);
  if (read === null) return null;
  const isMetal = printed?.system === "mm²" && !isIecSize(read);
  const size = isMetal ? metalSize(read.areaMm2, read.label) : read;
  const named = make.stranding?.name ?? null;
  const strands: Strands = named === "solid" ? "class 1" : named !== null && isStrands(named) ? named : drawn.strands;
  const metal = make.metal === null ? drawn.metal : make.metal === "copper" ? "copper" : "aluminium";
  return { size, metal, plating: make.plating ?? drawn.plating, strands };
}

/** The conductor that a circuit is computed with. */
const drawnMake = (c: CircuitModel, rung: number): ConductorMake | null => c.rungs?.ladder.makes[rung] ?? null;

/** What a bought wire may carry as it lies here, A: poorer insulation loses more in hot air. Null where no rule set says it. */
export function boughtAmps(c: CircuitModel, run: Run, bought: BoughtMake): number | null {
  const { rungs } = c;
  if (rungs === null || run.stretches.length === 0) return null;
  const insulationC = celsius(bought.insulationC ?? c.circuit.insulationC.low);
  const stretches = run.stretches.map((s) => ({ ...s, ambientC: celsius(s.ambientC) }));
  return (
    Math.min(
      ...setsOf(rungs).map((set) => ampacityAmps(set.ampacity, bought.make, insulationC, stretches, run.installed)),
    ) * c.circuit.parallel
  );
}

const setsOf = ({ ruleSet, bySet }: Rungs): readonly RuleSet[] => bySet?.map((each) => each.ruleSet) ?? [ruleSet];

/** The bought wire as a schedule prints it, with what follows from another size than the drawn one. */
export function boughtOnPaper(
  c: CircuitModel,
  run: Run,
  rung: number,
  devices: readonly PlacedDevice[],
): BoughtOnPaper | null {
  const label = c.circuit.boughtAs;
  if (label === undefined) return null;
  const drawn = drawnMake(c, rung);
  const bought = drawn === null ? null : readBoughtWire(label, drawn, labelContextOf(c.supply));
  const [only, other] = bought?.makes ?? [];
  if (bought === null || drawn === null || only === undefined || other !== undefined)
    return { label, says: null, size: null, question: bought?.question ?? null, follows: [] };
  const { size } = only.make;
  const paper = { label, says: only.says, size: { label: size.label, areaMm2: size.areaMm2 }, question: null };
  if (size.label === drawn.size.label) return { ...paper, follows: [] };
  const less = resistancePerMetre20(only.make).ohmsPerMetre / resistancePerMetre20(drawn).ohmsPerMetre - 1;
  const most = boughtAmps(c, run, only);
  const sets = c.rungs === null ? [] : setsOf(c.rungs);
  const over = devices.filter(
    ({ rating, family }) =>
      rating !== null &&
      most !== null &&
      sets.some(
        (set) => rating > mostAllowed(c, set, most, family, smallConductor(set.deviceSize, "DC", only.make)) + 1e-9,
      ),
  );
  return {
    ...paper,
    follows: [
      `drawn ${drawn.size.label}, bought ${size.label}: ${less > 0 ? `${(100 * less).toFixed(1)} % more resistance` : "no more resistance"}`,
      `lugs, ferrules and crimps are those of ${size.label}, and glands follow the outside that is measured`,
      ...over.map((d) => `its device of ${d.rating ?? 0} A at ${d.part} is more than it may have ahead of it`),
    ],
  };
}
