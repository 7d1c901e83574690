import { describe, test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import { amps, celsius, volts } from "../quantity/index.ts";
import { deviceLimit, ruleSets, smallConductor, type RuleSet, type InstallMethod } from "../ruleset/index.ts";
import { awgSize, kcmilSize, metricSize, stockedSizes, type ConductorMake, type WireSize } from "../wire/index.ts";
import { ampacity, ampacityAmps, type Ampacity, type Installed, type Stretch } from "./index.ts";

/** A set by its id. */
function carried(id: string): RuleSet {
  const set = ruleSets.find((each) => each.id === id);
  assert.ok(set !== undefined, id);
  return set;
}

const sizeOf = (name: string | number): WireSize => {
  const size =
    typeof name === "number" ? metricSize(name) : Number(name) >= 250 ? kcmilSize(Number(name)) : awgSize(name);
  assert.ok(size !== null);
  return size;
};

/** Building wire of a size; flexible where the size is metric and small makes no difference to any row. */
const make = (name: string | number, more: Partial<ConductorMake> = {}): ConductorMake => ({
  size: sizeOf(name),
  metal: "copper",
  plating: "plain",
  strands: typeof name === "number" ? "class 2" : "class B",
  ...more,
});

const calm: Stretch = { engineSpace: false, ambientC: 30, ambientStated: true, bundle: 2 };

interface Asked extends Installed {
  readonly set: string;
  readonly name: string | number;
  readonly insulation?: number;
  readonly at?: Partial<Stretch>;
  readonly metal?: "copper" | "aluminium";
  readonly ac?: true;
}

const rate = ({ set, name, insulation = 90, at = {}, metal = "copper", ac, ...installed }: Asked): Ampacity =>
  ampacity({
    ruleSet: carried(set),
    make: make(name, { metal }),
    insulationC: celsius(insulation),
    installed,
    ...(ac === undefined ? {} : { current: "AC" as const }),
    stretches: [{ ...calm, ...at }],
  });

/** Terminals that limit nothing. */
const cool = { terminalsC: celsius(90) };

test("close above a roof in the sun the air counts 33 K hotter, under the code of buildings alone", () => {
  // NFPA 70-2023 310.15(B)(2): 40 °C and 33 K are 73 °C; table 310.15(B)(1)(1), 71–75 °C, column of 90 °C: 0.50 of the 40 A of 10 AWG.
  const onRoof = rate({ set: "us-cabin", name: "10", at: { ambientC: 40, onRoof: true }, ...cool });
  assert.equal(onRoof.amps, 20);
  assert.match(onRoof.perStretch[0]?.factors[0]?.because ?? "", /^73 °C stated, 33 K of them from the roof in the sun/);
  for (const set of ["iec-cabin", "us-small-craft"] as const) {
    const at = { ambientC: 40 };
    const [roof, shade] = [true, false].map((is) => rate({ set, name: 10, at: { ...at, onRoof: is } }).amps);
    assert.equal(roof, shade, set);
  }
});

describe("NFPA 70, keyed from the printed tables of 2017 and 2023", () => {
  const sizes = [
    "14",
    "12",
    "10",
    "8",
    "6",
    "4",
    "3",
    "2",
    "1",
    "1/0",
    "2/0",
    "3/0",
    "4/0",
    "250",
    "300",
    "350",
    "400",
    "500",
  ];
  const columns: readonly (readonly [string, InstallMethod, "copper" | "aluminium", number, readonly number[]])[] = [
    [
      "310.16",
      "raceway",
      "copper",
      60,
      [15, 20, 30, 40, 55, 70, 85, 95, 110, 125, 145, 165, 195, 215, 240, 260, 280, 320],
    ],
    [
      "310.16",
      "cable",
      "copper",
      75,
      [20, 25, 35, 50, 65, 85, 100, 115, 130, 150, 175, 200, 230, 255, 285, 310, 335, 380],
    ],
    ["310.16", "C", "copper", 90, [25, 30, 40, 55, 75, 95, 115, 130, 145, 170, 195, 225, 260, 290, 320, 350, 380, 430]],
    [
      "310.16",
      "raceway",
      "aluminium",
      75,
      [NaN, 20, 30, 40, 50, 65, 75, 90, 100, 120, 135, 155, 180, 205, 230, 250, 270, 310],
    ],
    [
      "310.17",
      "free air",
      "copper",
      60,
      [25, 30, 40, 60, 80, 105, 120, 140, 165, 195, 225, 260, 300, 340, 375, 420, 455, 515],
    ],
    [
      "310.17",
      "free air",
      "copper",
      75,
      [30, 35, 50, 70, 95, 125, 145, 170, 195, 230, 265, 310, 360, 405, 445, 505, 545, 620],
    ],
    [
      "310.17",
      "free air",
      "aluminium",
      90,
      [NaN, 35, 45, 60, 85, 115, 130, 150, 175, 205, 235, 270, 315, 355, 395, 445, 480, 545],
    ],
  ];
  for (const [table, method, metal, insulation, values] of columns) {
    test(`Table ${table}, ${metal}, ${insulation} °C`, () => {
      const told = sizes.map(
        (name) => rate({ set: "us-cabin", name, insulation, metal, method, ...cool }).table?.value ?? NaN,
      );
      assert.deepEqual(told, values);
    });
  }

  test("Table 400.5(A)(1), columns A and B", () => {
    const cords = ["18", "16", "14", "12", "10", "8", "6", "4", "2"];
    const of = (loaded: number) =>
      cords.map((name) => rate({ set: "us-cabin", name, insulation: 60, method: "cord", loaded }).table?.value);
    assert.deepEqual(of(3), [7, 10, 15, 20, 25, 35, 45, 60, 80]);
    assert.deepEqual(of(2), [10, 13, 18, 25, 30, 40, 55, 70, 95]);
  });

  test("ambient by cell: 36–40 °C is 0.82, 0.88, 0.91; where the table is blank nothing may flow", () => {
    for (const [insulation, factor] of [
      [60, 0.82],
      [75, 0.88],
      [90, 0.91],
    ] as const) {
      const { perStretch } = rate({ set: "us-cabin", name: "4", insulation, at: { ambientC: 38 }, ...cool });
      assert.equal(perStretch[0]?.factors[0]?.value, factor);
    }
    assert.equal(rate({ set: "us-cabin", name: "4", insulation: 60, at: { ambientC: 56 } }).amps, 0);
    // Colder air is not credited.
    assert.deepEqual(rate({ set: "us-cabin", name: "4", at: { ambientC: 10 }, ...cool }).perStretch[0]?.factors, []);
  });

  test("the order of 310.15: four 8 AWG of 90 °C at 38 °C are 55 × 0.91 × 0.80", () => {
    const rated = rate({ set: "us-cabin", name: "8", at: { ambientC: 38, bundle: 4 }, ...cool });
    assert.ok(Math.abs((rated.amps ?? 0) - 40.04) < 1e-9);
    assert.equal(rated.trust, "read");
  });

  test("nine conductors of 12 AWG at 90 °C are 30 × 0.70 = 21 A, and 20 A by terminals of 60 °C", () => {
    const at = { bundle: 9 };
    assert.equal(rate({ set: "us-cabin", name: "12", at, ...cool }).amps, 21);
    assert.equal(rate({ set: "us-cabin", name: "12", at }).amps, 20);
  });

  test("110.14(C): up to 1 AWG the 60 °C column unless marked 75; above, the 75 °C column; never corrected", () => {
    const of = (name: string, installed: Installed = {}) => rate({ set: "us-cabin", name, ...installed }).amps;
    assert.equal(of("3"), 85);
    // The feeder of 100 A that every textbook sizes: 3 AWG with 75 °C terminals, 1 AWG without.
    assert.equal(of("3", { terminalsC: celsius(75) }), 100);
    assert.equal(of("1"), 110);
    assert.equal(of("1/0"), 150);
    assert.equal(of("2/0"), 175);
    // In free air the terminals still count by Table 310.16.
    assert.equal(of("6", { method: "free air", terminalsC: celsius(75) }), 65);
    const [cap] = rate({ set: "us-cabin", name: "3", at: { ambientC: 38 } }).caps;
    assert.deepEqual([cap?.amps, cap?.source.clause], [85, "110.14(C)(1)"]);
  });

  test("210.19: a continuous load × 1.25 before correction, and × 1 after it", () => {
    // 16 A for hours: 20 A before correction, which is 12 AWG at 60 °C terminals and not 14 AWG.
    const steady = (name: string, at: Partial<Stretch> = {}) => rate({ set: "us-cabin", name, at }).continuousAmps ?? 0;
    assert.equal(steady("12"), 16);
    assert.equal(steady("14"), 12);
    // Six conductors at 45 °C leave 30 × 0.87 × 0.80 = 20.88 A of 12 AWG at 90 °C: the first test decides.
    assert.equal(steady("12", { ambientC: 45, bundle: 6 }), 16);
    // Ten leave 30 × 0.87 × 0.50 = 13.05 A: the second does.
    assert.ok(Math.abs(steady("12", { ambientC: 45, bundle: 10 }) - 13.05) < 1e-9);
  });

  test("310.15(C)(1): what lies together for 600 mm or less is not counted", () => {
    const of = (high: number) =>
      rate({ set: "us-cabin", name: "8", at: { bundle: 9, lengthM: { high } }, ...cool }).amps;
    assert.equal(of(0.6), 55);
    assert.ok(Math.abs((of(0.61) ?? 0) - 38.5) < 1e-9);
  });

  test("240.4(B) and (D): the next rating to 800 A, and 15, 20, 30 A for 14, 12, 10 AWG", () => {
    const { deviceSize } = carried("us-cabin");
    const ratings = [15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 700, 800, 1000].map(
      amps,
    );
    const most = (name: string, ampacityA: number, metal: "copper" | "aluminium" = "copper") =>
      deviceLimit(deviceSize, {
        ampacity: amps(ampacityA),
        current: "DC",
        nominal: volts(48),
        ratings,
        small: smallConductor(deviceSize, "DC", make(name, { metal })),
      }).upTo;
    assert.equal(most("14", 25), 15);
    assert.equal(most("12", 30), 20);
    assert.equal(most("10", 40), 30);
    assert.equal(most("12", 30, "aluminium"), 15);
    assert.equal(most("10", 35, "aluminium"), 25);
    // 3 AWG at 60 °C, 85 A: 90 A is the next; 8 AWG is not small any more.
    assert.equal(most("3", 85), 90);
    assert.equal(most("8", 40), 40);
    assert.equal(most("500", 760), 800);
    assert.equal(most("500", 850), 850);
  });

  test("burial cannot be told, and says what is missing", () => {
    for (const asked of [{ method: "D" as const }, { at: { buried: true } }]) {
      const rated = rate({ set: "us-cabin", name: "8", ...asked });
      assert.equal(rated.amps, null);
      assert.match(rated.cannotTell ?? "", /buried conductor .* depth, soil/);
    }
  });
});

describe("33 CFR 183.425 Table 5 beside NFPA 70 Table 310.17", () => {
  test("its 60 and 75 °C columns are those of single conductors in free air from 6 AWG up", () => {
    for (const name of ["6", "4", "3", "2", "1", "1/0", "2/0", "3/0", "4/0"]) {
      for (const insulation of [60, 75]) {
        const boat = rate({ set: "us-small-craft", name, insulation, at: { bundle: 1 } }).table?.value;
        const air = rate({ set: "us-cabin", name, insulation, method: "free air" }).table?.value;
        assert.equal(boat, air, `${name} at ${insulation} °C`);
      }
    }
  });
});

describe("IEC 60364-5-52, keyed from BS 7671 appendix 4 and annex B", () => {
  const areas = [1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70];
  const columns: readonly (readonly [InstallMethod, boolean, number, number, readonly number[]])[] = [
    ["A1", false, 70, 2, [14.5, 19.5, 26, 34, 46, 61, 80, 99, 119, 151]],
    ["A1", false, 90, 3, [17, 23, 31, 40, 54, 73, 95, 117, 141, 179]],
    ["B1", false, 70, 2, [17.5, 24, 32, 41, 57, 76, 101, 125, 151, 192]],
    ["B1", false, 70, 3, [15.5, 21, 28, 36, 50, 68, 89, 110, 134, 171]],
    ["B1", false, 90, 2, [23, 31, 42, 54, 75, 100, 133, 164, 198, 253]],
    ["B2", true, 70, 2, [16.5, 23, 30, 38, 52, 69, 90, 111, 133, 168]],
    ["B2", true, 70, 3, [15, 20, 27, 34, 46, 62, 80, 99, 118, 149]],
    ["C", true, 70, 2, [19.5, 27, 36, 46, 63, 85, 112, 138, 168, 213]],
    ["C", true, 70, 3, [17.5, 24, 32, 41, 57, 76, 96, 119, 144, 184]],
    ["C", true, 90, 2, [24, 33, 45, 58, 80, 107, 138, 171, 209, 269]],
    ["E", true, 70, 2, [22, 30, 40, 51, 70, 94, 119, 148, 180, 232]],
    ["E", true, 90, 3, [23, 32, 42, 54, 75, 100, 127, 158, 192, 246]],
  ];
  for (const [method, sheathed, insulation, loaded, values] of columns) {
    test(`method ${method}, ${insulation} °C, ${loaded} loaded`, () => {
      const told = areas.map(
        (name) => rate({ set: "iec-cabin", name, insulation, method, sheathed, loaded }).table?.value,
      );
      assert.deepEqual(told, values);
    });
  }

  test("F and G from 25 mm²; below, the clipped single cores stand in", () => {
    const of = (method: InstallMethod, name: number) => rate({ set: "iec-cabin", name, insulation: 70, method }).table;
    assert.deepEqual(
      [25, 35, 50, 70].map((name) => of("F", name)?.value),
      [131, 162, 196, 251],
    );
    assert.deepEqual(
      [25, 35, 50, 70].map((name) => of("G", name)?.value),
      [146, 181, 219, 281],
    );
    assert.deepEqual([of("F", 16)?.value, of("F", 16)?.column], [87, "cSinglesPvc2"]);
  });

  test("It ≥ In ÷ (Ca Cg): three circuits of 2.5 mm² clipped carry 27 × 0.70, too little for 20 A; 4 mm² is enough", () => {
    // The form in which the wiring regulations teach it, done by hand.
    const of = (name: number) =>
      rate({ set: "iec-cabin", name, insulation: 70, method: "C", sheathed: true, at: { bundle: 6 } }).amps ?? 0;
    assert.ok(Math.abs(of(2.5) - 18.9) < 1e-9 && of(2.5) < 20);
    assert.ok(Math.abs(of(4) - 25.2) < 1e-9 && of(4) >= 20);
    // 20 ÷ (0.70 × 0.94) at 35 °C asks for a tabulated 30.4 A.
    const hot = rate({
      set: "iec-cabin",
      name: 4,
      insulation: 70,
      method: "C",
      sheathed: true,
      at: { bundle: 6, ambientC: 35 },
    });
    assert.ok(Math.abs((hot.amps ?? 0) - 36 * 0.7 * 0.94) < 1e-9);
  });

  test("ambient by cell, between rows the next one up: 33 °C is 35 °C; 41 °C is 45 °C", () => {
    const factor = (insulation: number, ambientC: number) =>
      rate({ set: "iec-cabin", name: 4, insulation, at: { ambientC } }).perStretch[0]?.factors[0]?.value;
    assert.deepEqual([factor(70, 33), factor(70, 41), factor(70, 60)], [0.94, 0.79, 0.5]);
    assert.deepEqual([factor(90, 33), factor(90, 41), factor(90, 80)], [0.96, 0.87, 0.41]);
    assert.equal(rate({ set: "iec-cabin", name: 4, insulation: 70, at: { ambientC: 61 } }).amps, 0);
  });

  test("523.9: half of method C from 0.5 m in thermal insulation; method A1 is made for it", () => {
    const wrapped = (high: number, method: InstallMethod) =>
      rate({
        set: "iec-cabin",
        name: 2.5,
        insulation: 70,
        method,
        sheathed: true,
        at: { insulated: true, lengthM: { high } },
      }).amps;
    assert.equal(wrapped(2, "C"), 13.5);
    assert.equal(wrapped(0.5, "C"), 13.5);
    assert.ok(Math.abs((wrapped(0.1, "C") ?? 0) - 27 * 0.78) < 1e-9);
    assert.equal(wrapped(2, "A1"), 19.5);
  });

  test("terminals of 70 °C hold XLPE to the PVC column, and only there", () => {
    const of = (at: Partial<Stretch>, installed: Installed = {}) =>
      rate({ set: "iec-cabin", name: 10, insulation: 90, method: "B1", at, ...installed }).amps;
    assert.equal(of({}), 57);
    assert.equal(of({}, { terminalsC: celsius(90) }), 75);
    // 75 × 0.71 in air of 60 °C is below that cap: what the better insulation gains.
    assert.ok(Math.abs((of({ ambientC: 60 }) ?? 0) - 53.25) < 1e-9);
  });

  test("433.1: a gG fuse below 16 A may be Iz ÷ 1.31, below 6 A Iz ÷ 1.45, from 16 A Iz ÷ 1.10", () => {
    const { deviceSize } = carried("iec-cabin");
    const most = (ampacityA: number, family: string) =>
      deviceLimit(deviceSize, { ampacity: amps(ampacityA), current: "DC", nominal: volts(24), ratings: [], family })
        .upTo;
    assert.ok(Math.abs(most(24, "iec_gG") - 24 / (1.6 / 1.45)) < 1e-9); // 21.75: 20 A
    assert.ok(Math.abs(most(17.5, "iec_gG") - 17.5 / (1.9 / 1.45)) < 1e-9); // 13.4: 10 A
    // 1.45 × In = 1.9 × 10 = 19 ≤ 1.45 × 13.1: the sum turned round.
    assert.ok(1.9 * 10 <= 1.45 * 13.2 && most(13.2, "iec_gG") >= 10);
    assert.ok(Math.abs(most(7, "iec_gG") - 7 / (2.1 / 1.45)) < 1e-9);
    assert.equal(most(24, "mcb_C"), 24);
  });

  test("A2 and burial cannot be told", () => {
    assert.match(rate({ set: "iec-cabin", name: 4, method: "A2" }).cannotTell ?? "", /A2.*missing/);
    assert.match(rate({ set: "iec-cabin", name: 4, method: "D" }).cannotTell ?? "", /burial.*missing/);
    assert.match(rate({ set: "iec-cabin", name: 16, metal: "aluminium" }).cannotTell ?? "", /for copper/);
  });
});

describe("vehicles", () => {
  test("DIN VDE 0298-4 Table 11: single in free air, two or three together", () => {
    const of = (method: InstallMethod) =>
      [0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95].map(
        (name) => rate({ set: "vehicle-practice", name, insulation: 70, method, at: { bundle: 1 } }).amps,
      );
    assert.deepEqual(of("free air"), [15, 19, 24, 32, 42, 54, 73, 98, 129, 158, 198, 245, 292]);
    assert.deepEqual(of("cable"), [12, 15, 18, 26, 34, 44, 61, 82, 108, 135, 168, 207, 250]);
  });

  test("cords: to 4 mm² as the VDE lists them, above as BS 7671 4F1A", () => {
    const of = (loaded: number) =>
      [0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25].map(
        (name) => rate({ set: "vehicle-practice", name, insulation: 60, method: "cord", loaded }).table?.value,
      );
    assert.deepEqual(of(2), [6, 10, 16, 25, 32, 39, 51, 73, 97]);
    assert.deepEqual(of(3), [6, 10, 16, 20, 25, 34, 47, 63, 83]);
  });

  test("an engine bay counts as 60 °C, by the table of the insulation: 105 °C keeps 0.77", () => {
    const at = { engineSpace: true, ambientStated: false };
    const { perStretch } = rate({ set: "vehicle-practice", name: 6, insulation: 105, at });
    assert.deepEqual(
      perStretch[0]?.factors.map(({ which, value }) => [which, value]),
      [["ambient", 0.77]],
    );
    // Measured air counts as measured.
    assert.equal(
      rate({ set: "vehicle-practice", name: 6, insulation: 105, at: { ...at, ambientStated: true, ambientC: 40 } })
        .perStretch[0]?.factors[0]?.value,
      0.93,
    );
  });

  test("Australia: what stands in is corrected to 40 °C at least", () => {
    const rated = rate({ set: "au-nz-vehicle", name: 6, insulation: 70, at: { ambientC: 25 } });
    assert.ok(Math.abs((rated.amps ?? 0) - 44 * 0.87) < 1e-9);
    assert.match(rated.notes.join(), /3008\.1/);
  });

  test("American 12 V: the table of boats stands in, devices to 10 AWG are fixed", () => {
    const set = carried("us-rv");
    assert.equal(rate({ set: "us-rv", name: "10", insulation: 105, at: { bundle: 1 } }).amps, 60);
    const most = (name: string) => smallConductor(set.deviceSize, "DC", make(name))?.upTo;
    assert.deepEqual(["18", "16", "14", "12", "10", "8"].map(most), [6, 8, 15, 20, 30, undefined]);
    // The mains side is that of buildings.
    assert.equal(rate({ set: "us-rv", name: "12", ac: true }).amps, 20);
    assert.equal(
      rate({ set: "iec-caravan", name: 2.5, ac: true, insulation: 70, method: "C", sheathed: true }).amps,
      27,
    );
  });
});

describe("laws of all sets", () => {
  const ids = ruleSets.map(({ id }) => id);
  const methods: readonly (InstallMethod | undefined)[] = [
    undefined,
    "B1",
    "C",
    "E",
    "F",
    "free air",
    "raceway",
    "cable",
    "cord",
  ];
  const anyStretch = fc.record({
    engineSpace: fc.boolean(),
    ambientC: fc.integer({ min: 0, max: 85 }),
    ambientStated: fc.boolean(),
    bundle: fc.integer({ min: 1, max: 50 }),
    insulated: fc.boolean(),
    lengthM: fc.record({ high: fc.double({ min: 0.01, max: 20, noNaN: true }) }),
  });
  const anyCase = fc.record({
    set: fc.constantFrom(...ids),
    system: fc.constantFrom("AWG" as const, "mm²" as const),
    insulation: fc.constantFrom(60, 70, 75, 90, 105, 125),
    method: fc.constantFrom(...methods),
    sheathed: fc.boolean(),
    loaded: fc.constantFrom(1, 2, 3),
    terminals: fc.constantFrom(undefined, 60, 75, 90),
    stretch: anyStretch,
  });
  type Case = typeof anyCase extends fc.Arbitrary<infer T> ? T : never;
  const installedOf = ({ method, sheathed, loaded, terminals }: Case): Installed => ({
    ...(method === undefined ? {} : { method }),
    sheathed,
    loaded,
    ...(terminals === undefined ? {} : { terminalsC: celsius(terminals) }),
  });
  const bare = (c: Case, size: WireSize, insulation = c.insulation, stretch: Stretch = c.stretch): number =>
    ampacityAmps(carried(c.set).ampacity, make("10", { size }), insulation, [stretch], installedOf(c));

  test("thicker never carries less", () => {
    fc.assert(
      fc.property(anyCase, (c) => {
        const all = stockedSizes(c.system).map((size) => bare(c, size));
        // A terminal cap rises with the size too; a table ends where its first row begins.
        assert.deepEqual(
          all,
          all.toSorted((a, b) => a - b),
        );
      }),
    );
  });

  test("hotter air, and more beside it, never let it carry more", () => {
    fc.assert(
      fc.property(anyCase, fc.nat(30), fc.nat(20), (c, hotter, more) => {
        const size = sizeOf(c.system === "AWG" ? "6" : 16);
        const now = bare(c, size);
        const { stretch } = c;
        assert.ok(bare(c, size, c.insulation, { ...stretch, ambientC: stretch.ambientC + hotter }) <= now);
        assert.ok(bare(c, size, c.insulation, { ...stretch, bundle: stretch.bundle + more }) <= now);
      }),
    );
  });

  test("better terminals never let it carry less", () => {
    fc.assert(
      fc.property(anyCase, (c) => {
        const size = sizeOf(c.system === "AWG" ? "6" : 16);
        const by = ([60, 75, 90] as const).map((terminals) => bare({ ...c, terminals }, size));
        assert.deepEqual(
          by,
          by.toSorted((a, b) => a - b),
        );
      }),
    );
  });

  test("the bare number is that of the full answer, which is plain data", () => {
    fc.assert(
      fc.property(anyCase, (c) => {
        const size = sizeOf(c.system === "AWG" ? "6" : 16);
        const full = ampacity({
          ruleSet: carried(c.set),
          make: make("10", { size }),
          insulationC: celsius(c.insulation),
          installed: installedOf(c),
          stretches: [c.stretch],
        });
        assert.equal(full.amps ?? 0, bare(c, size));
        assert.ok((full.continuousAmps ?? 0) <= (full.amps ?? 0));
        assert.deepEqual(JSON.parse(JSON.stringify(full)), full);
      }),
    );
  });

  test("a way that nobody knows carries no more than any that it may be", () => {
    fc.assert(
      fc.property(anyCase, (c) => {
        const size = sizeOf(c.system === "AWG" ? "6" : 16);
        const rules = carried(c.set).ampacity;
        const of = (method: InstallMethod | "unknown") =>
          ampacityAmps(rules, make("10", { size }), c.insulation, [c.stretch], { ...installedOf(c), method });
        for (const method of ["raceway", "cable", "free air"] as const) assert.ok(of("unknown") <= of(method), method);
      }),
    );
  });
});
