import type { Diagnostic } from "../diagnostic.ts";
import {
  circuitKeys,
  isUnknown,
  known,
  listed,
  placed,
  shown,
  type CircuitFacts,
  type KeyRule,
  type KeyRules,
  type Plan,
  type PlanItem,
} from "../plan/index.ts";
import type { BoundPart } from "./bind-parts.ts";
import type { BoundPoint, BoundSegment } from "./bind-path.ts";
import { bundleInCables, cablesOf, withSharedCable } from "./circuit-cables.ts";
import { coloursOf, coresOf } from "./circuit-colours.ts";
import { lengthsOf } from "./circuit-lengths.ts";
import { checkReturn, findReturn, LEAD_TO_STRUCTURE } from "./circuit-return.ts";
import { bundlesOf, zonesOf } from "./circuit-zones.ts";
import type { Draw, Join } from "./element.ts";
import type { FactReader, Ledger } from "./fact-reader.ts";
import type { BoundCircuit, Currents } from "./find-currents.ts";
import { findInPE } from "./find-in-pe.ts";
import { isOwnSide } from "./find-supplies.ts";
import { devicesOf } from "./given-devices.ts";
import { makeConductors } from "./make-conductors.ts";
import { indexNames, type NameIndex } from "./name-index.ts";
import { sayNoMinus, supplyNamed } from "./resolve-supplies.ts";
import type { PlannedCable, Supply, SystemCircuit, Zone } from "./system.ts";
import { rulesOfCircuit } from "./rules-of-circuit.ts";
import { shareSizes } from "./share-sizes.ts";
import { functionsOf, terminalName, type CurrentKind, type Fn, type Port } from "./terminal.ts";
import { noteUsualInstall, type NamedSets } from "./usual-install.ts";
import { given, type Value } from "./value.ts";

/** What circuits are resolved from. */
export interface CircuitSources {
  readonly plan: Plan;
  readonly bound: readonly BoundCircuit[];
  readonly currents: Currents;
  readonly supplies: readonly Supply[];
  readonly supplyOf: ReadonlyMap<string, Supply>;
  readonly parts: NameIndex<BoundPart>;
  readonly zones: readonly Zone[];
  readonly draws: readonly Draw[];
  readonly ledger: Ledger;
  readonly say: (d: Diagnostic) => void;
}

/** Makes conductors of each circuit and brings its facts to values; chained loads are joined to the end of their circuit. */
export function resolveCircuits(sources: CircuitSources): { circuits: SystemCircuit[]; joins: Join[] } {
  const { plan, bound } = sources;
  const byKey = new Map([...plan.circuits].reverse().map((c) => [c.key, c])); // of two with one name the first counts
  const ownMinus = new Set<string>();
  for (const { segments } of bound) {
    for (const { from, to } of segments) {
      for (const point of [from, to]) if (point.fn === "−") ownMinus.add(point.part.key);
    }
  }
  const zones = indexNames("zone", sources.zones, (z) => z.id);
  const shared: Shared = {
    ...sources,
    ownMinus,
    zoneIndex: zones,
    drawsOf: drawsByPart(sources.draws),
    reached: new Set(bound.flatMap(({ segments }) => segments.map((s) => s.to.part.key))),
    stock: readStock(plan, sources.ledger.readerFor("stock")),
    cables: cablesOf(plan, sources.say),
    sets: new Map(),
  };
  const joins: Join[] = [];
  const circuits = bound.flatMap((circuit) => {
    const item = byKey.get(circuit.key);
    return item === undefined ? [] : [resolveCircuit(item, circuit, shared, joins)];
  });
  return { circuits: shareSizes(bundleInCables(circuits), plan, sources.say), joins };
}

interface StockMake {
  readonly metal: SystemCircuit["metal"];
  readonly strands: string;
  readonly insulationC: Value;
}

interface Shared extends CircuitSources {
  readonly ownMinus: ReadonlySet<string>;
  readonly zoneIndex: NameIndex<Zone>;
  readonly drawsOf: ReadonlyMap<string, readonly Draw[]>;
  /** Parts that some path leads to. */
  readonly reached: ReadonlySet<string>;
  readonly stock: StockMake;
  readonly cables: ReadonlyMap<string, PlannedCable>;
  readonly sets: NamedSets;
}

