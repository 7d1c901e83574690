import { disconnectionLimit } from "../protect/earth-fault/disconnection-time.ts";
import { earthFaultLoop, greatestLoop } from "../protect/earth-fault/fault-loop.ts";
import {
  judgeDisconnection,
  type Disconnection,
  type DisconnectionQuestion,
  type LineDevice,
} from "../protect/earth-fault/judge-disconnection.ts";
import { terminalName, type SystemCircuit } from "../system/index.ts";
import { studyBreaking } from "./study-earth-faults-breaking.ts";
import { residualOf } from "./study-earth-faults-devices.ts";
import {
  prepare,
  type EarthStudying,
  type Feeding,
  type JoinReached,
  type LineWay,
  type SizesOf,
} from "./study-earth-faults-feeding.ts";
import { statedSizes, sumHops } from "./study-earth-faults-metal.ts";
import { judgeProtective } from "./study-earth-faults-protective.ts";
import { studyResidual } from "./study-earth-faults-residual.ts";
import { studyShorts } from "./study-earth-faults-shorts.ts";
import type {
  CircuitEarthFaults,
  EarthFault,
  EarthFaultSource,
  EarthFaultStudy,
  LoopPiece,
} from "./study-earth-faults-shapes.ts";
import type { AlternatingFeed } from "./study-earth-faults-sources.ts";
import {
  bothHold,
  electrodeOhms,
  groupOf,
  hopsOf,
  wayTo,
  type EarthSystem,
  type Hop,
} from "./study-earth-faults-ways.ts";
import { gravest, isCovered } from "./study-earth-faults-worst.ts";

/** As much of a settled build as is studied. */
export interface EarthBuild {
  readonly model: { readonly system: EarthSystem };
}

const known = new WeakMap<EarthSystem, EarthFaultStudy>();

/**
 * Studies an earth fault at the far end of every circuit of alternating current, for every source that can feed it: the impedance of its loop, what flows, what opens and
 * when, beside the time that is allowed; protective conductors; what devices have to break; residual guards in series and what leaks behind them.
 *
 * Each source by itself. Where it has several ways to a circuit, in different positions of switches or side by side, each way is judged as the only one and the gravest
 * is told: what opens one way leaves the other. Ways side by side that one device opens together are judged by the shortest. Ignores faults between lines, ways back through hulls, pipes and sheaths,
 * and what motors add. What nobody says is never taken as safe.
 *
 * @param sizesOf sizes of a circuit; absent: as the plan or the label of its cable gives them
 * @returns plain data; asked for again without `sizesOf`, the same
 * @source IEC 60364-4-41 411 and BS 7671; see the answers
 */
export function studyEarthFaults({ model: { system } }: EarthBuild, sizesOf?: SizesOf): EarthFaultStudy {
  if (sizesOf !== undefined) return makeStudy(system, sizesOf);
  let study = known.get(system);
  if (study === undefined) known.set(system, (study = makeStudy(system, statedSizes)));
  return study;
}

function makeStudy(system: EarthSystem, sizesOf: SizesOf): EarthFaultStudy {
  const studying = prepare(system, sizesOf);
  const circuits = system.circuits.flatMap((circuit, index): CircuitEarthFaults[] => {
    if (circuit.current !== "AC") return [];
    const faults = studying.feeding.flatMap((_, source) => faultOf(studying, index, source) ?? []);
    const each = faults.flatMap(({ otherWays = [], ...fault }) => [fault, ...otherWays]);
    const protective = judgeProtective(studying, index, each);
    return [{ circuit: circuit.id, faults, protective, shorts: studyShorts(studying, index) }];
  });
  return {
    sources: studying.feeding.map(sourceOnPaper),
    devices: studying.finder.devices,
    residual: studyResidual(studying),
    circuits,
    breaking: studyBreaking(studying),
  };
}

