import { describe, test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import { conventional, deviceFamilies } from "../device/index.ts";
import { amps, metres, volts } from "../quantity/index.ts";
import { awgSize, metricSize, saeSize, type ConductorMake, type WireSize } from "../wire/index.ts";
import { isNoThinner } from "./compare-conductors.ts";
import { strandsFault } from "./conductor-rules.ts";
import { deviceDistance, exemptionFor } from "./device-distance.ts";
import { deviceLimit } from "./device-limit.ts";
import { dropClass, dropProperties } from "./drop-class.ts";
import { findRuleSet } from "./find-rule-set.ts";
import { auNzVehicle } from "./au-nz-vehicle.ts";
import { iecCabin } from "./iec-cabin.ts";
import { iecCaravan } from "./iec-caravan.ts";
import { isoSmallCraft } from "./iso-small-craft.ts";
import { leastSize } from "./least-size.ts";
import { ruleSets } from "./rule-sets.ts";
import { usCabin } from "./us-cabin.ts";
import { usRv } from "./us-rv.ts";
import { usSmallCraft } from "./us-small-craft.ts";

describe("the list", () => {
  test("has every set once, each plain data with words about itself", () => {
    const ids = ruleSets.map(({ id }) => id);
    assert.deepEqual(ids, [
      "us-small-craft",
      "iso-small-craft",
      "us-cabin",
      "us-rv",
      "iec-cabin",
      "iec-caravan",
      "au-nz-vehicle",
      "vehicle-practice",
    ]);
    for (const set of ruleSets) {
      assert.deepEqual(JSON.parse(JSON.stringify(set)), set);
      assert.ok(set.title.length > 0 && set.scope.length > 20, set.id);
      assert.ok(set.cautions.length > 0, set.id);
    }
  });

  test("sets with numbers say where each column and factor stands", () => {
    for (const set of [usSmallCraft, isoSmallCraft]) {
      const { table, bundle } = set.ampacity;
      for (const row of table.rows)
        assert.equal(row.cells.filter((cell) => cell !== null).length, table.columns.length);
      // 60 °C insulation has no place in an engine space in either set; every other column has.
      assert.deepEqual(
        table.columns.map(({ engineFactor }) => engineFactor === null),
        table.columns.map(({ from }) => from === 60),
      );
      // The steps leave no gap and have no end.
      bundle.forEach(({ from }, i) => {
        if (i > 0) assert.equal(from, (bundle[i - 1]?.to ?? NaN) + 1);
      });
      assert.equal(bundle.at(-1)?.to, null);
    }
  });
});

describe("finding a set by what a person writes", () => {
  test("does not mind case, spaces, underscores and dashes", () => {
    for (const text of [
      "iso-small-craft 2020+A1:2022",
      "ISO small craft 2020 + A1:2022",
      "  Iso_Small_Craft   2020+a1:2022 ",
      "iso–small–craft, 2020+A1:2022",
    ]) {
      const found = findRuleSet(text);
      assert.ok(found.found, text);
      assert.deepEqual(
        [found.set.id, found.edition.name, found.editionNamed, found.remarks],
        ["iso-small-craft", "2020+A1:2022", true, []],
        text,
      );
    }
  });

  test("takes the edition it carries where none is named, and says so", () => {
    const found = findRuleSet("us-small-craft");
    assert.ok(found.found);
    assert.deepEqual([found.editionNamed, found.edition.name, found.remarks], [false, "E-11 to 2021", []]);
  });

  test("knows an edition by its year or by the name of the document", () => {
    for (const text of [
      "us-small-craft E-11 2015",
      "us-small-craft ABYC E-11 (2018)",
      "us-small-craft E-11",
      "us small craft 33 CFR 183",
    ]) {
      const found = findRuleSet(text);
      assert.ok(found.found && found.remarks.length === 0, text);
    }
  });

  test("answers an edition it does not carry with the one it does, and a remark", () => {
    for (const [text, asked] of [
      ["iso-small-craft 2012", "2012"],
      ["iso-small-craft 2020", "2020"],
      ["us-small-craft E-11 2025", "E-11 2025"],
      ["us-small-craft 2015 2025", "2015 2025"],
    ] as const) {
      const found = findRuleSet(text);
      assert.ok(found.found);
      assert.equal(found.remarks.length, 1, text);
      assert.ok(found.remarks[0]?.startsWith(`edition \`${asked}\` of`), found.remarks[0]);
    }
  });

  test("remarks nothing of sets and editions that are carried, as plans write them", () => {
    for (const text of [
      "us-cabin NEC 2023",
      "us-rv NEC 2023",
      "iec-cabin",
      "iec-caravan",
      "au-nz-vehicle",
      "vehicle-practice",
    ]) {
      const found = findRuleSet(text);
      assert.ok(found.found, text);
      assert.deepEqual(found.remarks, [], text);
    }
  });

  test("offers the names most like what is no set", () => {
    for (const [text, near] of [
      ["iso-smal-craft 2020", "`iso-small-craft`"],
      ["us boat small craft", "`us-small-craft`"],
      ["us-small-crafty", "`us-small-craft`"],
      ["iec caravans", "`iec-caravan`"],
      ["", ""],
      ["van", ""],
    ] as const) {
      const found = findRuleSet(text);
      assert.ok(!found.found, text);
      assert.ok(
        found.hint.startsWith(near === "" ? "the sets are" : `did you mean ${near}?`),
        `${text}: ${found.hint}`,
      );
      assert.ok(found.hint.includes("`iso-small-craft`") && found.hint.includes("`us-small-craft`"), found.hint);
    }
  });

  test("survives whatever is thrown at it, in bounded time and words", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary", maxLength: 400 }), (text) => {
        const found = findRuleSet(text);
        if (!found.found) assert.ok(found.problem.length < 200);
      }),
    );
    const found = findRuleSet("-".repeat(1_000_000) + "iso-small-craft");
    assert.ok(!found.found && found.problem.length < 200);
    const long = findRuleSet(`iso-small-craft ${"\u0000\u202e".repeat(100_000)}`);
    assert.ok(long.found);
    assert.ok(!/\p{C}/u.test(long.remarks.join()));
  });
});

