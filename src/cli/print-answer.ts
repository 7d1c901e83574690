import type { Answer } from "../size/answer.ts";
import type { Constraint } from "../size/index.ts";
import { ampacityOf, ampsOf, degreesOf, limitOf, metresOf, percentOf, voltsOf } from "./figures.ts";
import { printAssumptions, printCaution } from "./print-basis.ts";
import { printRows } from "./stack-rows.ts";
import type { Paint } from "./terminal.ts";
import { wrap } from "./text-width.ts";

/** A field of a question as an option is typed: `startTime` → `--start-time`. */
export const optionOf = (field: string): string =>
  `--${field.replace(/[A-Z]/g, (capital) => `-${capital.toLowerCase()}`)}`;

const words: Readonly<Record<string, string>> = {
  ampacity: "the current it carries",
  drop: "voltage drop",
  start: "the volts left for the start",
  "least-volts": "the volts left while it runs",
  device: "its device",
  mechanical: "the least size of the rules",
  bond: "what a bond has to be",
  stock: "what is on sale",
};

/** The answer: one sentence, the ladder of constraints, the device, how the next size down fails, and what it rests on. */
export function printAnswer(answer: Answer, width: number, paint: Paint): string {
  const blocks = [
    wrap(sentence(answer), width).map((line) => paint("bold", line)),
    ladder(answer, width, paint),
    facts(answer, width),
    ["Notes", ...answer.notes.flatMap((note) => wrap(`- ${note}`, width, 2))],
    printAssumptions(answer.assumptions, width, (field) => `\`${optionOf(field)}\``),
    printCaution(width),
  ];
  return blocks
    .filter((block) => block.length > 0)
    .map((block) => `${block.join("\n")}\n`)
    .join("\n");
}

const share = (percent: number | null): number | null => (percent === null ? null : percent / 100);
const dropOf = ({ drop }: Answer): string => percentOf(share(drop.percent));
const mostOf = ({ drop }: Answer): string => limitOf(share(drop.limitPercent));

function sentence(answer: Answer): string {
  const { amps, run, supply, drop, size, outcome, deciding, make } = answer;
  const asked = `${ampsOf(amps)} A over ${metresOf(run.oneWayM)} m one way (${metresOf(run.loopM)} m there and back) at ${voltsOf(supply.nominalV).replace(/\.?0+$/, "")} V`;
  if (outcome === "cannot tell") return `Cannot be told for ${asked}: ${answer.cannotTell.join("; ")}.`;
  if (size === null)
    return `No size on sale is enough for ${asked}: ${deciding === null ? "" : `${words[deciding] ?? deciding} asks for more`}.`;
  const decided = deciding === null ? "" : `, decided by ${words[deciding] ?? deciding}`;
  return `${size.label} ${make.metal}${decided}: ${asked} loses ${voltsOf(drop.volts)} V, ${dropOf(answer)} %; the limit is ${mostOf(answer)} %.`;
}

function ladder(answer: Answer, width: number, paint: Paint): string[] {
  const judged = answer.constraints.filter((c) => c.outcome !== "not judged yet");
  const rest = answer.constraints.filter((c) => c.outcome === "not judged yet").map((c) => c.id);
  const table = printRows<Constraint>(
    [
      { head: "constraint", cell: (c) => (c.id === answer.deciding ? `${c.id} ◀` : c.id) },
      { head: "alone asks for", cell: (c) => aloneOf(c) },
      { head: "is", cell: (c) => c.outcome },
      { head: "figures", cell: (c) => figuresOf(c, answer), least: 16 },
      { head: "source", cell: (c) => (c.outcome === "not stated" ? "" : c.source), least: 12 },
    ],
    judged,
    width,
    paint,
  );
  return [...table, ...wrap(`◀ decides. Not judged yet: ${rest.join(", ")}.`, width)];
}

const aloneOf = ({ alone, outcome }: Constraint): string =>
  alone?.label ?? (outcome === "not met" ? "nothing on sale" : "–");

function figuresOf({ id, outcome }: Constraint, a: Answer): string {
  if (outcome === "not stated") return "";
  switch (id) {
    case "ampacity":
      return `${ampsOf(a.amps)} A of ${ampacityOf(a.ampacity)} A`;
    case "drop":
      return `${dropOf(a)} % of ${mostOf(a)} %`;
    case "start":
      return `${voltsOf(a.startVolts)} V left`;
    case "least-volts":
      return `${voltsOf(a.loadVolts)} V left`;
    case "device":
      return a.device === null ? "" : `${ampsOf(a.device.chosen)} A, at most ${ampacityOf(a.device.most)} A`;
    default:
      return "";
  }
}

function facts(answer: Answer, width: number): string[] {
  const { device, nextDown, conductorC, loadVolts, startVolts, run, rules, make } = answer;
  const rows: [string, string][] = [];
  if (device !== null) {
    rows.push([
      "device",
      `${ampsOf(device.chosen)} A ${device.familyName}: the load asks for at least ${ampsOf(device.least)} A, the rule set allows at most ${ampacityOf(device.most)} A`,
    ]);
  }
  if (answer.outcome === "chosen") {
    rows.push(["next size down", nextDown === null ? "there is none on sale" : downOf(nextDown)]);
    rows.push([
      "at the load",
      `${voltsOf(loadVolts)} V running${startVolts === null ? "" : `, ${voltsOf(startVolts)} V starting`}`,
    ]);
    rows.push(["metal", `${degreesOf(conductorC)} °C at this current; insulation ${degreesOf(make.insulationC)} °C`]);
  }
  rows.push([
    "length",
    `${metresOf(run.oneWayM)} m one way, ${metresOf(run.loopM)} m there and back; the question gave the length ${run.asked}`,
  ]);
  rows.push(["rules", rules]);
  const left = Math.max(...rows.map(([name]) => name.length)) + 2;
  return rows.flatMap(([name, text]) =>
    wrap(text, width - left).map((line, i) => (i === 0 ? name : "").padEnd(left) + line),
  );
}

const downOf = ({ size, fails }: NonNullable<Answer["nextDown"]>): string =>
  fails.length === 0
    ? `${size.label} would do by itself, and is passed over for the sizes that other constraints ask for`
    : `${size.label} fails ${fails.map(({ id, says }) => `${id}: ${says}`).join("; ")}`;