function sourceOnPaper({ feed, joins }: Feeding): EarthFaultSource {
  const { id, part, from, volts, fault, isDeclared } = feed;
  const best = joins[0];
  const { limit } = fault;
  return {
    id,
    part,
    from,
    volts,
    earthing:
      best === undefined
        ? "none"
        : !best.isCertain || feed.earthedApart === "unknown"
          ? "unknown"
          : isApart(feed, best)
            ? "TT"
            : "TN",
    limit:
      limit === null
        ? null
        : { low: limit.amps.low, high: finite(limit.amps.high), seconds: limit.seconds, trust: limit.trust },
    isDeclared,
  };
}

const isApart = ({ earthedApart }: AlternatingFeed, { join }: JoinReached): boolean =>
  join === null && earthedApart !== false;

const finite = (x: number): number | null => (Number.isFinite(x) ? x : null);

/** The end of a circuit's lines that is farthest from a source; null: it does not feed it. */
function farEnd(
  circuit: SystemCircuit,
  line: Feeding["line"],
): { readonly at: string; readonly end: "from" | "to"; readonly earth: string | null } | null {
  let far: { at: string; end: "from" | "to"; ohms: number } | null = null;
  for (const conductor of circuit.conductors.filter(({ from: a }) => groupOf(a) === "line")) {
    // Both have to be live: a circuit that hangs on another source by its far end is not fed.
    if (!line.has(conductor.from) || !line.has(conductor.to)) continue;
    for (const end of ["from", "to"] as const) {
      const at = conductor[end];
      const ohms = line.get(at)?.ohms ?? 0;
      if (far === null || ohms > far.ohms) far = { at, end, ohms };
    }
  }
  if (far === null) return null;
  const { at, end } = far;
  const { part, port } = circuit[end];
  // A breaker in the line stands between its conductors and the port, and earth passes it by.
  const places = [`${at.slice(0, at.lastIndexOf(":"))}:PE`, terminalName(part, port, "PE")];
  const earth = circuit.conductors.map((c) => c[end]).find((t) => places.includes(t));
  return { at, end, earth: earth ?? null };
}

function faultOf(studying: EarthStudying, index: number, source: number): EarthFault | null {
  const circuit = studying.system.circuits[index];
  const of = studying.feeding[source];
  const far = circuit === undefined || of === undefined ? null : farEnd(circuit, of.line);
  if (far === null || of === undefined) return null;
  const ways = of.waysTo(far.at);
  const faults = ways.flatMap((way) => {
    const fault = faultAlong(studying, index, source, far, way);
    return fault === null ? [] : [{ fault, positions: way.there.positions }];
  });
  if (faults.length < 2) return faults[0]?.fault ?? null;
  return gravest(faults.filter((one) => !faults.some((other) => isCovered(one, other))));
}

type FarEnd = NonNullable<ReturnType<typeof farEnd>>;

/**
 * Fuses and breakers ahead of a transformer of two wires, on every way that feeds it: turn for turn its input carries what its output does. What opens on leakage
 * sees nothing of it there.
 *
 * @source NFPA 70 240.21(C)(1), from memory: the device of the primary side protects a two-wire secondary
 */
function devicesAhead({ feeding, finder }: EarthStudying, { id, input }: AlternatingFeed): readonly number[] {
  if (input === null) return [];
  const ways = feeding.flatMap(({ feed, waysTo }) =>
    feed.id === id ? [] : waysTo(input).map(({ there }) => hopsOf(there).flatMap((hop) => finder.on(hop))),
  );
  return (ways[0] ?? []).filter((d) => ways.every((way) => way.includes(d)));
}

