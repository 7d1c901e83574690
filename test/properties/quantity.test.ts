import { test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import {
  printAmount,
  printQuantity,
  readQuantity,
  type Amount,
  type Dimension,
  type Si,
} from "../../src/quantity/index.ts";
import { dimensions } from "../../src/quantity/dimension.ts";
import { spellingsOf, unitOf } from "../../src/quantity/spellings.ts";
import { readByHand } from "./quantity-by-hand.ts";

const all = Object.keys(dimensions) as Dimension[];
const symbols = (dimension: Dimension) => [...new Set(spellingsOf(dimension).map(([, symbol]) => symbol))];

const dimension = fc.constantFrom(...all);
/** Figures as they are printed: no needless zero before, any after. */
const digits = (most: number) =>
  fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 1, maxLength: most }).map((d) => d.join(""));
const whole = fc.nat(99_999).map(String);
const decimal = fc.tuple(whole, digits(4)).map(([w, d]) => `${w}.${d}`);
const plain = fc.oneof(whole, decimal);
const figures = fc.oneof(
  { weight: 5, arbitrary: plain },
  { weight: 1, arbitrary: fc.constantFrom("1/2", "5 1/2", "12 15/16") },
);
const sign = fc.constantFrom("", "", "", "-");

const joined = (number: string, unit: string): string => (unit === "" ? number : `${number} ${unit}`);

/** A canonical text of any form, with its dimension. */
const canonicalText = dimension.chain((d) => {
  const unit = d === "count" ? fc.constant("") : fc.constantFrom(...symbols(d));
  const number =
    d === "count"
      ? whole
      : fc.tuple(sign, figures).map((parts) => (/[1-9]/.test(parts[1]) ? parts.join("") : parts[1]));
  const measure = fc.tuple(number, unit).map(([n, u]) => joined(n, u));
  const feet = fc
    .tuple(fc.integer({ min: 1, max: 99 }), fc.integer({ min: 0, max: 11 }))
    .map(([f, i]) => `${f} ft ${i} in`);
  const exact = d === "length" ? fc.oneof(measure, feet) : measure;
  return fc
    .oneof(
      exact,
      exact.map((text) => `about ${text}`),
      fc.tuple(number, number, unit).map(([a, b, u]) => `${a}…${joined(b, u)}`),
      fc.tuple(exact, exact).map(([a, b]) => `${a}…${b}`),
      fc.tuple(exact, measure).map(([a, b]) => `${a} ± ${b}`),
      fc.tuple(exact, plain).map(([a, b]) => `${a} ± ${b} %`),
      fc.constant("unknown"),
    )
    .map((text) => ({ text, dimension: d }));
});

test("canonical text is read and printed back the same, or refused for what it says", () => {
  let read = 0;
  fc.assert(
    fc.property(canonicalText, ({ text, dimension }) => {
      const reading = readQuantity(text, dimension);
      if (!reading.ok) {
        const [problem] = reading.problems;
        // Beyond an end that nature sets, a negative spread, % of a temperature, no unit to borrow.
        assert.ok(
          ["out-of-range", "relative-temperature", "unit-missing"].includes(problem?.id ?? ""),
          `${text}: ${problem?.id ?? ""}`,
        );
        return;
      }
      read++;
      const printed = printAmount(reading.amount);
      if (reading.problems.length > 0) assert.equal(reading.problems[0]?.id, "range-reversed");
      else if (!/^(.*) (\S+)…(.*) \2$/.test(text)) assert.equal(printed, text);
      // Whatever was printed is canonical.
      const again = readQuantity(printed, dimension);
      assert.ok(again.ok && again.problems.length === 0, printed);
      assert.deepEqual(again.amount, reading.amount);
      assert.equal(printAmount(again.amount), printed);
    }),
    { numRuns: 5000 },
  );
  assert.ok(read > 2500, `${read} of 5000 were read`);
});

/** The same quantity as hands type it. */
const typed = canonicalText.chain(({ text, dimension }) =>
  fc
    .tuple(
      fc.constantFrom("…", "..", " - ", " to "),
      fc.constantFrom(" ", "", "\u00a0", "  "),
      fc.boolean(),
      fc.constantFrom("-", "−", "–"),
    )
    .map(([range, blank, comma, minus]) => {
      let t = text.replace("…", "\u0001").replaceAll(/(\d) (?=[^\d±\s])/g, `$1${blank}`);
      if (comma) t = t.replaceAll(/\.(\d)/g, ",$1");
      return { text: t.replaceAll("-", minus).replace("\u0001", range), canonical: text, dimension };
    }),
);

