import fc from "fast-check";
import { test } from "vitest";
import assert from "node:assert/strict";
import { labelContexts, readLabel, type LabelReading } from "../../src/wire/index.ts";
import { refute } from "./refute-label.ts";

/** More of them and others: `LABELS=1000000 FIRST_SEED=8 npx vitest run test/properties/wire-labels.test.ts`. */
const RUNS = Number(process.env["LABELS"] ?? 10_000);
const SEED = Number(process.env["FIRST_SEED"] ?? 7);

const chance = (text: string): LabelReading => {
  const reading = readLabel(text);
  assert.doesNotThrow(() => JSON.stringify(reading));
  return reading;
};

/** Known makes: pieces that may stand in any order, each in every spelling. */
const makes: readonly (readonly (readonly string[])[])[] = [
  [
    ["12 AWG", "12AWG", "AWG 12", "awg12", "#12 AWG", "No. 12 AWG", "12-AWG", "12  AWG"],
    ["tinned copper", "TINNED COPPER", "tinned Cu"],
    ["red", "RED", "RD"],
  ],
  [
    ["2/0 AWG", "2/0AWG", "AWG 2/0", "2 / 0 AWG", "2⁄0 AWG", "00 AWG", "#2/0 AWG"],
    ["battery cable", "Battery Cable", "BATTERY-CABLE"],
    ["black", "BLK", "BK"],
  ],
  [
    ["14/3", "14-3", "14–3", "14 / 3", "#14/3", "14/3 AWG"],
    ["SOOW", "soow", "Soow"],
    ["50 ft", "50ft", "50'", "50 feet"],
  ],
  [
    ["12/2", "12-2", "12‑2"],
    ["NM-B", "nm-b", "NMB", "NM‑B"],
    ["with ground", "w/G", "w/ground", "W/GROUND"],
  ],
  [
    ["3G2.5", "3g2.5", "3G2,5", "3 G 2.5", "3G2.5 mm²", "3G2.5mm2"],
    ["H07RN-F", "h07rn-f", "H07RN‑F"],
    ["100 m", "100m", "100 metres"],
  ],
  [
    ["2.5 mm²", "2.5mm²", "2,5 mm2", "2.5 sq mm", "2.5 SQMM", "2.5 qmm", "2.5㎟", "2.5 mm^2"],
    ["H07V-K", "h07v-k"],
    ["blue", "BU", "Blue"],
  ],
  [
    ["3x1.5", "3×1.5", "3X1,5", "3 x 1.5", "3x1.5mm²"],
    ["NYM-J", "nym-j", "NYM‑J"],
  ],
  [
    ["250 kcmil", "250kcmil", "250 MCM", "250,000 CM", "250 000 cmil"],
    ["XHHW-2", "xhhw-2"],
    ["600 V", "600V", "600 volts"],
  ],
  [
    ["14 AWG", "14AWG", "AWG14"],
    ["BC-5W2", "BC5W2", "bc-5w2"],
    ["105°C", "105 °C", "105C", "221°F"],
    ["orange", "OG", "ORANGE"],
  ],
  [
    ["65/0.30", "65/.30", "65/0,30"],
    ["tinned", "TINNED"],
    ["30 m", "30m"],
  ],
  [
    ["14 SWG", "14SWG", "14 s.w.g."],
    ["copper", "Cu"],
  ],
  [
    ["6 mm²", "6mm2", "6.0 mm²", "6,0 mm²"],
    ["T&E", "t&e", "T & E"],
    ["25 m", "25m"],
  ],
];

/** One spelling of a make, its pieces in one order. */
const spelled = fc
  .nat({ max: makes.length - 1 })
  .chain((index) => {
    const pieces = makes[index] ?? [];
    return fc.tuple(
      fc.constant(index),
      fc.tuple(...pieces.map((spellings) => fc.constantFrom(...spellings))),
      fc.shuffledSubarray(
        pieces.map((_, at) => at),
        { minLength: pieces.length, maxLength: pieces.length },
      ),
      fc.constantFrom(" ", "  ", ", ", "\u00a0"),
    );
  })
  .map(([index, words, order, blank]) => ({ index, text: order.map((at) => words[at] ?? "").join(blank) }));

