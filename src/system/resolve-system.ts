import type { Diagnostic, Told } from "../diagnostic.ts";
import { foldName, known, placed, type DeviceOnLine, type Fact, type Named, type Plan } from "../plan/index.ts";
import { bindParts, type BoundPart } from "./bind-parts.ts";
import { bindPlugs } from "./find-plugs.ts";
import { bindPath } from "./bind-path.ts";
import { checkFamily } from "./check-family.ts";
import { checkDoubleReturns } from "./check-double-returns.ts";
import { checkFed } from "./check-fed.ts";
import { checkLooseEnds } from "./check-loose-ends.ts";
import { checkNeutrals } from "./check-neutrals.ts";
import { checkWays } from "./check-ways.ts";
import type { Draw, InternalElement, Store } from "./element.ts";
import { createLedger } from "./fact-reader.ts";
import { findCurrents, type BoundCircuit, type Currents } from "./find-currents.ts";
import { findPolarity } from "./find-polarity.ts";
import { findSupplies } from "./find-supplies.ts";
import { joinMetal } from "./join-metal.ts";
import type { Kind } from "./kind.ts";
import type { NameIndex } from "./name-index.ts";
import { readMarks } from "./read-marks.ts";
import { movedParts } from "./moved-parts.ts";
import { resolveCircuits } from "./resolve-circuits.ts";
import { resolveInterlocks } from "./resolve-interlocks.ts";
import { resolveStates } from "./resolve-states.ts";
import { resolveStock } from "./resolve-stock.ts";
import { resolveSupplies, voltsAcross } from "./resolve-supplies.ts";
import { resolveZones } from "./resolve-zones.ts";
import { setInBreakers } from "./line-devices.ts";
import { ownRules } from "./rules-of-circuit.ts";
import type { Supply, System, SystemPart } from "./system.ts";
import { inCoreOrder, terminalName, type Fn } from "./terminal.ts";
import { given } from "./value.ts";

/**
 * Binds the names of a plan and makes one graph of it: terminals for every conductor function, what parts hold inside, conductors, and
 * states. Defaults are filled and listed; what is missing is listed too. Chooses nothing.
 *
 * @param kinds the kinds of parts that there are; the same list that the plan was read with
 */
