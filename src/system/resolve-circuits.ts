import type { Diagnostic, Span } from "../diagnostic.ts";
import {
  foldName,
  isUnknown,
  known,
  listed,
  placed,
  shown,
  type DeviceOnLine,
  type Fact,
  type Plan,
  type PlanItem,
  type CircuitFacts,
} from "../plan/index.ts";
import type { BoundPart } from "./bind-parts.ts";
import type { BoundSegment } from "./bind-path.ts";
import type { Draw, Join } from "./element.ts";
import type { FactReader, Ledger } from "./fact-reader.ts";
import type { BoundCircuit, Currents } from "./find-currents.ts";
import { makeConductors } from "./make-conductors.ts";
import { indexNames, type NameIndex } from "./name-index.ts";
import { plainZones } from "./resolve-zones.ts";
import { supplyNamed } from "./resolve-supplies.ts";
import type { GivenDevice, Supply, SystemCircuit, Zone, ZoneShare } from "./system.ts";
import { terminalName, type Fn } from "./terminal.ts";
import { exactly, given, type Value } from "./value.ts";

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
  const byKey = new Map(plan.circuits.map((c) => [c.key, c]));
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
    stock: readStock(plan, sources.ledger.readerFor("stock")),
  };
  const joins: Join[] = [];
  const circuits = bound.flatMap((circuit) => {
    const item = byKey.get(circuit.key);
    return item === undefined ? [] : [resolveCircuit(item, circuit, shared, joins)];
  });
  return { circuits, joins };
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
  readonly stock: StockMake;
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
  item: PlanItem<CircuitFacts>,
  bound: BoundCircuit,
  shared: Shared,
  joins: Join[],
): SystemCircuit {
  const { facts, key, base } = item;
  const { segments } = bound;
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
      : supplyFor(first, last, current, shared);

  const { total, each } = lengthsOf(item, segments, read, say);
  const cores = known(facts.cores)?.flatMap((c): Fn[] => (c.value === "unknown" ? [] : [c.value]));
  const inPE = facts["in PE"];
  const returns = findReturn(item, supply, shared);
  const back = read.stated(facts["return length"], "return length");
  const conductors = makeConductors({
    circuit: key,
    current,
    cores: cores ?? supply?.cores ?? ["L", "N", "PE"],
    coresGiven: cores !== undefined && current === "DC",
    segments,
    lengths: each,
    returnLength: back ?? (returns.throughStructure ? exactly(0, "default") : undefined),
    returnTo: returns.to,
    returnForced: returns.forced,
    noReturn: returns.none,
    ownMinus: shared.ownMinus,
    inPE:
      inPE === undefined || inPE.value === "unknown"
        ? undefined
        : shared.parts.find(inPE.value, placed(base, inPE.span), `${about}.in PE`, say),
  });

  const chained = (known(facts.then) ?? []).flatMap((fact) => {
    if (fact.value === "unknown") return [];
    const part = shared.parts.find(fact.value, placed(base, fact.span), `${about}.then`, say);
    return part === undefined ? [] : [part];
  });
  // Chained loads hang on the terminals of the last part, with no metres between.
  for (const part of chained) joins.push(...chainJoins(key, last, part, current, supply));
  if (chained.length > 0) {
    read.assume({
      id: "chained-loads",
      value: 0,
      says: "no metres are counted between loads chained by `then`",
      trust: "practice",
      pin: "then",
    });
  }

  const stops = [...segments.map((s) => s.to.part), ...chained];
  const draws = stops.flatMap((p) => (shared.drawsOf.get(p.key) ?? []).map((d) => d.id));
  const zoneShares = zonesOf(item, shared);
  const bundle = known(facts.bundle);
  const asFound = known(facts["as found"]) ?? false;
  const size = facts.wire === undefined ? (asFound ? "unknown" : undefined) : facts.wire.value;
  if (size === "unknown") read.needed(undefined, "wire", 0);
  const demand = read.stated(facts.demand, "demand");
  const dropLimit = read.stated(facts.drop, "drop");
  const dropClass = known(facts["drop class"]);
  const ambient = known(facts.ambient);

  return {
    id: key,
    current,
    ...(supply === undefined ? {} : { supply: supply.id }),
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
          : bundle.flatMap((b) => (b.value === "unknown" ? [] : [{ zone: b.name, count: b.value }])),
    parallel: known(facts.parallel) ?? 1,
    sheathed: isUnknown(facts.sheathed) ? "unknown" : (known(facts.sheathed) ?? false),
    asFound,
    ...(size === undefined ? {} : { size }),
    metal: known(facts.metal) ?? shared.stock.metal,
    strands: known(facts.strands) ?? shared.stock.strands,
    insulationC: read.stated(facts.insulation, "insulation") ?? shared.stock.insulationC,
    devices: devicesOf(item, segments, asFound, read, shared),
    ...(demand === undefined ? {} : { demand }),
    ...(dropLimit === undefined ? {} : { dropLimit }),
    ...(dropClass === undefined ? {} : { dropClass }),
    draws,
    keySpan: bound.keyAt,
    ...(facts.length === undefined ? {} : { lengthSpan: placed(base, facts.length.span) }),
  };
}

