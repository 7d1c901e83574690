import { cite, takeCell, weakestTrust, type Citation, type Trust } from "../../explain/index.ts";
import { insulationWalls, type InsulationWallsRow } from "../../reference/insulation-walls.ts";
import { conductorDiameter, insulatedDiameter, usualInsulationThickness, type InsulatedType } from "../diameter.ts";
import type { PrintedSize, WireMake } from "../make/wire-make.ts";
import { awgSize, kcmilSize, metricSize, type WireSize } from "../wire-size.ts";

/** A thickness with what it rests on. */
export interface Wall {
  readonly mm: number;
  readonly says: string;
  readonly trust: Trust;
  readonly source: Citation;
}

/** The size in which tables of diameters are kept; null where it is none of theirs. */
export function tableSize(size: PrintedSize): WireSize | null {
  if (size.system === "AWG") return awgSize(size.name);
  return size.system === "kcmil" ? kcmilSize(Number(size.name)) : null;
}

/** Building wire types by the table of diameters that they share. */
const necTypes: readonly (readonly [RegExp, InsulatedType])[] = [
  [/^(THHN|THWN)/, "THHN/THWN/THWN-2"],
  [/^(XHH|USE-2)/, "XHH/XHHW/XHHW-2"],
  [/^(TW$|THW|THHW)/, "TW/THW/THW-2/THHW"],
  [/^(RHH|RHW)/, "RHH/RHW/RHW-2 without covering"],
];

/** Under which name NEC Chapter 9 Table 5 has the type of a make; undefined: it does not. */
export const tableType = ({ type }: WireMake): InsulatedType | undefined =>
  necTypes.find(([fits]) => fits.test(type ?? ""))?.[1];

const listed = (kind: string, areaMm2: number, says: string): Wall => {
  const rows: readonly InsulationWallsRow[] = insulationWalls.rows.filter((row) => row.kind === kind);
  const row = rows.find(({ upToMm2 }) => areaMm2 <= upToMm2) ?? rows.at(-1);
  const cell = row === undefined ? null : takeCell(insulationWalls, row, "wallMm");
  if (cell === null) throw new Error(`wire/insulation_walls has no ${kind}`);
  return { mm: cell.value, says: `${says}, ${cell.value} mm`, trust: cell.trust, source: cell.source };
};

/** Of a building wire: Table 5 is for Class B strands, and a solid wire has the same wall about it. */
function wallOfTable(size: WireSize, type: InsulatedType): Wall | null {
  const over = insulatedDiameter(size, type);
  if (over === null) return null;
  const bare = conductorDiameter({ size, metal: "copper", plating: "plain", strands: "class B" });
  const mm = (over.value - bare.value * 1000) / 2;
  const says = `insulation of ${size.label} ${type}, ${mm.toFixed(2)} mm`;
  return { mm, says, trust: weakestTrust(over.trust, bare.trust, "derived"), source: over.source };
}

/** The kind of wall in the table of walls, by type code and family; null: American building and boat wire. */
function wallKind({ family, type }: WireMake, size: PrintedSize): string | null {
  const code = type ?? "";
  if (/^(H|A)0[57]R/.test(code)) return "rubber flexible";
  if (/^(H|A)0[1357].*-[FH]/.test(code)) return "pvc flexible";
  if (/^(H|A)0[57]/.test(code)) return "pvc single";
  if (/^S(JO|JT|JE|J$|J|V|P)/.test(code)) return "junior cord";
  if (/^TXL/.test(code)) return "vehicle thin cross-linked";
  if (/^(FLR|FLU)/.test(code)) return "vehicle thin";
  const isMetric = size.system !== "AWG" && size.system !== "kcmil" && size.system !== "SAE";
  switch (family) {
    case "flexible cord":
      return isMetric ? "pvc flexible" : "cord";
    case "harmonised cable":
    case "twin and earth":
    case "japanese building cable":
      return "pvc single";
    case "speaker cable":
      return "pvc flexible";
    case "vehicle wire":
    case "trailer cable":
      return isMetric ? "vehicle normal" : "vehicle primary";
    case "battery cable":
    case "welding cable":
      return "battery";
    case "solar cable":
      return "solar";
    case "boat cable":
      return "boat";
    case "building cable":
    case "building wire":
    case "service cable":
    case null:
      return isMetric ? "pvc single" : null;
  }
}