export function resolveSystem(plan: Plan, kinds: readonly Kind[]): Told<System> {
  const diagnostics: Diagnostic[] = [];
  const say = (d: Diagnostic): void => {
    diagnostics.push(d);
  };
  const ledger = createLedger();
  const { parts: named, index: indexed } = bindParts(plan, kinds, say);
  const supplies = resolveSupplies(plan, indexed, ledger, say);

  const anyDC = plan.systems.length === 0 || supplies.some((s) => s.current === "DC");
  const { parts, index, bound, currents, plugs } = bindPlugs(named, indexed, say, (among, tell) =>
    bindCircuits(plan, among, supplies, anyDC ? "DC" : "AC", tell),
  );
  const supplyOf = findSupplies(parts, bound, supplies, currents, plan, say);

  const coresAt = coresOfLoads(plan, bound, index);
  const elements: InternalElement[] = [];
  const systemParts: SystemPart[] = [];
  const acCores = supplies.find((s) => s.current === "AC")?.cores ?? ["L", "N", "PE"];
  for (const part of parts) {
    const open = part.ports[0];
    const current =
      open === undefined ? "DC" : currents.ofPort(part, part.ports.find((p) => p.current === "either") ?? open);
    const supply = supplyOf.get(part.key);
    const ofPart = supply ?? supplies.find((s) => s.current === current);
    // A load stands on the cores of its circuit; what divides or feeds has all of its supply's.
    const own = current === "AC" && part.traits.load === true ? coresAt.get(part.key) : undefined;
    const facts = { ...part.plan.facts, ...part.plan.kindFacts };
    if (part.kind !== undefined) {
      elements.push(
        ...part.kind.elements({
          part: part.key,
          facts,
          read: ledger.readerFor(part.key),
          t: (port, fn) => terminalName(part.key, port, fn),
          current,
          cores: own ?? acCores,
          nominal: own === undefined || ofPart === undefined ? (ofPart?.nominal ?? 12) : voltsAcross(ofPart, own),
          ahead: part.traits.plug === true ? "feed" : part.traits.inlet === true && part.traits.passes === true ? "lead" : null, // prettier-ignore
        }),
      );
    } else if (part.plan.facts.kind?.value === "unknown") ledger.readerFor(part.key).miss(part.plan.facts.kind, "kind");
    // The facts of a kind that is not known here, asked by a name that guards have.
    const family =
      part.traits.guards === undefined ? undefined : (facts as Partial<Record<string, Fact<unknown>>>)["family"];
    if (typeof family?.value === "string" && family.value !== "unknown") {
      checkFamily(family.value, [placed(part.plan.base, family.span)], `parts.${part.key}.family`, say);
    }
    systemParts.push(printPart(part, current, supply));
  }

  const isDirect = (p: SystemPart): boolean => p.current === "DC" && p.kind !== "unknown";
  if (!plan.systems.some((s) => supplies.find((x) => x.id === s.key)?.current === "DC") && systemParts.some(isDirect)) {
    ledger.readerFor("systems").assume({
      id: "direct-supply",
      value: 12,
      says: "direct current has 12 V nominal",
      trust: "practice",
      pin: "systems: DC",
    });
  }
  const zones = resolveZones(plan);
  const ambient = known(plan.climate.ambient);
  const draws = elements.filter((e): e is Draw => e.is === "draw");
  const stores = elements.filter((e): e is Store => e.is === "store");
  const { circuits: wired, joins } = resolveCircuits({
    plan,
    bound,
    currents,
    supplies,
    supplyOf,
    parts: index,
    zones,
    draws,
    ledger,
    say,
  });
  elements.push(...joins);
  checkDoubleReturns(plan, wired, index, say);
  const placeOf = (key: string) => {
    const part = index.get(key)?.plan;
    return part === undefined ? [] : [placed(part.base, part.keySpan)];
  };
  checkLooseEnds(plan, parts, bound, say);
  checkWays(bound, say);
  checkNeutrals(parts, say);
  const root = joinMetal(wired, elements);
  const set = setInBreakers(findPolarity(wired, elements, root, placeOf, say), elements);
  const { circuits } = set;
  elements.splice(0, elements.length, ...set.elements);
  // Where something could not be found, what hangs on it is no news.
  if (!diagnostics.some((d) => d.level === "error")) checkFed(circuits, elements, root, index, say);
  const runs = new Set(
    elements.flatMap((e) =>
      e.is === "draw" || e.is === "converter" || e.is === "feed" || (e.is === "source" && e.from === "generator")
        ? e.part
        : [],
    ),
  );
  const states = resolveStates(
    plan,
    parts,
    index,
    draws,
    stores,
    runs,
    onlyGenerators(elements),
    movedParts(elements, plugs),
    ledger,
    say,
  );

  const system: System = {
    name: plan.name,
    supplies,
    stock: resolveStock(plan, ledger, say),
    ambient:
      ambient === undefined
        ? ledger.readerFor("climate").orElse(plan.climate.ambient, {
            id: "ambient",
            value: 30,
            says: "air where nothing else is said 30 °C",
            trust: "practice",
            pin: "climate: ambient",
            bounds: [0, 50],
          })
        : given(ambient),
    ambientStated: ambient !== undefined,
    ...lowestAmbient(plan),
    zones,
    parts: systemParts,
    elements,
    circuits,
    states,
    ...(plan.interlocks.length === 0 ? {} : { interlocks: resolveInterlocks(plan, elements, systemParts, say) }),
    assumptions: ledger.assumptions(),
    missing: ledger.missing(),
  };
  return { value: system, diagnostics };
}

/**
 * Finds the paths of all circuits. A path that leaves a port open (`BP → INV`) is looked at again when the others have shown what flows
 * at its other end.
 */
