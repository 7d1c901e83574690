import { describe, test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import {
  deviceFamily,
  deviceFamilyIds,
  gatesOf,
  openingBand,
  preArcing,
  type DeviceFamilyId,
} from "../../device/index.ts";
import { cite, isVerified } from "../../explain/index.ts";
import { judgePair, judgeStrings, type PairQuestion } from "./index.ts";

const pair = (
  up: readonly [DeviceFamilyId, number],
  down: readonly [DeviceFamilyId, number],
  rest: Partial<PairQuestion> = {},
): PairQuestion => ({
  upstream: { family: up[0], rating: up[1] },
  downstream: { family: down[0], rating: down[1] },
  greatest: 900,
  volts: 28.8,
  supply: "DC",
  ...rest,
});
const mains = { volts: 230, supply: "AC", greatest: 6000 } as const;

/** IEC 60269-1 Table 7, read in an adoption: rating, upstream rating, greatest and least pre-arcing I²t in kA²s. */
const table7 = [
  [16, 25, 1, 1],
  [20, 32, 1.8, 1.8],
  [25, 40, 3, 3],
  [32, 50, 5, 5],
  [40, 63, 9, 9],
  [50, 80, 16, 16],
  [63, 100, 27, 27],
  [80, 125, 46, 46],
  [100, 160, 86, 86],
  [125, 200, 140, 140],
  [160, 250, 250, 250],
  [200, 315, 400, 400],
  [250, 400, 760, 760],
  [315, 500, 1300, 1300],
  [400, 630, 2250, 2250],
  [500, 800, 3800, 3800],
  [630, 1000, 7500, 7840],
  [800, 1250, 13600, 13700],
] as const;

describe("gG fuses", () => {
  test("two steps of the series apart are selective on alternating current, all eighteen pairs of the table", () => {
    for (const [down, up, most, least] of table7) {
      assert.equal(preArcing("iec_gG", down).max?.value, most * 1000);
      assert.equal(preArcing("iec_gG", up).min?.value, least * 1000);
      const found = judgePair(pair(["iec_gG", up], ["iec_gG", down], { ...mains, greatest: 50_000 }));
      assert.deepEqual([found.verdict, found.method, found.missing], ["selective", "ratio", null], `${down} ${up}`);
    }
  });

  test("one step apart they are not proven", () => {
    for (const [down, up] of [
      [16, 20],
      [63, 80],
      [100, 125],
    ] as const) {
      const found = judgePair(pair(["iec_gG", up], ["iec_gG", down], mains));
      assert.ok(found.verdict === "selective up to" && (found.upTo ?? Infinity) < 10 * up, `${down} ${up}`);
    }
  });

  test("a chain of three rests on what was read or quoted, and on nothing weaker", () => {
    // 160, 100, 63 A: Table 7 read, the ratio quoted in two sources
    const chain = [160, 100, 63];
    for (const [i, up] of chain.slice(0, -1).entries()) {
      const found = judgePair(pair(["iec_gG", up], ["iec_gG", chain[i + 1] ?? 0], mains));
      assert.equal(found.verdict, "selective");
      assert.ok(isVerified(found.trust) && found.sources.every(({ trust }) => isVerified(trust)), found.trust);
    }
  });

  test("on direct current the arc counts: down to 0.01 s only, and not at all without a marked interrupt rating", () => {
    assert.equal(judgePair(pair(["iec_gG", 25], ["iec_gG", 16])).missing, "the interrupt rating of the 16 A gG fuse at 28.8 V DC"); // prettier-ignore
    const marked = { upstream: { family: "iec_gG", rating: 25 }, downstream: { family: "iec_gG", rating: 16, interruptAmps: 25_000 } } as const; // prettier-ignore
    const found = judgePair({ ...pair(["iec_gG", 25], ["iec_gG", 16]), ...marked });
    // 300 A²s in 0.01 s: 173.2 A
    assert.deepEqual([found.verdict, found.method, Math.round(found.upTo ?? 0)], ["selective up to", "ratio", 173]);
    assert.equal(found.missing, "the clearing I²t of the 16 A gG fuse on direct current");
  });
});

describe("miniature breakers", () => {
  test("two are never selective above the lower tolerance of the upstream one: 3, 5, 10 times its rating", () => {
    for (const [id, times] of [
      ["mcb_B", 3],
      ["mcb_C", 5],
      ["mcb_D", 10],
    ] as const) {
      for (const rating of [25, 40, 63]) {
        const found = judgePair(pair([id, rating], ["mcb_C", 6], mains));
        assert.equal(found.verdict, "selective up to");
        assert.ok((found.upTo ?? Infinity) <= times * rating, `${id} ${rating}`);
        // Wholly above it nothing but the maker's table counts.
        const above = judgePair(pair([id, rating], ["mcb_C", 6], { ...mains, least: times * rating + 1 }));
        assert.equal(above.verdict, "not selective");
        assert.match(above.because, /tested table/);
      }
    }
  });

  test("D 63 over B 6 reaches the lower tolerance where the bands allow", () => {
    // B 6 has opened in 0.1 s from 30 A; D 63 holds an hour to 1.13 · 63 = 71 A, 1 s to 161 A and 0.1 s to 630 A.
    const found = judgePair(pair(["mcb_D", 63], ["mcb_B", 6], mains));
    assert.deepEqual(
      [found.verdict, found.upTo, found.method, found.trust],
      ["selective up to", 630, "trip bands", "article"],
    );
  });

  test("a maker's table carries further, to where it ends", () => {
    const source = cite("data-sheets", "selectivity table of the maker", "read");
    const to = (upTo: number) =>
      judgePair(pair(["mcb_C", 63], ["mcb_B", 16], { ...mains, makerTable: { upTo, source } }));
    assert.deepEqual([to(10_000).verdict, to(10_000).method], ["selective", "maker table"]);
    assert.deepEqual([to(2400).verdict, to(2400).upTo], ["selective up to", 2400]);
  });

  test("what is made for alternating current proves nothing on direct current", () => {
    assert.equal(judgePair(pair(["mcb_C", 63], ["blade_type_C", 10])).verdict, "not proven");
  });
});

describe("blade fuses", () => {
  test("a 20 A blade behind a 40 A large one: gates overlap", () => {
    // At 1.35 · 40 A = 54 A the large one holds 60 s, the blade at 2.7 times has opened in 5 s. Up to 80 A the large one holds 2 s.
    const found = judgePair(pair(["blade_type_E", 40], ["blade_type_C", 20]));
    assert.deepEqual([found.verdict, found.upTo, found.missing], ["selective up to", 54, null]);
    assert.match(found.because, /may open after 2 s/);
  });

  test("a 10 A blade behind a 40 A large one is proven to where only energy tells", () => {
    // The blade has opened in 0.1 s from 60 A; the large one holds 0.2 s to 3.5 · 40 = 140 A.
    const found = judgePair(pair(["blade_type_E", 40], ["blade_type_C", 10]));
    assert.deepEqual([found.verdict, found.upTo, found.method], ["selective up to", 140, "I2t"]);
    assert.equal(found.missing, "the least melting I²t of the 40 A large blade fuse");
    const above = judgePair(pair(["blade_type_E", 40], ["blade_type_C", 10], { least: 200 }));
    assert.deepEqual([above.verdict, above.upTo], ["not proven", null]);
  });

  test("at 3.5 times the rating a blade may take 0.5 s where a large one of the same rating may open after 0.2 s", () => {
    const found = judgePair(pair(["blade_type_E", 40], ["blade_type_C", 40], { least: 141, greatest: 150 }));
    assert.notEqual(found.verdict, "selective");
  });

  test("what has no gates upstream carries its rating and proves nothing above", () => {
    for (const up of ["anl_limiter", "terminal_post", "ul_class_T"] as const) {
      const found = judgePair(pair([up, 100], ["blade_type_C", 10]));
      assert.deepEqual([found.verdict, found.upTo], ["selective up to", 100]);
      assert.match(found.missing ?? "", /^the least opening time of the 100 A/);
    }
    assert.equal(judgePair(pair(["ul_class_T", 200], ["anl_limiter", 100], { least: 300 })).verdict, "not proven");
  });
});

describe("the ends of the range", () => {
  test("no further than the downstream device opens", () => {
    // A blade fuse opens 1 kA; 100 A large blade: holds 0.2 s to 350 A, then energy is asked for.
    const found = judgePair(pair(["strip_SF51", 500], ["blade_type_C", 10], { greatest: 8000 }));
    assert.ok(found.upTo !== null && found.upTo <= 1000);
    assert.equal(judgePair(pair(["strip_SF51", 500], ["blade_type_C", 10], { least: 1200, greatest: 8000 })).verdict, "not selective"); // prettier-ignore
  });

  test("a greatest current that is not known is never proven", () => {
    assert.notEqual(judgePair(pair(["iec_gG", 25], ["iec_gG", 16], { ...mains, greatest: null })).verdict, "selective");
  });

  test("a source that gives too little, or stops too soon, limits and is not called selective", () => {
    const from = (amps: number, seconds: number | null) =>
      judgePair(pair(["mcb_C", 25], ["mcb_B", 16], { ...mains, sourceLimit: { amps, seconds } }));
    // 1.45 · 16 A = 23.2 A; from 5 · 16 A = 80 A in 0.1 s
    assert.deepEqual([from(20, null).method, from(20, null).verdict], ["source", "not proven"]);
    assert.equal(from(90, 0.05).method, "source");
    assert.notEqual(from(90, 1).method, "source");
    assert.match(from(20, null).because, /limited by the source/);
  });
});

describe("laws", () => {
  const anyFamily = fc.constantFrom(...deviceFamilyIds);
  const ofFamily = (id: DeviceFamilyId): fc.Arbitrary<number> => fc.constantFrom(...deviceFamily(id).standardRatings);
  const anySupply = fc.constantFrom({ supply: "DC", volts: 14.6 } as const, { supply: "AC", volts: 230 } as const);
  const anyPair = fc.tuple(anyFamily, anyFamily).chain(([u, d]) =>
    fc.record({
      up: ofFamily(u).map((rating) => [u, rating] as const),
      down: ofFamily(d).map((rating) => [d, rating] as const),
      greatest: fc.integer({ min: 10, max: 9000 }),
      rest: anySupply,
    }),
  );
  const reach = (question: PairQuestion): number => {
    const { verdict, upTo } = judgePair(question);
    return verdict === "selective" ? Infinity : (upTo ?? 0);
  };

  test("one device twice is never selective, and the smaller of a kind is never upstream", () => {
    fc.assert(
      fc.property(anyPair, ({ up, greatest, rest }) => {
        assert.equal(judgePair(pair(up, up, { greatest, ...rest })).verdict, "not selective");
        const larger = deviceFamily(up[0]).standardRatings.find((rating) => rating > up[1]);
        if (larger !== undefined)
          assert.equal(judgePair(pair(up, [up[0], larger], { greatest, ...rest })).verdict, "not selective");
      }),
    );
  });

  test("selective is never said where a figure is missing, and a limit is within the range", () => {
    fc.assert(
      fc.property(anyPair, ({ up, down, greatest, rest }) => {
        const found = judgePair(pair(up, down, { greatest, ...rest }));
        if (found.verdict === "selective") assert.deepEqual([found.missing, found.upTo], [null, null]);
        if (found.verdict === "not proven") assert.ok(found.missing !== null && found.trust === "missing");
        assert.equal(found.verdict === "selective up to", found.upTo !== null);
        if (found.upTo !== null) assert.ok(found.upTo > down[1] && found.upTo <= Math.max(greatest, down[1]));
        assert.ok(found.because !== "" && !/undefined|NaN|null/.test(found.because + (found.missing ?? "")));
        assert.deepEqual(JSON.parse(JSON.stringify(found)), found);
      }),
      { numRuns: 3000 },
    );
  });

  test("where bands alone prove it, no two devices within them open in the other order", () => {
    fc.assert(
      fc.property(anyPair, fc.double({ min: 0, max: 1, noNaN: true }), ({ up, down, greatest, rest }, share) => {
        const question = pair(up, down, { greatest, ...rest });
        const found = judgePair(question);
        if (found.method !== "gates" && found.method !== "trip bands") return;
        const end = found.verdict === "selective" ? greatest : (found.upTo ?? 0);
        const at = down[1] + share * (end - down[1]);
        if (!(at > down[1])) return;
        const [slow, early] = [openingBand(...down, at).max, openingBand(...up, at).min];
        if (at <= up[1]) return; // carries its rating
        if (early !== null && early.s >= 3600) return; // holds an hour
        // Below 0.1 s the energies are compared, which at one steady current is the same.
        const energy = preArcing(...up).min;
        const melts = energy === null ? 0 : energy.value / at ** 2;
        assert.ok((slow?.s ?? Infinity) <= Math.max(early?.s ?? 0, melts), JSON.stringify([up, down, at]));
      }),
      { numRuns: 3000 },
    );
  });

  test("a band that no standard fixes proves nothing above the rating: the maker's curve is missing", () => {
    for (const family of ["thermal_breaker", "surface_breaker"] as const) {
      const found = judgePair(pair([family, 50], ["blade_type_C", 5], { greatest: 200, volts: 14.6, supply: "DC" }));
      assert.deepEqual([found.verdict, found.upTo], ["selective up to", 50]);
      assert.match(found.missing ?? "", /^the maker's opening curve of the 50 A/);
    }
    fc.assert(
      fc.property(anyPair, ({ up, down, greatest, rest }) => {
        const { verdict, trust } = judgePair(pair(up, down, { greatest, ...rest }));
        assert.ok(verdict !== "selective" || trust !== "practice" || greatest <= up[1], JSON.stringify([up, down]));
      }),
    );
  });

  test("a larger upstream device of the same kind is never worse", () => {
    // Where the gates of the larger one are nowhere below those of the smaller in amperes; a family may change its table between ratings.
    const isNowhereLess = (id: DeviceFamilyId, small: number, large: number): boolean =>
      gatesOf(id, small).every(({ multiple, minS }) => {
        if (minS === null) return true;
        return (openingBand(id, large, multiple * small).min?.s ?? 0) >= minS;
      });
    fc.assert(
      fc.property(anyPair, ({ up, down, greatest, rest }) => {
        const larger = deviceFamily(up[0]).standardRatings.find((rating) => rating > up[1]);
        if (larger === undefined || !isNowhereLess(up[0], up[1], larger)) return;
        const [one, other] = [
          pair(up, down, { greatest, ...rest }),
          pair([up[0], larger], down, { greatest, ...rest }),
        ];
        assert.ok(reach(other) >= reach(one), JSON.stringify([up, larger, down, reach(one), reach(other)]));
      }),
      { numRuns: 3000 },
    );
  });

  test("a greater fault is never better", () => {
    fc.assert(
      fc.property(anyPair, fc.integer({ min: 1, max: 5000 }), ({ up, down, greatest, rest }, more) => {
        const [one, other] = [
          pair(up, down, { greatest, ...rest }),
          pair(up, down, { greatest: greatest + more, ...rest }),
        ];
        if (judgePair(other).verdict === "selective") assert.equal(judgePair(one).verdict, "selective");
      }),
      { numRuns: 1000 },
    );
  });
});

describe("strings side by side", () => {
  const strings = (n: number, faultAmps: number) =>
    judgeStrings({
      fuse: { family: "iec_gG", rating: 100, interruptAmps: 25_000 },
      strings: n,
      faultAmps,
      volts: 58.4,
    });

  test("two carry the same; of more, each of the others takes its energy over the square of their number", () => {
    assert.equal(strings(2, 5000).verdict, "not selective");
    // 100 A gG: from 1450 A opened in 0.1 s, so 1500 A let 225 kA²s through at most; melts from 27 kA²s: n = 4 leaves 25 kA²s, n = 3 56 kA²s.
    assert.deepEqual([strings(4, 1500).verdict, strings(3, 1500).verdict], ["selective", "not proven"]);
    assert.equal(strings(4, 1500).trust, "memory");
  });

  test("without a least melting energy nothing is proven, however many there are", () => {
    const found = judgeStrings({
      fuse: { family: "ul_class_T", rating: 200 },
      strings: 12,
      faultAmps: 9000,
      volts: 58.4,
    });
    assert.deepEqual([found.verdict, found.trust], ["not proven", "missing"]);
  });

  test("one more string never makes it worse", () => {
    fc.assert(
      fc.property(fc.integer({ min: 3, max: 12 }), fc.integer({ min: 200, max: 20_000 }), (n, amps) => {
        if (strings(n, amps).verdict === "selective") assert.equal(strings(n + 1, amps).verdict, "selective");
      }),
    );
  });
});