/**
 * Thickness of the insulation of a core, where no diameter over it is printed.
 *
 * @returns mm, with what it rests on
 * @source building wire: NFPA 70 Chapter 9 Table 5; others: the table of usual walls (memory), and XHHW in place of what has none there (common practice)
 */
export function usualWall(make: WireMake, size: PrintedSize): Wall {
  const own = tableSize(size);
  const type = tableType(make);
  if (own !== null && type !== undefined) {
    const printed = wallOfTable(own, type);
    if (printed !== null) return printed;
  }
  // Cores of North American building cable are THHN.
  if (own !== null && make.family === "building cable") {
    const thhn = wallOfTable(own, "THHN/THWN/THWN-2");
    const source = cite("nfpa-70-2023", "Chapter 9 Table 5, THHN", "practice");
    if (thhn !== null)
      return { ...thhn, says: `cores insulated like THHN, ${thhn.mm.toFixed(2)} mm`, trust: "practice", source };
  }
  const kind = wallKind(make, size);
  if (kind !== null) return listed(kind, size.areaMm2, `usual insulation of ${size.label} (${kind})`);
  const usual = usualInsulationThickness(own ?? metricSize(size.areaMm2));
  const mm = usual.value * 1000;
  return {
    mm,
    says: `insulation as thick as that of XHHW, ${mm.toFixed(2)} mm`,
    trust: usual.trust,
    source: usual.source,
  };
}

const practice = (mm: number, says: string): Wall => ({
  mm,
  says: `${says}, ${mm.toFixed(2)} mm`,
  trust: "practice",
  source: cite("trade-practice", "usual thickness of the sheath", "practice"),
});

/**
 * Thickness of the sheath over the cores.
 *
 * @param coresMm diameter or height of the bundle of cores
 * @returns mm; 0 where the kind of cable has none
 * @source common practice; 1 mm + 3.5 % of the diameter, at least 1.4 mm, is IEC 60502-1 (memory)
 */
export function usualSheath({ family, type }: WireMake, coresMm: number): Wall {
  const code = type ?? "";
  if (/^SP|^H0[35]V+H-/.test(code)) return practice(0, "parallel cord has no sheath");
  switch (family) {
    case "speaker cable":
    case "service cable":
      return practice(0, `${family} has no sheath`);
    case "building cable":
    case "boat cable":
      return practice(0.76, "usual sheath of 30 mil");
    case "flexible cord":
      if (/^S(J|V)/.test(code)) return practice(0.76, "usual sheath of junior cord, 30 mil");
      return practice(coresMm < 9 ? 1.5 : 2.4, "usual sheath of hard-service cord, 60 to 95 mil");
    case "twin and earth":
    case "trailer cable":
    case "solar cable":
      return practice(Math.max(0.8, 0.1 * coresMm), "usual sheath");
    case "japanese building cable":
      return practice(1.5, "usual sheath");
    case "vehicle wire":
    case "battery cable":
    case "welding cable":
    case "building wire":
    case "harmonised cable":
    case null: {
      if (/^(H|A)0[57][RS]N/.test(code)) return practice(0.1 * coresMm + 0.9, "usual sheath of rubber cable");
      if (/^(H|A)0[357]/.test(code))
        return practice(Math.max(0.6, 0.08 * coresMm + 0.4), "usual sheath of flexible cable");
      const mm = Math.max(1.4, 0.035 * coresMm + 1);
      return { ...practice(mm, "sheath of 1 mm + 3.5 % of the diameter"), trust: "memory" };
    }
  }
}
