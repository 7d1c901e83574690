import {
  exactly,
  type Contact,
  type Converter,
  type Draw,
  type Feed,
  type Fn,
  type InternalElement,
  type Join,
  type Source,
  type Supply,
  type System,
  type SystemCircuit,
  type SystemPart,
  type Value,
} from "../system/index.ts";
import { alternatingMoments, chargerOf, isLedThrough } from "./alternating-moments.ts";

/** Of what a charger takes so much may be lost, where its input is not stated: common practice. */
const CHARGER_EFFICIENCY = 0.8;

/** A source is not what bounds the currents that wires are made for: one that is asked too much is told by its rule. */
const PLENTY_AMPS = 1e4;

/**
 * Tells the alternating side of a build in the words of the direct one, so that one engine sizes both: a line is a plus, neutral a minus; of two lines that swing
 * against each other the second lies below neutral, as in a three-wire supply of direct current, which is exact for loads that draw in step. Sources hold their
 * volts; chargers are loads; circuits of direct current are left out.
 *
 * Ignores reactance and power factor: amps are those that loads state, so currents are theirs, and the drop along wires of this side's sizes is rather too
 * great (R against R·cos φ + X·sin φ). `study-alternating.ts` solves it with both.
 *
 * @returns null where nothing alternates
 * @source `docs/method.md` section 8
 */
export function alternatingSide(system: System): System | null {
  if (!system.circuits.some((c) => c.current === "AC")) return null;
  const inPhase = system.elements.some((e) => e.is === "converter" && e.linesInPhase === true);
  const isAlternating = alternatingParts(system);
  const supplies = new Map(system.supplies.map((s) => [s.id, s]));
  const twin = new Map<string, Supply>();
  const supplyFor = (circuit: SystemCircuit): string | undefined => {
    const supply = circuit.supply === undefined ? undefined : supplies.get(circuit.supply);
    if (supply === undefined) return undefined;
    const nominal = voltsOf(supply, circuit, inPhase);
    const id = nominal === supply.nominal ? supply.id : `${supply.id} ${nominal}`;
    twin.set(id, { ...supply, id, nominal, highestVolts: nominal });
    return id;
  };
  const voltsAt = voltsAtParts(system);
  const draws = new Map<string, string[]>();
  const elements = system.elements.flatMap((e): InternalElement[] => {
    const made = exchange(e, system, { isAlternating, inPhase, voltsAt });
    for (const one of made) if (one.is === "draw") draws.set(one.part, [...(draws.get(one.part) ?? []), one.id]);
    return made;
  });
  const rated = ratedAt(system, voltsAt);
  const circuits = system.circuits.map((c): SystemCircuit => {
    if (c.current === "DC") return { ...c, current: "AC" };
    const supply = supplyFor(c);
    return {
      ...c,
      current: "DC",
      ...(supply === undefined ? {} : { supply }),
      conductors: c.conductors.map((k) => (k.fn === "N" ? { ...k, role: "return" as const } : k)),
      draws: c.draws.flatMap((part) => draws.get(part) ?? []),
      // What guards a wire from the inlet stands ashore; a plan that sets one aboard says so.
      ...(c.devices === "propose" && startsOutside(c, system) ? { devices: [] } : {}),
      ...(c.demand === undefined ? demandOf(c, rated, system) : {}),
    };
  });
  const parts = system.parts.map((p): SystemPart => ({
    ...p,
    current: isAlternating.has(p.id) ? "DC" : "AC",
    traits: withoutStores(p.traits),
  }));
  const exchanged: System = { ...system, supplies: [...twin.values()], parts, elements, circuits };
  return alternatingMoments(system, exchanged);
}

/** Volts between the conductors of a circuit: from one line to neutral, or between two lines. */
function voltsOf(supply: Supply, { conductors }: SystemCircuit, inPhase: boolean): number {
  const fns = new Set(conductors.map((c) => c.fn));
  const lines = [...fns].filter((fn) => fn !== "N" && fn !== "PE").length;
  if (!fns.has("N") || lines === 0 || (lines > 1 && !inPhase)) return supply.nominal;
  if (supply.phases === "split") return supply.nominal / 2;
  return supply.phases === "three" ? supply.nominal / Math.sqrt(3) : supply.nominal;
}

