import type { Ground } from "../../wire/make/wire-make.ts";
import { metals, readLabel, resistanceRise, type WireSize, awgSize, kcmilSize, saeSize } from "../../wire/index.ts";
import { convertSize, resistanceAgainstCopper, sizesOn, type LadderSystem } from "../../wire/convert/index.ts";
import { areaText } from "./ladder-items.ts";
import type { ChartUnits } from "./size-facts.ts";
import type { Block, BlockLine } from "./write-blocks.ts";

/** A size that the tables have. */
function known<T>(found: T | null | undefined): T {
  if (found === null || found === undefined) throw new Error("a size of the chart is missing from its table");
  return found;
}
const awg = (name: string): WireSize => known(awgSize(name));
const mm2 = (area: number): string => `${areaText(area)} mm²`;
const times = (ratio: number): string => ratio.toPrecision(3).replace(/\.?0+$/, "");
const percent = (share: number): string => `${Math.abs(Math.round(100 * share))} %`;
const on = (side: LadderSystem, name: string) => known(sizesOn(side, "all").find(({ size }) => size.name === name)).size; // prettier-ignore

const text = (lead: string, says: string): BlockLine => ({ is: "text", lead, text: says });
const row = (...cells: readonly string[]): BlockLine => ({ is: "row", cells });

/** Why 2/0 is thicker than 2, and what follows 4/0. */
export function aughts(): Block {
  const rows = ["1/0", "2/0", "3/0", "4/0"].map((name, i) => row(name, "0".repeat(i + 1), `${["one", "two", "three", "four"][i] ?? ""} aught`, mm2(awg(name).areaMm2))); // prettier-ignore
  const kcmil = (area: number): number => Math.round(area / kcmilSize(1).areaMm2);
  const [ten, seven, four] = [awg("10"), awg("7"), awg("4")];
  return {
    title: "AWG runs backwards: below 1 come the aughts",
    stops: [0, 0.13, 0.3, 0.62],
    lines: [
      ...rows,
      { is: "text", text: `Three numbers down: ${times(seven.areaMm2 / ten.areaMm2)} times the copper. Six down: ${times(Math.sqrt(four.areaMm2 / ten.areaMm2))} times the diameter. One aught more: ${times(awg("2/0").areaMm2 / awg("1/0").areaMm2)} times the copper. After 4/0 (${kcmil(awg("4/0").areaMm2)} kcmil) comes 250 kcmil; MCM is the same thousand circular mils.` }, // prettier-ignore
    ],
  };
}

/** Labels whose number means something else in each kind of cable, with what the kind is called. */
const counted: readonly (readonly [label: string, kind: string])[] = [
  ["12/2 NM-B", "house cable"],
  ["12/3 NM-B", "house cable"],
  ["12/2 boat cable", "duplex"],
  ["12/3 boat cable", "triplex"],
  ["12/3 SOOW", "cord"],
  ["3G2.5 H07RN-F", "G"],
  ["3X2.5 H07RN-F", "X"],
  ["2.5 T&E", "twin and earth"],
];

/** What a cable has for its ground, for who counts wires. */
const grounds: Readonly<Record<Ground, string>> = {
  none: "no ground",
  insulated: "the green one counts",
  bare: "plus a bare ground",
  concentric: "plus a ground round them",
  "not stated": "a green one counts",
};

/** What the second number of `12/3` counts, as the label reader has it. */
export function counting(): Block {
  return {
    title: "What the second number counts",
    stops: [0, 0.33, 0.44],
    lines: [
      row("label", "wires", "of which"),
      ...counted.map(([label, kind]) => {
        const reading = readLabel(label);
        const cores = known(reading.verdict === "exact" ? reading.readings[0].make.cores : null);
        return row(label, String(cores.total), `${kind}: ${grounds[cores.ground]}`);
      }),
      { is: "text", text: "Without the kind of cable 12/3 has no one meaning: ask, or read the type letters." },
    ],
  };
}

/** What a label leaves open. */
export function facts(): Block {
  return {
    title: "A size is five facts; most labels tell two",
    stops: [0, 0.055],
    lines: [
      text("1", "system: AWG, kcmil, SAE, mm², “mm”, SWG, JIS"),
      text("2", "number, and for 0 the aughts: 1/0, not 0"),
      text("3", "conductors, and which of them is the earth"),
      text("4", "strands, metal, plating: class 5, copper, tinned"),
      text("5", "type: voltage, temperature, wet, oil, sun"),
      { is: "text", text: `Ask for what is missing. With a wire in the hand: count the strands, measure one, and lay the bare end on a dot; area is strands × ${Number((Math.PI / 4).toFixed(3))} × diameter².` }, // prettier-ignore
    ],
  };
}

