import { lookUp, type LookedUp } from "../../explain/index.ts";
import type { Fact, Measure } from "../../plan/index.ts";
import { cellHeating } from "../../reference/cell-heating.ts";
import type { Settled } from "../../size/index.ts";
import { coldVolts, fallEachKelvin, type ColdVolts, type Feed, type Grid, type Slope } from "../../system/index.ts";
import { joinedPieces } from "../battery/pieces.ts";
import type { Build, PartView } from "../build.ts";
import { factsOf, saysCount, saysFigure, saysWord, type Stated } from "../stated.ts";

/** Both ends of what a number can be. */
export interface Span {
  readonly low: number;
  readonly high: number;
}

/** One entry of solar modules of a plan: strings alike, in parallel behind one pair of terminals. */
export interface Modules {
  readonly view: PartView;
  readonly feed: Feed;
  readonly plus: number;
  readonly minus: number;
  readonly series: number;
  readonly strings: number;
  /** Of one string, A; the origin tells whether anybody knows it. */
  readonly isc: Feed["amps"];
  /** Open-circuit volts of one string in the greatest cold. */
  readonly cold: ColdVolts;
  /** Entries that stand in series with it toward its minus, itself first; each with one string. */
  readonly chain: readonly Modules[];
}

/** The input of a controller and what hangs on it. */
export interface ArrayInput {
  readonly view: PartView;
  readonly plus: number;
  readonly minus: number;
  /** Volts that it charges its battery to, and those of its system. */
  readonly charging: Span;
  readonly nominal: number;
  /** Entries whose plus leads to it, every contact closed. */
  readonly modules: readonly Modules[];
}

/** Solar modules and controllers of a build. */
export interface Arrays {
  readonly modules: readonly Modules[];
  readonly inputs: readonly ArrayInput[];
}

const known = new WeakMap<Settled, Arrays>();

/** The solar side of a build, found once for all rules. */
export function arraysOf(build: Build): Arrays {
  let arrays = known.get(build.settled);
  if (arrays === undefined) known.set(build.settled, (arrays = findArrays(build)));
  return arrays;
}

function findArrays(build: Build): Arrays {
  const { grid } = build.settled.model;
  const alone = grid.feeds.flatMap((f) => (f.element.runsWith === "sun" ? (entryOf(build, f) ?? []) : []));
  if (alone.length === 0) return { modules: [], inputs: [] };
  const pieces = joinedPieces(build.settled);
  const returns = new Set(grid.converters.flatMap(({ in: input }) => (input === null ? [] : [pieces[input.minus]])));
  // Entries speak of each other, so each gets its chain when all are there.
  for (const one of alone) one.chain = chainOf(one, alone, pieces, returns);
  const modules: readonly Modules[] = alone;
  const inputs = grid.converters.flatMap(({ element, in: input, out }): ArrayInput[] => {
    const view = build.part(element.part);
    if (view === undefined || input === null || element.input !== "tracks") return [];
    const { low, high } = element.volts;
    const nominal = nominalAt(build, grid, pieces, out.plus) ?? view.supply?.nominal ?? 12;
    const own = modules.filter((m) => pieces[m.plus] === pieces[input.plus]);
    return [{ view, plus: input.plus, minus: input.minus, charging: { low, high }, nominal, modules: own }];
  });
  return { modules, inputs };
}

type Entry = Omit<Modules, "chain"> & { chain: readonly Modules[] };

function entryOf(build: Build, { element, plus, minus }: Grid["feeds"][number]): Entry | null {
  const view = build.part(element.part);
  if (view === undefined) return null;
  const facts = factsOf(view);
  const strings = numberOr(saysCount(facts, "strings in parallel"), 1);
  const { amps } = element;
  return {
    view,
    feed: element,
    plus,
    minus,
    series: numberOr(saysCount(facts, "in series"), 1),
    strings,
    isc: { ...amps, low: amps.low / strings, high: amps.high / strings },
    cold: coldVolts(element, build.system.lowestAmbient),
    chain: [],
  };
}

/** Follows entries whose plus stands on the minus of the one before, until the way back to a controller is met. */
function chainOf(
  first: Modules,
  all: readonly Modules[],
  pieces: Int32Array,
  returns: ReadonlySet<number | undefined>,
): readonly Modules[] {
  const chain = [first];
  for (const at of chain) {
    const piece = pieces[at.minus];
    const next = returns.has(piece) ? undefined : all.find((m) => pieces[m.plus] === piece && !chain.includes(m));
    if (next !== undefined) chain.push(next);
  }
  return chain;
}

/** Nominal volts of the batteries that a node's metal leads to. */
function nominalAt(build: Build, grid: Grid, pieces: Int32Array, node: number): number | undefined {
  const store = grid.stores.find((s) => pieces[s.plus] === pieces[node]);
  return store === undefined ? undefined : build.part(store.element.part)?.supply?.nominal;
}

const numberOr = (stated: Stated<number>, usual: number): number => (typeof stated === "number" ? stated : usual);

/** Sum over what stands in series. */
export const overChain = ({ chain }: Modules, of: (m: Modules) => Span): Span =>
  chain.reduce((sum, m) => ({ low: sum.low + of(m).low, high: sum.high + of(m).high }), { low: 0, high: 0 });

/** What keeps the volts of a string in the cold apart, in words and by the part that should say it. */
export function lacksOf({ chain }: Modules): readonly { readonly fact: string; readonly about: string }[] {
  return chain.flatMap(({ cold, view }) =>
    cold.lacks.map((lack) =>
      lack === "volts per kelvin"
        ? { fact: `how the volts of ${view.id} change with cold`, about: view.subject.path }
        : { fact: "the lowest temperature", about: "climate" },
    ),
  );
}

/** Ways in which a module can lie, the coolest first. */
export const mountings = ["racked", "close", "glued"] as const;

/** How much the sun heats the cells above the air, K·m²/W, by how the module lies; from the least to the most where nobody says it. */
export function heatingOf({ view }: Modules): { readonly low: LookedUp; readonly high: LookedUp } | null {
  const stated = saysWord(factsOf(view), "mounting", mountings);
  const at = (mounting: (typeof mountings)[number]) => lookUp(cellHeating, mounting, "kM2PerW");
  const [low, high] =
    stated === undefined || stated === "unknown" ? [at("racked"), at("glued")] : [at(stated), at(stated)];
  return low === null || high === null ? null : { low, high };
}

/** What a module loses at most beside open circuit, where its maker gives no coefficient of its own for its best volts. */
const AT_MOST = 1.25;

/** Change of the volts at maximum power for each kelvin, as a share; as many volts as open circuit, up to a quarter more, where it is not stated. */
export function bestFallOf({ view, feed }: Modules): { readonly span: Span; readonly isStated: boolean } | null {
  const facts = factsOf(view);
  const slope = facts["Vmp per kelvin"] as Fact<Slope> | undefined; // the kind reads the key so
  const own = fallEachKelvin(slope, facts["Vmp"] as Fact<Measure> | undefined); // as above
  if (own !== undefined) return { span: own, isStated: true };
  const { bestVolts, voltsPerKelvin: open, volts } = feed;
  if (open === undefined || bestVolts === undefined) return null;
  const ratio = volts.high / bestVolts.high;
  return { span: { low: AT_MOST * ratio * open.low, high: ratio * open.high }, isStated: false };
}

/** A figure that a part states, or what is usual. */
export const figureOr = (view: PartView, key: string, usual: number): Span | "unknown" => {
  const stated = saysFigure(factsOf(view), key);
  return stated === undefined ? { low: usual, high: usual } : stated;
};