function bindCircuits(
  plan: Plan,
  index: NameIndex<BoundPart>,
  supplies: readonly Supply[],
  fallback: "DC" | "AC",
  say: (d: Diagnostic) => void,
): { bound: BoundCircuit[]; currents: Currents } {
  const seen = new Set<string>();
  const found = new Map<string, BoundCircuit>();
  const open: Plan["circuits"][number][] = [];
  const bindOne = (
    circuit: Plan["circuits"][number],
    currents: Currents | undefined,
    tell: (d: Diagnostic) => void,
  ): void => {
    const path = known(circuit.facts.path);
    if (path === undefined) return;
    const segments = bindPath(circuit, path, index, currents, tell);
    if (segments.length === 0) return;
    const cores = known(circuit.facts.cores)?.map((c) => c.value);
    found.set(circuit.key, {
      key: circuit.key,
      keyAt: placed(circuit.base, circuit.keySpan),
      segments,
      said: saidCurrent(circuit.facts.system?.value, cores, supplies),
      protectiveOnly: cores?.every((c) => c === "PE") ?? false,
    });
  };
  for (const circuit of plan.circuits) {
    const folded = foldName(circuit.key);
    if (seen.has(folded)) continue;
    seen.add(folded);
    if (circuit.facts.path === undefined && !("path" in circuit.keys) && circuit.unread !== true) {
      say({
        id: "system/path-missing",
        level: "error",
        at: [placed(circuit.base, circuit.keySpan)],
        about: `circuits.${circuit.key}`,
        message: `\`${circuit.key}\` does not say where it leads`,
        hint: "write `path: A → B`",
      });
    }
    const told: Diagnostic[] = [];
    bindOne(circuit, undefined, (d) => told.push(d));
    if (told.some((d) => d.id === "system/terminal-open")) open.push(circuit);
    else for (const d of told) say(d);
  }
  const inOrder = (): BoundCircuit[] =>
    plan.circuits.flatMap((c) => found.get(c.key) ?? []).filter((c, i, all) => all.indexOf(c) === i);
  if (open.length > 0) {
    const sofar = findCurrents(inOrder(), fallback, () => undefined);
    for (const circuit of open) bindOne(circuit, sofar, say);
  }
  const bound = inOrder();
  return { bound, currents: findCurrents(bound, fallback, say) };
}

/**
 * The cores that loads stand on, where the circuit that brings their line names its own. What brings no line (a protective conductor by itself, a neutral
 * between two outlets) adds to them and decides nothing.
 */
function coresOfLoads(
  plan: Plan,
  bound: readonly BoundCircuit[],
  index: NameIndex<BoundPart>,
): ReadonlyMap<string, readonly Fn[]> {
  const ends = new Map(bound.map((b) => [b.key, b.segments.map((s) => s.to.part.key)]));
  const first = new Map(bound.map((b) => [b.key, b.segments.slice(0, 1).map((s) => s.from.part.key)]));
  const lined = new Map<string, readonly Fn[] | "all of its supply">();
  const added = new Map<string, readonly Fn[]>();
  for (const { key, facts } of plan.circuits) {
    const own = known(facts.cores)?.flatMap((c): Fn[] => (c.value === "unknown" ? [] : [c.value]));
    const chained = (known(facts.then) ?? []).flatMap((f) =>
      f.value === "unknown" ? [] : (index.get(f.value)?.key ?? []),
    );
    const lineless = own !== undefined && !own.some(isLine) ? own : null;
    // A neutral may be written from either of its ends.
    const from = lineless === null ? [] : (first.get(key) ?? []);
    for (const part of [...from, ...(ends.get(key) ?? []), ...chained]) {
      if (lineless !== null) added.set(part, [...(added.get(part) ?? []), ...lineless]);
      else if (!lined.has(part)) lined.set(part, own ?? "all of its supply");
    }
  }
  const cores = new Map<string, readonly Fn[]>();
  for (const [part, own] of lined) {
    if (own !== "all of its supply") cores.set(part, inCoreOrder([...new Set([...own, ...(added.get(part) ?? [])])]));
  }
  return cores;
}

const isLine = (fn: Fn): boolean => fn.startsWith("L");

