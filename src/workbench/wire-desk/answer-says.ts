import type { Answer } from "../../size/answer.ts";
import type { Constraint, ConstraintId } from "../../size/index.ts";
import type { Units } from "../contract.ts";
import {
  NOTHING,
  printAmps,
  printLength,
  printNumber,
  printShare,
  printSize,
  printVolts,
} from "../look/print-in-units.ts";

/** What each constraint is called where people read it. */
export const constraintWords: Readonly<Record<ConstraintId, string>> = {
  ampacity: "current",
  drop: "voltage drop",
  start: "drop at start",
  "least-volts": "volts while it runs",
  device: "its fuse",
  mechanical: "least size of the rules",
  bond: "bond",
  withstand: "short circuit",
  terminal: "terminal",
  "earth-loop": "earth loop",
  stock: "what is on sale",
};

const share = (percent: number | null): number | null => (percent === null ? null : percent / 100);

/** Volts lost while it runs, in volts and percent. */
export const dropSays = ({ drop }: Answer, units: Units): string =>
  `${printVolts(drop.volts, units)}, ${printShare(share(drop.percent), units)}`;

/** Greatest lawful drop, as it is written: without a zero behind it. */
export const dropLimitSays = ({ drop }: Answer, units: Units): string =>
  drop.limitPercent === null ? NOTHING : `${printNumber(drop.limitPercent, { figures: 3 }, units)} %`;

/** The figures of one constraint: what is, and what it is held against. Empty: there are none. */
export function figuresOf({ id, outcome }: Constraint, answer: Answer, units: Units): string {
  if (outcome === "not stated" || outcome === "not judged yet") return "";
  switch (id) {
    case "ampacity":
      return `${printAmps(answer.amps, units)}; it carries ${printAmps(answer.ampacity, units)}`;
    case "drop":
      return `loses ${dropSays(answer, units)}; limit ${dropLimitSays(answer, units)}`;
    case "start":
      return `${printVolts(answer.startVolts, units)} left`;
    case "least-volts":
      return `${printVolts(answer.loadVolts, units)} left`;
    case "device":
      return answer.device === null
        ? ""
        : `${printAmps(answer.device.chosen, units)}; at most ${printAmps(answer.device.most, units)}`;
    default:
      return "";
  }
}

/** What decided, in words with its figures; null: nothing did. */
export function decidedSays(answer: Answer, units: Units): string | null {
  const deciding = answer.constraints.find(({ id }) => id === answer.deciding);
  if (deciding === undefined) return null;
  const figures = figuresOf(deciding, answer, units);
  return figures === "" ? constraintWords[deciding.id] : `${constraintWords[deciding.id]}: ${figures}`;
}

/** Why one size less does not do. */
export function oneDownSays({ nextDown }: Answer, units: Units): string {
  if (nextDown === null) return "none thinner is on sale";
  const size = printSize(nextDown.size, { ...units, sizes: nextDown.size.label.endsWith("mm²") ? "mm²" : "AWG" });
  return nextDown.fails.length === 0
    ? `${size} would do here, and is not what the other limits ask for`
    : `${size}: ${nextDown.fails.map(({ says }) => says).join("; ")}`;
}

/** Rating of the fuse, and between what it may lie. */
export function fuseBand({ device }: Answer, units: Units): string {
  if (device === null) return "none on sale carries this load at these volts";
  const most = device.most === null ? "cannot tell" : `${printAmps(device.most, units)}, by the wire`;
  return `${printAmps(device.least, units)}, by the load … ${most}`;
}

/** Wire to buy: both conductors, out and back. */
export const wireSays = ({ run }: Answer, units: Units): string =>
  `${printLength(run.loopM, units)} of wire; ${printLength(run.oneWayM, units)} one way`;

/** The answer as it is read aloud. */
export function spokenAnswer(answer: Answer, units: Units): string {
  if (answer.outcome === "cannot tell") return `cannot tell: ${answer.cannotTell.join("; ")}`;
  if (answer.size === null) return `no size on sale is enough; ${decidedSays(answer, units) ?? ""}`;
  const fuse = answer.device === null ? "no fuse" : `fuse ${printAmps(answer.device.chosen, units)}`;
  return `${answer.size.label}, ${fuse}; decided by ${decidedSays(answer, units) ?? "nothing"}`;
}
