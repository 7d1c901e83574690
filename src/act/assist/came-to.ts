import type { Span } from "../../diagnostic.ts";
import type { CircuitDesign, Design } from "../../size/index.ts";
import { figureText } from "../../why/print-number.ts";

/** What is said of a thing, and what Why can be asked. */
export interface Told {
  readonly lines: readonly string[];
  readonly subject: string | null;
  /** Where it stands, when that is less than the whole value. */
  readonly at?: Span;
}

const { amps, volts, percent, beside, voltsBeside } = figureText;

/** Size, device, drop and start volts of a circuit, and what decided. */
export function linesOfCircuit(c: CircuitDesign): string[] {
  if (c.outcome === "cannot tell" || c.size === null) {
    return [
      `${c.id}: ${c.from} → ${c.to}`,
      `size cannot be told${c.cannotTell.length > 0 ? `: ${c.cannotTell.join("; ")}` : ""}`,
    ];
  }
  const parallel = c.make.parallel > 1 ? `${c.make.parallel} × ` : "";
  const how =
    c.outcome === "chosen"
      ? c.nothingIsEnough
        ? "nothing on sale is enough"
        : c.decidedBy === null
          ? "chosen"
          : `chosen, decided by ${DECIDED[c.decidedBy] ?? c.decidedBy}`
      : c.outcome;
  const devices = c.devices.map(
    (d) =>
      `${d.kind} ${d.ratingA === null ? "of unknown rating" : amps(d.ratingA)} at ${d.at}${d.by === "proposed" ? ", proposed" : ""}`,
  );
  const flow = [
    c.steadyA === null
      ? null
      : `${amps(c.steadyA)} for long${c.ampacityA === null ? "" : `, carries ${amps(c.ampacityA)}`}`,
    c.startA === null ? null : `${amps(c.startA)} at start`,
  ].filter((s) => s !== null);
  const drop =
    c.dropV === null || c.dropShare === null
      ? null
      : `drop ${volts(c.dropV)}, ${c.dropLimitShare === null ? percent(c.dropShare) : `${beside(c.dropShare, c.dropLimitShare)} of ${percent(c.dropLimitShare)} allowed`}`;
  const least = [
    c.leastVolts === null ? null : `least ${volts(c.leastVolts)} at the load`,
    c.startVolts === null ? null : `${volts(c.startVolts)} at start`,
  ].filter((s) => s !== null);
  return [
    `${c.id}: ${parallel}${c.size.label}, ${how}`,
    ...(flow.length === 0 ? [] : [flow.join(", ")]),
    ...(devices.length === 0 ? [] : [devices.join("; ")]),
    ...(drop === null ? [] : [drop]),
    ...(least.length === 0 ? [] : [least.join(", ")]),
  ];
}

const DECIDED: Readonly<Record<string, string | undefined>> = {
  drop: "voltage drop",
  start: "start volts",
  "least-volts": "least volts",
  device: "its device",
  mechanical: "strength",
  bond: "what a bond has to be",
  stock: "the least size in stock",
};

/** Amps and volts of a part, state by state at their ends; and its volts at the worst. */
export function linesOfPart(part: string, design: Design): Told {
  const worst = design.circuits.flatMap((c) => c.loads).find((l) => l.part === part);
  const runs = design.states.flatMap((s) => s.loads.filter((l) => l.part === part).map((l) => ({ ...l, state: s.id })));
  const gives = design.states.flatMap((s) =>
    s.sources.filter((l) => l.part === part).map((l) => ({ ...l, state: s.id })),
  );
  const lines: string[] = [];
  const [load] = [...runs].sort((a, b) => b.amps - a.amps);
  if (load !== undefined)
    lines.push(`${amps(load.amps)}${load.volts === null ? "" : ` at ${volts(load.volts)}`}, ${load.state}`);
  if (worst !== undefined) {
    lines.push(
      worst.runsAbove === null
        ? `least ${volts(worst.leastVolts)}`
        : `least ${voltsBeside(worst.leastVolts, worst.runsAbove)}, runs above ${volts(worst.runsAbove)}`,
    );
    if (worst.startVolts !== null)
      lines.push(
        `${volts(worst.startVolts)} at start${worst.startsAbove === null ? "" : `, needs ${volts(worst.startsAbove)}`}`,
      );
  }
  const [most] = [...gives].sort((a, b) => Math.abs(b.amps) - Math.abs(a.amps));
  if (most !== undefined) {
    const way = most.amps < 0 ? "takes" : "gives";
    lines.push(
      `${way} ${amps(Math.abs(most.amps))}${most.volts === null ? "" : ` at ${volts(most.volts)}`}, ${most.state}`,
    );
  }
  const askable = worst !== undefined || runs.length > 0 || gives.length > 0;
  return { lines, subject: askable ? part : null };
}