describe("device against conductor", () => {
  const ratings = [1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30, 35, 40, 50, 60, 70, 80, 100, 125, 150].map(amps);
  const limit = (set: typeof usSmallCraft, ampacity: number, nominal = 12, current: "DC" | "AC" = "DC") =>
    deviceLimit(set.deviceSize, { ampacity: amps(ampacity), current, nominal: volts(nominal), ratings });

  test("E-11 lets the next standard rating up where none fits, within one and a half times", () => {
    for (const [ampacity, upTo, by] of [
      [28, 30, "next rating up"],
      [30, 30, "ampacity"],
      [42, 50, "next rating up"],
      [0.5, 0.5, "ampacity"], // the next rating, 1 A, is twice as much
      [151, 151, "ampacity"], // none above
      [0, 0, "ampacity"],
    ] as const) {
      const found = limit(usSmallCraft, ampacity);
      assert.deepEqual([found.upTo, found.by], [upTo, by], String(ampacity));
    }
  });

  // NEC 240.4(B)(2), (3) with Table 240.6(A): the standard's own list, whatever a maker sells.
  test("the American code steps to its own standard ratings, and not from one of them", () => {
    const most = (family: string, ampacity: number, set = usCabin) =>
      deviceLimit(set.deviceSize, {
        ampacity: amps(ampacity),
        current: "DC",
        nominal: volts(48),
        ratings: family === "" ? [] : ratings,
        family,
      });
    for (const [family, ampacity, upTo, by] of [
      ["ul_class_T", 85, 90, "next rating up"],
      ["strip_SF30", 65, 70, "next rating up"],
      ["strip_SF51", 105, 110, "next rating up"],
      ["strip_SF30", 110, 110, "ampacity"],
      ["iec_gG", 40, 40, "ampacity"],
      ["ul_class_T", 4, 6, "next rating up"], // a rating of fuses alone
      ["dc_mcb_C", 4, 10, "next rating up"],
      ["ul_class_T", 650, 700, "next rating up"],
      ["ul_class_T", 850, 850, "ampacity"], // 240.4(C)
      ["", 85, 85, "ampacity"], // several devices together are no rating
    ] as const) {
      for (const set of [usCabin, usRv]) {
        const found = most(family, ampacity, set);
        assert.deepEqual([found.upTo, found.by], [upTo, by], `${family} ${ampacity}`);
      }
    }
    // E-11 keeps to what is on sale: 85 A, of this list 100 A.
    assert.equal(limit(usSmallCraft, 85).upTo, 100);
  });

  // IEC 60364-4-43 433.1: I2 ≤ 1.45 Iz, turned round for each kind with the I2 of its own standard.
  test("the IEC sets let no device be so large that it may open above 1.45 times the ampacity", () => {
    for (const set of [iecCabin, iecCaravan, auNzVehicle]) {
      for (const { id, standardRatings } of deviceFamilies) {
        for (const ampacity of [3, 7.3, 16, 24.5, 61, 152, 480]) {
          const { upTo } = deviceLimit(set.deviceSize, {
            ampacity: amps(ampacity),
            current: "DC",
            nominal: volts(12),
            ratings: standardRatings,
            family: id,
          });
          assert.ok(upTo <= ampacity);
          for (const rating of standardRatings) {
            const { trip } = conventional(id, rating);
            if (trip === null) continue;
            const isLawful = rating <= ampacity && trip.current <= 1.45 * ampacity + 1e-9;
            assert.equal(rating <= upTo + 1e-9, isLawful, `${id} ${rating} A on ${ampacity} A`);
          }
        }
      }
    }
  });

  test("the law stands beside it: one and a half times outright below 50 V, as the standard from 50 V", () => {
    assert.equal(limit(usSmallCraft, 28).law?.upTo, 42);
    assert.equal(limit(usSmallCraft, 28).law?.source.clause, "183.455(c)(1)");
    assert.equal(limit(usSmallCraft, 28, 120, "AC").law?.upTo, 30);
    assert.equal(limit(usSmallCraft, 28, 120, "AC").law?.source.clause, "183.455(c)(2)");
    // Below 50 V the law counts no bundle: its line starts from the ampacity before that factor.
    const bundled = {
      ampacity: amps(28),
      ampacityUnbundled: amps(40),
      current: "DC",
      nominal: volts(12),
      ratings,
    } as const;
    assert.equal(deviceLimit(usSmallCraft.deviceSize, bundled).law?.upTo, 60);
    assert.equal(deviceLimit(usSmallCraft.deviceSize, bundled).upTo, 30);
  });

  test("ISO allows no more than the ampacity", () => {
    assert.deepEqual([limit(isoSmallCraft, 28).upTo, limit(isoSmallCraft, 28).law], [28, null]);
    assert.equal(limit(isoSmallCraft, 28).source.trust, "memory");
    assert.equal(limit(isoSmallCraft, 28, 230, "AC").source.trust, "read");
  });

  test("never lies below the ampacity nor above the law, and a thicker wire never gets a smaller device", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 400, noNaN: true }),
        fc.double({ min: 0, max: 50, noNaN: true }),
        (iz, more) => {
          for (const set of [usSmallCraft, isoSmallCraft]) {
            const found = limit(set, iz);
            assert.ok(found.upTo >= iz);
            if (found.law !== null) assert.ok(found.upTo <= found.law.upTo);
            assert.ok(limit(set, iz + more).upTo >= found.upTo);
          }
        },
      ),
    );
  });
});

