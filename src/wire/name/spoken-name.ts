import { sayReading } from "../label/say-reading.ts";
import type { PrintedSize, WireMake } from "../make/wire-make.ts";
import { eachSize, isSingle } from "./compound-names.ts";
import { isKnown, makeFacts, type MakeFact } from "./make-facts.ts";
import { sayNumber } from "./say-number.ts";
import { saySize } from "./size-names.ts";
import { spokenTrap } from "./trap-of.ts";
import { contextOf, type NameDialect, type WireName } from "./wire-name.ts";

/** What a family is called across a workshop, behind the numbers. */
const called: Readonly<Record<string, string>> = {
  "building cable": "",
  "boat cable": "boat cable",
  "flexible cord": "cord",
  "harmonised cable": "",
  "twin and earth": "twin and earth",
  "japanese building cable": "VVF",
  "building wire": "building wire",
  "vehicle wire": "vehicle wire",
  "trailer cable": "trailer cable",
  "battery cable": "battery cable",
  "welding cable": "welding cable",
  "speaker cable": "speaker cable",
  "solar cable": "solar cable",
  "service cable": "service cable",
};

/** A make as it is called aloud, with what this leaves open. */
export function spokenName(make: WireMake, size: PrintedSize, dialect: NameDialect): WireName {
  const said =
    make.runs === 1 ? wordsOf(make, size, dialect) : `${sayNumber(make.runs)} runs of ${wordsOf(make, size, dialect)}`;
  const isSaid = (fact: MakeFact): boolean =>
    fact === "size" ||
    fact === "cores" ||
    fact === "runs" ||
    (fact === "family" && make.family !== null && called[make.family] !== "");
  const known = makeFacts.filter((fact) => isKnown(make, fact));
  return {
    label: said,
    says: sayReading(make, null),
    trap: spokenTrap(make, size, dialect),
    states: known.filter(isSaid),
    leavesOut: known.filter((fact) => !isSaid(fact)),
    context: contextOf[dialect],
  };
}

function wordsOf(make: WireMake, size: PrintedSize, dialect: NameDialect): string {
  const { cores, family } = make;
  // Building wire is called by its letters.
  const kind =
    family === null ? "" : family === "building wire" && make.type !== null ? make.type : (called[family] ?? "");
  if (cores === null || isSingle(make)) return `${saySize(size, dialect)} ${kind}`.trim();
  if (cores.others.length > 0) {
    const sizes = eachSize(size, cores).map((each) => saySize(each, dialect, true));
    return `${sizes.join(", ")} ${kind}`.trim();
  }
  if (family === "twin and earth")
    return `${saySize(size, dialect, true)} ${cores.insulated === 3 ? "three core and earth" : "twin and earth"}`;
  const isMetric = size.system !== "AWG" && size.system !== "kcmil" && size.system !== "SAE";
  if (isMetric) {
    const count = `${sayNumber(cores.total)}-core`;
    const flex = dialect === "british" && family === "harmonised cable" ? "flex" : kind;
    const bare = flex === "flex" ? saySize(size, dialect, true) : saySize(size, dialect);
    return `${count} ${bare} ${flex}`.trim();
  }
  // The number that is spoken is the number that is printed: insulated conductors where a bare ground goes uncounted.
  const count = cores.ground === "bare" || family === "building cable" ? cores.insulated : cores.total;
  const ground = cores.ground === "bare" ? " with ground" : "";
  return `${saySize(size, dialect, true)} ${sayNumber(count)}${ground} ${kind}`.trim();
}