test("an amount that was read is read again from its print, however it was typed", () => {
  let same = 0;
  fc.assert(
    fc.property(typed, ({ text, canonical, dimension }) => {
      const reading = readQuantity(text, dimension);
      if (!reading.ok) return; // may be ambiguous, or refused as the canonical text is
      const back = readQuantity(printAmount(reading.amount), dimension);
      assert.ok(back.ok);
      assert.deepEqual(back.amount, reading.amount);
      const meant = readQuantity(canonical, dimension);
      assert.ok(meant.ok, canonical);
      assert.deepEqual(reading.amount, meant.amount, `${text} is not ${canonical}`);
      same++;
    }),
    { numRuns: 5000 },
  );
  assert.ok(same > 2000, `${same} of 5000 were read`);
});

test("every spelling of every unit means its unit", () => {
  for (const d of all) {
    for (const [spelling, symbol] of spellingsOf(d)) {
      const unit = unitOf(d, symbol);
      for (const number of ["1", "3.4", "250", "0.05"]) {
        const glued = /^\d/.test(spelling) ? [] : [`${number}${spelling}`];
        for (const text of [`${number} ${spelling}`, ...glued]) {
          const reading = readQuantity(text, d);
          const expected = (unit.si[0] * (Number(number) - unit.zero)) / unit.si[1];
          if (!reading.ok) {
            assert.equal(reading.problems[0]?.id, "out-of-range", text);
            continue;
          }
          assert.ok(reading.amount.form === "exact");
          // Two roundings in each of the two ways to compute it.
          assert.ok(Math.abs(reading.amount.low - expected) <= 4 * Number.EPSILON * Math.abs(expected), text);
        }
      }
    }
  }
});

const lowOf = (text: string, d: Dimension): number | null => {
  const reading = readQuantity(text, d);
  return reading.ok && reading.amount.form === "exact" ? reading.amount.low : null;
};

test("a decimal comma is a point, or is asked back; digits never run together or get lost", () => {
  fc.assert(
    fc.property(fc.nat(99_999), digits(5), fc.constantFrom("m", "V", "mm²", "A"), (a, b, unit) => {
      const d = ({ m: "length", V: "voltage", "mm²": "area", A: "current" } as const)[unit];
      const comma = lowOf(`${a},${b} ${unit}`, d);
      const isGrouping = a > 0 && a < 1000 && b.length === 3;
      assert.equal(comma === null, isGrouping);
      if (comma !== null) assert.equal(comma, lowOf(`${a}.${b} ${unit}`, d));
    }),
    { numRuns: 5000 },
  );
  assert.equal(lowOf("2,5 m", "length"), 2.5);
});

/** Lawful texts, in their dimension, for stray characters to fall into. */
const SOUND: readonly (readonly [text: string, dimension: Dimension])[] = [
  ["3.4 m", "length"],
  ["34 m", "length"],
  ["2,5 V", "voltage"],
  ["12 V", "voltage"],
  ["1200 A", "current"],
  ["0.5 A", "current"],
  ["150 Ah", "charge"],
  ["40 %", "ratio"],
  ["-10 °C", "temperature"],
  ["16 ft 4 in", "length"],
  ["16' 4\"", "length"],
  ["5 1/2 in", "length"],
  ["1 200 A", "current"],
  ["2.4…3.1 m", "length"],
  ["10-12 V", "voltage"],
  ["3 m ± 0.2 m", "length"],
  ["about 3 m", "length"],
];
const STRAY = Array.from(
  " .,'\"-−–+~≈?%/±…_:;!()[]{}#*=<>|\\&@°²³µkKmMACVfintoeExX0179½\u00a0\u2009\t\u200b\u0007\u202e€",
);

/** Whether the reader refuses the text or reads it as the reader by hand does; adds what it did otherwise to `wrong`. */
function isReadAsByHand(text: string, d: Dimension, wrong: string[]): "refused" | "read" {
  const reading = readQuantity(text, d);
  if (!reading.ok || reading.amount.form === "unknown") return "refused";
  const { low, high } = reading.amount;
  // A few roundings in either way of computing; a misreading is off by a digit at least.
  const isNear = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-12 * Math.max(1, Math.abs(a));
  if (!readByHand(text, d).some(([l, h]) => isNear(l, low) && isNear(h, high))) wrong.push(`${text} → ${low}…${high}`);
  return "read";
}

test("one stray character never turns a number into another in silence", () => {
  const wrong: string[] = [];
  let read = 0;
  for (const [sound, d] of SOUND) {
    for (let at = 0; at <= sound.length; at++) {
      for (const stray of STRAY) {
        if (isReadAsByHand(sound.slice(0, at) + stray + sound.slice(at), d, wrong) === "read") read++;
      }
    }
  }
  assert.deepEqual(wrong, []);
  assert.ok(read > 800, `${read} were read`);
});

