import type { CircuitDesign } from "../size/index.ts";
import { decimalText } from "../quantity/decimal-text.ts";
import type { ConductorFaultOnPaper, EndFaultOnPaper, FaultsOnPaper, OpenFaultOnPaper } from "./faults-on-paper.ts";
import { ampsOf, NOTHING } from "./figures.ts";

/** Faults of a circuit in a line. */
export interface CircuitFaultRow {
  readonly id: string;
  readonly to: string;
  /** Greatest at the end that sources are nearer to, and at the other one; null: none reaches it. */
  readonly nearA: number | null;
  readonly farA: number | null;
  /** Least that any battery alone gives anywhere in it; null: none, or it cannot be told. */
  readonly leastA: number | null;
  /** Device that opens when the least flows; null: none certainly does. */
  readonly guard: string | null;
  /** Greatest time until no battery feeds a fault in it; null: nobody can say. */
  readonly withinS: number | null;
  readonly outcome: ConductorFaultOnPaper["outcome"];
  /** What the hardest fault lets through, of what its weakest conductor bears; null: not known, or nothing within 5 s. */
  readonly bearsShare: number | null;
  /** The same at least. */
  readonly bearsLeastShare: number | null;
  readonly cannotTell: string | null;
}

type Worst = { readonly [K in ConductorFaultOnPaper["outcome"]]: number };
/** The gravest first. */
const GRAVE: Worst = { "not seen": 5, "too small": 4, "not proven": 3, limited: 2, cleared: 1, none: 0 };

/** Circuits that a fault can flow in, one line each. */
export function circuitRows({ circuits }: FaultsOnPaper, design: readonly CircuitDesign[]): CircuitFaultRow[] {
  const found = new Map(design.map((c) => [c.id, c]));
  return circuits.flatMap(({ id, ends, conductors }): CircuitFaultRow[] => {
    const own = ends.filter((e) => e.to === "return");
    const highs = own.flatMap((e) => (e.greatest === null ? [] : [e.greatest.amps.highA]));
    if (own.length === 0) return [];
    const live = conductors.filter(({ role }) => role === "live");
    const worst = live.reduce<ConductorFaultOnPaper | null>(
      (a, b) => (a === null || GRAVE[b.outcome] > GRAVE[a.outcome] ? b : a),
      null,
    );
    const leasts = live.flatMap(({ least }) => (least === null ? [] : [least.lowA]));
    const shares = conductors.flatMap(({ withstandShare }) => (withstandShare === null ? [] : [withstandShare]));
    const times = live.map(({ clears }) => clears.mostS);
    return [
      {
        id,
        to: found.get(id)?.to ?? "",
        nearA: highs.length === 0 ? null : Math.max(...highs),
        farA: highs.length < own.length ? null : Math.min(...highs),
        leastA: leasts.length === 0 ? null : Math.min(...leasts),
        guard: worst?.guard ?? null,
        withinS: times.includes(null) ? null : Math.max(0, ...times.flatMap((t) => t ?? [])),
        outcome: worst?.outcome ?? "none",
        bearsShare: shares.length === 0 ? null : Math.max(...shares),
        bearsLeastShare: Math.max(0, ...conductors.map(({ withstandLeastShare }) => withstandLeastShare ?? 0)),
        cannotTell: own.find((e) => e.cannotTell !== null)?.cannotTell ?? null,
      },
    ];
  });
}

/** How a fault ends, in few words. */
export const outcomeSays: Readonly<Record<ConductorFaultOnPaper["outcome"], string>> = {
  cleared: "cleared",
  limited: "limited sources go on",
  "too small": "too little to open",
  "not proven": "not proven",
  "not seen": "nothing opens",
  none: "no current",
};

/** Open faults of one place and one end, over all sources. */
export interface OpenRow {
  /** Conductor. */
  readonly at: string;
  readonly ends: readonly string[];
  readonly to: OpenFaultOnPaper["to"];
  readonly outcome: OpenFaultOnPaper["outcome"];
  readonly lowA: number;
  readonly highA: number;
  readonly sources: readonly string[];
}

/** Open faults by conductor and outcome, the gravest first. */
export function openRows(open: readonly OpenFaultOnPaper[]): OpenRow[] {
  const rows = new Map<string, { row: OpenRow; sources: Set<string>; ends: Set<string> }>();
  for (const { at, to, outcome, amps, sources } of open) {
    const [conductor = at, end = ""] = at.split(/ at (?=\w+$)/);
    const key = `${conductor} ${to} ${outcome}`;
    const before = rows.get(key);
    const all = before?.sources ?? new Set<string>();
    const ends = before?.ends ?? new Set<string>();
    for (const part of sources) all.add(part);
    ends.add(end);
    rows.set(key, {
      sources: all,
      ends,
      row: {
        at: conductor,
        ends: [...ends],
        to,
        outcome,
        lowA: Math.min(amps, before?.row.lowA ?? Infinity),
        highA: Math.max(amps, before?.row.highA ?? 0),
        sources: [...all],
      },
    });
  }
  return [...rows.values()].map(({ row }) => row).sort((a, b) => GRAVE[b.outcome] - GRAVE[a.outcome]);
}

/** The end of a circuit that sources are nearer to, and the other one. */
export function nearAndFar(ends: readonly EndFaultOnPaper[]): readonly EndFaultOnPaper[] {
  return [...ends].sort((a, b) => (b.greatest?.amps.highA ?? 0) - (a.greatest?.amps.highA ?? 0));
}

/** Fault amps: whole numbers say enough. */
export const faultAmpsOf = (x: number | null): string =>
  x === null ? NOTHING : x >= 100 ? decimalText(Number(x.toPrecision(3)), { decimals: 0 }) : ampsOf(x);

/** `773…1040`, or one number where both ends print alike. */
export function rangeOf({ lowA, highA }: { readonly lowA: number; readonly highA: number }): string {
  const [low, high] = [faultAmpsOf(lowA), faultAmpsOf(highA)];
  return low === high ? high : `${low}…${high}`;
}

/** Seconds to two figures: bands are no finer. */
export const secondsOf = (x: number | null): string =>
  x === null ? NOTHING : decimalText(Number(x.toPrecision(2)), x < 100 ? { figures: 2 } : { decimals: 0 });

/** A share of what is borne, in percent; beyond it a word. */
export const bearsOf = (share: number | null, least: number | null): string => {
  if (share === null) return NOTHING;
  if (share > 1) return (least ?? 0) > 1 ? "burns" : "unproven";
  if (share < 0.0005) return "0";
  return decimalText(Number((100 * share).toPrecision(2)), { decimals: share < 0.095 ? 1 : 0 });
};

/** When a fault is over, s; or why nobody can say. */
export const clearedOf = (row: Pick<CircuitFaultRow, "outcome" | "withinS">): string => {
  if (row.outcome === "none") return NOTHING;
  if (row.outcome === "cleared") return row.withinS === null ? "not proven" : secondsOf(row.withinS);
  return row.outcome === "limited"
    ? "limited"
    : row.outcome === "too small"
      ? "may not open"
      : outcomeSays[row.outcome];
};