function readStock(plan: Plan, read: FactReader): StockMake {
  const { metal, strands, insulation } = plan.stock;
  if (known(metal) === undefined) {
    read.assume({ id: "stock-metal", value: 0, says: "wire is tinned copper", trust: "practice", pin: "stock: metal" });
  }
  if (known(strands) === undefined) {
    read.assume({
      id: "stock-strands",
      value: 5,
      says: "wire is finely stranded, class 5",
      trust: "practice",
      pin: "stock: strands",
    });
  }
  return {
    metal: known(metal) ?? "tinned copper",
    strands: known(strands) ?? "class 5",
    insulationC: read.orElse(insulation, {
      id: "stock-insulation",
      value: 90,
      says: "insulation is rated 90 °C",
      trust: "practice",
      pin: "stock: insulation",
      bounds: [60, 105],
    }),
  };
}

function drawsByPart(draws: readonly Draw[]): Map<string, Draw[]> {
  const map = new Map<string, Draw[]>();
  for (const draw of draws) {
    const there = map.get(draw.part);
    if (there === undefined) map.set(draw.part, [draw]);
    else there.push(draw);
  }
  return map;
}

function resolveCircuit(
  written: PlanItem<CircuitFacts>,
  bound: BoundCircuit,
  shared: Shared,
  joins: Join[],
): SystemCircuit {
  const cable = shared.cables.get(written.key);
  const item = { ...written, facts: withSharedCable(written, cable, shared.say) };
  const { facts, key, base } = item;
  const segments = bound.segments.filter((s) => s.joint !== true);
  const about = `circuits.${key}`;
  const { say, ledger } = shared;
  const read = ledger.readerFor(key);
  const first = segments[0];
  const last = segments.at(-1);
  if (first === undefined || last === undefined) throw new Error(`circuit ${key} was bound without a segment`);
  const current = shared.currents.ofCircuit(bound);

  const named = facts.system;
  const supply =
    named !== undefined && named.value !== "unknown"
      ? supplyNamed(named.value, placed(base, named.span), `${about}.system`, shared.supplies, say)
      : supplyFor(bound, first, last, current, shared);

  const { total, each } = lengthsOf(item, segments, read, say);
  noteUnknowns(facts, read);
  const coresGiven = known(facts.cores)?.flatMap((c): Fn[] => (c.value === "unknown" ? [] : [c.value]));
  const cores = coresGiven ?? supply?.cores ?? ["L", "N", "PE"];
  for (const { from, to } of segments)
    for (const point of [from, to]) checkFunction(point, current, supply, about, say);
  const inPE = facts["in PE"];
  const returns = findReturn(item, supply, shared.parts, say);
  if (current === "DC" && returns.to === undefined && !returns.none)
    checkReturn(item, segments, supply, shared.plan, shared.ownMinus, say);
  const back = read.stated(facts["return length"], "return length");
  const conductors = makeConductors({
    circuit: key,
    current,
    cores,
    coresGiven: coresGiven !== undefined,
    segments,
    lengths: each,
    returnLength: back ?? (returns.throughStructure ? read.assume(LEAD_TO_STRUCTURE) : undefined),
    returnTo: returns.to,
    returnForced: returns.forced,
    noReturn: returns.none,
    ownMinus: shared.ownMinus,
    inPE:
      inPE === undefined || inPE.value === "unknown"
        ? undefined
        : findInPE(inPE.value, placed(base, inPE.span), key, current, shared),
  });

  const chained = (known(facts.then) ?? []).flatMap((fact) => {
    if (fact.value === "unknown") return [];
    const at = placed(base, fact.span);
    const part = shared.parts.find(fact.value, at, `${about}.then`, say);
    if (part === undefined) return [];
    const port = part.ports.find((p) => p.name === "") ?? part.ports[0];
    if (port !== undefined && isPair(port, current) && isPair(last.to.port, current)) {
      // Chained loads hang on the terminals of the last part, with no metres between.
      joins.push(...joinPoints(key, last.to, { ...last.to, part, port }, current, cores));
    } else {
      const culprit = port !== undefined && isPair(port, current) ? last.to.part : part;
      say({
        id: "system/then-not-a-load",
        level: "error",
        at: [at],
        about: `${about}.then`,
        message: `\`then\` chains loads one after another; \`${shown(culprit.key)}\` has one pole only`,
        hint: "give it a circuit of its own",
      });
      return [];
    }
    return [part];
  });
  for (const { from, to, joint } of bound.segments) {
    if (joint === true) joins.push(...joinPoints(key, to, from, current, cores));
  }
  if (chained.length > 0) {
    read.assume({
      id: "chained-loads",
      value: 0,
      says: "no metres are counted between loads chained by `then`",
      trust: "practice",
      pin: "then",
    });
  }

  // A path may be written from its load.
  const start = shared.reached.has(first.from.part.key) ? [] : [first.from.part];
  const stops = [...start, ...bound.segments.map((s) => s.to.part), ...chained];
  const draws = stops.flatMap((p) => (shared.drawsOf.get(p.key) ?? []).map((d) => d.id));
  const zoneShares = zonesOf(item, shared.zoneIndex, say);
  const bundle = known(facts.bundle);
  const asFound = known(facts["as found"]) ?? false;
  const wire = facts.wire?.value;
  // A cable pins the size: one that cannot be read or is `unknown` does so too, and nothing else is chosen in its place.
  const inUnclear = wire === undefined && cable?.isUnclear === true;
  const untold = asFound || inUnclear ? "unknown" : undefined;
  const size = wire === undefined ? untold : wire === "unknown" ? wire : wire.size;
  const unreadWire = facts.wire?.unread ?? (inUnclear ? cable.unread : undefined);
  if (size === "unknown" && !inUnclear) read.miss(facts.wire, "wire");
  const demand = read.stated(facts.demand, "demand");
  const dropLimit = read.stated(facts.drop, "drop");
  const dropClass = known(facts["drop class"]);
  const ambient = known(facts.ambient);
  const method = facts.method?.value;
  const rules = rulesOfCircuit([first.from.part, ...stops], supply);
  if (current === "DC") noteUsualInstall(facts, { supply, ...rules }, read, shared.sets);
  const terminals = isUnknown(facts.terminals) ? ANY_TERMINALS : read.stated(facts.terminals, "terminals");
  const boughtAs = known(facts["bought as"]);

  return {
    id: key,
    current,
    ...(supply === undefined ? {} : { supply: supply.id }),
    ...rules,
    from: { part: first.from.part.key, port: first.from.port.name },
    to: { part: last.to.part.key, port: last.to.port.name },
    fromText: first.from.text,
    toText: last.to.text,
    conductors,
    length: total,
    zones: zoneShares,
    ...(ambient === undefined ? {} : { ambient: given(ambient) }),
    bundle:
      bundle === undefined
        ? "own"
        : typeof bundle === "number"
          ? bundle
          : bundlesOf(item, bundle, zoneShares, shared.zoneIndex, say),
    parallel: known(facts.parallel) ?? 1,
    sheathed: isUnknown(facts.sheathed) ? "unknown" : (known(facts.sheathed) ?? false),
    ...(cable === undefined ? {} : { cable }),
    colours: coloursOf(item, coresOf(conductors), say),
    ...(boughtAs === undefined ? {} : { boughtAs }),
    asFound,
    cranking: known(facts.cranking) ?? false,
    ...(size === undefined ? {} : { size }),
    ...(unreadWire === undefined ? {} : { unreadWire }),
    metal: known(facts.metal) ?? shared.stock.metal,
    strands: known(facts.strands) ?? shared.stock.strands,
    insulationC: isUnknown(facts.insulation)
      ? ANY_INSULATION
      : (read.stated(facts.insulation, "insulation") ??
        // What is usually bought says nothing of what was found.
        (asFound && shared.stock.insulationC.origin === "default" ? ANY_INSULATION : shared.stock.insulationC)),
    ...(method === undefined ? {} : { method }),
    ...(terminals === undefined ? {} : { terminals }),
    devices: devicesOf(item, segments, total, asFound, read, shared),
    ...(demand === undefined ? {} : { demand }),
    ...(dropLimit === undefined ? {} : { dropLimit }),
    ...(dropClass === undefined ? {} : { dropClass }),
    draws,
    keySpan: bound.keyAt,
    ...(facts.length === undefined ? {} : { lengthSpan: placed(base, facts.length.span) }),
  };
}

