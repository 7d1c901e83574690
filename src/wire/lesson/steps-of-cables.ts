import { cite } from "../../explain/index.ts";
import type { LabelContext, WireReading } from "../label/label-reading.ts";
import { readLabel } from "../label/read-label.ts";
import { awgSize, metricSize, type WireSize } from "../wire-size.ts";
import { choose, figure, known, percent, rests, right, wrong, type LessonStep } from "./lesson-step.ts";

const practice = cite("trade-practice", "what labels mean by kind of cable", "practice");

/** What a label is read as; the lesson only speaks of labels that read without doubt. */
function reading(label: string, context?: LabelContext): WireReading {
  const read = readLabel(label, context === undefined ? {} : { context });
  if (read.verdict !== "exact") throw new Error(`the lesson speaks of ${label}, which reads in more ways than one`);
  return read.readings[0];
}
const areaOf = (label: string, context?: LabelContext): number => known(reading(label, context).make.size).areaMm2;
const cores = (label: string, context?: LabelContext) => known(reading(label, context).make.cores);
const gauge = (name: string): WireSize => known(awgSize(name));

/** A width is not an area. */
function sixMillimetres(): LessonStep {
  const auto = areaOf("6 mm auto cable", "vehicle");
  return {
    id: "six-millimetres",
    title: "“6 mm” is three different wires",
    tells: [
      "Said of house cable in Europe, 6 mm is short for 6 mm². On vehicle cable in Australia and New Zealand it is the width over the insulation. In Japan 1.6 and 2.0 mm are the width of a solid copper wire.",
      `So 6 mm may be 6 mm² of copper, or ${figure(auto)} mm² in a 6 mm jacket, and only the small ² tells them apart.`,
    ],
    question: {
      kind: "number",
      asks: "A plan was computed for 6 mm² and built with 6 mm auto cable. How much larger, in percent, is its voltage drop?",
      answer: 100 * (6 / auto - 1),
      unit: "%",
      within: 0.2,
      because: `Drop goes with one over the copper: 6 ÷ ${figure(auto)} = ${figure(6 / auto)}. A planned 3 % becomes ${figure((3 * 6) / auto, 2)} %.`,
    },
    keep: "Ask for the ², or for the strands: they cannot lie.",
    picture: { is: "cuts", labels: ["6 mm²", "6 mm auto cable"] },
    rests: rests(cite("data-sheets", "vehicle cable by outside diameter", "article"), practice),
  };
}

/** Counting copper. */
function strandsTell(): LessonStep {
  const counted = areaOf("65/0.30");
  return {
    id: "strands-tell",
    title: "Strands tell the copper",
    tells: [
      "65/0.30 is sixty-five wires of 0.30 mm. 19/27 is nineteen wires of 27 AWG. One slash, two meanings: behind it stands a width where it is below 1, a gauge where it is 20 or more.",
      "The copper is the number of wires times the circle of each: n × π ÷ 4 × d².",
    ],
    question: {
      kind: "number",
      asks: "How many mm² are 65/0.30?",
      answer: counted,
      unit: "mm²",
      within: 0.05,
      because: `65 × 0.7854 × 0.30² = ${figure(counted)} mm². And 19/27 is ${figure(areaOf("19/27"))} mm²: a reel that prints 14 AWG (19/27) 2.5 mm² holds ${figure(areaOf("19/27"))}, not 2.5.`,
    },
    keep: "Where a label gives strands, compute from the strands.",
    picture: { is: "cuts", labels: ["65/0.30", "19/27"] },
    rests: rests(
      cite("own-derivation", "area of counted strands", "derived"),
      cite("astm-b258", "gauge law", "derived"),
    ),
  };
}

/** The second number. */
function secondNumber(): LessonStep {
  const [house, boat, cord] = [cores("12/3 NM-B"), cores("12/3 boat cable"), cores("12/3 SOOW")];
  const words = ["no", "one", "two", "three", "four", "five"];
  const says = (count: number): string => `${words[count] ?? count} metal wires`;
  const counted =
    boat.total === cord.total ? `${says(boat.total)} each` : `${says(boat.total)} there, ${says(cord.total)} here`;
  return {
    id: "second-number",
    title: "What the 3 in 12/3 counts",
    tells: [
      "The first number is the gauge. The second counts conductors, but which ones depends on the kind of cable.",
      `On a boat and in a flexible cord every conductor is counted, the green one too: ${counted}. In North American house cable the bare ground is not counted.`,
    ],
    question: choose(
      "How many metal wires are in 12/3 house cable (NM-B)?",
      right(String(house.total), `${house.insulated} insulated (black, red, white) and a bare ground: ${house.total}.`),
      wrong(String(boat.total), "That is boat cable and cord, where the green one is the third."),
      wrong("2", "12/2 with ground has two insulated and one bare; 12/3 has one more."),
    ),
    keep: "Count the functions you need (L, N, PE; plus, minus), not the second number of the name.",
    picture: { is: "cuts", labels: ["12/3 NM-B", "12/3 boat cable", "12/3 SOOW"] },
    rests: rests(practice),
  };
}