const made = (reading: LabelReading): unknown => reading.readings.map(({ make, quantity }) => [make, quantity]);

test("a make reads the same in 500 spellings", () => {
  const first = makes.map((pieces) => readLabel(pieces.map(([word = ""]) => word).join(" ")));
  for (const [index, reading] of first.entries())
    assert.equal(reading.verdict, "exact", JSON.stringify([makes[index], reading.problems]));
  fc.assert(
    fc.property(spelled, ({ index, text }) => {
      const reading = readLabel(text);
      assert.equal(reading.verdict, "exact", `${text}: ${JSON.stringify(reading.problems)}`);
      // `3 G 2.5` and `100'` are other characters for the same: only where they stand differs.
      assert.deepEqual(made(reading), made(first[index] ?? reading), text);
    }),
    { numRuns: 500, seed: 20 },
  );
});

test("another digit is another reading, or none", () => {
  for (const pieces of makes) {
    const text = pieces.map(([word = ""]) => word).join(" ");
    const before = JSON.stringify(made(readLabel(text)));
    for (let at = 0; at < text.length; at++) {
      if (!/\d/.test(text.charAt(at))) continue;
      for (const digit of "0123456789") {
        if (digit === text.charAt(at)) continue;
        const mutated = `${text.slice(0, at)}${digit}${text.slice(at + 1)}`;
        const reading = readLabel(mutated);
        if (reading.verdict === "exact")
          assert.notEqual(JSON.stringify(made(reading)), before, `${mutated} reads as ${text}`);
      }
    }
  }
});

test("a number in words is never passed over: it makes another reading, a question or a refusal", () => {
  const words =
    "two three five seven eight ten eleven sixteen twenty sixty hundred half quarter double dozen twice pair aught".split(
      " ",
    );
  fc.assert(
    fc.property(spelled, fc.constantFrom(...words), fc.nat(), ({ text }, word, place) => {
      const pieces = text.split(/(?<=\S)(?=,? )/);
      const at = place % (pieces.length + 1);
      const added = at === 0 ? `${word} ${text}` : [...pieces.slice(0, at), ` ${word}`, ...pieces.slice(at)].join("");
      const reading = readLabel(added);
      if (reading.verdict !== "exact") return;
      assert.notEqual(JSON.stringify(made(reading)), JSON.stringify(made(readLabel(text))), added);
    }),
    { numRuns: 2000, seed: 4 },
  );
});

const PIECES = [
  ...Array.from("0123456789/-x.,()#'\"+   "),
  "12",
  "14",
  "10",
  "2/0",
  "4/0",
  "00",
  "1.5",
  "2.5",
  "2,5",
  "3G",
  "3x",
  "2x(",
  ")",
  "AWG",
  "awg",
  "ga",
  "gauge",
  "SAE",
  "SWG",
  "kcmil",
  "MCM",
  "CM",
  "mm",
  "mm²",
  "mm2",
  "sq",
  "SQ",
  "NM-B",
  "SOOW",
  "H07RN-F",
  "NYM-J",
  "FLRY",
  "THHN",
  "GXL",
  "BC-5W2",
  "T&E",
  "VVF",
  "TC",
  "SE",
  "with ground",
  "w/G",
  "-2C",
  "3C",
  "duplex",
  "triplex",
  "boat cable",
  "marine",
  "cord",
  "battery cable",
  "tinned",
  "copper",
  "CCA",
  "Al",
  "red",
  "BK",
  "BKWHYE",
  "red/yellow",
  "green",
  "GNYE",
  "600V",
  "300/500 V",
  "105°C",
  "221°F",
  "50 m",
  "100 ft",
  "reel",
  "OD",
  "Class K",
  "type 3",
  "solid",
  "19/27",
  "65/0.30",
  "7x19/30",
  "2-2-4",
  "UL 1426",
  "SAE J1128",
  "ring",
  "#10",
  "foo",
  "XYZQ",
  "O",
  "l",
  "é",
  "х",
  "\u200b",
  "—",
  "⁄",
  "×",
  "&",
  "<",
  "=",
  ":",
  "Oct",
  "0.6/1 kV",
];

const noise = fc.array(
  fc.oneof(
    { weight: 8, arbitrary: fc.constantFrom(...PIECES) },
    { weight: 1, arbitrary: fc.string({ maxLength: 4, unit: "binary" }) },
  ),
  { maxLength: 9 },
);
const glue = fc.constantFrom("", " ", " ");