function supplyFor(first: BoundSegment, last: BoundSegment, current: "DC" | "AC", shared: Shared): Supply | undefined {
  for (const part of [first.from.part, last.to.part]) {
    const supply = shared.supplyOf.get(part.key);
    if (supply?.current === current) return supply;
  }
  return shared.supplies.find((s) => s.current === current);
}

/** The run's length and that of each of its stretches between stops. */
function lengthsOf(
  item: PlanItem<CircuitFacts>,
  segments: readonly BoundSegment[],
  read: FactReader,
  say: (d: Diagnostic) => void,
): { total: Value; each: Value[] } {
  const { facts, base, key } = item;
  const legs = known(facts.legs);
  if (legs !== undefined) {
    const values = legs.map((leg) => (leg.value === "unknown" ? read.needed(undefined, "legs", 0) : given(leg.value)));
    if (values.length === segments.length) {
      const sum = values.reduce((a, b) => ({ low: a.low + b.low, high: a.high + b.high, origin: worse(a, b) }));
      return { total: sum, each: values };
    }
    say({
      id: "system/legs-do-not-fit",
      level: "error",
      at: facts.legs === undefined ? [] : [placed(base, facts.legs.span)],
      about: `circuits.${key}.legs`,
      message: `the path has ${segments.length} stretch${segments.length === 1 ? "" : "es"} between its stops, ${values.length} legs are given`,
      hint: "give one length for each stretch, in order",
    });
  }
  const straight = segments.reduce<number | undefined>((sum, { from, to }) => {
    const d = straightDistance(from.part.position, to.part.position);
    return sum === undefined || d === undefined ? undefined : sum + d;
  }, 0);
  const total = read.needed(facts.length, "length", straight ?? 0);
  // Which of several stops take how much of it is not said: all of it before the first is the pessimistic reading.
  if (segments.length > 1 && legs === undefined) {
    read.assume({
      id: "length-before-first-stop",
      value: 0,
      says: "a run with several stops and one length has all its metres before the first stop",
      trust: "practice",
      pin: "legs",
    });
  }
  return { total, each: segments.map((_, i) => (i === 0 ? total : exactly(0, total.origin))) };
}

const worse = (a: Value, b: Value): Value["origin"] =>
  a.origin === "unknown" || b.origin === "unknown" ? "unknown" : a.origin;

/** Metres between two points in a straight line. */
export function straightDistance(
  a: readonly [number, number, number] | undefined,
  b: readonly [number, number, number] | undefined,
): number | undefined {
  return a === undefined || b === undefined ? undefined : Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}

/** Where this circuit's return goes when an end has no minus of its own. */
function findReturn(
  item: PlanItem<CircuitFacts>,
  supply: Supply | undefined,
  shared: Shared,
): { to: string | undefined; forced: boolean; none: boolean; throughStructure: boolean } {
  const fact = item.facts.return;
  if (fact !== undefined && fact.value !== "unknown") {
    if (foldName(fact.value) === "none") return { to: undefined, forced: false, none: true, throughStructure: false };
    const at = placed(item.base, fact.span);
    const [name = "", joint = ""] = fact.value.split(":").map((s) => s.trim());
    const part = shared.parts.find(name, at, `circuits.${item.key}.return`, shared.say);
    if (part === undefined) return { to: undefined, forced: false, none: false, throughStructure: false };
    return {
      to: returnTerminal(part, joint),
      forced: true,
      none: false,
      throughStructure: part.ports.every((p) => p.shape === "pole") && part.ports.length > 1,
    };
  }
  const part = supply?.returnPart === undefined ? undefined : shared.parts.get(supply.returnPart);
  return {
    to: part === undefined ? undefined : returnTerminal(part, ""),
    forced: false,
    none: false,
    throughStructure: false,
  };
}

function returnTerminal(part: BoundPart, joint: string): string {
  const port = part.ports.find((p) => foldName(p.name) === foldName(joint)) ?? part.ports[0];
  return terminalName(part.key, port?.name ?? "", port?.shape === "pair" ? "−" : "pole");
}

/** Hangs a chained load on the end of a path. */
function chainJoins(
  circuit: string,
  last: BoundSegment,
  part: BoundPart,
  current: "DC" | "AC",
  supply: Supply | undefined,
): Join[] {
  const end = last.to;
  const port = part.ports[0];
  if (port === undefined) return [];
  const functions: readonly Fn[] = current === "DC" ? ["+", "−"] : (supply?.cores ?? ["L", "N", "PE"]);
  return functions.map((fn) => ({
    is: "join",
    id: `${circuit}>${part.key}:${fn}`,
    part: part.key,
    a: terminalName(end.part.key, end.port.name, fn),
    b: terminalName(part.key, port.name, fn),
  }));
}