/** Parts in which alternating current flows, whatever else does. */
function alternatingParts({ parts, elements }: System): Set<string> {
  const found = new Set(parts.filter((p) => p.current === "AC").map((p) => p.id));
  for (const e of elements) {
    if (e.is === "source" || (e.is === "converter" && (e.inCurrent === "AC" || e.outCurrent === "AC")))
      found.add(e.part);
  }
  return found;
}

const OTHER_SIDE = new Set(["store", "charges", "solar"]);

/** Here a part holds no charge, charges nothing and is no solar module: its other side does. */
const withoutStores = (traits: SystemPart["traits"]): SystemPart["traits"] =>
  Object.fromEntries(Object.entries(traits).filter(([trait]) => !OTHER_SIDE.has(trait)));

interface Exchange {
  readonly isAlternating: ReadonlySet<string>;
  readonly inPhase: boolean;
  readonly voltsAt: VoltsAt;
}

function exchange(
  e: InternalElement,
  system: System,
  { isAlternating, inPhase, voltsAt }: Exchange,
): InternalElement[] {
  switch (e.is) {
    case "join":
      return [e];
    case "contact":
      return isAlternating.has(e.part) && isOpened(e, system) ? [stands(e)] : [];
    case "source":
      if (isLedThrough(e, system)) return throughTransformer(e);
      return feedsOf({
        part: e.part,
        lines: linesOf(e.terminals),
        neutral: e.terminals.N,
        volts: e.volts,
        inPhase,
        pushes: e.from === "shore" ? "no bound" : (ratingOf(e) ?? "unknown"),
      });
    case "converter":
      return ofConverter(e, system, voltsAt, inPhase);
    case "draw":
      return e.current === "AC" ? drawsOf(e, inPhase) : [];
    case "store":
    case "feed":
    case "earth join":
    case "residual guard":
    case "mover":
      return [];
  }
}

/** A part of both currents has contacts of the other one too. */
const isOpened = (e: Contact, { parts }: System): boolean =>
  e.mover !== undefined || parts.find((p) => p.id === e.part)?.current === "AC";

/** What a hand sets on its board stands closed, and is metal where no device of a line stands in it; a relay stands as its part does in a moment. */
function stands(e: Contact): Contact | Join {
  const { closedIn, mover, ...rest } = e;
  if (mover === undefined) return e;
  if (closedIn?.includes("passing") === true) return { ...rest, closedIn };
  if (e.way !== undefined && !e.b.endsWith(":N")) return rest;
  return { is: "join", id: e.id, part: e.part, a: e.a, b: e.b };
}

const linesOf = (terminals: Source["terminals"]): string[] =>
  (["L", "L1", "L2", "L3"] as const satisfies readonly Fn[]).flatMap((fn) => terminals[fn] ?? []);

/** Amps that a source gives for long; null: not stated. */
function ratingOf({ gives, volts, terminals }: Source): number | null {
  if (gives === undefined || gives === "unknown") return null;
  if (gives.unit === "A") return gives.value.high;
  const lines = linesOf(terminals).length;
  // Between lines alone the volts are those between two.
  return gives.value.high / (volts * (terminals.N !== undefined ? Math.max(1, lines) : lines === 3 ? Math.sqrt(3) : 1));
}

/** A transformer with a supply before it: what it gives it takes, one to one, so that here it is metal. */
function throughTransformer({ part, terminals, fedBy = [] }: Source): Join[] {
  const pairs = linesOf(terminals).map((line, i) => [fedBy[i] ?? line, line] as const);
  const [first] = pairs;
  const neutral = terminals.N;
  const all =
    neutral === undefined || first === undefined
      ? pairs
      : [...pairs, [first[0].replace(/:[^:]*$/, ":N"), neutral] as const];
  return all.map(([a, b]) => ({ is: "join", id: `${part}:${b}`, part, a, b }));
}