function supplyFor(
  bound: BoundCircuit,
  first: BoundSegment,
  last: BoundSegment,
  current: "DC" | "AC",
  shared: Shared,
): Supply | undefined {
  // A battery may be one of a string, with a tap that leads to another supply: the other end then tells more.
  const ends = first.from.part.traits.store === true ? [last.to, first.from] : [first.from, last.to];
  for (const point of ends) {
    const supply = isOwnSide(point) ? shared.supplyOf.get(point.part.key) : undefined;
    if (supply?.current === current) return supply;
  }
  const candidates = shared.supplies.filter((s) => s.current === current);
  if (candidates.length > 1 && !bound.protectiveOnly) {
    shared.say({
      id: "system/supply-open",
      level: "warning",
      at: [bound.keyAt],
      about: `circuits.${bound.key}`,
      message: `nothing tells whether \`${shown(bound.key)}\` belongs to ${listed(
        candidates.map((s) => s.id),
        "or",
      )}; \`${candidates[0]?.id ?? ""}\` is taken`,
      hint: "write `system:` on it, or on a part that it leads to",
    });
  }
  return candidates[0];
}

/** Joins two points terminal by terminal: chained loads, and the points of a joint. */
function joinPoints(
  circuit: string,
  at: BoundPoint,
  other: BoundPoint,
  current: CurrentKind,
  cores: readonly Fn[],
): Join[] {
  const [a, b] = [functionsOf(at.port, current, cores), functionsOf(other.port, current, cores)];
  const functions: readonly Fn[] = current === "DC" ? ["+", "−"] : cores;
  return functions.flatMap((fn, i): Join[] => {
    // A point of one pole meets the plus of a pair.
    const named = (has: readonly Fn[]): Fn | undefined => (has.includes("pole") ? (i === 0 ? "pole" : undefined) : fn);
    const [here, there] = [at.fn ?? named(a), other.fn ?? named(b)];
    if (here === undefined || there === undefined || (i > 0 && at.fn !== undefined)) return [];
    return [
      {
        is: "join",
        id: `${circuit}>${other.part.key}:${fn}`,
        part: other.part.key,
        a: terminalName(at.part.key, at.port.name, here),
        b: terminalName(other.part.key, other.port.name, there),
      },
    ];
  });
}

