import fc from "fast-check";
import {
  printAwg,
  printKcmil,
  printMetric,
  printSae,
  printSolid,
  printStrandsMm,
  printSwg,
  printVehicleDiameter,
} from "../../src/wire/label/print-size.ts";
import {
  emptyMake,
  type CableCores,
  type Ground,
  type PrintedColour,
  type PrintedSize,
  type Stranding,
  type StrandingName,
  type WireMake,
} from "../../src/wire/make/wire-make.ts";
import type { NameDialect } from "../../src/wire/name/index.ts";

/** A make that is really made, and whose trade sells it. */
export interface RandomMake {
  readonly home: NameDialect;
  readonly make: WireMake;
}

const known = (sizes: readonly (PrintedSize | null)[]): PrintedSize[] => sizes.filter((size) => size !== null);

const gauges = known(["18", "16", "14", "12", "10", "8", "6", "4", "2"].map(printAwg));
const cableGauges = known(["14", "12", "10", "8", "6"].map(printAwg));
const thick = known(["1", "1/0", "2/0", "3/0", "4/0"].map(printAwg));
const kcmils = known([250, 300, 350, 400, 500].map(printKcmil));
const metrics = known([0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120].map(printMetric));
const cordMetrics = known([0.75, 1, 1.5, 2.5, 4].map(printMetric));
const vehicleMetrics = known([0.35, 0.5, 0.75, 1, 1.5, 2.5, 4, 6].map(printMetric));
const vehicleGauges = known(["20", "18", "16", "14", "12", "10", "8", "6"].map(printSae));

/** The earth of British flat cable is thinner from 1.5 mm² on. */
const earthOf = new Map([
  [1, 1],
  [1.5, 1],
  [2.5, 1.5],
  [4, 1.5],
  [6, 2.5],
  [10, 4],
  [16, 6],
]);

const cores = (insulated: number, ground: Ground, groundSize: PrintedSize | null = null): CableCores => ({
  insulated,
  total: ground === "bare" || ground === "concentric" ? insulated + 1 : insulated,
  ground,
  groundSize,
  others: [],
  paired: false,
});

const stranded = (name: StrandingName): Stranding => ({ name, wires: null, wireMm: null });

const colours: fc.Arbitrary<PrintedColour> = fc.constantFrom<PrintedColour>(
  ["BK"],
  ["RD"],
  ["BU"],
  ["WH"],
  ["YE"],
  ["GNYE"],
);
const traced: fc.Arbitrary<PrintedColour> = fc.constantFrom<PrintedColour>(
  ["BK"],
  ["RD", "WH"],
  ["BK", "WH", "YE"],
  ["GN", "RD"],
  ["BN", "YE"],
);

const of = <T>(...all: readonly T[]): fc.Arbitrary<T> => fc.constantFrom(...all);
const make = (home: NameDialect, parts: Partial<WireMake>): RandomMake => ({ home, make: { ...emptyMake, ...parts } });

const buildingCable = fc
  .tuple(of(...cableGauges), of(2, 3), of("NM-B", "UF-B"))
  .map(([size, n, type]) => make("north american", { family: "building cable", size, cores: cores(n, "bare"), type }));

const boatCable = fc
  .tuple(
    of(...gauges),
    of(2, 3),
    of<StrandingName | null>("type 3", "type 2", null),
    of<"tinned" | null>("tinned", null),
  )
  .map(([size, n, strands, plating]) =>
    make("boat", {
      family: "boat cable",
      size,
      cores: cores(n, n === 2 ? "none" : "insulated"),
      stranding: strands === null ? null : stranded(strands),
      plating,
    }),
  );

const cord = fc
  .tuple(of(...known(["18", "16", "14", "12", "10"].map(printAwg))), of(2, 3, 4), of("SOOW", "SJTW", "SJOOW", "STW"))
  .map(([size, n, type]) =>
    make("north american", { family: "flexible cord", size, cores: cores(n, n === 2 ? "none" : "insulated"), type }),
  );

const harmonised = fc
  .tuple(of(...cordMetrics), of(2, 3, 4, 5), of("H05VV-F", "H07RN-F", "H05RN-F"), fc.boolean())
  .map(([size, n, type, hasGround]) =>
    make("european", {
      family: "harmonised cable",
      size,
      cores: cores(n, n > 2 && hasGround ? "insulated" : "none"),
      type,
    }),
  );

