import type { Diagnostic } from "../diagnostic.ts";
import { placed, shown, type Fact } from "../plan/index.ts";
import { indexParts, type BoundPart } from "./bind-parts.ts";
import type { BoundPoint } from "./bound-segment.ts";
import type { BoundCircuit, Currents } from "./find-currents.ts";
import type { NameIndex } from "./name-index.ts";
import type { Port } from "./terminal.ts";

/** Inlets that a path leads to, each with what makes the current that comes to it; none: only a lead from shore does. */
export type Plugs = ReadonlyMap<string, readonly BoundPart[]>;

const AHEAD_AND_BEHIND: readonly Port[] = [
  { name: "in", current: "AC", shape: "pair" },
  { name: "out", current: "AC", shape: "pair" },
];

/**
 * Finds inlets that a path leads to from something that makes alternating current: a generator, another inlet, a board, an inverter. Such an inlet is a plug
 * in the line from there. One that only a lead comes to is where shore enters, and has two sides all the same.
 *
 * What is fed through the inlet itself feeds nothing to it: a lead from an outlet aboard back to the inlet leaves it where shore enters.
 */
export function findPlugs(parts: readonly BoundPart[], circuits: readonly BoundCircuit[]): Plugs {
  const inlets = parts.filter((p) => p.traits.inlet === true);
  if (inlets.length === 0) return new Map();
  const ends = new Map<string, { readonly own: BoundPoint; readonly far: BoundPoint }[]>();
  const put = (own: BoundPoint, far: BoundPoint): void => {
    ends.set(own.part.key, [...(ends.get(own.part.key) ?? []), { own, far }]);
  };
  const segments = circuits.flatMap((c) => (c.protectiveOnly ? [] : c.segments));
  for (const { from, to } of segments) {
    put(from, to);
    put(to, from);
  }
  return new Map(
    inlets.flatMap((inlet): [string, readonly BoundPart[]][] => {
      const arriving = segments.flatMap((s) => (s.to.part === inlet ? [s.from] : []));
      const leaving = new Set(segments.flatMap((s) => (s.from.part === inlet ? [s.to.part] : [])));
      const makers = new Set<BoundPart>();
      for (const point of arriving) {
        const found = makersAt(point, inlet, ends);
        const isBack = point.part.traits.enters !== true && [...leaving].some((p) => found.parts.has(p));
        if (!isBack) for (const maker of found.makers) makers.add(maker);
      }
      const isLed = leaving.size > 0 && arriving.some(({ part }) => part.traits.lead === true);
      return makers.size > 0 || isLed ? [[inlet.key, [...makers]]] : [];
    }),
  );
}

/** Follows alternating current back from a point to all that makes it, not through the inlet. */
function makersAt(
  start: BoundPoint,
  inlet: BoundPart,
  ends: ReadonlyMap<string, readonly { readonly own: BoundPoint; readonly far: BoundPoint }[]>,
): { readonly makers: ReadonlySet<BoundPart>; readonly parts: ReadonlySet<BoundPart> } {
  const makers = new Set<BoundPart>();
  const parts = new Set<BoundPart>([inlet]);
  const queue = [start];
  for (const { part, port } of queue) {
    if (parts.has(part)) continue;
    const isConverter = part.ports.some((p) => p.current === "DC") && part.ports.some((p) => p.current === "AC");
    // What arrives at an input is fed there, and gives nothing.
    if (isConverter && port.name !== "out") continue;
    parts.add(part);
    if (isConverter || part.traits.enters === true) makers.add(part);
    for (const { own, far } of ends.get(part.key) ?? []) if (own.port.current !== "DC") queue.push(far);
  }
  return { makers, parts };
}

interface Bound {
  readonly bound: BoundCircuit[];
  readonly currents: Currents;
}

/**
 * Binds circuits, and once more where inlets turn out to be plugs, which have a side that is fed and one that feeds.
 *
 * @param bind finds the paths of all circuits among the parts of an index
 */