const isPair = (port: Port, current: CurrentKind): boolean =>
  port.shape === "pair" || (current === "AC" && port.shape === "line");

/** A terminal that a path names must be there in the current that flows. */
function checkFunction(
  point: BoundPoint,
  current: CurrentKind,
  supply: Supply | undefined,
  about: string,
  say: (d: Diagnostic) => void,
): void {
  const { fn, port, part, span } = point;
  if (fn === undefined || port.shape === "pole") return;
  const there: readonly Fn[] =
    current === "AC" ? ["L", "L1", "L2", "L3", "N", "PE"] : port.shape === "pair" ? ["+", "−", "PE"] : ["+"];
  const has =
    there.includes(fn) && (current === "DC" || fn === "PE" || supply === undefined || supply.cores.includes(fn));
  if (has) return;
  if (fn === "−" && current === "DC") {
    sayNoMinus(part, span, about, say);
    return;
  }
  say({
    id: "system/terminal-unknown",
    level: "error",
    at: [span],
    about,
    message: `\`${shown(part.key)}\` has no terminal \`${fn}\` here, where ${current === "AC" ? "alternating" : "direct"} current flows`,
    hint: `it has ${listed(current === "AC" ? (supply?.cores ?? there) : there.filter((f) => f !== "PE"))}`,
  });
}

/** Insulation that nobody knows is rated as the poorest that is sold. */
const ANY_INSULATION: Value = { low: 60, high: 105, origin: "unknown" };

/** Terminals that nobody knows bear as little as any that are sold. */
const ANY_TERMINALS: Value = { low: 60, high: 90, origin: "unknown" };

/** What is `unknown` and decides something is listed as missing, whatever stands in for it. */
function noteUnknowns(facts: CircuitFacts, read: FactReader): void {
  for (const [name, fact] of Object.entries(facts)) {
    const rule: KeyRule<unknown> | undefined = (circuitKeys as KeyRules)[name]; // asked by any name
    if (isUnknown(fact) && rule?.idle !== true) read.miss(fact, name);
  }
}
