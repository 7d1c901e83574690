import fc from "fast-check";
import { describe, test } from "vitest";
import assert from "node:assert/strict";
import { labelContexts } from "../../wire/label/label-reading.ts";
import { drawLesson } from "./draw-lesson.ts";
import { cutLabel } from "./label-pieces.ts";
import type { WireCard } from "./wire-card-shape.ts";
import { wireCard } from "./wire-card.ts";
import { bareQuestion, type WireQuestion } from "./wire-question.ts";

const ask = (text: string, more: Partial<WireQuestion> = {}): WireCard => wireCard({ ...bareQuestion(text), ...more });

function exact(text: string, more: Partial<WireQuestion> = {}): WireCard & { readonly verdict: "exact" } {
  const card = ask(text, more);
  assert.equal(card.verdict, "exact", text);
  return card; // as was asserted
}

describe("an exact label", () => {
  test("is told fact by fact, each with the characters that said it", () => {
    const { reading } = exact("14-2 NM-B");
    assert.equal(reading.pieces.map(({ text }) => text).join(""), "14-2 NM-B");
    const told = (fact: string): string =>
      reading.pieces
        .filter(({ facts }) => facts.some((one) => one === fact))
        .map(({ text }) => text)
        .join("|");
    assert.match(told("size"), /14/);
    assert.match(told("type"), /NM-B/);
    const says = Object.fromEntries(reading.facts.map(({ fact, says }) => [fact, says]));
    assert.equal(says.size, "14 AWG");
    assert.equal(says.cores, "2 insulated, and a bare ground");
    assert.equal(says.volts, "600 V");
    // What matters and is not stated is told as that; what nobody misses is left out.
    assert.equal(says.metal, null);
    assert.ok(!("outsideMm" in says));
  });

  test("of one conductor goes into the wire of a circuit, of several into its cable", () => {
    assert.deepEqual(exact("35 mm²").sheet.forPlan, { field: "wire", label: "35 mm²" });
    assert.deepEqual(exact("3G2.5").sheet.forPlan, { field: "cable", label: "3G2.5" });
    // What was ordered of it is no part of the plan.
    assert.doesNotMatch(exact("H07RN-F 3G2.5 50 m").sheet.forPlan?.label ?? "50 m", /50 m/);
  });

  test("carries what the tables say: 10 AWG of 105 °C, alone, 60 A by 33 CFR 183.425 Table 5", () => {
    const { carried } = exact("10 AWG", { insulationC: 105 }).sheet;
    const [us] = carried?.ruleSets.filter(({ title }) => title.includes("33 CFR")) ?? [];
    assert.equal(us?.lying[0]?.amps, 60);
    assert.equal(carried?.isAssumed, true);
  });

  test("without a rating is taken as the least there is, never as better", () => {
    assert.equal(exact("10 AWG").sheet.carried?.insulationC, 60);
    assert.equal(exact("14 AWG THHN").sheet.carried?.insulationC, 90);
    // NFPA 70 334.80: wires of 90 °C, rated by the column of 60 °C
    assert.equal(exact("14-2 NM-B").sheet.carried?.insulationC, 60);
    assert.equal(exact("14-2 NM-B").sheet.carried?.labelC, 90);
    assert.equal(exact("14 AWG THHN").sheet.carried?.labelC, null);
  });

  test("of several loaded cores marks the columns that fit it, and counts neither the earth nor a neutral of three lines", () => {
    const of = (text: string) => {
      const carried = exact(text).sheet.carried ?? assert.fail(text);
      return {
        loaded: carried.loaded,
        fits: carried.ruleSets[0]?.lying.map(({ isOfCable }) => isOfCable),
        says: carried.counts,
      };
    };
    for (const [text, loaded] of [
      ["3G2.5", 2],
      ["5G6", 3],
      ["7G1.5", 6],
      ["12/2 NM-B", 2],
      ["12/3 NM-B", 3],
      ["H07RN-F 4X2.5", 4],
    ] as const) {
      // prettier-ignore
      assert.equal(of(text).loaded, loaded, text);
      assert.deepEqual(of(text).fits, [false, true, true], text);
    }
    assert.match(of("5G6").says, /neutral is not counted/);
    assert.deepEqual([of("10 AWG").loaded, of("10 AWG").fits], [1, [false, false, false]]);
  });

  test("says why insulation of 60 °C carries nothing in an American engine space", () => {
    const [us] = exact("10 AWG").sheet.carried?.ruleSets.filter(({ title }) => title.includes("33 CFR")) ?? [];
    assert.match(us?.lying[2]?.refused ?? "", /at least 75 °C/);
  });

  test("tells the mass of the whole and of the metal, each by its name", () => {
    const says = exact("12/2 NM-B").sheet.fits.flatMap(({ what, says: text }) => (what === "mass" ? [text] : []));
    // 123 g/m is the 83 lb/1000 ft of data sheets; 88 is three wires of 3.31 mm² at 8.89 g/cm³.
    assert.deepEqual(says, ["about 120 g/m, the whole cable, its insulation and sheath worked out", "88.2 g/m of it is copper"]); // prettier-ignore
  });

  test("loses over 10 m what Ohm's law says of 20 m of metal, at the temperature of its rating", () => {
    // 2.5 mm² class 5: 7.98 Ω/km at 20 °C by IEC 60228 Table 3, times 1 + 0.00393 · 40 at 60 °C, times 20 m and 10 A.
    const { running } = exact("2.5 mm²", { amps: "10" }).sheet;
    assert.ok(Math.abs((running?.drop?.volts ?? 0) - 0.00798 * (1 + 0.00393 * 40) * 20 * 10) < 1e-9);
    assert.equal(running?.drop?.amps, 10);
    assert.match(exact("2.5 mm²", { amps: "10 m" }).sheet.running?.ampsProblem ?? "", /10 A/);
  });

  test("is as good in two runs as in one of half the resistance", () => {
    const one = exact("35 mm²").sheet.running?.at20 ?? NaN;
    const two = exact("2x(1x35 mm²)").sheet.running?.at20 ?? NaN;
    assert.ok(Math.abs(two - one / 2) < 1e-12);
  });

  test("is converted to what is not smaller, and to the nearest only when that is asked for, with the loss", () => {
    const careful = exact("16 mm²").sheet.conversion;
    assert.equal(careful?.label, "4 AWG");
    assert.equal(careful.isLess, false);
    const nearest = exact("16 mm²", { convert: { to: "AWG", by: "area", pick: "nearest" } }).sheet.conversion;
    assert.equal(nearest?.label, "6 AWG");
    assert.equal(nearest.isLess, true);
    assert.match(nearest.says, /17 % less area/);
  });

  test("has neighbours whose labels read as just those sizes", () => {
    for (const text of ["2.5 mm²", "12 AWG", "6 mm auto cable", "14 SWG", "5.5 SQ"]) {
      const { neighbours } = exact(text).sheet;
      assert.equal(neighbours.filter(({ isOwn }) => isOwn).length, 1, text);
      for (const { system, down, same, up } of neighbours)
        for (const size of [down, same, up])
          if (size !== null) assert.equal(ask(size.label).verdict, "exact", `${size.label} beside ${text}, ${system}`);
    }
  });

  test("is drawn in its own size when that is asked for", () => {
    const { section } = exact("3G2.5", { trueSize: true }).sheet;
    assert.match(section?.says ?? "", /drawn 1 times its size/);
    assert.ok(section?.svg.startsWith("<svg"));
  });
});