/** Generators where nothing else makes alternating current: without them none of its loads could be on. */
function onlyGenerators(elements: readonly InternalElement[]): string[] {
  const makers = elements.filter((e) => e.is === "source" || (e.is === "converter" && e.outCurrent === "AC"));
  const generators = makers.flatMap((e) => (e.is === "source" && e.from === "generator" ? e.part : []));
  return generators.length === makers.length ? generators.slice(0, 1) : [];
}

function saidCurrent(
  system: string | undefined,
  cores: readonly string[] | undefined,
  supplies: readonly Supply[],
): "DC" | "AC" | undefined {
  const supply = system === undefined ? undefined : supplies.find((s) => foldName(s.id) === foldName(system));
  if (supply !== undefined) return supply.current;
  if (cores?.some((c) => c === "L" || c === "L1" || c === "L2" || c === "N") === true) return "AC";
  if (cores?.some((c) => c === "+" || c === "−") === true) return "DC";
  return undefined;
}

function printPart(part: BoundPart, current: "DC" | "AC", supply: Supply | undefined): SystemPart {
  const rules = ownRules(part);
  const facts: Readonly<Record<string, { value: unknown } | undefined>> = part.plan.kindFacts;
  const rating = facts["rated"]?.value;
  const family = facts["family"]?.value;
  const way = facts["device"]?.value;
  const interrupt = facts["interrupt"]?.value;
  const inWays = way === "fuse" || way === "breaker" ? way : (part.traits.inWays ?? kindOfWays(facts["ways"]?.value));
  return {
    id: part.key,
    name: known(part.plan.facts.name) ?? part.key,
    kind: part.kind?.name ?? "unknown",
    traits: part.traits,
    current,
    ...(supply === undefined ? {} : { supply: supply.id }),
    ...(rules === undefined ? {} : { rules }),
    critical: known(part.plan.facts.critical) ?? false,
    ...(part.position === undefined ? {} : { position: part.position }),
    positions: part.positions,
    ...(part.traits.guards !== undefined
      ? {
          device: {
            rating: isMeasure(rating) ? given(rating) : ("unknown" as const),
            ...(typeof family === "string" && family !== "unknown" ? { family } : {}),
            kind: part.traits.guards,
          },
        }
      : {}),
    ...(inWays === undefined ? {} : { wayDevice: inWays }),
    ...(interrupt === undefined || part.traits.distributes !== true
      ? {}
      : { wayInterrupt: isMeasure(interrupt) ? given(interrupt) : ("unknown" as const) }),
    ...mainInterruptOf(facts["main"]?.value),
    ...electrodeOf(facts["resistance to earth"]?.value),
    ...readMarks(part),
  };
}

const isMeasure = (v: unknown): v is { low: number; high: number; text: string } =>
  typeof v === "object" && v !== null && "low" in v && "high" in v;

/** What is marked on the main device of a board, where that is a record of facts. */
const electrodeOf = (ohms: unknown): Pick<SystemPart, "electrodeOhms"> =>
  ohms === undefined ? {} : { electrodeOhms: isMeasure(ohms) ? given(ohms) : "unknown" };

function mainInterruptOf(main: unknown): Pick<SystemPart, "mainInterrupt"> {
  if (typeof main !== "object" || main === null) return {};
  const marked = (main as Readonly<Record<string, { readonly value?: unknown } | undefined>>)["interrupt"]?.value; // a device on a line has no such key
  return marked === undefined ? {} : { mainInterrupt: isMeasure(marked) ? given(marked) : "unknown" };
}

function lowestAmbient({ climate: { lowest } }: Plan): Pick<System, "lowestAmbient"> {
  if (lowest === undefined) return {};
  return { lowestAmbient: lowest.value === "unknown" ? "unknown" : given(lowest.value) };
}

/** What a panel's ways say that stands in them, where all say the same. */
function kindOfWays(ways: unknown): "fuse" | "breaker" | undefined {
  if (!Array.isArray(ways)) return undefined;
  const list = ways as readonly Named<DeviceOnLine>[]; // read by the panel's own rule
  const kinds = new Set(list.flatMap(({ value }) => (value === "unknown" || !("kind" in value) ? [] : [value.kind])));
  return kinds.size === 1 ? [...kinds][0] : undefined;
}
