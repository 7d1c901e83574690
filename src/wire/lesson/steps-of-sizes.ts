import { cite } from "../../explain/index.ts";
import { resistancePerMetre20 } from "../resistance-per-metre.ts";
import { stockedSizeAtLeast } from "../stocked-sizes.ts";
import { awgSize, kcmilSize, metricSize, saeSize, type WireSize } from "../wire-size.ts";
import { choose, figure, known, percent, rests, right, wrong, type LessonStep } from "./lesson-step.ts";

const law = cite("astm-b258", "gauge law", "derived");
const iec = cite("iec-60228-2004", "Table 3", "read");
const nec = cite("nfpa-70-2023", "Chapter 9 Table 8", "read");
const sae = cite("sae-j1128", "conductor sizes, as quoted", "article");
const metal = cite("iec-60287-1-1", "Table 1", "read");

const gauge = (name: string): WireSize => known(awgSize(name));
const mm2 = (size: WireSize, figures = 3): string => `${figure(size.areaMm2, figures)} mm²`;
/** Copper that a round wire of one metal would need for the same resistance at 20 °C, mm². */
const worth = (size: WireSize): number =>
  17.241e-3 / resistancePerMetre20({ size, metal: "copper", plating: "plain", strands: "class 5" }).ohmsPerMetre;

/** Why a bigger number is a thinner wire. */
function countedDraws(): LessonStep {
  const [thin, thick] = [gauge("12"), gauge("8")];
  return {
    id: "bigger-is-thinner",
    title: "A bigger number is a thinner wire",
    tells: [
      "The American Wire Gauge grew out of counting how often a rod was pulled through a smaller hole. Each pull takes the wire to the next number, so a big number is a thin wire.",
      `From number 36 (0.005 in across) to number 0000 (0.46 in) there are 39 equal steps; each makes the wire ${figure(92 ** (1 / 39), 4)} times as thick.`,
    ],
    question: choose(
      "Which holds more copper?",
      right(
        "8 AWG",
        `8 AWG holds ${mm2(thick)}, 12 AWG ${mm2(thin)}: ${figure(thick.areaMm2 / thin.areaMm2)} times as much.`,
      ),
      wrong("12 AWG", `12 was pulled four holes further: ${mm2(thin)} against ${mm2(thick)}.`),
    ),
    keep: "In AWG, down in number is up in copper.",
    picture: { is: "cuts", labels: ["12 AWG", "8 AWG"] },
    rests: rests(law),
  };
}

/** Three numbers double the area. */
function threeDouble(): LessonStep {
  const [from, to] = [gauge("10"), gauge("7")];
  const onSale = gauge("6");
  return {
    id: "three-numbers-double",
    title: "Three numbers double the copper",
    tells: [
      `The law makes one handy rule: three numbers down is ${figure(to.areaMm2 / from.areaMm2, 4)} times the copper, six numbers twice the width, ten numbers about ten times the copper.`,
      `10 AWG holds ${mm2(from)}.`,
    ],
    question: {
      kind: "number",
      asks: "Without a table: how many mm² of copper has 7 AWG?",
      answer: to.areaMm2,
      unit: "mm²",
      within: 0.05,
      because: `Three numbers down from 10, so twice ${figure(from.areaMm2)}: the law gives ${mm2(to)}. Shops keep 6 AWG, ${mm2(onSale)}, not 7.`,
    },
    keep: "Three down doubles, ten down is ten times.",
    picture: { is: "ladder", marked: "10 AWG" },
    rests: rests(law),
  };
}

/** 1/0 … 4/0, and how they are misread. */
function theAughts(): LessonStep {
  const [two, twoAught, four, fourAught] = [gauge("2"), gauge("2/0"), gauge("4"), gauge("4/0")];
  return {
    id: "the-aughts",
    title: "Past number 1 the noughts are counted",
    tells: [
      "After 1 comes 0, and then the law runs on with no numbers left. So the noughts are counted: 00 is two noughts, written 2/0, spoken “two aught” or “two ought”. The last is 0000, 4/0.",
      "A smudged slash turns one size into another, and 0 is a size, not nothing.",
    ],
    question: choose(
      "A drawing asks for 2/0 and the reel says 2 AWG. How much of the copper is there?",
      right(
        percent(two.areaMm2 / twoAught.areaMm2),
        `2 AWG has ${mm2(two)}, 2/0 AWG ${mm2(twoAught)}: from 2 to 2/0 it is three steps (1, 0, 00), so half.`,
      ),
      wrong(percent(1 / 1.26), "That would be one step; there are three: 1, 0, 00."),
      wrong("the same", "2/0 is another way of writing 00, not 2."),
    ),
    keep: `2 and 2/0 differ by two times, 4 and 4/0 by ${figure(fourAught.areaMm2 / four.areaMm2, 2)} times: always say the aught.`,
    picture: { is: "cuts", labels: ["2 AWG", "2/0 AWG"] },
    rests: rests(law),
  };
}