test("cuts that the lesson compares are drawn at one scale", () => {
  let compared = 0;
  for (const { drawn, picture, id } of drawLesson()) {
    if (picture?.is !== "cuts") continue;
    assert.equal(drawn.length, picture.labels.length, id);
    const scales = new Set(drawn.map(({ says }) => /drawn ([\d.]+) times/.exec(says)?.[1]));
    assert.equal(scales.size, 1, id);
    compared += drawn.length > 1 ? 1 : 0;
  }
  assert.ok(compared > 5);
});

test("a voltage has its unit beside the figure, and a diameter alone has a label of its own", () => {
  const { facts } = exact("FLRY-A 1.5 BK").reading;
  assert.equal(facts.find(({ fact }) => fact === "volts")?.says, "60 V DC");
  const card = ask("2.5");
  assert.equal(card.verdict, "ambiguous");
  if (card.verdict !== "ambiguous") return;
  assert.ok(card.readings.every(({ exactLabel }) => exactLabel !== null));
});

test("several readings are told with what each is chosen by, and choosing one settles it", () => {
  for (const text of ["12/3", "2.5", "6 mm"]) {
    const card = ask(text);
    assert.equal(card.verdict, "ambiguous", text);
    if (card.verdict !== "ambiguous") return;
    assert.match(card.question, /\?$/);
    for (const { says, exactLabel, contexts } of card.readings) {
      if (exactLabel !== null) assert.equal(exact(exactLabel).reading.says, says, exactLabel);
      for (const context of contexts)
        assert.equal(exact(text, { context }).reading.says, says, `${text} on ${context}`);
    }
  }
});

test("what cannot be read is told where and why, with the next step", () => {
  const card = ask("<script>alert(1)</script>");
  assert.equal(card.verdict, "rejected");
  if (card.verdict !== "rejected") return;
  assert.equal(card.pieces.map(({ text }) => text).join(""), "<script>alert(1)</script>");
  assert.ok(card.problems.every(({ message, hint }) => message !== "" && hint !== ""));
});

test("a label is cut into pieces that make it up again, whatever its stretches are", () => {
  const span = fc.tuple(fc.integer({ min: -2, max: 12 }), fc.integer({ min: -2, max: 12 }));
  const from = fc.record({ size: fc.array(span), cores: fc.array(span) }, { requiredKeys: [] });
  fc.assert(
    fc.property(fc.string({ maxLength: 10 }), from, (text, spans) => {
      const pieces = cutLabel(text, spans);
      assert.equal(pieces.map((piece) => piece.text).join(""), text);
      for (const [i, { text: piece, facts }] of pieces.entries()) {
        const start = pieces.slice(0, i).reduce((sum, before) => sum + before.text.length, 0);
        for (let at = start; at < start + piece.length; at++)
          assert.equal(
            facts.includes("size"),
            (spans.size ?? []).some(([a, b]) => a <= at && at < b),
          );
      }
    }),
  );
});

test("nothing that is typed breaks it, and what it gives is plain data", () => {
  const pieces = [
    "12",
    "/",
    "3",
    "G",
    "2.5",
    "mm²",
    " AWG",
    "x",
    "NM-B",
    "<b>",
    "\u0000",
    "°",
    "4/0",
    "kcmil",
    "red",
    "1e9",
    "∞",
  ];
  const text = fc.oneof(
    fc.string({ maxLength: 40 }),
    fc.array(fc.constantFrom(...pieces), { maxLength: 6 }).map((parts) => parts.join("")),
  );
  const context = fc.constantFrom(null, ...labelContexts);
  fc.assert(
    fc.property(text, context, fc.constantFrom("", "10", "x", "-1"), (typed, where, amps) => {
      const card = ask(typed, { context: where, amps });
      assert.deepEqual(JSON.parse(JSON.stringify(card)), card);
    }),
    { numRuns: 300 },
  );
});
