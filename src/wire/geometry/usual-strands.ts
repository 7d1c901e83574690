import { cite, findRow, takeCell, type Citation, type Trust } from "../../explain/index.ts";
import { awg } from "../../reference/awg.ts";
import { iec60228 } from "../../reference/iec60228.ts";
import { saeGauge } from "../../reference/sae-gauge.ts";
import { usSmallCraftStranding } from "../../reference/us-small-craft-stranding.ts";
import type { PrintedSize, StrandingName, WireMake } from "../make/wire-make.ts";

/** How many wires a conductor has, how they lie, and where that comes from. */
export interface UsualStrands {
  readonly count: number;
  readonly isFine: boolean;
  /** Null where the make itself tells. */
  readonly from: { readonly says: string; readonly trust: Trust; readonly source: Citation } | null;
}

/** What of a make decides its strands. */
type Stranded = Pick<WireMake, "stranding" | "family" | "type" | "fitness">;

const circle = (diameterMm: number): number => (Math.PI / 4) * diameterMm ** 2;
const gaugeArea = (gauge: string): number => findRow(awg, gauge)?.areaExactMm2 ?? NaN;

/** Least number of wires up to an area, mm²: ASTM B8 concentric classes; class B is the strand count of NEC Chapter 9 Table 8. */
const concentricCounts: Readonly<Record<"class B" | "class C" | "class D", readonly (readonly [number, number])[]>> = {
  "class B": [
    [34, 7],
    [108, 19],
    [254, 37],
    [507, 61],
    [761, 91],
    [Infinity, 127],
  ],
  "class C": [
    [34, 19],
    [108, 37],
    [254, 61],
    [507, 91],
    [Infinity, 127],
  ],
  "class D": [
    [34, 37],
    [108, 61],
    [254, 91],
    [Infinity, 127],
  ],
};

/** Wire of class 5 and 6 as sold, by greatest area, mm²: the greatest that IEC 60228 allows is 0.01 mm more. */
const metricWires: Readonly<Record<"class 5" | "class 6", readonly (readonly [number, number])[]>> = {
  "class 5": [
    [1, 0.2],
    [2.5, 0.25],
    [6, 0.3],
    [50, 0.4],
    [Infinity, 0.5],
  ],
  "class 6": [
    [4, 0.15],
    [16, 0.2],
    [95, 0.3],
    [Infinity, 0.4],
  ],
};

const step = (list: readonly (readonly [number, number])[], areaMm2: number): number =>
  list.find(([upTo]) => areaMm2 <= upTo)?.[1] ?? NaN;

const stated = (count: number, isFine: boolean): UsualStrands => ({ count, isFine, from: null });
const usual = (count: number, isFine: boolean, says: string, trust: Trust, source: Citation): UsualStrands => ({
  count: Math.max(1, Math.round(count)),
  isFine,
  from: { says, trust, source: { ...source, trust } },
});

/** Largest size that is one solid wire in European cable made to lie still, mm²: as DIN VDE 0250-204 has it for NYM, by habit for its kin (memory). */
function solidUpTo(type: string | null): number {
  if (/^6\d{3}/.test(type ?? "")) return 2.5; // BS 6004
  return /R2V/.test(type ?? "") ? 4 : 10;
}

/** What a family is stranded like where the label does not say. */
function familyStranding({ family, type, fitness }: Stranded, size: PrintedSize): StrandingName {
  const isBig = size.areaMm2 > 5.5; // 10 AWG and 4 mm² are the largest that are solid by habit
  switch (family) {
    case "building cable":
    case "japanese building cable":
      return isBig ? "class B" : "solid";
    case "building wire":
    case "service cable":
      return size.system === "mm²" ? "class 2" : "class B";
    case "twin and earth":
      return size.areaMm2 > 2.5 ? "class 2" : "solid";
    case "boat cable":
      return size.system === "mm²" ? "class 5" : "type 3";
    case "flexible cord":
    case "battery cable":
    case "welding cable":
    case "speaker cable":
      return size.system === "mm²" ? "class 5" : "class K";
    case "harmonised cable":
      if (fitness.flexible !== false) return "class 5";
      return size.areaMm2 > solidUpTo(type) ? "class 2" : "class 1";
    case "solar cable":
      return "class 5";
    case "vehicle wire":
    case "trailer cable":
      return size.system === "AWG" || size.system === "kcmil" ? "class K" : "class 5";
    case null:
      return size.system === "AWG" || size.system === "kcmil" ? "class B" : "class 5";
  }
}

/**
 * How many wires a conductor has: as the make tells, else as its class or its size usually has.
 *
 * @param size of the conductor; that of a ground may be another than that of the make
 * @returns the count, whether the wires are many and thin, and what the count rests on where the make does not tell it
 * @accuracy counts of fine strands vary from maker to maker by about 5 %
 * @source class B: NFPA 70 Chapter 9 Table 8; class 2: IEC 60228 least counts; types 2 and 3: ABYC E-11 as quoted; classes K and M: wires of 30 and 34 AWG; class 5 and 6: usual wires of 0.15 to 0.5 mm (memory)
 * @example
 * usualStrands({ ...emptyMake, stranding: { name: "class K", wires: null, wireMm: null } }, { system: "AWG", name: "12", label: "12 AWG", areaMm2: 3.309, basis: "metal" }).count //=> 65
 */