/** The fault at the far end of a circuit while one way feeds it. */
function faultAlong(
  studying: EarthStudying,
  index: number,
  source: number,
  far: FarEnd,
  { there, joins: reached }: LineWay,
): EarthFault | null {
  const { system, feeding, impedance, finder, guards } = studying;
  const of = feeding[source];
  if (of === undefined) return null;
  const { feed } = of;
  const way = hopsOf(there);
  const joins = reached.filter(
    ({ join }) => join === null || join.needs === "unknown" || bothHold(there.positions, join.needs) !== null,
  );
  const join =
    joins.find(({ isCertain, earth }) => isCertain && far.earth !== null && earth.has(far.earth)) ?? joins[0];
  const contacts = new Set(way.flatMap((hop) => hop.contact ?? []));
  const returning = new Set((join?.neutralWay ?? []).flatMap((hop) => hop.contact ?? hop.join ?? []));
  // One at the far end of the circuit itself guards what lies behind it, not the cable ahead.
  const atFarEnd = new Set(finder.inCircuit(index).filter((d) => finder.devices[d]?.end === far.end));
  const own = way.flatMap((hop) => finder.on(hop));
  const devices = [...new Set([...devicesAhead(studying, feed), ...own])].filter((d) => !atFarEnd.has(d));
  // One whose neutral the fault current comes back through sees nothing of it.
  const residual = guards.flatMap((g, i) =>
    g.contacts.some((c) => contacts.has(c)) && ![...g.contacts, ...(g.through ?? [])].some((c) => returning.has(c))
      ? [i]
      : [],
  );
  const isTT = join !== undefined && isApart(feed, join);
  const limit = limitOf(studying, index, feed.volts, isTT);
  const share = studying.rules[index]?.disconnection.leastVoltsShare ?? 0.95;
  const common = {
    source,
    at: far.at,
    limit,
    devices,
    residual,
    voltsShare: share,
    volts: feed.volts,
    inside: feed.fault.inside.greatest,
  } as const;
  const open = {
    zsCold: null,
    zsHot: null,
    least: null,
    greatest: null,
    limitedBy: null,
    touchVolts: null,
    sourceVolts: null,
  } as const;
  const nothing = {
    ...common,
    ...open,
    pieces: [],
    disconnection: null,
    opener: null,
    isResidualInTime: false,
    greatestLoop: null,
  } as const;
  if (join === undefined) return { ...nothing, loop: "no join", join: null, outcome: "not asked", untold: [] };
  const joinId = join.join?.id ?? feed.id;
  const unsure = (ifJoined: EarthFault): EarthFault =>
    join.isCertain
      ? ifJoined
      : { ...nothing, loop: "unknown", join: joinId, outcome: "cannot tell", untold: [feed.part], ifJoined };
  if (far.earth === null || !join.earth.has(far.earth))
    return unsure({ ...nothing, loop: "no protective conductor", join: joinId, outcome: "too late", untold: [] });

  const lineSum = sumHops(way, impedance);
  const earthWay = wayTo(join.earth, far.earth);
  const earthSum = sumHops(earthWay, impedance);
  const neutralSum = sumHops(join.neutralWay, impedance);
  const loop = earthFaultLoop(
    {
      source: feed.fault,
      line: lineSum.range,
      protective: earthSum.range,
      neutral: neutralSum.range,
      electrodes: isTT && !feed.isLoopDeclared ? { low: 0, high: null } : null,
    },
    share,
  );
  const untoldAt = [...new Set([...lineSum.untold, ...earthSum.untold, ...neutralSum.untold])];
  const isWayKnown = untoldAt.length === 0;
  const isSourceKnown = loop.hot !== null && (feed.fault.limit === null || feed.fault.limit.amps.low > 0);
  const isKnown = isWayKnown && isSourceKnown;
  const asked = nearest(
    feed,
    devices.flatMap((d) => finder.devices[d] ?? []),
  );
  const question: DisconnectionQuestion | null =
    limit === null
      ? null
      : {
          // A limited source gives no more, whatever the way is.
          amps: { least: isKnown ? loop.amps.least : 0, greatest: loop.amps.greatest },
          isLeastKnown: isKnown,
          isMetallic: !isTT,
          ...electrodeOf(isTT && !isSourceKnown ? electrodeOhms(system, join.earth) : null, share * feed.volts),
          sourceSeconds: loop.limitedBy === null ? null : (feed.fault.limit?.seconds ?? null),
          limit: limit.seconds,
          devices: asked,
          residual: residual.flatMap((r) => (guards[r] === undefined ? [] : [residualOf(guards[r])])),
        };
  const disconnection = question === null ? null : judgeDisconnection(question);
  return unsure({
    ...common,
    loop: "closed",
    join: joinId,
    pieces: [
      ...piecesOf(studying, "line", way),
      ...piecesOf(studying, "protective", [...earthWay].reverse()),
      ...piecesOf(studying, "neutral", [...join.neutralWay].reverse()),
    ],
    zsCold: isWayKnown ? loop.zsCold : null,
    zsHot: isKnown ? loop.zsHot : null,
    least: isKnown ? loop.amps.least : null,
    greatest: isWayKnown || loop.limitedBy !== null ? finite(loop.amps.greatest) : null,
    limitedBy: loop.limitedBy,
    touchVolts: isWayKnown ? loop.touchVolts : null,
    sourceVolts:
      feed.fault.limit === null || feed.fault.limit.amps.high === Infinity || !isWayKnown || loop.zsHot === null
        ? null
        : Math.min(feed.volts, loop.amps.greatest * loop.zsHot),
    outcome: disconnection?.outcome ?? "not asked",
    disconnection,
    opener: openerOf(
      disconnection,
      devices.filter((d) => asked.some((one) => one === finder.devices[d])),
      residual,
    ),
    isResidualInTime:
      question !== null &&
      residual.length > 0 &&
      judgeDisconnection({ ...question, devices: [] }).outcome === "in time",
    greatestLoop: loopOf(disconnection, feed.volts, share),
    untold: [...untoldAt.map((i) => system.circuits[i]?.id ?? ""), ...(isSourceKnown ? [] : [feed.part])],
  });
}

