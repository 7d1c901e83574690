import type { ConstraintId, SizeOnPaper } from "../../size/index.ts";
import type { LadderRung } from "../../why/explanation.ts";

/** One constraint as a bar: how far it reaches, and what is written at it. */
export interface LadderBar {
  readonly id: ConstraintId;
  readonly decides: boolean;
  /** Start of the bar across the scale, and its width, px. */
  readonly across: number;
  readonly width: number;
  /** How far it reaches along the scale, px from the foot of the scale. */
  readonly reach: number;
  /** Size that it alone asks for; null: nothing on sale is enough, and it goes through the ceiling. */
  readonly size: string | null;
}

/** A size on sale on the scale. */
export interface LadderMark {
  readonly label: string;
  /** Px from the foot of the scale. */
  readonly reach: number;
  readonly isChosen: boolean;
  /** Its label has room. */
  readonly isNamed: boolean;
}

export interface LadderPicture {
  /** `bars` side by side; `rows` one under the other, where there is no room beside each other. */
  readonly lies: "bars" | "rows";
  /** Length of the scale and room across it, px. */
  readonly length: number;
  readonly across: number;
  readonly bars: readonly LadderBar[];
  readonly marks: readonly LadderMark[];
  /** Where the largest size on sale ends the scale, px; null: no bar comes to it. */
  readonly ceiling: { readonly reach: number; readonly label: string } | null;
}

/** Px: least room for a bar with its words; of a row; between two labels of the scale. */
const [LEAST_BAR, ROW, LEAST_GAP] = [92, 44, 15];

/**
 * Constraints that ask for something, or for more than there is: the one that asks least first, the one that decides last. The least size on sale
 * asks for nothing of its own.
 */
export function judgedRungs(ladder: readonly LadderRung[]): readonly LadderRung[] {
  const asks = ladder.filter(
    (r) =>
      (r.outcome === "met" || r.outcome === "not met") &&
      (r.areaMm2 !== null || r.outcome === "not met") &&
      (r.id !== "stock" || r.decides),
  );
  const rank = (r: LadderRung): number => (r.decides ? Infinity : (r.areaMm2 ?? 1e9));
  return [...asks].sort((a, b) => (rank(a) === rank(b) ? 0 : rank(a) - rank(b)));
}

/**
 * Lays the ladder of constraints: bars on a scale of the sizes on sale, evenly stepped because areas grow by a ratio.
 *
 * @param chosen the size of the circuit, null where there is none
 * @param onSale thinnest first
 * @param width room for scale and bars, px
 * @param length of the scale where bars stand side by side, px
 */
export function layLadder(
  ladder: readonly LadderRung[],
  chosen: SizeOnPaper | null,
  onSale: readonly SizeOnPaper[],
  width: number,
  length: number,
  rowWidth = width,
): LadderPicture {
  const rungs = judgedRungs(ladder);
  const areas = [
    ...rungs.flatMap((r) => (r.areaMm2 === null ? [] : [r.areaMm2])),
    ...(chosen === null ? [] : [chosen.areaMm2]),
  ];
  const largest = onSale.at(-1);
  const isBeyond = rungs.some((r) => r.areaMm2 === null);
  const most = Math.max(...areas, isBeyond ? (largest?.areaMm2 ?? 1) : 0, 1);
  const least = Math.min(...areas, most);
  const lies = width >= rungs.length * LEAST_BAR ? "bars" : "rows";
  const along = lies === "bars" ? length : rowWidth;
  // A third of a step below the least bar and above the greatest, so that neither lies on the edge.
  const [low, high] = [Math.log(least) - 0.5, Math.log(most) + 0.35];
  const reachOf = (areaMm2: number): number => round(((Math.log(areaMm2) - low) / (high - low)) * along);
  const room = lies === "bars" ? width / Math.max(1, rungs.length) : ROW;
  const thick = lies === "bars" ? Math.min(56, 0.5 * room) : 12;
  return {
    lies,
    length: along,
    across: lies === "bars" ? width : rungs.length * ROW,
    bars: rungs.map((r, i) => ({
      id: r.id,
      decides: r.decides,
      across: round(i * room + (lies === "bars" ? (room - thick) / 2 : ROW - thick - 6)),
      width: round(thick),
      reach: r.areaMm2 === null ? along : reachOf(r.areaMm2),
      size: r.size,
    })),
    marks: marksOf(onSale, chosen, least, most, reachOf),
    ceiling:
      isBeyond && largest !== undefined
        ? { reach: reachOf(largest.areaMm2), label: `${largest.label} is the largest on sale` }
        : null,
  };
}

function marksOf(
  onSale: readonly SizeOnPaper[],
  chosen: SizeOnPaper | null,
  least: number,
  most: number,
  reachOf: (areaMm2: number) => number,
): readonly LadderMark[] {
  const sizes = onSale.filter((s) => s.areaMm2 >= least - 1e-9 && s.areaMm2 <= most + 1e-9);
  const all = chosen === null || sizes.some((s) => s.label === chosen.label) ? sizes : [...sizes, chosen];
  const chosenReach = chosen === null ? -Infinity : reachOf(chosen.areaMm2);
  let last = -Infinity;
  return [...all]
    .sort((a, b) => a.areaMm2 - b.areaMm2)
    .map(({ label, areaMm2 }) => {
      const reach = reachOf(areaMm2);
      const isChosen = label === chosen?.label;
      // The chosen one is always named; others give way to it and to each other.
      const isNamed = isChosen || (reach - last >= LEAST_GAP && Math.abs(reach - chosenReach) >= LEAST_GAP);
      if (isNamed) last = reach;
      return { label, reach, isChosen, isNamed };
    });
}

const round = (x: number): number => Math.round(10 * x) / 10;

/** What a reader hears of the picture. */
export function ladderSays(ladder: readonly LadderRung[]): string {
  const rungs = judgedRungs(ladder);
  return rungs
    .map((r) => `${r.id}: ${r.size ?? "nothing on sale is enough"}${r.decides ? ", decides" : ""}`)
    .join("; ");
}

/** Words broken into lines of at most so many letters; a longer word stands alone. */
export function wrapWords(text: string, letters: number, most: number): readonly string[] {
  const lines: string[] = [];
  for (const word of text.split(" ")) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= letters) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  if (lines.length <= most) return lines;
  return [...lines.slice(0, most - 1), `${lines[most - 1] ?? ""} …`];
}
