import { sizesOn, type LadderSystem, type SizeRung } from "../../wire/convert/index.ts";

/** One size on the ladder. */
export interface Rung {
  readonly name: string;
  readonly areaMm2: number;
  /** What stockists keep; other sizes are drawn thinner, and are no substitute. */
  readonly isStocked: boolean;
  /** What misleads in this very size, in few words; empty: nothing. */
  readonly note: string;
}

/** All sizes of a system. */
export interface LadderColumn {
  readonly system: LadderSystem;
  readonly head: string;
  /** What the numbers count. */
  readonly under: string;
  /** Thinnest first. */
  readonly rungs: readonly Rung[];
}

const heads: Readonly<Record<LadderSystem, readonly [head: string, under: string]>> = {
  "mm²": ["mm²", "label of the area"],
  AWG: ["AWG", "then kcmil"],
  SAE: ["SAE", "vehicle gauge"],
  "vehicle diameter": ["“mm”", "vehicle cable, outside Ø"],
  SWG: ["SWG", "British, withdrawn"],
  JIS: ["JIS", "Japanese mm²"],
  "solid diameter": ["Ø mm", "one solid wire"],
};

/** The systems from left to right that a ladder has where nothing else is asked for. */
export const usualSystems: readonly LadderSystem[] = ["mm²", "AWG", "SAE", "vehicle diameter", "JIS", "SWG"];

function rungOf({ side, size, isStocked }: SizeRung): Rung {
  const { name, areaMm2 } = size;
  // The costliest slip of all: a diameter that is read as an area.
  const note = side === "vehicle diameter" ? `${Number(areaMm2.toPrecision(2))} mm², not ${name}` : "";
  return { name, areaMm2, isStocked, note };
}

/** The sides of the ladder that are asked for, in that order. */
export const ladderColumns = (systems: readonly LadderSystem[]): readonly LadderColumn[] =>
  systems.map((system) => {
    const [head, under] = heads[system];
    return { system, head, under, rungs: sizesOn(system, "all").map(rungOf) };
  });

/**
 * The thinnest size on sale in a column that has no less metal than an area; of a gauge that is no longer sold, any size.
 *
 * @returns null where the column has none
 * @example
 * notSmaller(ladderColumns(["AWG"])[0], 2.5).name //=> "12"
 */
export const notSmaller = ({ rungs }: LadderColumn, areaMm2: number): Rung | null =>
  rungs.find((rung) => rung.areaMm2 >= areaMm2 && (rung.isStocked || !rungs.some(({ isStocked }) => isStocked))) ??
  null;