const electrodeOf = (ohms: number | null, volts: number): Pick<DisconnectionQuestion, "electrode"> =>
  ohms === null ? {} : { electrode: { ohms, amps: volts / ohms } };

const piecesOf = (
  { system, impedance }: EarthStudying,
  is: LoopPiece["is"],
  hops: readonly Hop[],
): readonly LoopPiece[] =>
  hops.flatMap((hop): LoopPiece[] => {
    const circuit = system.circuits[hop.circuit];
    if (hop.conductor === null || circuit === undefined) return [];
    const { range, laid } = impedance(hop);
    return [{ is, circuit: circuit.id, conductor: hop.conductor.id, range, laid }];
  });

function openerOf(found: Disconnection | null, devices: readonly number[], residual: readonly number[]): number | null {
  if (found === null || found.by === null) return null;
  return (found.by === "device" ? devices : residual)[found.index] ?? null;
}

const loopOf = (found: Disconnection | null, volts: number, voltsShare: number): number | null =>
  found?.openingAmps == null ? null : greatestLoop({ volts, openingAmps: found.openingAmps, voltsShare });

/**
 * The devices that a judgement asks. A main of no stated rating ahead of a device whose rating is told adds nothing: it opens no sooner than it has to. Ahead of an
 * inlet there always is one, of which nobody aboard knows.
 */
function nearest({ from }: AlternatingFeed, devices: readonly LineDevice[]): readonly LineDevice[] {
  if (devices.length === 0) return from === "shore" ? [{ families: [], rating: null }] : [];
  const told = devices.filter((d) => d.rating !== null);
  return devices.at(-1)?.rating === null || told.length === 0 ? devices : told;
}

/** Up to this a circuit that ends in something that takes current is a final one; fixed loads above 32 A might take longer. */
const FINAL_AMPS = 63;

function limitOf(
  { system, rules, finder, inputs }: EarthStudying,
  index: number,
  volts: number,
  isTT: boolean,
): EarthFault["limit"] {
  const circuit = system.circuits[index];
  if (circuit === undefined) return null;
  const rating = Math.max(0, ...finder.inCircuit(index).map((d) => finder.devices[d]?.rating ?? 0));
  const takes =
    circuit.draws.length > 0 || circuit.conductors.some(({ from, to }) => inputs.has(from) || inputs.has(to));
  const found = disconnectionLimit({
    earthing: isTT ? "TT" : "TN",
    circuit: takes && rating <= FINAL_AMPS ? "final" : "distribution",
    current: "AC",
    volts,
  });
  return found === null ? null : { ...found, binds: rules[index]?.disconnection.binds ?? false };
}
