import { describe, test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import { isVerified, recordSteps } from "../explain/index.ts";
import { families } from "../reference/families.ts";
import { openingGates } from "../reference/opening-gates.ts";
import {
  ambientShare,
  carriesStart,
  deviceFamilies,
  deviceFamily,
  deviceFamilyIds,
  deviceResistance,
  gatesOf,
  greatestOpeningTime,
  greatestVolts,
  interruptRating,
  judgeStart,
  leastOpeningTime,
  leastRatingForStart,
  nextStandardRating,
  readDeviceFamily,
  standardRatingAtLeast,
  standardRatingAtMost,
} from "./index.ts";

const anyFamily = fc.constantFrom(...deviceFamilyIds);
/** A family with one of its ratings. */
const anyDevice = anyFamily.chain(
  (id) => fc.constantFrom(...deviceFamily(id).standardRatings).map((rating) => ({ id, rating: rating })), // branded numbers are numbers
);
const anyCurrent = fc.double({ min: 0.1, max: 5000, noNaN: true });
const anySeconds = fc.double({ min: 0.001, max: 10_000, noNaN: true });

describe("families", () => {
  test("the list is that of the table", () => {
    assert.deepEqual(
      families.rows.map((row) => row.family),
      [...deviceFamilyIds],
    );
  });

  test("ratings ascend, and every fact has its trust and source", () => {
    for (const family of deviceFamilies) {
      assert.ok(family.standardRatings.length > 0, family.id);
      for (const [i, rating] of family.standardRatings.entries()) {
        assert.ok(rating > 0 && rating < (family.standardRatings[i + 1] ?? Infinity), `${family.id} ${rating}`);
      }
      assert.ok(family.supplies.length > 0, family.id);
      assert.equal(family.reset === "replace", family.kind === "fuse", family.id);
      if (family.dcVolts === null) assert.ok(!isVerified(family.dcVoltsTrust));
    }
    assert.deepEqual(JSON.parse(JSON.stringify(deviceFamilies)), deviceFamilies);
  });

  test("branch breakers have the standard ratings of NFPA 70 240.6(A)", () => {
    const printed = [
      15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300, 350, 400, 450, 500,
      600,
    ];
    assert.deepEqual(deviceFamily("branch_breaker").standardRatings, printed);
  });

  test("a name of the trade finds its family; what is none finds nothing", () => {
    for (const { id, name } of deviceFamilies) {
      assert.equal(readDeviceFamily(id), id);
      assert.equal(readDeviceFamily(` ${name.toUpperCase()} `), id);
    }
    assert.equal(readDeviceFamily("battery-post fuse"), "terminal_post");
    for (const text of ["", "toString", "fuse", "constructor"]) assert.equal(readDeviceFamily(text), null);
  });

  test("the volts of a family are the greatest at which it has an interrupt rating", () => {
    for (const { id, dcVolts } of deviceFamilies) if (dcVolts !== null) assert.equal(greatestVolts(id), dcVolts, id);
  });
});

describe("standard ratings", () => {
  test("at least, at most and next agree with each other", () => {
    fc.assert(
      fc.property(anyFamily, anyCurrent, (id, current) => {
        const up = standardRatingAtLeast(id, current);
        const down = standardRatingAtMost(id, current);
        if (up !== null) assert.ok(up >= current);
        if (down !== null) assert.ok(down <= current);
        if (up !== null && down !== null && up !== down) assert.equal(nextStandardRating(id, down), up);
        if (up === null) assert.equal(nextStandardRating(id, current), null);
      }),
    );
  });
});

describe("opening-time gates", () => {
  test("no gate crosses another: with more current a device opens no later", () => {
    for (const { id, standardRatings } of deviceFamilies) {
      for (const rating of standardRatings) {
        const gates = gatesOf(id, rating);
        for (const [i, gate] of gates.entries()) {
          const name = `${id} ${rating} A at ${gate.multiple}`;
          assert.ok(gate.minS === null || gate.maxS === null || gate.minS < gate.maxS, name);
          assert.ok(gate.minS !== null || gate.maxS !== null, name);
          for (const later of gates.slice(i + 1)) {
            assert.ok(later.multiple > gate.multiple, name);
            if (gate.minS !== null && later.minS !== null) assert.ok(later.minS <= gate.minS, name);
            if (gate.maxS !== null && later.maxS !== null) assert.ok(later.maxS <= gate.maxS, name);
          }
        }
      }
    }
  });

  test("every gate belongs to ratings that are sold, and no rating to two bands", () => {
    for (const row of openingGates.rows) {
      const id = readDeviceFamily(row.family);
      assert.ok(id !== null, row.family);
      assert.ok(
        deviceFamily(id).standardRatings.some((rating) => row.ratingMinA <= rating && rating <= row.ratingMaxA),
        row.family,
      );
    }
  });

  test("are those of the data sheets: 40 A blade and 40 A large blade", () => {
    // Public transcription of two data sheets that claim ISO 8820-3: multiple, least s, greatest s
    const blade = [
      [1, 360000, null],
      [1.35, 0.75, 600],
      [2, 0.15, 5],
      [3.5, 0.08, 0.5],
      [6, null, 0.15],
    ];
    const large = [
      [1, 360000, null],
      [1.35, 60, 1800],
      [2, 2, 50],
      [3.5, 0.2, 7],
      [6, 0.04, 1],
    ];
    const shape = (id: "blade_type_C" | "blade_type_E") =>
      gatesOf(id, 40).map(({ multiple, minS, maxS }) => [multiple, minS, maxS]);
    assert.deepEqual(shape("blade_type_C"), blade);
    assert.deepEqual(shape("blade_type_E"), large);
    for (const id of ["blade_type_C", "blade_type_E"] as const)
      assert.ok(gatesOf(id, 40).every(({ trust }) => trust === "article"));
    assert.ok(gatesOf("blade_type_E", 60).every(({ trust }) => trust === "memory"));
  });

  test("are those of miniature breakers: instantaneous at 3 to 5, 5 to 10 and 10 to 20 times the rating", () => {
    // IEC 60898-1 Table 7 tests d and e
    for (const [id, hold, trip] of [
      ["mcb_B", 3, 5],
      ["mcb_C", 5, 10],
      ["mcb_D", 10, 20],
    ] as const) {
      assert.equal(leastOpeningTime(id, 16, 16 * hold)?.value, 0.1);
      assert.equal(greatestOpeningTime(id, 16, 16 * trip)?.value, 0.1);
      assert.equal(leastOpeningTime(id, 16, 16 * hold * 1.001), null);
      assert.notEqual(greatestOpeningTime(id, 16, 16 * trip * 0.999)?.value, 0.1);
    }
  });

  test("none are claimed where none are published", () => {
    for (const rating of deviceFamily("anl_limiter").standardRatings)
      assert.deepEqual(gatesOf("anl_limiter", rating), []);
    assert.deepEqual(gatesOf("terminal_post", 100), []);
    assert.equal(greatestOpeningTime("anl_limiter", 100, 1000), null);
  });

  test("the least time never exceeds the greatest, and neither grows with the current", () => {
    fc.assert(
      fc.property(
        anyDevice,
        anyCurrent,
        fc.double({ min: 1, max: 10, noNaN: true }),
        ({ id, rating }, current, factor) => {
          const least = leastOpeningTime(id, rating, current)?.value ?? 0;
          const greatest = greatestOpeningTime(id, rating, current)?.value ?? Infinity;
          assert.ok(least <= greatest);
          assert.ok((leastOpeningTime(id, rating, current * factor)?.value ?? 0) <= least);
          assert.ok((greatestOpeningTime(id, rating, current * factor)?.value ?? Infinity) <= greatest);
        },
      ),
      { numRuns: 500 },
    );
  });

  test("a recorder sees the gate that was used", () => {
    const { steps } = recordSteps(() => leastOpeningTime("blade_type_E", 40, 55));
    assert.deepEqual(
      steps.map((step) => (step.kind === "look-up" ? [step.table, step.row, step.sought, step.gives] : [])),
      [["device/opening_gates", "blade_type_E 40 2", "1.38 times the rating", 2]],
    );
  });
});

describe("starts", () => {
  test("a device never opens before one and a half times the start", () => {
    // 40 A large blade, article gates: 2.0 → 2 s, 3.5 → 0.2 s
    assert.equal(carriesStart("blade_type_E", 40, 80, 2 / 1.5), "yes");
    assert.equal(carriesStart("blade_type_E", 40, 80, 1.34), "no");
    assert.equal(carriesStart("blade_type_E", 40, 81, 0.13), "yes");
    assert.equal(carriesStart("blade_type_E", 40, 81, 0.14), "no");
    assert.equal(carriesStart("blade_type_E", 40, 241, 0.001), "cannot tell");
  });

  test("a start within the rating is carried by anything, and what has no gates cannot tell beyond it", () => {
    fc.assert(
      fc.property(anyDevice, anySeconds, ({ id, rating }, startS) => {
        assert.equal(carriesStart(id, rating, rating, startS), "yes");
        if (gatesOf(id, rating).length === 0)
          assert.equal(carriesStart(id, rating, rating * 1.01, startS), "cannot tell");
      }),
    );
  });

  test("a longer or a stronger start is never carried where a shorter and weaker one is not", () => {
    fc.assert(
      fc.property(
        anyDevice,
        anyCurrent,
        anySeconds,
        fc.double({ min: 1, max: 5, noNaN: true }),
        ({ id, rating }, startA, startS, more) => {
          if (carriesStart(id, rating, startA * more, startS) === "yes")
            assert.equal(carriesStart(id, rating, startA, startS), "yes");
          if (carriesStart(id, rating, startA, startS * more) === "yes")
            assert.equal(carriesStart(id, rating, startA, startS), "yes");
        },
      ),
      { numRuns: 500 },
    );
  });

  test("the least rating for a start carries it, and no smaller one does", () => {
    fc.assert(
      fc.property(anyFamily, anyCurrent, anySeconds, (id, startA, startS) => {
        const rating = leastRatingForStart(id, startA, startS);
        if (rating !== null) assert.equal(carriesStart(id, rating, startA, startS), "yes");
        for (const smaller of deviceFamily(id).standardRatings) {
          if (smaller < (rating ?? Infinity)) assert.notEqual(carriesStart(id, smaller, startA, startS), "yes");
        }
        // Without gates the rating has to reach the start itself.
        if (id === "anl_limiter") assert.equal(rating, standardRatingAtLeast(id, startA));
      }),
    );
  });

  test("says what the answer rests on", () => {
    const verdict = judgeStart("blade_type_E", 40, 70, 1);
    assert.deepEqual(
      [verdict.answer, verdict.leastOpeningS, verdict.trust, verdict.source.id],
      ["yes", 2, "article", "sae-j1888"],
    );
    assert.equal(judgeStart("anl_limiter", 100, 200, 1).trust, "missing");
  });
});

describe("resistance", () => {
  test("is that of the data sheets at 40 A", () => {
    // Public transcription: blade 1.44 mΩ and 96 mV, large blade 1.4 mΩ and 75 mV
    const blade = deviceResistance("blade_type_C", 40);
    assert.deepEqual([blade.cold, blade.dropAtRating, blade.trust], [1.44 / 1000, 0.096, "article"]);
    const large = deviceResistance("blade_type_E", 40);
    assert.deepEqual([large.cold, large.dropAtRating, large.trust], [1.4 / 1000, 0.075, "article"]);
  });

  test("falls with the rating, and is less cold than hot", () => {
    for (const { id, standardRatings } of deviceFamilies) {
      for (const [i, rating] of standardRatings.entries()) {
        const { hot, cold, dropAtRating } = deviceResistance(id, rating);
        assert.ok(Math.abs(hot * rating - dropAtRating) < 1e-12, id);
        // Copper alloys and zinc rise to 1.2 to 2 times at rated current.
        if (cold !== null) assert.ok(hot / cold > 1.2 && hot / cold < 2, `${id} ${rating} A: ${hot / cold}`);
        const next = standardRatings[i + 1];
        if (next === undefined) continue;
        assert.ok(deviceResistance(id, next).hot < hot, `${id} ${rating} A`);
        assert.ok((deviceResistance(id, next).cold ?? 0) < (cold ?? Infinity), `${id} ${rating} A`);
      }
    }
  });

  test("a rating without its own row takes the greater drop and the lesser cold resistance of its neighbours", () => {
    const odd = deviceResistance("blade_type_C", 12);
    assert.equal(odd.dropAtRating, deviceResistance("blade_type_C", 10).dropAtRating);
    assert.equal(odd.cold, deviceResistance("blade_type_C", 15).cold);
  });

  test("miniature breakers lose no more than the standard allows a pole", () => {
    // IEC 60898-1: 3 W to 10 A, 3.5 W to 16 A, 4.5 W to 25 A, 6 W to 32 A, 13 W to 63 A, 20 W to 125 A
    for (const [rating, watts] of [
      [10, 3],
      [16, 3.5],
      [25, 4.5],
      [32, 6],
      [63, 13],
      [125, 20],
    ] as const) {
      // The table holds whole millivolts.
      assert.ok(Math.abs(deviceResistance("mcb_C", rating).dropAtRating * rating - watts) < 0.0005 * rating + 1e-9);
    }
  });
});

describe("interrupt ratings", () => {
  test("fall with the volts and end where the family ends", () => {
    // Battery-post fuses: 10 kA at 14 V, 5 kA at 32 V, 2 kA at 58 V (trade data)
    assert.equal(interruptRating("terminal_post", 14).current, 10_000);
    assert.equal(interruptRating("terminal_post", 28.8).current, 5000);
    assert.equal(interruptRating("terminal_post", 57.6).current, 2000);
    assert.equal(interruptRating("terminal_post", 58.4).state, "too many volts");
  });

  test("a rating beyond those listed is not known at the volts of its family, and too many volts above them", () => {
    for (const [family, rating, volts, state] of [
      ["hydraulic_breaker", 3, 14.6, "not known"],
      ["strip_SF30", 250, 14.6, "not known"],
      ["thermal_breaker", 2, 14.6, "not known"],
      ["blade_type_C", 45, 14.6, "not known"],
      ["blade_type_C", 45, 58.4, "too many volts"],
      ["surface_breaker", 200, 48, "too many volts"], // listed, for 30 V
    ] as const) {
      assert.equal(interruptRating(family, volts, { rating }).state, state, `${family} ${String(rating)}`);
    }
  });

  test("never rise with the volts", () => {
    const anyVolts = fc.double({ min: 1, max: 400, noNaN: true });
    fc.assert(
      fc.property(
        anyDevice,
        anyVolts,
        fc.double({ min: 1, max: 4, noNaN: true }),
        fc.constantFrom("DC", "AC"),
        ({ id, rating }, at, more, supply) => {
          const low = interruptRating(id, at, { supply, rating });
          const high = interruptRating(id, at * more, { supply, rating });
          assert.ok((high.current ?? 0) <= (low.current ?? Infinity));
          if (low.state === "too many volts") assert.equal(high.state, "too many volts");
          // Without a rating the answer is that of the weakest.
          assert.ok((interruptRating(id, at, { supply }).current ?? 0) <= (low.current ?? Infinity));
        },
      ),
      { numRuns: 500 },
    );
  });

  test("blades break 1 kA at 32 V, as ISO 8820-3 says, and class T 20 kA at 125 V", () => {
    for (const id of ["blade_type_C", "blade_type_E", "blade_type_F"] as const) {
      const { current, trust } = interruptRating(id, 32);
      assert.deepEqual([current, trust], [1000, "read"]);
    }
    assert.equal(interruptRating("ul_class_T", 58.4).current, 20_000);
  });

  test("every family has one for what it may be used on, known or said to be unknown", () => {
    for (const { id, supplies, standardRatings, dcVolts } of deviceFamilies) {
      for (const supply of supplies) {
        if (supply === "DC" && dcVolts === null) continue; // glass 5×20: the data sheet has to say
        for (const rating of standardRatings)
          assert.notEqual(
            interruptRating(id, 12, { supply, rating }).state,
            "too many volts",
            `${id} ${rating} A ${supply}`,
          );
      }
      for (const supply of (["DC", "AC"] as const).filter((other) => !supplies.includes(other)))
        assert.equal(greatestVolts(id, { supply }), null, id);
    }
    assert.equal(interruptRating("surface_breaker", 12).state, "not known");
  });

  test("volts of surface breakers fall with the rating", () => {
    // Public quotation of one data sheet
    assert.deepEqual(
      [100, 200, 300].map((rating) => greatestVolts("surface_breaker", { rating })),
      [48, 30, 14],
    );
  });
});

describe("ambient", () => {
  test("the share of a large blade is that of its data sheet and never rises with the heat", () => {
    // 40 A at 20 °C, 34 at 65, 30 at 85, 25 at 110, 22 at 125
    for (const [ambientC, allowed] of [
      [20, 40],
      [65, 34],
      [85, 30],
      [110, 25],
      [125, 22],
    ] as const) {
      assert.equal((ambientShare("blade_type_E", ambientC)?.value ?? NaN) * 40, allowed);
    }
    for (let ambientC = -40; ambientC < 130; ambientC++) {
      assert.ok(
        (ambientShare("blade_type_E", ambientC + 1)?.value ?? 0) <=
          (ambientShare("blade_type_E", ambientC)?.value ?? 0),
      );
    }
    assert.equal(ambientShare("blade_type_E", 126), null);
    assert.equal(ambientShare("thermal_breaker", 20), null);
  });
});

test("a kind is found by the name it is asked for over the counter", () => {
  for (const [text, family] of [
    ["ATO", "blade_type_C"],
    ["10 A", null],
    ["Mini fuse", "blade_type_F"],
    ["MAXI", "blade_type_E"],
    ["midi", "strip_SF30"],
    ["MEGA", "strip_SF51"],
    ["MRBF", "terminal_post"],
    ["NH00", "iec_gG"],
  ] as const)
    assert.equal(readDeviceFamily(text), family, text);
});