interface Giving {
  readonly part: string;
  readonly lines: readonly string[];
  readonly neutral: string | undefined;
  readonly volts: number;
  readonly inPhase: boolean;
  /** What it drives into whatever it meets for long, A: no bound is known from outside, or nobody states it. */
  readonly pushes: number | "no bound" | "unknown";
}

/** A source that holds its volts, between each line and neutral or between its two lines. */
function feedsOf({ part, lines, neutral, volts, inPhase, pushes }: Giving): Feed[] {
  const feed = (id: string, plus: string, minus: string): Feed => ({
    is: "feed",
    id,
    part,
    plus,
    minus,
    volts: exactly(volts, "derived"),
    amps: exactly(PLENTY_AMPS, "derived"),
    runsWith: "nothing",
    selfLimited: pushes === "no bound" ? false : pushes === "unknown" ? "unknown" : true,
    ...(typeof pushes === "number" ? { pushes: exactly(pushes, "derived") } : {}),
  });
  const [first, second] = lines;
  if (first === undefined) return [];
  if (neutral === undefined) return second === undefined ? [] : [feed(part, first, second)];
  if (second === undefined) return [feed(part, first, neutral)];
  return [
    feed(part, first, neutral),
    ...lines.slice(1).map((line, i) => {
      const [plus, minus] = inPhase || i > 0 ? [line, neutral] : [neutral, line];
      return feed(`${part}:${i + 2}`, plus, minus);
    }),
  ];
}

function ofConverter(e: Converter, system: System, voltsAt: VoltsAt, inPhase: boolean): InternalElement[] {
  const { line, supply } = voltsAt(e.part);
  const made: InternalElement[] = [];
  if (e.outCurrent === "AC") {
    const lines = e.outLines ?? [e.outPlus];
    const neutral = supply.cores.includes("N") ? e.outPlus.replace(/:[^:]*$/, ":N") : undefined;
    const across = neutral === undefined ? supply.nominal : line;
    const rating = (e.amps.high * e.volts.high) / (across * (neutral === undefined ? 1 : lines.length));
    // Its relay lets it give or lead its supply on, never both: what comes through it is counted, and its own circuit is made for its rating.
    const pushes = e.passesFrom === undefined ? rating : 0;
    made.push(...feedsOf({ part: e.part, lines, neutral, volts: across, inPhase, pushes }));
  }
  // What also makes current takes what a person sets and its supply has left: its feeders are made for all that the supply gives.
  const isSet = e.inputAmps === undefined && chargerOf(e, system) !== e.part;
  if (e.inCurrent === "AC" && !isSet) {
    const across = e.inMinus.endsWith(":N") ? line : supply.nominal;
    const amps = e.inputAmps?.high ?? (e.amps.high * e.volts.high) / (CHARGER_EFFICIENCY * across);
    made.push({
      is: "draw",
      id: chargerOf(e, system),
      part: chargerOf(e, system),
      plus: e.inPlus,
      minus: e.inMinus,
      law: "amps",
      atVolts: across,
      levels: [{ name: "running", amps: exactly(amps, e.inputAmps?.origin ?? "derived") }],
      current: "DC",
      alwaysOn: false,
      startSeconds: exactly(0, "derived"),
    });
  }
  return made;
}

/**
 * A load between a line and neutral, or between two lines. On two lines that swing against each other it draws alike on both, so nothing comes back by neutral; on
 * two that swing together it is one on each.
 */
function drawsOf(e: Draw, inPhase: boolean): Draw[] {
  const lines = e.alternating?.lines ?? [e.plus];
  const neutral = e.alternating === undefined ? e.minus : e.alternating.neutral;
  const [first, second] = lines;
  if (first === undefined) return [];
  if (neutral === undefined) return second === undefined ? [] : [{ ...e, current: "DC", plus: first, minus: second }];
  if (second !== undefined && !inPhase) return [{ ...e, current: "DC", plus: first, minus: second }];
  return lines.map((line, i): Draw => {
    const isBelow = !inPhase && line.endsWith(":L2");
    const [plus, minus] = isBelow ? [neutral, line] : [line, neutral];
    return { ...e, id: i === 0 ? e.id : `${e.id}:${i + 1}`, current: "DC", plus, minus };
  });
}

