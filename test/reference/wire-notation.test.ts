import { describe, test } from "vitest";
import assert from "node:assert/strict";
import { labelContexts, readLabel, type LabelContext, type WireReading } from "../../src/wire/index.ts";

/**
 * How sizes and conductors are printed, and what they mean. The key of the source stands with each table:
 * T1 = Lessons In Electric Circuits vol. I, conductor size; T3 = trade notes on primary wire and a GXL data sheet; T4, T5 = a data sheet and a page on vehicle cable of
 * Australia and New Zealand; T6 = a terminal maker's conversion table; M = two conductor tables that go with small-craft practice; G = British and metric wire gauge, an article
 * on car-audio wire; U = descriptions of North American building wire and cord; B = articles on boat cable; E = pages on HD 361 codes and a German
 * cable maker's glossary; A = pages on vehicle wire after DIN 72551; L = NEC 552.10(B); practice = habit of the trade without a source.
 */

/** What one reading is expected to say; what is left out is not looked at. */
interface Expected {
  readonly size?: string;
  /** mm², within half a percent: sources print three digits. */
  readonly area?: number;
  readonly insulated?: number;
  readonly total?: number;
  readonly ground?: string;
  readonly groundSize?: string;
  readonly runs?: number;
  readonly family?: string | null;
  readonly type?: string;
  readonly metal?: string;
  readonly plating?: string;
  readonly stranding?: string;
  readonly wires?: number;
  readonly volts?: number;
  readonly temperatureC?: number;
  readonly colours?: string;
}

function saysSo(label: string, { make }: WireReading, expected: Expected): void {
  const { area, ...rest } = expected;
  if (area !== undefined) {
    const found = make.size?.areaMm2 ?? Number.NaN;
    assert.ok(Math.abs(found / area - 1) < 0.005, `${label}: ${found} mm², expected ${area}`);
  }
  const found: Readonly<Record<keyof typeof rest, unknown>> = {
    size: make.size === null ? null : `${make.size.system} ${make.size.name}`,
    insulated: make.cores?.insulated,
    total: make.cores?.total,
    ground: make.cores?.ground,
    groundSize: make.cores?.groundSize?.label,
    runs: make.runs,
    family: make.family,
    type: make.type,
    metal: make.metal,
    plating: make.plating,
    stranding: make.stranding?.name,
    wires: make.stranding?.wires,
    volts: make.volts,
    temperatureC: make.temperatureC,
    colours: make.colours.map((colour) => colour.join("/")).join("+"),
  };
  for (const [name, value] of Object.entries(rest))
    assert.equal(found[name as keyof typeof rest], value, `${label}: ${name}`); // the names of that very object
}

/** `label @ context`. */
function read(written: string) {
  const [label = "", place] = written.split(" @ ");
  const context: LabelContext | undefined = labelContexts.find((each) => each === place);
  return readLabel(label, context === undefined ? {} : { context });
}

function isExact(written: string, expected: Expected): void {
  const reading = read(written);
  assert.equal(reading.verdict, "exact", `${written}: ${JSON.stringify(reading.problems)}`);
  for (const each of reading.readings) saysSo(written, each, expected);
}

function isAsked(written: string, expected: readonly Expected[]): void {
  const reading = read(written);
  assert.equal(reading.verdict, "ambiguous", `${written}: ${JSON.stringify(reading.problems)}`);
  assert.equal(reading.readings.length, expected.length, `${written}: ${reading.readings.map(({ says }) => says).join(" | ")}`);
  for (const [index, each] of reading.readings.entries()) saysSo(written, each, expected[index] ?? {});
  if (reading.verdict === "ambiguous") assert.match(reading.question, /\?$/);
}

function isRefused(written: string, id: string): void {
  const reading = read(written);
  assert.equal(reading.verdict, "rejected", `${written}: ${reading.readings.map(({ says }) => says).join(" | ")}`);
  assert.equal(reading.problems[0]?.id, id, written);
}

const trapOf = (written: string): string => read(written).readings.flatMap(({ traps }) => traps).join(" ");