/** What goes wrong with sizes, the costliest first. */
export function traps(units: ChartUnits, most = Infinity): Block {
  const car = on("vehicle diameter", "6").areaMm2;
  const [sae, gauge, swg] = [known(saeSize("12")).areaMm2, awg("12").areaMm2, on("SWG", "12").areaMm2];
  const nearest = (from: LadderSystem, name: string, to: LadderSystem) => known(convertSize({ size: on(from, name), to, direction: "nearest" })?.to); // prettier-ignore
  const metric = nearest("mm²", "16", "AWG");
  const american = nearest("AWG", "1/0", "mm²");
  const near =
    units === "metric"
      ? `${metric.size.label} is the nearest to 16 mm² and has ${percent(metric.areaChange)} less copper.`
      : `${american.size.label} is the nearest to 1/0 AWG and has ${percent(american.areaChange)} less copper.`;
  const worst = Math.max(...sizesOn("mm²", "stocked").map(({ size, ohmsPerMetre }) => 1 - metals.copper.rho20 / ohmsPerMetre / size.areaMm2)); // prettier-ignore
  const all: readonly string[] = [
    `“6 mm” without the square: vehicle cable of that name is 6 mm over the insulation and holds ${mm2(car)}, ${percent(1 - car / 6)} less than 6 mm².`,
    `2 read for 2/0: ${times(awg("2/0").areaMm2 / awg("2").areaMm2)} times the copper was meant; 3 for 3/0: ${times(awg("3/0").areaMm2 / awg("3").areaMm2)} times.`,
    "12/3 without the kind of cable: three wires or four, see above.",
    `SAE is not AWG: 12 SAE holds ${mm2(sae)}, ${percent(1 - sae / gauge)} less than the ${mm2(gauge)} of 12 AWG; 12 SWG is ${mm2(swg)}.`,
    `Nearest is not “not smaller”: ${near}`,
    `Copper-clad aluminium (CCA) has ${percent(resistanceAgainstCopper("copper-clad aluminium", 20) - 1)} more resistance than copper of its size.`,
    `mm² is a label: fine copper may hold ${percent(worst)} less metal. Compare ohms for voltage drop; look in ampacity tables under the size that is printed, not under its metal.`,
    `These ohms are at 20 °C; at 75 °C they are ${percent(resistanceRise("copper", 75) - 1)} more. Count the wire out and back.`,
    "Spreadsheets turn 12/2 and 3/0 into dates: write AWG 12, 2 cores.",
  ];
  return {
    title: "Traps, the costliest first",
    stops: [0, 0.055],
    lines: all.slice(0, most).map((says, i) => text(`${i + 1}`, says)),
  };
}

/** The traps that a pocket has room for. */
export function pocketTraps(units: ChartUnits): Block {
  const { title, stops, lines } = traps(units);
  // The third of them speaks of a list that the card does not have.
  const kept = lines.filter((_, i) => ![2, 5, 7, 8].includes(i)).map((line, i): BlockLine => ("lead" in line ? { ...line, lead: String(i + 1) } : line)); // prettier-ignore
  const three = text(
    String(kept.length + 1),
    "12/3: four wires in house cable, whose bare ground is not counted; three in boat cable and cord.",
  );
  return { title, stops: [0, (stops?.[1] ?? 0) * 0.6], lines: [...kept, three] };
}

/** What stands at the foot of a card. */
export const pocketCautions =
  "Ø over fine strands; dashed: one solid wire. mΩ of one plain copper conductor at 20 °C. Names and areas, not what a wire may carry: check the standard in force.";

/** What a workshop needs to know before it leans on a sheet of paper. */
export const cautions =
  "Check the standard in force where you build, and what the maker prints: sizes here are names and areas, not what a wire may carry. Mains and shore power are work for the licensed where the law says so. Wiring can burn, shock and sink.";

/** Where the figures come from. */
export const sources =
  "Sources: AWG by the law of ASTM B258; mm² and resistance by IEC 60228 class 5, plain copper; AWG resistance by NFPA 70 chapter 9 table 8, class B, brought to 20 °C; SAE as small-craft tables quote J1127 and J1128; vehicle “mm”, JIS and SWG as trade tables quote them. Diameters over fine strands are 1.17 times one solid wire (common practice).";