export function bindPlugs(
  parts: BoundPart[],
  index: NameIndex<BoundPart>,
  say: (d: Diagnostic) => void,
  bind: (among: NameIndex<BoundPart>, tell: (d: Diagnostic) => void) => Bound,
): Bound & { parts: BoundPart[]; index: NameIndex<BoundPart>; plugs: Plugs } {
  const told: Diagnostic[] = [];
  const first = bind(index, (d) => told.push(d));
  const plugs = findPlugs(parts, first.bound);
  if (plugs.size === 0) {
    for (const d of told) say(d);
    return { ...first, parts, index, plugs };
  }
  checkPlugs(parts, plugs, say);
  const made = parts.map((p) => {
    const makers = plugs.get(p.key);
    return makers === undefined ? p : withSides(p, makers.length > 0);
  });
  const again = indexParts(made);
  return { ...bind(again, say), parts: made, index: again, plugs };
}

/** An inlet that stands in a line; where something feeds it, it is out or in, and nothing enters by it. */
function withSides(part: BoundPart, isFed: boolean): BoundPart {
  const sides = { ports: AHEAD_AND_BEHIND, traits: { ...part.traits, passes: true } } as const;
  if (!isFed) return { ...part, ...sides };
  const traits = Object.fromEntries(Object.entries(sides.traits).filter(([trait]) => trait !== "enters"));
  return { ...part, ...sides, traits: { ...traits, plug: true }, positions: ["out", "in"] };
}

/** Facts of a supply as it enters: where the plan feeds a plug, what feeds it says them. */
const OF_SUPPLY = ["earthing", "loop impedance", "prospective current"] as const;

/** Tells what a plug says of its supply that what feeds it says otherwise, and what it says in vain. */
function checkPlugs(parts: readonly BoundPart[], plugs: Plugs, say: (d: Diagnostic) => void): void {
  for (const plug of parts) {
    const makers = plugs.get(plug.key);
    if (makers === undefined) continue;
    const [maker] = makers;
    const facts = factsOf(plug);
    for (const key of OF_SUPPLY) {
      const own = facts[key];
      if (own === undefined || own.value === "unknown" || maker === undefined) continue;
      const [fedKey, fed] = saidAhead(key, maker);
      const at = placed(plug.plan.base, own.span);
      const about = `parts.${plug.key}.${key}`;
      const clash = fed !== undefined && makers.length === 1 && isOther(key, own.value, fed.value);
      if (clash)
        say({
          id: "system/plug-contradicts",
          level: "warning",
          at: [at, placed(maker.plan.base, fed.span)],
          about,
          message: `\`${key}\` of \`${shown(plug.key)}\` contradicts \`${fedKey}\` of \`${shown(maker.key)}\`, which feeds it; what feeds it counts`,
          hint: `mend one of the two, or leave \`${key}\` out of \`${shown(plug.key)}\``,
        });
      else if (fed === undefined)
        say({
          id: "system/plug-says-supply",
          level: "note",
          at: [at],
          about,
          message: `\`${key}\` of \`${shown(plug.key)}\` is not used: \`${shown(maker.key)}\` feeds it, and says nothing of it`,
          hint: `write it at \`${shown(maker.key)}\`: \`${fedKey}: …\``,
        });
    }
  }
}

type Facts = Readonly<Record<string, Fact<unknown> | undefined>>;

const factsOf = ({ plan }: BoundPart): Facts => ({ ...plan.facts, ...plan.kindFacts });

/** Where the maker of a supply says what a plug says of it, and what it says. */
function saidAhead(key: (typeof OF_SUPPLY)[number], maker: BoundPart): readonly [string, Fact<unknown> | undefined] {
  const facts = factsOf(maker);
  if (key !== "earthing" || maker.traits.inlet === true) return [key, facts[key]];
  const join = facts["neutral–earth join"];
  return join === undefined ? ["neutral", facts["neutral"]] : ["neutral–earth join", join];
}

/** Whether two statements cannot both be true; of figures the plug lies behind a lead, so that its current is less and its impedance more. */
function isOther(key: (typeof OF_SUPPLY)[number], own: unknown, fed: unknown): boolean {
  if (fed === "unknown") return false;
  if (isRange(own) && isRange(fed)) return key === "loop impedance" ? own.high < fed.low : own.low > fed.high;
  const isFloating = fed === "floating" || fed === "never" || fed === "IT";
  const isTwin = fed === "TN" || fed === "TT";
  return isTwin ? own !== fed : (own === "IT") !== isFloating;
}

const isRange = (v: unknown): v is { readonly low: number; readonly high: number } =>
  typeof v === "object" && v !== null && "low" in v && "high" in v;