describe("where the device sits", () => {
  const of = (
    set: typeof usSmallCraft,
    from: Parameters<typeof deviceDistance>[1]["from"],
    sheathed: boolean,
    current: "DC" | "AC" = "DC",
  ) => deviceDistance(set.deviceDistance, { from, sheathed, current })?.limit;

  test("in the US set: 7, 40 and 72 inches", () => {
    assert.equal(of(usSmallCraft, "other source", false), 0.1778);
    assert.equal(of(usSmallCraft, "other source", true), 1.016);
    assert.equal(of(usSmallCraft, "battery post", false), 0.1778);
    assert.equal(of(usSmallCraft, "battery post", true), 1.8288);
    assert.equal(of(usSmallCraft, "shore inlet", false, "AC"), 3.048);
    assert.equal(of(usSmallCraft, "other source", true, "AC"), 1.016);
    assert.equal(of(usSmallCraft, "shore inlet", true, "DC"), undefined);
  });

  test("in the ISO set: 200 mm, any length in a sheath, 1.8 m from a charger, 0.5 m for alternating current", () => {
    assert.equal(of(isoSmallCraft, "battery post", false), 0.2);
    assert.equal(of(isoSmallCraft, "battery post", true), null);
    assert.equal(of(isoSmallCraft, "charging source", true), 1.8);
    assert.equal(of(isoSmallCraft, "shore inlet", false, "AC"), 0.5);
  });

  test("a sheath never shortens what is allowed", () => {
    const length = (limit: number | null | undefined) => (limit === null ? Infinity : (limit ?? NaN));
    for (const set of [usSmallCraft, isoSmallCraft]) {
      for (const from of ["battery post", "charging source", "other source"] as const) {
        assert.ok(length(of(set, from, true)) >= length(of(set, from, false)), `${set.id} ${from}`);
      }
    }
  });

  test("the cranking main needs no device in either set; a short tail only in the US one", () => {
    assert.ok(exemptionFor(usSmallCraft.deviceDistance, "cranking main") !== null);
    assert.ok(exemptionFor(isoSmallCraft.deviceDistance, "cranking main") !== null);
    assert.equal(exemptionFor(usSmallCraft.deviceDistance, "pigtail")?.shorterThan, 0.1778);
    assert.equal(exemptionFor(isoSmallCraft.deviceDistance, "pigtail"), null);
  });
});

