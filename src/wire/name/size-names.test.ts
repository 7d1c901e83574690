import { test } from "vitest";
import assert from "node:assert/strict";
import { printAwg, printKcmil, printMetric, printSae, printVehicleDiameter } from "../label/print-size.ts";
import type { PrintedSize } from "../make/wire-make.ts";
import { saySize, sizeNames } from "./size-names.ts";
import type { NameDialect } from "./wire-name.ts";

const sure = (size: PrintedSize | null): PrintedSize => {
  assert.ok(size !== null);
  return size;
};

const awg = (name: string): PrintedSize => sure(printAwg(name));
const mm2 = (area: number): PrintedSize => sure(printMetric(area));

test.each<[PrintedSize, NameDialect, string]>([
  [awg("2/0"), "north american", "2/0 AWG"],
  [awg("8"), "australian", "8 B&S"],
  // 3.309 mm² and 107.2 mm² by ASTM B258.
  [awg("12"), "european", "AWG 12 (3.31 mm²)"],
  [awg("4/0"), "british", "AWG 4/0 (107.2 mm²)"],
  [sure(printKcmil(250)), "north american", "250 kcmil"],
  [mm2(2.5), "british", "2.5 mm²"],
  [mm2(35), "north american", "35 mm²"],
  [sure(printSae("12")), "vehicle", "12 SAE"],
  [sure(printVehicleDiameter(6)), "australian", "6 mm auto cable"],
])("%o in the %s dialect is %s", (size, dialect, name) => {
  assert.equal(sizeNames(size, dialect)[0], name);
});

test.each<[PrintedSize, NameDialect, string]>([
  [awg("4/0"), "north american", "four aught"],
  [awg("1/0"), "boat", "one aught"],
  [awg("12"), "north american", "twelve gauge"],
  [awg("8"), "australian", "eight B and S"],
  [mm2(2.5), "british", "two and a half mil"],
  [mm2(35), "european", "thirty-five square"],
  [sure(printKcmil(250)), "north american", "two fifty MCM"],
  [sure(printSae("14")), "vehicle", "fourteen gauge SAE"],
  [sure(printVehicleDiameter(6)), "australian", "six mil auto"],
])("%o in the %s dialect is said %s", (size, dialect, said) => {
  assert.equal(saySize(size, dialect), said);
});
