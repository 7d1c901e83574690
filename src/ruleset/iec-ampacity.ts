import { cite, type Trust } from "../explain/index.ts";
import { celsius, metres, type Celsius } from "../quantity/index.ts";
import { iec60364_5_52, type Iec60364_5_52Row } from "../reference/iec-60364-5-52.ts";
import { iecAmbient } from "../reference/iec-ambient.ts";
import { iecGrouping } from "../reference/iec-grouping.ts";
import { iecThermalInsulation } from "../reference/iec-thermal-insulation.ts";
import { metricSize } from "../wire/index.ts";
import { ambientColumns, ambientTable } from "./ambient-table.ts";
import {
  plainRules,
  type AmpacityRules,
  type AmpacityWay,
  type BundleStep,
  type InsulatedStep,
} from "./ampacity-rules.ts";
import { ampacityTable, neededCell, withSmallerRows, type AmpacityTable } from "./ampacity-table.ts";
import { cordWay } from "./flexible-ampacity.ts";

/** A clause of IEC 60364-5-52. */
export const wiring = (clause: string, trust: Trust) => cite("iec-60364-5-52", clause, trust);

/** PVC conductors may reach 70 °C and XLPE ones 90 °C; a rating between them gains nothing. */
const PVC = { from: celsius(70), to: celsius(70) };
const XLPE = { from: celsius(90), to: celsius(90) };

type NumberColumn = Exclude<keyof Iec60364_5_52Row, "areaMm2">;

const table = (loaded: number, pvc: NumberColumn, xlpe: NumberColumn): AmpacityTable =>
  ampacityTable(iec60364_5_52, {
    metal: "copper",
    strands: "class 2",
    loaded,
    sizeOf: ({ areaMm2 }) => metricSize(areaMm2),
    columns: [
      { name: pvc, ...PVC },
      { name: xlpe, ...XLPE },
    ],
  });

/** Every cell by the adoption that prints it. */
function bySource(own: AmpacityTable): AmpacityTable {
  const source = cite("bs-7671-2018", "Tables 4D1A and 4E1A, reference method C", "read");
  const rows = own.rows.map(({ size, cells }) => ({
    size,
    cells: cells.map((cell) => (cell === null ? null : { ...cell, source: { ...source, trust: cell.trust } })),
  }));
  return { ...own, source, rows };
}

const a1 = [table(2, "a1Pvc2", "a1Xlpe2"), table(3, "a1Pvc3", "a1Xlpe3")];
const b1 = [table(2, "b1Pvc2", "b1Xlpe2"), table(3, "b1Pvc3", "b1Xlpe3")];
const b2 = [table(2, "b2Pvc2", "b2Xlpe2"), table(3, "b2Pvc3", "b2Xlpe3")];
const c = [table(2, "cPvc2", "cXlpe2"), table(3, "cPvc3", "cXlpe3")];
/** The standard prints one method C; the British adoption tells single cores apart, which carry up to an ampere in twenty more. */
const cSingles = [table(2, "cSinglesPvc2", "cSinglesXlpe2"), table(3, "cSinglesPvc3", "cSinglesXlpe3")].map(bySource);
const e = [table(2, "ePvc2", "eXlpe2"), table(3, "ePvc3", "eXlpe3")];
/** Free-air tables of single cores begin at 25 mm²; below it the clipped ones, which carry less, stand in. */
const lent = (above: AmpacityTable, i: number): AmpacityTable => withSmallerRows(above, cSingles[i] ?? above);
const f = [table(2, "fPvc2", "fXlpe2"), table(3, "fPvc3", "fXlpe3")].map(lent);
const g = [table(2, "gPvc2", "gXlpe2")].map(lent);

