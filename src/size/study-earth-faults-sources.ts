import {
  generatorSource,
  inverterSource,
  networkSource,
  type Bounds,
  type FaultSource,
} from "../protect/earth-fault/fault-source.ts";
import type { Converter, Source, Value } from "../system/index.ts";
import { groupOf, type EarthSystem, type Positions } from "./study-earth-faults-ways.ts";

/** A source of alternating current, as earth faults know it. */
export interface AlternatingFeed {
  readonly id: string;
  readonly part: string;
  readonly from: "shore" | "generator" | "transformer" | "inverter";
  /** Terminals by what they are for. */
  readonly lines: readonly string[];
  readonly neutral: string | null;
  readonly earth: string | null;
  /** Line to earth. */
  readonly volts: number;
  readonly fault: FaultSource;
  /** What it drives into a short from line to neutral: of a supply from outside by its prospective current alone, for its loop leads through earth. */
  readonly short: FaultSource;
  /** Whether its maker or site says what it drives into a short. */
  readonly isDeclared: boolean;
  /** Whether neutral meets earth in it, or ahead of it. */
  readonly joined: boolean | "unknown";
  /** Whether that is by the soil (TT). */
  readonly earthedApart: boolean | "unknown";
  /** What its loop already counts, where it is declared. */
  readonly isLoopDeclared: boolean;
  /** Positions in which it gives. */
  readonly positions: Positions;
  /** Of a transformer of two wires: the terminal of its input, which carries what its output carries; else null. */
  readonly input: string | null;
}

const boundsOf = (value: Value | "unknown" | undefined): Bounds | null =>
  value === undefined || value === "unknown" || value.origin === "unknown" ? null : value;

/** Every source of alternating current of a build: what comes from outside, generators, transformers, inverters. */
export function alternatingFeeds(system: EarthSystem): AlternatingFeed[] {
  return system.elements.flatMap((element): AlternatingFeed[] => {
    if (element.is === "source") return [ofSource(element)];
    if (element.is === "converter" && element.outCurrent === "AC") return [ofInverter(element, system)];
    return [];
  });
}

function positionsOf(mover: string, within: readonly string[] | undefined): Positions {
  return within === undefined ? {} : { [mover]: within };
}

function ofSource(source: Source): AlternatingFeed {
  const { id, part, from, terminals, volts, givesIn, mover, joined, earthedApart = false, gives } = source;
  const lines = Object.values(terminals).filter((t) => groupOf(t) === "line");
  const loop = boundsOf(source.loopOhms);
  const stated = boundsOf(source.prospectiveAmps);
  // A supply that drives nothing is none.
  const most = stated !== null && stated.high > 0 ? stated : null;
  const ratedAmps = ratedOf(gives, volts * Math.max(1, terminals.N === undefined ? 1 : lines.length));
  // One figure of a greatest current says nothing of the least: only a range bounds the loop.
  const declared = most === null ? null : { low: most.low < most.high ? most.low : 0, high: most.high };
  const fault =
    from === "generator"
      ? generatorSource({
          volts,
          ratedAmps: ratedAmps ?? { low: 0, high: Infinity },
          surgeAmps: null,
          surgeSeconds: null,
          declaredAmps: most,
        })
      : networkSource(volts, loop, declared);
  return {
    id,
    part,
    from,
    lines,
    neutral: terminals.N ?? null,
    earth: terminals.PE ?? null,
    volts,
    fault,
    short: from === "generator" ? fault : networkSource(volts, null, declared),
    isDeclared: most !== null,
    joined,
    earthedApart,
    isLoopDeclared: loop !== null,
    positions: positionsOf(mover ?? part, givesIn),
    input: from === "transformer" && source.fedBy?.length === 1 ? (source.fedBy[0] ?? null) : null,
  };
}

function ratedOf(gives: Source["gives"], volts: number): Bounds | null {
  if (gives === undefined || gives === "unknown" || gives.value.origin === "unknown") return null;
  const share = gives.unit === "A" ? 1 : 1 / volts;
  return { low: gives.value.low * share, high: gives.value.high * share };
}

function ofInverter(converter: Converter, { circuits, supplies }: EarthSystem): AlternatingFeed {
  const { id, part, outPlus, outMinus, outLines, earth = null, worksIn, mover, amps, volts: inputVolts } = converter;
  const lines = (outLines ?? [outPlus]).filter((t) => groupOf(t) === "line");
  const stem = outPlus.slice(0, outPlus.lastIndexOf(":"));
  const circuit = circuits.find((c) => c.conductors.some((k) => lines.includes(k.from) || lines.includes(k.to)));
  const supply = supplies.find((s) => s.id === circuit?.supply) ?? supplies.find((s) => s.current === "AC");
  const nominal = supply?.nominal ?? 230;
  const hasNeutral = supply?.cores.includes("N") ?? groupOf(outMinus) === "neutral";
  const volts = !hasNeutral
    ? nominal
    : lines.length === 2
      ? nominal / 2
      : lines.length === 3
        ? nominal / Math.sqrt(3)
        : nominal;
  // Its rating stands as amps on the direct-current side at nominal volts; what one line gives is that over the volts between lines.
  const watts: Bounds = { low: amps.low * inputVolts.low, high: amps.high * inputVolts.high };
  const isRated = amps.origin !== "unknown";
  const surge = boundsOf(converter.surgeWatts);
  const seconds = boundsOf(converter.surgeSeconds);
  const over = lines.length === 3 ? 3 * volts : nominal;
  const fault = inverterSource({
    volts,
    ratedAmps: isRated ? { low: watts.low / over, high: watts.high / over } : { low: 0, high: Infinity },
    surgeAmps: surge === null ? null : { low: surge.low / over, high: surge.high / over },
    surgeSeconds: seconds?.low ?? null,
    declaredAmps: null,
  });
  return {
    id,
    part,
    from: "inverter",
    lines,
    neutral: hasNeutral ? `${stem}:N` : null,
    earth: earth ?? `${stem}:PE`,
    volts,
    fault,
    short: fault,
    isDeclared: surge !== null,
    joined: false,
    earthedApart: false,
    isLoopDeclared: false,
    positions: positionsOf(mover ?? part, worksIn),
    input: null,
  };
}