describe("drop classes", () => {
  test("pumps are 10 % in E-11 and 3 % in ISO; electronics the other way round", () => {
    const percent = (set: typeof usSmallCraft) =>
      dropProperties.map((property) => 100 * dropClass(set.drop, [property]).limit);
    // panel feeder, navigation light, bilge blower, bilge pump, electronics, critical, lighting
    assert.deepEqual(percent(usSmallCraft), [3, 3, 3, 10, 3, 3, 10]);
    assert.deepEqual(percent(isoSmallCraft), [3, 3, 3, 3, 10, 3, 10]);
    assert.equal(dropClass(usSmallCraft.drop, []).because, "rest");
    assert.equal(dropClass(isoSmallCraft.drop, ["electronics", "critical"]).because, "critical");
    assert.equal(dropClass(usSmallCraft.drop, ["bilge pump"]).because, "bilge pump");
  });

  test("one more property never loosens", () => {
    fc.assert(
      fc.property(fc.subarray([...dropProperties]), fc.constantFrom(...dropProperties), (some, more) => {
        // A class of its own that is as loose as the rest may not undo a strict one.
        for (const set of [usSmallCraft, isoSmallCraft]) {
          assert.ok(dropClass(set.drop, [...some, more]).limit <= dropClass(set.drop, some).limit);
        }
      }),
    );
  });
});