test("10,000 random labels: none is read exactly against a plain look at it, none throws", () => {
  let exact = 0;
  fc.assert(
    fc.property(
      noise,
      fc.array(glue, { minLength: 9, maxLength: 9 }),
      fc.constantFrom(undefined, ...labelContexts),
      (pieces, gaps, context) => {
        const text = pieces.map((piece, at) => piece + (gaps[at] ?? "")).join("");
        const reading = context === undefined ? chance(text) : readLabel(text, { context });
        for (const { at } of reading.problems)
          assert.ok(at[0] >= 0 && at[0] <= at[1] && at[1] <= Math.max(text.length, 1), text);
        for (const each of reading.readings)
          for (const spans of Object.values(each.from))
            for (const [from, to] of spans) assert.ok(from < to && to <= text.length, text);
        if (reading.verdict !== "exact") return;
        exact++;
        const reason = refute(text, reading.readings[0], context ?? null);
        assert.equal(reason, null, `${JSON.stringify(text)} read as ${reading.readings[0].says}: ${reason ?? ""}`);
      },
    ),
    { numRuns: RUNS, seed: SEED },
  );
  assert.ok(exact > 300, `only ${exact} were read exactly: the look at them shows little`);
});

test("a label that can be read in one way only reads so", () => {
  const labels = [
    "12/3",
    "12/2",
    "6 mm",
    "2x10 mm2",
    "14 ga",
    "12 SAE",
    "3G2.5",
    "3x2.5",
    "14/3 SOOW",
    "12-2 NM-B w/G",
    "10/4 SOOW",
    "16/2",
    "250 kcmil",
    "5.5 SQ",
    "14 SWG",
    "2/0 AWG battery cable",
    "H07V-K 2.5",
    "NYM-J 3x1.5",
    "NYM-O 3x1.5",
    "H07RN-F 3X2.5",
    "2.5 mm² (14 AWG)",
    "02 AWG",
    "3G15",
    "1,000 mm²",
    "2x(1x35)",
    "1x50",
    "THHN 12 AWG",
    "10",
    "FLRY 1.5-A",
    "6 mm²",
  ];
  let tried = 0;
  for (const label of labels)
    for (const { exactLabel, make } of readLabel(label).readings) {
      if (exactLabel === null) continue;
      tried++;
      const again = readLabel(exactLabel);
      assert.equal(
        again.verdict,
        "exact",
        `${label} → ${exactLabel}: ${again.readings.map(({ says }) => says).join(" | ")} ${JSON.stringify(again.problems)}`,
      );
      const [one] = again.readings;
      assert.deepEqual(
        [one?.make.size, one?.make.cores, one?.make.runs, one?.make.family],
        [make.size, make.cores, make.runs, make.family],
        `${label} → ${exactLabel}`,
      );
    }
  assert.ok(tried > 30);
});

test("time grows as the length of the text does", () => {
  const hostile = [
    "1",
    "1/",
    "12-",
    "2x",
    "2x(",
    "1,",
    "1.",
    "0",
    "x ",
    "1 ",
    "a",
    "a ",
    "mm",
    "12 AWG ",
    "3G",
    "red/",
    "T&E ",
    "#",
    "2/0-",
    "1,000",
    "2x2x",
    "SAE J",
    "ul ",
    "w/",
    "12/3 ",
    "no. ",
  ];
  const time = (text: string): number => {
    for (let k = 0; k < 100; k++) readLabel(text);
    let best = Infinity;
    for (let run = 0; run < 9; run++) {
      const from = performance.now();
      for (let k = 0; k < 20; k++) readLabel(text);
      best = Math.min(best, performance.now() - from);
    }
    return best;
  };
  for (const piece of hostile) {
    const half = time(piece.repeat(100).slice(0, 100));
    const full = time(piece.repeat(200).slice(0, 200));
    // A search that goes back over all it saw is found at once: it takes seconds. Below a millisecond for one label a busy machine tells nothing.
    assert.ok(full < 20 || full < 8 * half, `${piece}: ${half.toFixed(2)} ms, twice as long ${full.toFixed(2)} ms`);
  }
});