/** Above 4/0. */
function circularMils(): LessonStep {
  const big = kcmilSize(250);
  const mils = 1000 * 0.46;
  return {
    id: "circular-mils",
    title: "Above 4/0: thousands of circular mils",
    tells: [
      "A mil is a thousandth of an inch. A circular mil is the area of a circle one mil across, so a round wire's area in circular mils is its width in mils times itself: no π.",
      `4/0 is ${figure(mils)} mil across: ${figure(mils)} × ${figure(mils)} = ${decimalThousands(mils ** 2)} circular mils. Larger cables are named by thousands of them, kcmil; older prints say MCM for the same.`,
    ],
    question: choose(
      "Which is thicker, 4/0 AWG or 250 kcmil?",
      right(
        "250 kcmil",
        `4/0 has ${figure(mils ** 2 / 1000, 4)} kcmil (${mm2(gauge("4/0"))}), 250 kcmil has ${mm2(big, 4)}.`,
      ),
      wrong("4/0 AWG", `4/0 is ${figure(mils ** 2 / 1000, 4)} kcmil; 250 is the next size up.`),
      wrong(
        "250 kcmil, a thousand times",
        "The M of MCM is the Roman thousand: 250 MCM is 250 thousand circular mils, never 250 million.",
      ),
    ),
    keep: "Width in mils, squared, is circular mils; kcmil and MCM are the same thousand.",
    picture: { is: "cuts", labels: ["4/0 AWG", "250 kcmil"] },
    rests: rests(law, nec),
  };
}

const decimalThousands = (x: number): string => String(Math.round(x)).replace(/\B(?=(\d{3})+$)/g, ",");

/** A metric area is a promise of resistance. */
function aClassOfResistance(): LessonStep {
  const size = metricSize(6);
  const copper = worth(size);
  return {
    id: "mm2-is-a-promise",
    title: "A mm² size is a promise of resistance",
    tells: [
      "IEC 60228 does not ask for an area. It asks that a conductor sold as 6 mm² has no more than a certain resistance; how much copper that takes is the maker's business.",
      `The limit for 6 mm² of fine strands is ${figure(1000 * resistancePerMetre20({ size, metal: "copper", plating: "plain", strands: "class 5" }).ohmsPerMetre)} Ω/km at 20 °C; pure copper has 17.241 Ω·mm²/km.`,
    ],
    question: {
      kind: "number",
      asks: "So how many mm² of copper must 6 mm² hold at least, if it were one straight solid wire?",
      answer: copper,
      unit: "mm²",
      within: 0.06,
      because: `17.241 ÷ the limit = ${figure(copper)} mm², ${percent(1 - copper / 6)} below its name. 10 AWG, sold by its metal, has ${mm2(gauge("10"))}: for voltage drop the two are nearly the same.`,
    },
    keep: "Compare resistance for drop, size names for code tables; never mix the two.",
    picture: { is: "cuts", labels: ["6 mm²", "10 AWG"] },
    rests: rests(iec, metal),
  };
}

/** Which way a substitute may differ. */
function notSmaller(): LessonStep {
  const asked = gauge("6");
  const up = known(stockedSizeAtLeast(asked.areaMm2, "mm²"));
  const near = metricSize(10);
  const back = gauge("6");
  return {
    id: "not-smaller",
    title: "“Equivalent” holds in one direction",
    tells: [
      `The plan says 6 AWG, ${mm2(asked)}. The shop has metric cable: 4, 6, 10, 16, 25 mm².`,
      "A substitute may have more copper than was asked for, never less; then drop, fuse and heat only get better, and lug, gland and price are looked at again.",
    ],
    question: choose(
      "Which one do you take?",
      right(up.label, `${up.label} is the first that is not smaller, ${percent(up.areaMm2 / asked.areaMm2 - 1)} more.`),
      wrong(
        near.label,
        `${near.label} has ${percent(1 - near.areaMm2 / asked.areaMm2)} less: nearest by number, too thin by copper.`,
      ),
      wrong("25 mm²", "Not wrong, but more copper than the promise asks for; the lug grows too."),
    ),
    keep: `And not backwards: a plan that says ${up.label} is not met by 6 AWG, which has ${percent(1 - back.areaMm2 / up.areaMm2)} less.`,
    picture: { is: "ladder", marked: "6 AWG" },
    rests: rests(law, iec),
  };
}

/** Same number, another gauge. */
function vehicleGauge(): LessonStep {
  const [american, vehicle] = [gauge("12"), known(saeSize("12"))];
  return {
    id: "another-gauge",
    title: "“12 gauge” is not always 12 AWG",
    tells: [
      "Vehicle wire made to SAE J1127 and J1128 carries gauge numbers too, and may hold less: the standard asks for an area of its own. A reel says so by its letters: GPT, GXL, SXL, TXL, SGT, or SAE J1128.",
    ],
    question: {
      kind: "number",
      asks: `12 AWG has ${mm2(american)}. How much less copper, in percent, has 12 SAE?`,
      answer: 100 * (1 - vehicle.areaMm2 / american.areaMm2),
      unit: "%",
      within: 0.3,
      because: `12 SAE has ${mm2(vehicle)}: ${percent(1 - vehicle.areaMm2 / american.areaMm2)} less, and as much more drop.`,
    },
    keep: "Vehicle wire is sized by its own area. British SWG and the numbers of car-audio lists are other gauges again.",
    picture: { is: "ladder", marked: "12 AWG" },
    rests: rests(law, sae),
  };
}

/** The steps about the size of one conductor, in their order. */
export const stepsOfSizes = (): readonly LessonStep[] => [
  countedDraws(),
  threeDouble(),
  theAughts(),
  circularMils(),
  aClassOfResistance(),
  notSmaller(),
  vehicleGauge(),
];