describe("least sizes", () => {
  test("of the US set", () => {
    const label = (given: Parameters<typeof leastSize>[1]) => leastSize(usSmallCraft.leastSize, given)?.size.label;
    assert.equal(label({ current: "DC", sheathed: false }), "16 AWG");
    assert.equal(label({ current: "DC", sheathed: true }), "18 AWG");
    assert.equal(label({ current: "DC", sheathed: false, use: "panel" }), "18 AWG");
    assert.equal(label({ current: "DC", sheathed: false, use: "small electronics" }), "18 AWG");
    assert.equal(label({ current: "DC", sheathed: false, use: "pigtail", length: metres(0.15) }), "18 AWG");
    assert.equal(label({ current: "DC", sheathed: false, use: "pigtail", length: metres(0.2) }), "16 AWG");
    assert.equal(label({ current: "DC", sheathed: false, use: "pigtail" }), "16 AWG"); // length unknown: the stricter
    assert.equal(label({ current: "AC", sheathed: true }), "14 AWG");
    assert.equal(leastSize(usSmallCraft.leastSize, { current: "DC", sheathed: true })?.tail, 0.762);
  });

  test("of the ISO set", () => {
    const label = (given: Parameters<typeof leastSize>[1]) => leastSize(isoSmallCraft.leastSize, given)?.size.label;
    assert.equal(label({ current: "DC", sheathed: false, length: metres(1) }), "1 mm²");
    assert.equal(label({ current: "DC", sheathed: false }), "1 mm²");
    assert.equal(label({ current: "DC", sheathed: false, length: metres(0.2) }), undefined);
    assert.equal(label({ current: "AC", sheathed: true }), "0.75 mm²");
    assert.equal(label({ current: "DC", sheathed: false, use: "panel", length: metres(2) }), "0.75 mm²");
    assert.equal(label({ current: "DC", sheathed: false, use: "pigtail", length: metres(2) }), "1 mm²");
    assert.equal(leastSize(isoSmallCraft.leastSize, { current: "DC", sheathed: true })?.source.trust, "read");
  });
});

describe("conductors of another size system", () => {
  const make = (size: WireSize | null, strands: ConductorMake["strands"] = "class 5"): ConductorMake => {
    assert.ok(size !== null);
    return { size, metal: "copper", plating: "plain", strands };
  };
  const gauge = (name: string) => make(awgSize(name)).size;

  test("are compared by resistance, not by name or area", () => {
    // 1.5 mm² class 5: 13.3 Ω/km against 13.46 of 16 AWG. 1 mm²: 19.5. 0.75 mm²: 26.0 against 21.4 of 18 AWG.
    assert.ok(isNoThinner(make(metricSize(1.5)), gauge("16"), "class B"));
    assert.ok(!isNoThinner(make(metricSize(1)), gauge("16"), "class B"));
    assert.ok(!isNoThinner(make(metricSize(0.75)), gauge("18"), "class B"));
    assert.ok(!isNoThinner(make(saeSize("16")), gauge("16"), "class B"));
    assert.ok(isNoThinner(make(awgSize("2")), metricSize(35), "class 5"));
    assert.ok(!isNoThinner(make(awgSize("6")), metricSize(16), "class 5"));
  });

  test("within a system areas decide, kcmil counting as gauge", () => {
    assert.ok(isNoThinner(make(awgSize("4/0")), gauge("3/0"), "class B"));
    assert.ok(!isNoThinner(make(awgSize("5")), gauge("4"), "class B"));
    assert.ok(
      isNoThinner(
        make({ ...metricSize(126.7), system: "kcmil", name: "250", label: "250 kcmil" }),
        gauge("4/0"),
        "class B",
      ),
    );
  });

  test("solid wire is refused on boats, and few strands where it bends", () => {
    for (const set of [usSmallCraft, isoSmallCraft]) {
      assert.ok(strandsFault(set.conductor, "class 1", false) !== null);
      assert.equal(strandsFault(set.conductor, "class 2", false), null);
      assert.ok(strandsFault(set.conductor, "class 2", true) !== null);
      assert.equal(strandsFault(set.conductor, "class 5", true), null);
      assert.equal(strandsFault(set.conductor, "type 3", true), null);
    }
  });
});