describe("sizes", () => {
  test("American gauge in every spelling, T1", () => {
    for (const label of ["12 AWG", "12 ga", "#12", "No. 12", "12 gauge", "AWG 12", "12-gauge", "12AWG", "12 GA.", "12 gage", "no 12", "A.W.G. 12"])
      isExact(label, { size: "AWG 12", area: 3.31, family: null });
    for (const label of ["No. 10", "10-gauge", "ten gauge"]) isExact(label, { size: "AWG 10", area: 5.26 });
  });

  test("a number sign on a terminal is its screw, practice", () => {
    isExact("8 AWG #10 ring", { size: "AWG 8" });
    assert.match(trapOf("8 AWG #10 ring"), /#10 is the screw/);
    isRefused("#10 ring", "other-thing");
  });

  test("Brown and Sharpe is the same gauge under its old name, T1 T5", () => {
    for (const label of ["B&S 8", "8 B&S", "8 b & s"]) isExact(label, { size: "AWG 8", area: 8.37 });
  });

  test("noughts, T1", () => {
    for (const label of ["0", "#0", "1/0", "one aught", "single-ought", "0 AWG", "1/0 AWG"]) isExact(label, { size: "AWG 1/0", area: 53.5 });
    for (const label of ["00", "2/0", "two ought", "2/0 AWG", "#2/0"]) isExact(label, { size: "AWG 2/0", area: 67.4 });
    isExact("000", { size: "AWG 3/0" });
    for (const label of ["0000", "4/0", "four aught", "4/0 AWG"]) isExact(label, { size: "AWG 4/0", area: 107.2 });
  });

  test("2 and 2/0 differ by a factor of two: what a scan leaves of a nought is asked or refused, T1", () => {
    isAsked("02 AWG", [{ size: "AWG 2" }, { size: "AWG 2/0" }]);
    isExact("2-0", { size: "AWG 2/0" });
    for (const label of ["2/O", "2/O AWG", "2/o", "2|0 AWG", "1O AWG", "l2 AWG"]) isRefused(label, "letter-for-digit");
    isRefused("2/\u041e AWG", "look-alike");
    for (const label of ["3-Oct", "12/2/2024", "02-Dec", "Oct-03", "3 Mar"]) isRefused(label, "made-by-a-spreadsheet");
    isRefused("10:2", "other-thing");
  });

  test("circular mils: M is a thousand, T1", () => {
    for (const label of ["250 kcmil", "250 MCM", "250,000 CM", "250 000 cmil", "250000 circular mils"]) isExact(label, { size: "kcmil 250", area: 126.7 });
    assert.equal(readLabel("250,000 cm").verdict, "rejected");
  });

  test("square millimetres in every spelling, practice", () => {
    for (const label of ["10 mm2", "10 mm²", "10 sq mm", "10 sqmm", "10 SQ", "10 mmq", "10 qmm", "10 кв.мм", "10 кв мм", "10mm^2", "10 square millimetres", "10㎟"])
      isExact(label, { size: "mm² 10", area: 10 });
    isExact("2,5 mm²", { size: "mm² 2.5" });
    isExact("1,5 @ metric", { size: "mm² 1.5" });
    isExact("3G1,5", { size: "mm² 1.5", insulated: 3, total: 3, ground: "insulated" });
    isAsked("3G15", [{ size: "mm² 1.5" }, { size: "mm² 15" }]);
    isAsked("1,000 mm²", [{ size: "mm² 1" }, { size: "mm² 1000" }]);
    assert.equal(readLabel("1,000").verdict, "ambiguous");
  });

  test("millimetres without the square are asked, T4 T5", () => {
    isAsked("6 mm", [{ size: "mm² 6" }, { size: "vehicle diameter 6", area: 4.59 }, { size: "solid diameter 6", area: 28.27 }]);
    isAsked("5 mm", [{ size: "mm² 5" }, { size: "vehicle diameter 5", area: 2.9 }, { size: "solid diameter 5" }]);
    isAsked("4 mm", [{ size: "mm² 4" }, { size: "vehicle diameter 4", area: 1.84 }, { size: "solid diameter 4" }]);
    isAsked("3 mm", [{ size: "mm² 3" }, { size: "vehicle diameter 3", area: 0.85 }, { size: "solid diameter 3" }]);
    assert.match(trapOf("3 mm"), /1\.13/);
    for (const [label, area] of [["1.6 mm", 2.01], ["2.0 mm", 3.14], ["2.6 mm", 5.31]] as const) {
      const solid = readLabel(label).readings.find(({ make }) => make.size?.system === "solid diameter");
      assert.ok(Math.abs((solid?.make.size?.areaMm2 ?? 0) / area - 1) < 0.005, label); // three digits
    }
    const narrowed = readLabel("6 mm", { context: "metric" });
    assert.equal(narrowed.verdict, "exact");
    assert.ok(narrowed.verdict === "exact" && narrowed.ruledOut.length === 2);
    assert.match(narrowed.readings[0]?.by.join() ?? "", /metric/);
  });

  test("labels of SAE vehicle cable, M", () => {
    for (const label of [13, 19, 32]) isExact(`${label} mm²`, { size: `SAE metric label ${label}` });
    for (const label of [2, 3, 5, 8]) assert.equal(readLabel(`${label} mm²`).verdict, "ambiguous", String(label));
    for (const label of [0.5, 1]) isExact(`${label} mm²`, { size: `mm² ${label}` });
  });

  test("Japanese sizes, T6", () => {
    for (const label of [1.25, 3.5, 5.5, 14, 22, 38, 60, 100]) {
      isExact(`${label} mm²`, { size: `JIS ${label}`, area: label });
      isExact(`${label} SQ`, { size: `JIS ${label}`, area: label });
    }
    for (const label of [2, 8]) isExact(`${label}SQ`, { size: `JIS ${label}` });
  });

  test("strands by their diameter, T4", () => {
    for (const [label, area] of [["14/0.30", 0.99], ["28/0.30", 1.98], ["44/0.30", 3.11], ["65/0.30", 4.59], ["65/.30", 4.59], ["84/0.30", 5.94], ["120/0.30", 8.48], ["7/0.32", 0.563]] as const)
      isExact(label, { area, wires: Number(label.split("/")[0]) });
  });

  test("strands by their gauge, T3", () => {
    isExact("19/27", { size: "strands 19/27", area: 1.94, wires: 19 });
    isExact("16/30", { area: 0.8148, wires: 16 });
    isExact("105/30", { area: 105 * 0.050926, wires: 105 });
    isExact("1323/30", { area: 1323 * 0.050926, wires: 1323 });
    isExact("7x19/30", { area: 133 * 0.050926, wires: 133 });
    // Read as inches the same figures are 3.6 times as much metal.
    isAsked("19/.027", [{ area: 7.02 }, { area: 1.94 }]);
  });

  test("families of strands, B", () => {
    for (const name of ["class B", "class K", "type 2", "type 3", "class 1", "class 2", "class 5", "class 6"])
      isExact(`2/0 AWG ${name}`, { size: "AWG 2/0", stranding: name });
    isExact("2/0 Type III", { stranding: "type 3" });
  });

  test("other gauges, G", () => {
    for (const label of ["14 SWG", "14 S.W.G.", "SWG 14"]) isExact(label, { size: "SWG 14", area: 3.243 });
    isExact("12 SWG", { area: 5.481 });
    isExact("metric gauge 50", { size: "solid diameter 5", area: 19.63 });
    assert.match(trapOf("4 GA"), /reduced series/);
    isAsked("4 GA B-spec", [{ area: 21.15 }, { area: 17.2 }]);
    isAsked("0 GA B-spec", [{ area: 53.5 }, { area: 44.9 }]);
  });

  test("metals, practice", () => {
    isExact("4 AWG OFC", { metal: "copper" });
    isExact("4 AWG TC", { metal: "copper", plating: "tinned" });
    isExact("4 AWG BC", { metal: "copper", plating: "plain" });
    isExact("4 AWG CCA", { size: "AWG 4", metal: "copper-clad aluminium" });
    isAsked("4 GA CCA", [{ area: 21.15, metal: "copper-clad aluminium" }, { area: 17.2 }]);
    assert.match(trapOf("4 GA CCA"), /copper-clad aluminium has about the resistance/);
    isExact("2/0 AL", { metal: "aluminium" });
  });
});

describe("conductors", () => {
  test("building cable leaves the bare ground out, U1", () => {
    for (const label of ["12/2 NM-B", "12-2 NM-B w/G", "12/2 with ground", "12-2 w/g", "14/2 NM-B @ building"])
      isExact(label, { insulated: 2, total: 3, ground: "bare", family: "building cable" });
    for (const label of ["14/3 NM-B", "12-3 w/G", "12/3 @ building"]) isExact(label, { insulated: 3, total: 4, ground: "bare" });
  });

  test("boat cable counts every conductor, B1 B3", () => {
    for (const label of ["12/2 boat cable", "14/2 duplex boat cable", "12/2 @ boat"]) isExact(label, { insulated: 2, total: 2, ground: "none", family: "boat cable" });
    isExact("14/3 triplex boat cable", { insulated: 3, total: 3, ground: "insulated" });
    isExact("12/3 @ boat", { insulated: 3, total: 3 });
    assert.deepEqual(readLabel("12/3", { context: "boat" }).readings[0]?.by, ["it was met on a boat"]);
  });

  test("flexible cord counts the green one, U2", () => {
    for (const label of ["12/3 SOOW", "12-3 SOOW", "14/3 SOOW", "16/3 SJTW", "12/3 @ cord"]) isExact(label, { insulated: 3, total: 3, ground: "insulated", family: "flexible cord" });
    isExact("12 AWG 3C", { insulated: 3, total: 3 });
    isExact("10/4 SOOW", { insulated: 4, total: 4, ground: "insulated" });
  });

  test("without a kind of cable the second number is asked", () => {
    for (const label of ["12/3", "12-3", "14/3 AWG", "#12/3"])
      isAsked(label, [
        { family: "building cable", total: 4, ground: "bare" },
        { family: "boat cable", total: 3 },
        { family: "flexible cord", total: 3, ground: "insulated" },
      ]);
    // Building cable begins at 14 AWG, so that nothing is left to ask.
    isExact("16/2", { insulated: 2, total: 2, ground: "none", family: null });
    isExact("16/3", { insulated: 3, total: 3, ground: "not stated", family: null });
  });

  test("harmonised codes: G with, X without green-yellow, E1 E2 E3", () => {
    for (const label of ["3G2.5", "3 G 2,5", "H07RN-F 3G2.5", "H07RN-F3G2.5", "3G2.5 mm²"]) isExact(label, { size: "mm² 2.5", insulated: 3, total: 3, ground: "insulated" });
    for (const label of ["H07RN-F 3X2.5", "H07RN-F 3x2.5"]) isExact(label, { insulated: 3, total: 3, ground: "none" });
    isExact("3x2.5", { size: "mm² 2.5", insulated: 3, total: 3, ground: "not stated" });
  });

  test("German lists: the letter decides, E4", () => {
    isExact("NYM-J 3x1.5", { insulated: 3, total: 3, ground: "insulated" });
    isExact("NYM-O 3x1.5", { insulated: 3, total: 3, ground: "none" });
  });

  test("two cores or two cables, practice", () => {
    isAsked("2x10 mm2", [{ runs: 1, insulated: 2 }, { runs: 2, insulated: 1 }]);
    isExact("1x50", { insulated: 1, total: 1, runs: 1 });
    isExact("2x(1x35)", { insulated: 1, total: 1, runs: 2, size: "mm² 35" });
  });

  test("a thinner conductor after the slash, practice", () => {
    isAsked("3x25/16", [
      { insulated: 3, total: 4, ground: "concentric", groundSize: "16 mm²" },
      { insulated: 4, total: 4, ground: "insulated", groundSize: "16 mm²" },
    ]);
    isExact("NYCWY 3x25/16", { insulated: 3, total: 4, ground: "concentric" });
    isExact("2.5/1.5 T&E", { size: "mm² 2.5", insulated: 2, total: 3, ground: "bare", groundSize: "1.5 mm²" });
  });

  test("feeders, practice", () => {
    for (const label of ["4/0-4/0-2/0", "2-2-4"]) isExact(label, { total: 3, family: "service cable" });
    isExact("4/0-4/0-2/0", { size: "AWG 4/0" });
    assert.equal(readLabel("4/0-4/0-2/0").readings[0]?.make.cores?.others[0]?.size.label, "2/0 AWG");
  });

  test("Japanese building cable, practice", () => {
    isExact("1.6-2C", { size: "solid diameter 1.6", area: 2.01, insulated: 2 });
    isExact("VVF 1.6-2C", { size: "solid diameter 1.6", insulated: 2 });
    isExact("VVF 2.0-3C", { size: "solid diameter 2", area: 3.14, insulated: 3 });
    isAsked("2.0-3C", [{ size: "solid diameter 2" }, { size: "JIS 2" }, { size: "SAE metric label 2" }]);
  });

  test("the four tests of the slash: 4/0, 12/2, 7/0.32, 19/27", () => {
    isExact("4/0", { size: "AWG 4/0" });
    assert.equal(readLabel("12/2").verdict, "ambiguous");
    isExact("7/0.32", { size: "strands 7/0.32" });
    isExact("19/27", { size: "strands 19/27" });
  });
});

describe("type codes", () => {
  test("harmonised: the last letter is the class, 05 is no size, E1 E2 E6", () => {
    isExact("H07V-U 2.5", { stranding: "class 1", size: "mm² 2.5", volts: 750 });
    isExact("H07V-R 2.5", { stranding: "class 2" });
    isExact("H07V-K 2.5", { stranding: "class 5" });
    isExact("H05VV-F 3G1.5", { volts: 500, size: "mm² 1.5", insulated: 3 });
  });

  test("vehicle: size, lay, plating and colours, A1 A2", () => {
    isExact("FLRY 1.5-A BKWHYE", { type: "FLRY-A", size: "mm² 1.5", colours: "BK/WH/YE" });
    isExact("FLRY 1.5sn", { plating: "tinned" });
    // 14 AWG and 2.50 mm² beside 19 strands of 27: the strands make 1.94 mm².
    isExact("14 AWG (19/27) 2.50 mm2", { area: 1.94, wires: 19 });
    assert.match(trapOf("14 AWG (19/27) 2.50 mm2"), /7 % less than 14 AWG/);
  });

  test("cord: S is 600 V, SJ 300 V, U3", () => {
    isExact("SOOW 12/3", { volts: 600, type: "SOOW" });
    isExact("SJOOW 12/3", { volts: 300, type: "SJOOW" });
  });

  test("boat cable as it is printed, B4", () => {
    isExact("12 AWG UL 1426 BOAT CABLE BC-5W2 600V", { size: "AWG 12", family: "boat cable", temperatureC: 105, volts: 600 });
  });

  test("SAE gauge is smaller than AWG, and the standard says which, L2 M1", () => {
    for (const label of ["12 GA SAE J1128", "12 SAE", "12 ga GXL", "SAE J1128 12 GA GPT"]) isExact(label, { size: "SAE 12", area: 2.956 });
    isAsked("14 ga @ vehicle", [{ size: "AWG 14" }, { size: "SAE 14" }]);
  });
});

describe("two spellings in one line", () => {
  test("the same metal under two names is one size", () => {
    for (const label of ["12 AWG (3.31 mm²)", "3.3 mm² (12 AWG)"]) isExact(label, { size: "AWG 12" });
    isExact("UL 1426 12 AWG (65/30)", { size: "AWG 12", wires: 65 });
  });

  test("a customary pair is asked: the copper differs by up to a fifth", () => {
    isAsked("2.5 mm² (14 AWG)", [{ size: "mm² 2.5" }, { size: "AWG 14" }]);
    isAsked("14 AWG (2.5 mm²)", [{ size: "AWG 14" }, { size: "mm² 2.5" }]);
  });

  test("what no catalogue pairs is said to disagree", () => {
    const reading = readLabel("14 AWG (10 mm²)");
    assert.equal(reading.verdict, "ambiguous");
    assert.deepEqual(reading.problems.map(({ id }) => id), ["parts-disagree"]);
  });

  test("a temperature in Fahrenheit is told in Celsius", () => {
    isExact("10 AWG boat cable 221°F", { temperatureC: 105 });
    isExact("10 AWG 105°C (221°F)", { temperatureC: 105 });
  });
});