const ways: readonly AmpacityWay[] = [
  { methods: ["A1"], sheathed: null, says: "method A1, conduit in an insulated wall", tables: a1, inInsulation: true },
  { methods: ["B1"], sheathed: null, says: "method B1, single cores in conduit", tables: b1 },
  { methods: ["B2"], sheathed: null, says: "method B2, cable in conduit", tables: b2 },
  { methods: ["raceway"], sheathed: true, says: "method B2, cable in conduit", tables: b2 },
  { methods: ["raceway"], sheathed: false, says: "method B1, single cores in conduit", tables: b1 },
  { methods: ["C", "cable"], sheathed: true, says: "method C, cable clipped to a surface", tables: c },
  { methods: ["C"], sheathed: false, says: "method C, single cores clipped to a surface", tables: cSingles },
  { methods: ["cable"], sheathed: false, says: "method C, cable clipped to a surface", tables: c },
  { methods: ["E"], sheathed: null, says: "method E, cable in free air", tables: e },
  { methods: ["free air"], sheathed: true, says: "method E, cable in free air", tables: e },
  { methods: ["free air"], sheathed: false, says: "method F, single cores touching in free air", tables: f },
  { methods: ["F"], sheathed: null, says: "method F, single cores touching in free air", tables: f },
  { methods: ["G"], sheathed: null, says: "method G, single cores apart in free air", tables: g },
  cordWay,
];

const grouping: readonly BundleStep[] = iecGrouping.rows.map(({ circuits }, i) => {
  const last = i === iecGrouping.rows.length - 1;
  const from = (iecGrouping.rows[i - 1]?.circuits ?? 0) + 1;
  return { from, to: last ? null : circuits, factor: neededCell(iecGrouping, circuits, "bunched") };
});

const insulated: readonly InsulatedStep[] = iecThermalInsulation.rows.map(({ lengthMm }, i) => ({
  upTo: i === iecThermalInsulation.rows.length - 1 ? null : metres(lengthMm / 1000),
  factor: neededCell(iecThermalInsulation, lengthMm, "factor"),
}));

/** Ambient factors of PVC and XLPE. */
export const iecAmbientColumns = (columns: readonly (readonly [Celsius, "factor70C" | "factor90C"])[]) =>
  ambientColumns(iecAmbient, ({ ambientC }) => celsius(ambientC), "nothing", columns);

/** How IEC 60364-5-52 rates conductors. */
export const iecAmpacity: AmpacityRules = {
  ...plainRules,
  table: b1[0] ?? table(2, "b1Pvc2", "b1Xlpe2"),
  ways,
  // Of what a cabin is wired with, cable on a wall and cores in a conduit, the conduit carries less.
  usual: { method: "raceway", source: cite("trade-practice", "cabin wiring in conduit or trunking", "practice") },
  untold: [
    {
      method: "A2",
      says: "method A2, cable in a conduit in an insulated wall, is not in the tables: its ampacity is missing",
    },
    { method: "D", says: "method D, burial, is not in the tables: its ampacity, the soil and the depth are missing" },
  ],
  baseAmbientC: celsius(30),
  ambient: ambientTable(
    iecAmbientColumns([
      [celsius(70), "factor70C"],
      [celsius(90), "factor90C"],
    ]),
  ),
  engineAmbientC: celsius(50),
  engineAmbientSource: cite("trade-practice", "an engine bay whose air nobody measured", "practice"),
  engineRefusal: null,
  engineRefusalSource: wiring("523", "memory"),
  counts: "circuits",
  bundle: grouping,
  bundleNotes: [
    {
      from: 2,
      to: null,
      says: "circuits are counted as conductors ÷ those of one circuit; one that carries at most 30 % of its grouped rating may be left out (523.5, unverified): give its bundle without it",
    },
    { from: 21, to: null, says: "the grouping table ends at 20 circuits: its last factor is used, which is too high" },
  ],
  insulated,
  terminals: {
    tables: [],
    assumed: [{ upTo: null, terminalsC: celsius(70) }],
    source: wiring("512, terminals of equipment", "memory"),
  },
};