export function usualStrands(make: Stranded, size: PrintedSize): UsualStrands {
  const { stranding } = make;
  const name = stranding?.name ?? null;
  if (stranding?.wires != null) return stated(stranding.wires, isFineName(name) || stranding.wires > 19);
  if (stranding?.wireMm != null)
    return stated(Math.max(1, Math.round(size.areaMm2 / circle(stranding.wireMm))), isFineName(name));
  if (size.system === "solid diameter" || name === "solid" || name === "class 1") return stated(1, false);
  if (name !== null && name !== "stranded") return byName(name, size, "");
  const printed = size.system === "strands" ? /^(\d+)(?:x(\d+))?\//.exec(size.name) : null;
  if (printed !== null) return stated(Number(printed[1]) * Number(printed[2] ?? 1), true);
  const sae = size.system === "SAE" || size.system === "SAE metric label" ? saeStrands(size) : null;
  if (sae !== null) return sae;
  const guess = familyStranding(make, size);
  // `stranded` is told: a family that is solid by habit is then class B or class 2.
  const held =
    name === "stranded" && (guess === "solid" || guess === "class 1")
      ? size.system === "mm²"
        ? "class 2"
        : "class B"
      : guess;
  return byName(held, size, "the label does not say how it is stranded; ");
}

const isFineName = (name: StrandingName | null): boolean =>
  name !== null && /^(class ([56GHIKM])|type 3|tinsel)$/.test(name);

function saeStrands(size: PrintedSize): UsualStrands | null {
  const row = saeGauge.rows.find(
    ({ saeGauge: gauge, saeMetricLabelMm2 }) =>
      (size.system === "SAE" && gauge === size.name) ||
      (size.system === "SAE metric label" && String(saeMetricLabelMm2) === size.name),
  );
  const cell = row === undefined ? null : takeCell(saeGauge, row, "typicalStrands");
  if (cell === null) return null;
  const says = `usual strands of ${size.label} vehicle wire, ${cell.value}`;
  return usual(Number.parseInt(cell.value, 10), false, says, cell.trust, cell.source);
}

function byName(name: StrandingName, size: PrintedSize, lead: string): UsualStrands {
  const area = size.areaMm2;
  const practice = cite("trade-practice", "usual make of the family", "practice");
  switch (name) {
    case "solid":
    case "class 1":
      return usual(1, false, `${lead}one solid wire is usual`, "practice", practice);
    case "class B":
    case "class C":
    case "class D": {
      const trust: Trust = name === "class B" ? "derived" : "memory";
      const source = name === "class B" ? cite("nfpa-70-2023", "Chapter 9 Table 8", trust) : cite("astm-b8", "", trust);
      return usual(step(concentricCounts[name], area), false, `${lead}strands of ${name}`, worse(lead, trust), source);
    }
    case "class 2": {
      const row = iec60228.rows.findLast(({ nominalMm2 }) => nominalMm2 <= area) ?? iec60228.rows[0];
      const count = row?.class2CuMinWiresCircular ?? 37;
      const source = cite("iec-60228-2004", "Table 2, least number of wires", "read");
      return usual(count, false, `${lead}least strands of class 2`, worse(lead, "read"), source);
    }
    case "type 1":
    case "type 2":
    case "type 3": {
      const column = name === "type 3" ? "type3MinStrands" : "type2MinStrands";
      const label = size.system === "AWG" || size.system === "SAE" ? size.name : "";
      const cell = findRow(usSmallCraftStranding, label)?.[column] ?? null;
      const source = cite("abyc-e-11", "conductor circular mils and stranding, as quoted", "memory");
      // Rows that the table leaves out, and sizes of other systems: by wires of 30 AWG, as type 3 is made, or by 19.
      const count = cell ?? (name === "type 3" ? area / gaugeArea("30") : 19);
      return usual(
        count,
        name === "type 3" || count > 37,
        `${lead}least strands of ${name}`,
        worse(lead, "memory"),
        source,
      );
    }
    case "class 5":
    case "class 6": {
      const wire = step(metricWires[name], area);
      const source = cite("iec-60228-2004", "Tables 3 and 4, greatest diameter of wires", "memory");
      return usual(area / circle(wire), true, `${lead}wires of ${wire} mm, as usual for ${name}`, "memory", source);
    }
    case "class G":
    case "class H":
      return usual(
        name === "class G" ? 49 : 133,
        true,
        `${lead}strands of ${name}`,
        "memory",
        cite("astm-b8", "", "memory"),
      );
    case "class I":
    case "class K":
    case "class M":
    case "tinsel":
    case "stranded": {
      const gauge = name === "class I" ? "24" : name === "class M" ? "34" : name === "tinsel" ? "40" : "30";
      const says = `${lead}wires of ${gauge} AWG, as ${name} has`;
      return usual(area / gaugeArea(gauge), true, says, worse(lead, "derived"), practice);
    }
  }
}

/** A class that is itself a guess is practice at best. */
const worse = (lead: string, trust: Trust): Trust => (lead === "" || trust === "memory" ? trust : "practice");