/** G and X. */
function gAndX(): LessonStep {
  const earth = reading("H07RN-F 3G2.5").make;
  return {
    id: "g-and-x",
    title: "3G2.5 or 3X2.5",
    tells: [
      "A harmonised European code says the earth by one letter: 3G2.5 is three conductors of 2.5 mm², one of them green-yellow; 3X2.5 has three and none of them green-yellow.",
      "German names do it another way: the x is only “times”, and -J (with) or -O (without) tells.",
    ],
    question: choose(
      "A heater needs line, neutral and earth. Which flexible cable?",
      right("H07RN-F 3G2.5", `${earth.cores?.total ?? 3} conductors, one green-yellow.`),
      wrong("H07RN-F 3X2.5", "Three conductors, but none may be used as earth: green-yellow is missing."),
      wrong("NYM-O 3x2.5", "-O is without green-yellow, and NYM is solid wire for walls, not for moving."),
    ),
    keep: "G has the green-yellow, X has not; behind NYM look for J or O.",
    picture: { is: "cuts", labels: ["H07RN-F 3G2.5", "H07RN-F 3X2.5"] },
    rests: rests(cite("hd-361", "designation of cores", "article")),
  };
}

/** Letters of a type. */
function typeLetters(): LessonStep {
  const [full, junior] = [reading("12/3 SOOW").make, reading("12/3 SJOOW").make];
  const harmonised = reading("H07RN-F 3G2.5").make;
  return {
    id: "type-letters",
    title: "Letters that decide where it may lie",
    tells: [
      `S is a hard-service cord of ${full.volts ?? 600} V, SJ its junior of ${junior.volts ?? 300} V; O is an oil-resistant jacket, OO insulation too; W at the end is for wet places and sun. No W, no wet place.`,
      `In ${harmonised.type ?? "H07RN-F"}, 07 is a voltage (${harmonised.voltsSay ?? "450/750"} V), not a size; the last letter is the strands: U solid, R stranded, K fine but for fixed wiring, F fine and made to be moved.`,
    ],
    question: choose(
      "Which may lie on deck as a shore lead?",
      right("10/3 SOOW", "Oil in both layers and W: wet and sun."),
      wrong("10/3 SOO", "Oil-resistant, but without W it is not for wet places."),
      wrong("10/2 NM-B", "House cable: dry places only, and solid wire breaks where it moves."),
    ),
    keep: "A size says what it carries, the type says where it may lie.",
    picture: null,
    rests: rests(cite("nfpa-70-2017", "Table 400.4", "read"), cite("hd-361", "type codes", "article")),
  };
}

/** Colours. */
function coloursLie(): LessonStep {
  return {
    id: "colours",
    title: "A colour means nothing without its system",
    tells: [
      "Black is the live wire of North American mains, the minus of many boats, the plus of some caravans, and a lamp on a trailer. Yellow is the DC minus that cannot be taken for mains.",
      "Green-yellow is kept for the protective conductor of mains wiring nearly everywhere: never use it for anything else, and still measure before you lean on it.",
    ],
    question: choose(
      "In a boat with 120 V shore power you find a black wire at the DC panel. What is it?",
      right(
        "not told by the colour",
        "It may be the DC minus or a live AC conductor: measure before you touch, and read the legend.",
      ),
      wrong("DC minus", "Often. But black is also the live conductor of the shore supply on the same boat."),
      wrong("live AC", "It may be; black is also used for the DC minus."),
    ),
    keep: "Name a colour together with its standard; measure before touching.",
    picture: null,
    rests: rests(cite("abyc-e-11", "colour tables", "article"), cite("iec-60445-2017", "colours", "article")),
  };
}

/** Five facts. */
function fiveFacts(): LessonStep {
  const label = "12/2 tinned type 3 boat cable 105 °C";
  const { make } = reading(label);
  const told = [
    `size ${make.size?.label ?? "?"}`,
    `${make.cores?.insulated ?? "?"} conductors`,
    `strands ${make.stranding?.name ?? "?"}, ${make.plating ?? "?"}`,
    `insulation ${make.temperatureC ?? "?"} °C`,
    `kind ${make.family ?? "?"}`,
  ];
  const drop = percent(gauge("14").areaMm2 / metricSize(2.5).areaMm2);
  return {
    id: "five-facts",
    title: "A wire is five facts",
    tells: [
      "System and size; how many conductors, and which is the earth; how it is stranded, of what metal; what the insulation bears; what kind of cable it is. Most labels tell two or three, habit fills in the rest, and habits differ.",
      `“${label}” tells all five: ${told.join("; ")}.`,
    ],
    question: choose(
      "Which order can be filled in one way only?",
      right(label, "Nothing is left to the counter."),
      wrong("12/2", "House cable with a bare ground, boat cable without, cord: all are 12/2."),
      wrong("2.5 mm", `No ², no kind. If 14 AWG comes instead it has ${drop} of the copper.`),
    ),
    keep: "Say all five when you order; the wire desk prints the order line.",
    picture: { is: "cuts", labels: [label] },
    rests: rests(practice),
  };
}

/** The steps about cables, in their order. */
export const stepsOfCables = (): readonly LessonStep[] => [
  sixMillimetres(),
  strandsTell(),
  secondNumber(),
  gAndX(),
  typeLetters(),
  coloursLie(),
  fiveFacts(),
];