test("nor do two", () => {
  const wrong: string[] = [];
  const insert = fc.tuple(fc.nat(20), fc.constantFrom(...STRAY));
  fc.assert(
    fc.property(fc.constantFrom(...SOUND), insert, insert, ([sound, d], ...inserts) => {
      const text = inserts.reduce((t, [at, stray]) => t.slice(0, at) + stray + t.slice(at), sound);
      isReadAsByHand(text, d, wrong);
    }),
    // A fixed seed, since the reader by hand knows few units: a rare stray that makes a kelvin of a degree is no misreading.
    { numRuns: 50_000, seed: 1 },
  );
  assert.deepEqual(wrong, []);
});

test("no text makes it throw, and every problem has its place inside the text", () => {
  const scraps = fc.constantFrom(
    "3",
    "1,200",
    "2.5",
    "½",
    "1/2",
    "0",
    " ",
    "m",
    "ft",
    "in",
    "'",
    '"',
    "A",
    "°C",
    "%",
    "…",
    "-",
    "−",
    "..",
    "to",
    "±",
    "+/-",
    "about",
    "~",
    "?",
    "unknown",
    "e3",
    ",",
    ".",
    "/",
    "²",
    "h a day",
    "\u0000",
    "\u202e",
    "\ud800",
    "kg",
    "Ω/1000 ft",
  );
  const text = fc.oneof(
    fc.array(scraps, { maxLength: 12 }).map((s) => s.join("")),
    fc.array(scraps, { maxLength: 8 }).map((s) => s.join(" ")),
    fc.string({ unit: "binary", maxLength: 40 }),
    fc.string({ unit: "grapheme", maxLength: 40 }),
  );
  const options = fc.record({ bare: fc.boolean(), rest: fc.boolean(), min: fc.constantFrom(0, -100) });
  fc.assert(
    fc.property(text, dimension, options, (t, d, o) => {
      const reading = readQuantity(t, d, o);
      for (const { at, message } of reading.problems) {
        assert.ok(0 <= at[0] && at[0] <= at[1] && at[1] <= t.length, `${JSON.stringify(t)}: ${at.join("…")}`);
        assert.ok(message.length > 0 && message.length < 200);
      }
      if (!reading.ok) return;
      const amount: Amount = reading.amount;
      if (amount.form !== "unknown") assert.ok(Number.isFinite(amount.low) && amount.low <= amount.high, t);
      assert.deepEqual(JSON.parse(JSON.stringify(amount)), amount);
    }),
    { numRuns: 50_000 },
  );
});

test("a printed result reads back as the number it was rounded from", () => {
  const size = fc.tuple(
    fc.integer({ min: -9, max: 9 }),
    fc.double({ min: 1, max: 10, noNaN: true, maxExcluded: true }),
    fc.boolean(),
  );
  fc.assert(
    fc.property(
      dimension,
      size,
      fc.constantFrom("metric" as const, "US" as const),
      (d, [power, mantissa, isNegative], units) => {
        const { least = -Infinity, most = Infinity, whole: isWhole } = dimensions[d];
        const size = (isNegative ? -1 : 1) * mantissa * 10 ** power;
        const si = isWhole === true ? Math.round(size) : size;
        fc.pre(si >= least && si <= most);
        const text = printQuantity(si as Si<Dimension>, d, { units });
        const back = readQuantity(text, d, { bare: true });
        assert.ok(back.ok && back.amount.form === "exact", `${si} ${d}: ${text}`);
        // Three figures are right to half a step in a hundred; a temperature is rounded on a scale whose zero is up to 32 °F away.
        const allowed = 0.005 * (Math.abs(si) + (d === "temperature" ? 18 : 0)) * (1 + 1e-9);
        assert.ok(Math.abs(back.amount.low - si) <= allowed, `${si}: ${text}`);
      },
    ),
    { numRuns: 5000 },
  );
});

test("time grows no faster than the text", () => {
  const hostile: readonly ((length: number) => string)[] = [
    (n) => "9".repeat(n),
    (n) => "1" + " 234".repeat(n / 4),
    (n) => "1,".repeat(n / 2),
    (n) => " ".repeat(n) + "3 m",
    (n) => "3 " + "m".repeat(n),
    (n) => "3 m".padEnd(n, " x"),
    (n) => "5 m - ".repeat(n / 6),
    (n) => "1/".repeat(n / 2),
    (n) => "about ".repeat(n / 6),
    (n) => "1 ft ".repeat(n / 5),
    (n) => "é".repeat(n),
  ];
  const msFor = (text: string): number => {
    const start = performance.now();
    readQuantity(text, "length");
    return performance.now() - start;
  };
  for (const make of hostile) {
    msFor(make(1000)); // warm
    const [short, long] = [make(50_000), make(500_000)];
    const few = Math.min(msFor(short), msFor(short), msFor(short));
    const many = Math.min(msFor(long), msFor(long), msFor(long));
    // Ten times the text: linear is 10, quadratic 100; the floor of 2 ms keeps the clock's grain out of it.
    assert.ok(many < 40 * Math.max(few, 2), `${long.slice(0, 8)}: ${few} ms, ${many} ms`);
  }
});
