import { viewBuild, withstandOf } from "../rules/index.ts";
import type { CircuitDesign, Constraint, Design, LoadDesign } from "../size/index.ts";
import { steadyAt } from "../size/ladder.ts";
import type { CircuitModel } from "../size/model.ts";
import { stockedSizes, type WireSize } from "../wire/index.ts";
import { printCitation } from "../explain/index.ts";
import { judgedAt, type Built } from "./built.ts";
import type { LadderRung } from "./explanation.ts";
import { figureText } from "./print-number.ts";
import { designWith } from "./what-if.ts";
import { makeAt, workAmpacity } from "./why-ampacity.ts";

/** A load that would have too little, and how. */
export interface Short {
  readonly part: string;
  readonly says: string;
}

/** What a thinner size would do, everything else as it is. */
export interface Thinner {
  readonly size: string;
  readonly short: readonly Short[];
}

export type VoltKind = "drop" | "start" | "least-volts";
const isVoltKind = (id: Constraint["id"]): id is VoltKind => id === "drop" || id === "start" || id === "least-volts";

/** The ladder of a circuit, and what the size below each of its rungs would do. */
export function climbLadder(
  built: Built,
  c: CircuitModel,
  design: CircuitDesign,
): { rungs: LadderRung[]; thinner: ReadonlyMap<Constraint["id"], Thinner> } {
  const thinner = new Map<Constraint["id"], Thinner>();
  const tried = new Map<string, Design>();
  const tryAt = (size: WireSize): Design => {
    let found = tried.get(size.label);
    if (found === undefined) tried.set(size.label, (found = designWith(built, groupOf(built, c, size))));
    return found;
  };
  const rungs = design.constraints.map((constraint): LadderRung => {
    const { id, alone, outcome, source, trust } = constraint;
    const below = alone === null ? null : sizeBelow(built, alone.areaMm2);
    let found: Thinner | null = null;
    if (below !== null && isVoltKind(id)) {
      // Where it is not met as it stands, the size that would be enough is what the one below is held against.
      const enough = outcome === "not met" ? sizeOnSale(built, alone?.label ?? "") : null;
      const before = enough === null ? built.design : tryAt(enough);
      found = { size: below.label, short: shortIn(before, tryAt(below), id) };
    } else if (below !== null && (id === "ampacity" || id === "device")) {
      const says = carried(built, c, below);
      if (says !== null) found = { size: below.label, short: [{ part: c.circuit.id, says }] };
    }
    if (found !== null) thinner.set(id, found);
    // Of a wire that nothing ends at, the clause of the load that decides stands for it.
    const first = id === "drop" && design.dropV === null ? found?.short[0]?.part : undefined;
    const clause = first === undefined ? undefined : judgedAt(built, first)?.judged.dropClass?.source;
    const cited = clause === undefined ? { source, trust } : { source: printCitation(clause), trust: clause.trust };
    return {
      id,
      size: alone?.label ?? null,
      areaMm2: alone?.areaMm2 ?? null,
      outcome,
      decides: id === design.decidedBy,
      says: saysOf(built, c, design, constraint),
      thinner:
        found === null || found.short.length === 0 ? "" : `${found.size}: ${found.short.map((s) => s.says).join("; ")}`,
      ...(outcome === "not judged yet" || outcome === "not stated" ? { source: "", trust: null } : cited),
    };
  });
  return { rungs, thinner };
}

const onSale = ({ system: { stock } }: Built): readonly WireSize[] =>
  stock.sizes.length > 0 ? stock.sizes : stockedSizes(stock.system);

const sizeOnSale = (built: Built, label: string): WireSize | null =>
  onSale(built).find((s) => s.label === label) ?? null;

/** The size on sale below an area; null below the least. */
function sizeBelow(built: Built, areaMm2: number): WireSize | null {
  return onSale(built).findLast((s) => s.areaMm2 < areaMm2 - 1e-9) ?? null;
}

/** Leads of equal batteries go together. */
function groupOf({ settled }: Built, c: CircuitModel, size: WireSize): ReadonlyMap<string, WireSize> {
  const group = settled.model.coreGroups.find((g) => g.includes(c.position)) ?? [c.position];
  return new Map(
    group.flatMap((i) => {
      const other = settled.model.circuits[i];
      return other === undefined || (other !== c && other.circuit.size !== undefined)
        ? []
        : [[other.circuit.id, size] as const];
    }),
  );
}

/** Loads that have too little in one design and enough in another. */
function shortIn(before: Design, after: Design, kind: VoltKind): Short[] {
  const found: Short[] = [];
  after.circuits.forEach((c, i) => {
    const was = before.circuits[i];
    c.loads.forEach((load, k) => {
      const old = was?.loads[k];
      const says = shortOf(load, kind);
      if (says !== null && (old === undefined || shortOf(old, kind) === null)) found.push({ part: load.part, says });
    });
    const charges = (one: CircuitDesign | undefined): boolean =>
      one !== undefined &&
      one.loads.length === 0 &&
      one.dropShare !== null &&
      one.dropLimitShare !== null &&
      one.dropShare > one.dropLimitShare + 1e-9;
    if (kind === "drop" && charges(c) && !charges(was)) {
      found.push({
        part: c.id,
        says: lossSays(c.id, c.dropV ?? 0, c.dropShare ?? 0, c.dropLimitShare ?? 0),
      });
    }
  });
  return found;
}

const lossSays = (part: string, volts: number, share: number, limit: number): string =>
  `${part} would lose ${figureText.volts(volts)}, ${figureText.beside(share, limit)}, and ${figureText.limit(limit)} is allowed`;

