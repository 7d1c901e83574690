import { cite, type Trust } from "../explain/index.ts";
import { celsius, metres, type Celsius } from "../quantity/index.ts";
import { nec310_16 } from "../reference/nec-310-16.ts";
import { nec310_17 } from "../reference/nec-310-17.ts";
import { nec400_5A1 } from "../reference/nec-400-5-a-1.ts";
import { necAmbient } from "../reference/nec-ambient.ts";
import { necCountAdjustment } from "../reference/nec-count-adjustment.ts";
import { awgSize, kcmilSize, type Metal, type WireSize } from "../wire/index.ts";
import { ambientColumns, ambientTable } from "./ambient-table.ts";
import { plainRules, type AmpacityRules, type AmpacityWay, type BundleStep } from "./ampacity-rules.ts";
import { ampacityTable, neededCell, type AmpacityTable } from "./ampacity-table.ts";

/** A clause of the National Electrical Code of 2023. */
export const nec = (clause: string, trust: Trust = "read") => cite("nfpa-70-2023", clause, trust);

/** Sizes as the code names them: from 250 up they are thousands of circular mils. */
const americanSize = (name: string): WireSize | null => (Number(name) >= 250 ? kcmilSize(Number(name)) : awgSize(name));

/**
 * A gauge by its name.
 *
 * @throws Error for none: a defect of ours, found when the program loads
 */
export function gauge(name: string): WireSize {
  const size = awgSize(name);
  if (size === null) throw new Error(`AWG has no ${name}`);
  return size;
}

const at = (c: number): { from: Celsius; to: Celsius } => ({ from: celsius(c), to: celsius(c) });

/** Tables 310.16 and 310.17 have the same columns. */
const inMetal = (table: typeof nec310_16 | typeof nec310_17, metal: Metal): AmpacityTable =>
  ampacityTable(table, {
    metal,
    strands: "class B",
    sizeOf: ({ sizeAwgOrKcmil }) => americanSize(sizeAwgOrKcmil),
    columns:
      metal === "copper"
        ? [
            { name: "cuAmps60C", ...at(60) },
            { name: "cuAmps75C", ...at(75) },
            { name: "cuAmps90C", ...at(90) },
          ]
        : [
            { name: "alAmps60C", ...at(60) },
            { name: "alAmps75C", ...at(75) },
            { name: "alAmps90C", ...at(90) },
          ],
  });

const raceway = [inMetal(nec310_16, "copper"), inMetal(nec310_16, "aluminium")] as const;

const cord = (name: "ampsTwo" | "ampsThree", loaded: number): AmpacityTable =>
  ampacityTable(nec400_5A1, {
    metal: "copper",
    strands: "class K",
    loaded,
    sizeOf: ({ sizeAwg }) => awgSize(sizeAwg),
    columns: [{ name, ...at(60) }],
  });

const steps = (column: "factor310_15C1" | "factor400_5Cords"): readonly BundleStep[] =>
  necCountAdjustment.rows.map(({ conductorsMin, conductorsMax }) => ({
    from: conductorsMin,
    to: conductorsMax,
    factor: neededCell(necCountAdjustment, conductorsMin, column),
  }));

const ways: readonly AmpacityWay[] = [
  {
    methods: ["raceway", "cable", "A1", "A2", "B1", "B2", "C", "E"],
    sheathed: null,
    says: "raceway or cable",
    tables: raceway,
  },
  {
    methods: ["free air", "F", "G"],
    sheathed: false,
    says: "single conductor in free air",
    tables: [inMetal(nec310_17, "copper"), inMetal(nec310_17, "aluminium")],
  },
  // A cable in the air is a cable: Table 310.17 is for single conductors.
  { methods: ["free air", "F", "G"], sheathed: true, says: "raceway or cable", tables: raceway },
  {
    methods: ["cord"],
    sheathed: null,
    says: "flexible cord",
    tables: [cord("ampsTwo", 2), cord("ampsThree", 3)],
    bundle: steps("factor400_5Cords"),
  },
];

/** How the National Electrical Code rates conductors. */
export const necAmpacity: AmpacityRules = {
  ...plainRules,
  table: raceway[0],
  ways,
  usual: { method: "raceway", source: nec("310.16, raceway or cable as buildings are wired") },
  untold: [
    {
      method: "D",
      says: "what a buried conductor may carry is not carried: burial depth, soil and the tables of 310.60 are missing",
    },
  ],
  baseAmbientC: celsius(30),
  // What is marked XHHW-2 is exempt; a stock that says degrees and no type gets no credit for it.
  roof: { addK: 33, source: nec("310.15(B)(2)") },
  ambient: ambientTable(
    ambientColumns(necAmbient, ({ ambientMaxC }) => celsius(ambientMaxC), "nothing", [
      [celsius(60), "factor60C"],
      [celsius(75), "factor75C"],
      [celsius(90), "factor90C"],
    ]),
  ),
  engineAmbientC: celsius(50),
  engineAmbientSource: cite("trade-practice", "an engine bay whose air nobody measured", "practice"),
  engineRefusal: null,
  engineRefusalSource: nec("310.14(A)(3)"),
  bundle: steps("factor310_15C1"),
  together: { upTo: metres(0.6), source: nec("310.15(C)(1)") },
  shortStretch: { upTo: metres(3), share: 0.1, source: nec("310.14(A)(2)", "memory") },
  terminals: {
    tables: raceway,
    assumed: [
      { upTo: gauge("1"), terminalsC: celsius(60) },
      { upTo: null, terminalsC: celsius(75) },
    ],
    source: nec("110.14(C)(1)"),
  },
  continuous: { factor: 1.25, source: nec("210.19(A)(1), 215.2(A)(1)") },
};
