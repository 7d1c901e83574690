import { cite } from "../explain/index.ts";
import { celsius } from "../quantity/index.ts";
import { ambientHighTempInsulation } from "../reference/ambient-high-temp-insulation.ts";
import { iecAmbient } from "../reference/iec-ambient.ts";
import { iecGrouping } from "../reference/iec-grouping.ts";
import { vde0298_4Cords } from "../reference/vde-0298-4-cords.ts";
import { vehicleFlexibleBs7671_4f } from "../reference/vehicle-flexible-bs7671-4f.ts";
import { vehicleVde0298_4 } from "../reference/vehicle-vde-0298-4.ts";
import { metricSize } from "../wire/index.ts";
import { ambientColumns, ambientTable } from "./ambient-table.ts";
import {
  plainRules,
  markedTerminals,
  type AmpacityRules,
  type AmpacityWay,
  type BundleStep,
} from "./ampacity-rules.ts";
import { ampacityTable, neededCell, withSmallerRows, type AmpacityTable } from "./ampacity-table.ts";

/** What a table of one insulation class serves: the better insulation gains no ampacity, and bears hotter air. */
const ANY = { from: celsius(60), to: celsius(250) };

const flexible = (name: "ampsSingleFreeAir" | "ampsMulti2or3OnSurface", loaded: number): AmpacityTable =>
  ampacityTable(vehicleVde0298_4, {
    metal: "copper",
    strands: "class 5",
    loaded,
    sizeOf: ({ areaMm2 }) => metricSize(areaMm2),
    columns: [{ name, ...ANY }],
  });

/** Rubber sheathed cords: domestic cords to 4 mm², heavier flexible cable above. */
const cord = (name: "ampsTwo" | "ampsThree", loaded: number): AmpacityTable => {
  const rows = vehicleFlexibleBs7671_4f.rows.filter(({ ratingC, areaMm2 }) => ratingC === 60 && areaMm2 > 4);
  const heavy = ampacityTable(
    // Trust stands by column here, so that fewer rows do not move it.
    { ...vehicleFlexibleBs7671_4f, rows },
    {
      metal: "copper",
      strands: "class 5",
      loaded,
      sizeOf: ({ areaMm2 }) => metricSize(areaMm2),
      columns: [{ name, from: celsius(60), to: celsius(60) }],
    },
  );
  const light = ampacityTable(vde0298_4Cords, {
    metal: "copper",
    strands: "class 5",
    loaded,
    sizeOf: ({ areaMm2 }) => metricSize(areaMm2),
    columns: [{ name, from: celsius(60), to: celsius(60) }],
  });
  return withSmallerRows(heavy, light);
};

/** Flexible cord under any of the sets that are not American. */
export const cordWay: AmpacityWay = {
  methods: ["cord"],
  sheathed: null,
  says: "flexible cord, 60 °C",
  tables: [cord("ampsTwo", 2), cord("ampsThree", 3)],
};

/** Circuits bunched: the factors stand for two or three loaded conductors each. */
const bunched: readonly BundleStep[] = iecGrouping.rows.map(({ circuits }, i) => ({
  from: (iecGrouping.rows[i - 1]?.circuits ?? 0) + 1,
  to: i === iecGrouping.rows.length - 1 ? null : circuits,
  factor: neededCell(iecGrouping, circuits, "bunched"),
}));

const multi = [flexible("ampsMulti2or3OnSurface", 3)];

/** How flexible cable is rated in vehicles, which have no ampacity table of their own: DIN VDE 0298-4. */
export const flexibleAmpacity: AmpacityRules = {
  ...plainRules,
  table: flexible("ampsMulti2or3OnSurface", 3),
  ways: [
    {
      methods: ["free air", "F", "G"],
      sheathed: false,
      says: "single core in free air",
      tables: [flexible("ampsSingleFreeAir", 3)],
    },
    {
      methods: ["raceway", "cable", "free air", "A1", "A2", "B1", "B2", "C", "E", "F", "G"],
      sheathed: null,
      says: "two or three loaded cores together",
      tables: multi,
    },
    cordWay,
  ],
  usual: { method: "cable", source: cite("trade-practice", "plus and minus together in a loom", "practice") },
  untold: [{ method: "D", says: "what a buried conductor may carry is not carried for vehicles" }],
  baseAmbientC: celsius(30),
  ambient: ambientTable(
    ambientColumns(ambientHighTempInsulation, ({ ambientC }) => celsius(ambientC), "square root", [
      [celsius(60), "factor60C"],
      [celsius(90), "factor90C"],
      [celsius(105), "factor105C"],
      [celsius(110), "factor110C"],
      [celsius(125), "factor125C"],
      [celsius(150), "factor150C"],
      [celsius(200), "factor200C"],
      [celsius(250), "factor250C"],
    ]),
    ambientColumns(iecAmbient, ({ ambientC }) => celsius(ambientC), "nothing", [[celsius(70), "factor70C"]]),
  ),
  engineAmbientC: celsius(60),
  engineAmbientSource: cite("trade-practice", "an engine bay whose air nobody measured", "practice"),
  engineRefusal: null,
  engineRefusalSource: cite("trade-practice", "", "practice"),
  counts: "circuits",
  bundle: bunched,
  bundleNotes: [
    { from: 21, to: null, says: "the grouping table ends at 20 circuits: its last factor is used, which is too high" },
  ],
  terminals: markedTerminals,
  notes: ["DIN VDE 0298-4 stands in: the vehicle standards give no ampacity"],
};