function shortOf(load: LoadDesign, kind: VoltKind): string | null {
  const { part, dropV, dropShare, dropLimitShare, leastVolts, runsAbove, startVolts, startsAbove } = load;
  switch (kind) {
    case "drop":
      return dropLimitShare !== null && dropShare > dropLimitShare + 1e-8
        ? lossSays(part, dropV, dropShare, dropLimitShare)
        : null;
    case "start":
      return startVolts !== null && startsAbove !== null && startVolts < startsAbove - 1e-7
        ? `${part} would have ${figureText.voltsBeside(startVolts, startsAbove)} to start with and needs ${figureText.volts(startsAbove)}`
        : null;
    case "least-volts":
      return runsAbove !== null && leastVolts < runsAbove - 1e-7
        ? `${part} would have ${figureText.voltsBeside(leastVolts, runsAbove)} and needs ${figureText.volts(runsAbove)}`
        : null;
  }
}

/** `10 mm² may carry 70.0 A`, for a size of the circuit's make. */
function carried(built: Built, c: CircuitModel, size: WireSize): string | null {
  const make = makeAt(built, c);
  const amps = make === null ? null : workAmpacity(built, c, { ...make, size })?.figures[0]?.value;
  return typeof amps === "number" ? `may carry ${figureText.ampacity(amps)}${forHours(c, size.label, amps)}` : null;
}

/** Where a rule set lets less flow for hours on end than at all: how much. */
function forHours({ rungs }: CircuitModel, label: string, amps: number): string {
  const rung = rungs?.ladder.makes.findIndex(({ size }) => size.label === label) ?? -1;
  const hours = rungs === null || rung < 0 ? amps : steadyAt(rungs, rung);
  return hours < amps * (1 - 1e-9) ? `, and for hours on end ${figureText.ampacity(hours)}` : "";
}

/** The figures of a constraint in one line. */
function saysOf(built: Built, c: CircuitModel, d: CircuitDesign, { id, outcome }: Constraint): string {
  if (outcome === "not judged yet" || outcome === "not stated") return "";
  switch (id) {
    case "ampacity":
      return d.steadyA === null || d.ampacityA === null
        ? ""
        : `${figureText.amps(d.steadyA)} of ${figureText.ampacity(d.ampacityA)}${d.size === null ? "" : forHours(c, d.size.label, d.ampacityA)}`;
    case "drop":
      if (d.dropV === null || d.dropShare === null) return "loads behind it";
      return `${figureText.volts(d.dropV)}, ${d.dropLimitShare === null ? figureText.percent(d.dropShare) : `${figureText.beside(d.dropShare, d.dropLimitShare)} of ${figureText.limit(d.dropLimitShare)}`}`;
    case "start":
      return worstOf(d.loads, (l) => [l.startVolts, l.startsAbove]);
    case "least-volts":
      return worstOf(d.loads, (l) => [l.leastVolts, l.runsAbove]);
    case "device":
      return deviceSays(built, c, d);
    case "mechanical": {
      const rule = c.rungs?.leastSize;
      return rule === null || rule === undefined ? "" : `${rule.size.label} at least (${rule.says})`;
    }
    case "bond": {
      const ask = askOf(built, c);
      return ask === undefined ? "" : `${areaText(ask)} at least: ${ask.says}`;
    }
    case "withstand":
      return withstandSays(built, d.id);
    default:
      return "";
  }
}

/** What its rule set asks of a conductor that carries current only in a fault. */
const askOf = ({ settled }: Built, c: CircuitModel) => settled.leads?.find((l) => l.position === c.position)?.asks[0];

const areaText = ({ areaMm2 }: { readonly areaMm2: number }): string => `${Number(areaMm2.toPrecision(3))} mm²`;

/** How much of what the wire bears its shorts let through, or why nobody can say. */
function withstandSays(built: Built, id: string): string {
  const build = viewBuild(built);
  const view = build.circuit(id);
  const borne = view === undefined ? null : withstandOf(build, view);
  if (borne === null) return "";
  if (borne.is === "not known") return `${borne.needs.fact} is not known`;
  if (borne.is === "not proven") return `not proven: ${borne.why}`;
  return `shorts let through ${figureText.percent(borne.share)} of what it bears`;
}

function deviceSays({ settled }: Built, c: CircuitModel, d: CircuitDesign): string {
  const answersFor = settled.devices.circuits[c.position]?.answersFor ?? 0;
  const own = d.devices.flatMap(({ ratingA, mostA }) =>
    ratingA === null || mostA === null ? [] : [`${figureText.amps(ratingA)}, at most ${figureText.ampacity(mostA)}`],
  );
  if (answersFor > 0)
    own.push(`answers for ${figureText.amps(answersFor)} behind it, carries ${figureText.ampacity(d.ampacityA ?? 0)}`);
  return own.join("; ");
}

/** The load with the least to spare. */
function worstOf(loads: readonly LoadDesign[], of: (l: LoadDesign) => readonly [number | null, number | null]): string {
  let best: { spare: number; says: string } | null = null;
  for (const load of loads) {
    const [has, needs] = of(load);
    if (has === null || needs === null) continue;
    const spare = has - needs;
    if (best === null || spare < best.spare)
      best = {
        spare,
        says: `${load.part} has ${figureText.voltsBeside(has, needs)}, needs ${figureText.volts(needs)}`,
      };
  }
  return best?.says ?? "loads behind it";
}