type VoltsAt = (part: string) => { readonly line: number; readonly supply: Supply };

/** Volts of one line and the supply that a part's alternating side belongs to, found from the circuits at it. */
function voltsAtParts(system: System): VoltsAt {
  const supplies = system.supplies.filter((s) => s.current === "AC");
  const byId = new Map(supplies.map((s) => [s.id, s]));
  const at = new Map<string, Supply>();
  for (const c of system.circuits) {
    const supply = c.current === "AC" && c.supply !== undefined ? byId.get(c.supply) : undefined;
    if (supply !== undefined) for (const { part } of [c.from, c.to]) if (!at.has(part)) at.set(part, supply);
  }
  const usual: Supply = supplies[0] ?? {
    id: "",
    current: "AC",
    nominal: 230,
    highestVolts: 230,
    cores: ["L", "N", "PE"],
  };
  return (part) => {
    const supply = at.get(part) ?? usual;
    const { nominal, phases, cores } = supply;
    const halves = cores.includes("N") && cores.includes("L2") && !cores.includes("L3");
    const line =
      phases === "split" || (phases === undefined && halves)
        ? nominal / 2
        : phases === "three"
          ? nominal / Math.sqrt(3)
          : nominal;
    return { line, supply };
  };
}

/** What the sources at a terminal give for long, A; where it is not stated nothing is asked of a wire for it. */
function ratedAt(system: System, voltsAt: VoltsAt): ReadonlyMap<string, number> {
  const rated = new Map<string, number>();
  for (const e of system.elements) {
    if (e.is === "source") {
      const amps = ratingOf(e);
      for (const line of linesOf(e.terminals)) if (amps !== null) rated.set(line, amps);
    } else if (e.is === "converter" && e.outCurrent === "AC") {
      const lines = e.outLines ?? [e.outPlus];
      const { line, supply } = voltsAt(e.part);
      const across = supply.cores.includes("N") ? line * lines.length : supply.nominal;
      for (const one of lines) rated.set(one, (e.amps.high * e.volts.high) / across);
    }
  }
  for (const e of system.elements) {
    const ahead = e.is === "join" && enters(e.part, system) ? rated.get(e.a) : undefined;
    if (e.is === "join" && ahead !== undefined) rated.set(e.b, ahead);
  }
  // What comes by a plug that something in the plan feeds is as much as the plug is made for.
  const plugs = new Map(system.parts.flatMap((p) => (p.traits.plug === true ? [[p.id, p.rated] as const] : [])));
  for (const e of system.elements) {
    const made = e.is === "contact" && e.mover === undefined && !e.b.endsWith(":N") ? plugs.get(e.part) : undefined;
    if (e.is === "contact" && made !== undefined && made !== "unknown") rated.set(e.b, made.high);
  }
  return rated;
}

/** A circuit at the terminals of a source carries all that this may give; a lead, all that the device lets through that it is plugged in behind. */
function demandOf(
  { conductors, from, to }: SystemCircuit,
  rated: ReadonlyMap<string, number>,
  { parts }: System,
): { demand?: Value } {
  const lead = parts.find((p) => p.traits.lead === true && (p.id === from.part || p.id === to.part));
  if (lead?.gives !== undefined && lead.gives !== "unknown")
    return { demand: exactly(lead.gives.value.high, "derived") };
  const amps = conductors.flatMap((c) => rated.get(c.from) ?? rated.get(c.to) ?? []);
  return amps.length === 0 ? {} : { demand: exactly(Math.max(...amps), "derived") };
}

const enters = (part: string, { parts }: System): boolean => parts.find((p) => p.id === part)?.traits.enters === true;

const startsOutside = ({ from, to }: SystemCircuit, { elements }: System): boolean =>
  elements.some((e) => e.is === "source" && e.from === "shore" && (e.part === from.part || e.part === to.part));