function zonesOf(item: PlanItem<CircuitFacts>, shared: Shared): ZoneShare[] {
  const { facts, base, key } = item;
  const about = `circuits.${key}`;
  const check = (name: string, span: Span, where: string): string | undefined => {
    const zone = shared.zoneIndex.get(name);
    if (zone !== undefined) return zone.id;
    const plain = plainZones.find((z) => z === foldName(name));
    if (plain !== undefined) return plain;
    shared.zoneIndex.find(name, placed(base, span), where, shared.say);
    return undefined;
  };
  const shares: ZoneShare[] = [];
  const zones = known(facts.zones);
  if (zones !== undefined) {
    for (const share of zones) {
      const zone = check(share.name, share.nameSpan, `${about}.zones`);
      if (zone === undefined || share.value === "unknown") {
        if (zone !== undefined) shares.push({ zone, metres: "some" });
        continue;
      }
      shares.push({ zone, metres: typeof share.value === "string" ? share.value : given(share.value) });
    }
  }
  for (const fact of known(facts.zone) ?? []) {
    if (fact.value === "unknown") continue;
    const zone = check(fact.value, fact.span, `${about}.zone`);
    if (zone !== undefined) shares.push({ zone, metres: "rest" });
  }
  return shares;
}

/** Devices as the plan gives them: in the circuit's own line, or in the panel way that it starts from. */
function devicesOf(
  item: PlanItem<CircuitFacts>,
  segments: readonly BoundSegment[],
  asFound: boolean,
  read: FactReader,
  shared: Shared,
): SystemCircuit["devices"] {
  const { facts, base, key } = item;
  const about = `circuits.${key}`;
  const first = segments[0]?.from;
  const last = segments.at(-1)?.to;
  const devices: GivenDevice[] = [];
  let said = false;
  let unknown = false;

  const take = (kind: "fuse" | "breaker", device: DeviceOnLine, span: Span | undefined): void => {
    said = true;
    if (device.is === "none") return;
    const fromName = device.is === "device" ? device.from : undefined;
    let end: "from" | "to" = "from";
    if (fromName !== undefined && first !== undefined && last !== undefined) {
      const [partName = ""] = fromName.split(":");
      const folded = foldName(partName);
      if (foldName(last.part.key) === folded) end = "to";
      else if (foldName(first.part.key) !== folded) {
        shared.say({
          id: "system/device-not-at-an-end",
          level: "error",
          at: span === undefined ? [] : [placed(base, span)],
          about: `${about}.${kind}`,
          message: `a device is measured from one end of its circuit; \`${shown(fromName)}\` is neither \`${shown(first.text)}\` nor \`${shown(last.text)}\``,
          hint: `write ${listed([`at ${first.part.key}`, `at ${last.part.key}`], "or")}`,
        });
      }
    }
    if (device.is === "part") {
      const part = shared.parts.find(
        device.part,
        span === undefined ? [0, 0] : placed(base, span),
        `${about}.${kind}`,
        shared.say,
      );
      const rating = part?.plan.kindFacts["rated"]?.value as { low: number; high: number } | "unknown" | undefined; // read by the kind's own rule
      const family = part?.plan.kindFacts["family"]?.value;
      devices.push({
        kind,
        rating:
          rating === undefined || rating === "unknown"
            ? "unknown"
            : { low: rating.low, high: rating.high, origin: "given" },
        ...(typeof family === "string" && family !== "unknown" ? { family } : {}),
        end,
        distance: exactly(0, "default"),
        ...(span === undefined ? {} : { span: placed(base, span) }),
      });
      return;
    }
    if (device.rating === "unknown") read.needed(undefined, kind, 0);
    devices.push({
      kind,
      rating: device.rating === "unknown" ? "unknown" : given(device.rating),
      ...(device.family === undefined ? {} : { family: device.family }),
      ...(device.poles === undefined ? {} : { poles: device.poles }),
      end,
      distance: device.distance === undefined ? exactly(0, "given") : given(device.distance),
      ...(span === undefined ? {} : { span: placed(base, span) }),
    });
  };

  for (const kind of ["fuse", "breaker"] as const) {
    const fact: Fact<readonly Fact<DeviceOnLine>[]> | undefined = facts[kind];
    if (fact === undefined) continue;
    if (fact.value === "unknown") {
      unknown = true;
      read.needed(undefined, kind, 0);
      continue;
    }
    for (const one of fact.value) {
      if (one.value === "unknown") {
        unknown = true;
        read.needed(undefined, kind, 0);
      } else {
        take(kind, one.value, one.span);
      }
    }
  }
  if (!said && !unknown && first !== undefined) {
    const ways = first.part.plan.kindFacts["ways"]?.value;
    if (Array.isArray(ways)) {
      const list = ways as { name: string; value: DeviceOnLine | "unknown" }[]; // read by the panel's own rule
      const way = list.find((w) => foldName(w.name) === foldName(first.port.name));
      if (way !== undefined && way.value !== "unknown" && way.value.is === "device") {
        take(way.value.family?.toLowerCase().includes("fuse") === true ? "fuse" : "breaker", way.value, undefined);
      } else if (way?.value === "unknown") {
        unknown = true;
      }
    }
  }
  if (unknown) return "unknown";
  return said ? devices : asFound ? [] : "propose";
}