const harmonisedSingle = fc
  .tuple(of(...metrics.slice(3)), of("H07V-K", "H07V-R", "H07V-U"), colours)
  .map(([size, type, colour]) => make("european", { family: "harmonised cable", size, type, colours: [colour] }));

const twinAndEarth = fc.tuple(of(...earthOf), of(2, 3), fc.boolean()).map(([[area, earth], n, isSaid]) =>
  make("british", {
    family: "twin and earth",
    size: printMetric(area),
    cores: cores(n, "bare", isSaid && n === 2 && area !== earth ? printMetric(earth) : null),
  }),
);

const japanese = fc.tuple(of(1.6, 2, 2.6), of(2, 3)).map(([diameter, n]) =>
  make("japanese", {
    family: "japanese building cable",
    size: printSolid(diameter),
    cores: cores(n, n === 2 ? "none" : "not stated"),
    type: "VVF",
  }),
);

const buildingWire = fc
  .tuple(of(...cableGauges, ...thick, ...kcmils), of("THHN", "XHHW-2", "RHW-2"), colours)
  .map(([size, type, colour]) => make("north american", { family: "building wire", size, type, colours: [colour] }));

const vehicleWire = fc
  .tuple(of(...vehicleMetrics), of("FLRY-A", "FLRY-B", "FLY"), traced, of<"tinned" | null>("tinned", null))
  .map(([size, type, colour, plating]) =>
    make("vehicle", { family: "vehicle wire", size, type, plating, colours: [colour] }),
  );

const vehicleGauge = fc
  .tuple(of(...vehicleGauges), of("GXL", "GPT", "TXL", "SXL"), traced)
  .map(([size, type, colour]) => make("vehicle", { family: "vehicle wire", size, type, colours: [colour] }));

const heavy = fc
  .tuple(of(...gauges.slice(4), ...thick), of<"battery cable" | "welding cable">("battery cable", "welding cable"))
  .map(([size, family]) => make("north american", { family, size }));

const solar = fc.oneof(
  of(...known(["12", "10", "8"].map(printAwg))).map((size) =>
    make("north american", { family: "solar cable", size, type: "PV WIRE" }),
  ),
  of(...known([2.5, 4, 6, 10].map(printMetric))).map((size) =>
    make("european", { family: "solar cable", size, type: "H1Z2Z2-K" }),
  ),
);

const pairsAndMore = fc
  .tuple(
    of(...gauges.slice(0, 5)),
    of(2, 4, 7),
    of<"speaker cable" | "trailer cable">("speaker cable", "trailer cable"),
  )
  .map(([size, n, family]) => make("north american", { family, size, cores: cores(n, "none") }));

const sideBySide = fc.tuple(of(...metrics.slice(8)), of(2, 3)).map(([size, runs]) => make("european", { size, runs }));

const feeder = of(...known(["2/0", "3/0", "4/0"].map(printAwg))).map((size) =>
  make("north american", {
    family: "service cable",
    size,
    type: "URD",
    metal: "aluminium",
    cores: {
      ...cores(3, "not stated"),
      others: known([printAwg("1")]).map((neutral) => ({ count: 1, size: neutral })),
    },
  }),
);

const alone = fc
  .tuple(
    of(
      ...gauges,
      ...thick,
      ...kcmils,
      ...metrics,
      ...known(["12", "14", "16"].map(printSwg)),
      ...known([3, 4, 5, 6].map(printVehicleDiameter)),
      printStrandsMm(65, 0.3, "65/0.30"),
    ),
    of<StrandingName | null>("class 5", "class 2", null),
    of<"tinned" | null>("tinned", null),
    of<readonly PrintedColour[]>([], [["RD"]]),
  )
  .map(([size, strands, plating, colour]) =>
    make("boat", {
      size,
      stranding: strands === null || size.system === "strands" ? null : stranded(strands),
      plating,
      colours: colour,
    }),
  );

const metricCable = fc
  .tuple(of(...cordMetrics), of(2, 3, 4, 5), fc.boolean())
  .map(([size, n, hasGround]) =>
    make("european", { size, cores: cores(n, n > 2 && hasGround ? "insulated" : "none") }),
  );

/** Families × sizes × conductors × types × colours. */
export const randomMake: fc.Arbitrary<RandomMake> = fc.oneof(
  buildingCable,
  boatCable,
  cord,
  harmonised,
  harmonisedSingle,
  twinAndEarth,
  japanese,
  buildingWire,
  vehicleWire,
  vehicleGauge,
  heavy,
  solar,
  pairsAndMore,
  sideBySide,
  feeder,
  alone,
  metricCable,
);
