import type { Compiled } from "../compile.ts";
import { bearsOf, faultAmpsOf, nearAndFar, outcomeSays, rangeOf, secondsOf } from "./fault-rows.ts";
import type {
  ConductorFaultOnPaper,
  CourseOnPaper,
  EndFaultOnPaper,
  FaultsOnPaper,
  SeenOnPaper,
} from "./faults-on-paper.ts";
import { decimalText } from "../quantity/decimal-text.ts";
import { NOTHING } from "./figures.ts";
import { joinBlocks } from "./print-design.ts";
import { printDeviceFaults, printNotStudied, printOpen, withinSays } from "./print-faults.ts";
import { printRows } from "./stack-rows.ts";
import type { Column } from "./table.ts";
import type { Paint } from "./terminal.ts";
import { wrap } from "./text-width.ts";

/** The part of a build's faults that is about one circuit. */
export function faultsOfCircuit(faults: FaultsOnPaper, id: string): FaultsOnPaper {
  const circuits = faults.circuits.filter((c) => c.id === id);
  const own = new Set(circuits.flatMap((c) => c.conductors.map((x) => x.conductor)));
  const ends = circuits.flatMap((c) => c.ends);
  const terminals = new Set(ends.map((e) => e.at));
  return {
    ...faults,
    circuits,
    open: faults.open.filter((o) => own.has(o.at.replace(/ at \w+$/, ""))),
    devices: faults.devices.filter((d) => d.circuit === id),
    terminals: faults.terminals.filter((t) => terminals.has(t.terminal)),
  };
}

/** Faults of one circuit: what each draws, who sees it from which side, what opens and when. */
export function printCircuitFault(
  { design }: Compiled,
  id: string,
  faults: FaultsOnPaper,
  width: number,
  paint: Paint,
): string {
  const circuit = design.circuits.find((c) => c.id === id);
  const [own] = faults.circuits;
  const title = `Short circuits of ${id}${circuit === undefined ? "" : `, ${circuit.from} → ${circuit.to}`}`;
  const head = wrap(title, width).map((line) => paint("bold", line));
  if (own === undefined || own.ends.length === 0) {
    const why =
      circuit?.current === "AC"
        ? `this study is of direct current; \`why PLAN ${id}.loop\` tells what an earth fault draws and what opens, \`why PLAN ${id}.interrupt\` what its device may have to break`
        : "it has no live conductor of its own";
    return joinBlocks([[...head, ...wrap(`Cannot be told: ${why}.`, width)], printNotStudied(faults, width)]);
  }
  return joinBlocks([
    head,
    faults.open.length === 0 ? [] : printOpen(faults, width, paint),
    ...nearAndFar(own.ends).map((end) => printEnd(end, width, paint)),
    printBears(own.conductors, width, paint),
    printDeviceFaults(faults.devices, width, paint),
    wrap(`Sums element by element: \`why PLAN "${id} fault"\``, width),
    printNotStudied(faults, width),
  ]);
}

function printEnd(
  { conductor, end, at, against, to, greatest, least, cannotTell }: EndFaultOnPaper,
  width: number,
  paint: Paint,
): string[] {
  const [first] = least;
  const lines = wrap(
    `${conductor} at ${at} (${end}), to ${to === "structure" ? "the structure at " : ""}${against}`,
    width,
  ).map((line) => paint("bold", line));
  if (greatest === null) return [...lines, "No source reaches it."];
  lines.push(
    ...wrap(
      `greatest ${rangeOf(greatest.amps)} A: ${decimalText(greatest.volts, { decimals: 2 })} V behind ${decimalText(1000 * greatest.ohms, { figures: 3 })} mΩ, from ${greatest.from.map(({ part, amps }) => `${part} ${faultAmpsOf(amps)} A`).join(", ")}; ${endsHow(greatest.course)}`,
      width,
      2,
    ),
    ...printSeen(greatest.course, width, paint),
  );
  if (cannotTell !== null) return [...lines, ...wrap(`The least cannot be told: ${cannotTell}.`, width)];
  if (first === undefined) return [...lines, "No battery alone reaches it."];
  const others = least.slice(1).map((l) => `${l.sources.join(" with ")} ${rangeOf(l.amps)} A`);
  return [
    ...lines,
    "",
    ...wrap(
      `least ${rangeOf(first.amps)} A, from ${first.sources.join(" with ")}${first.state === "" ? "" : ` as switched in "${first.state}"`}${first.mayOpen ? ", whose management may open first" : ""}; ${endsHow(first.course)}${others.length === 0 ? "" : `. Others alone: ${others.join(", ")}`}`,
      width,
      2,
    ),
    ...printSeen(first.course, width, paint),
  ];
}

function endsHow({ opened, outcome, clears, left }: CourseOnPaper): string {
  const opens =
    opened.length === 0
      ? ""
      : `${opened.map(({ device, isSure }, i) => `${i === 0 ? "" : "then "}${device}${isSure ? "" : " (others may too)"}`).join(", ")}: `;
  if (outcome === "cleared") return `${opens}cleared ${withinSays(clears)}`;
  const fed = left.map(({ part, amps }) => `${part} ${faultAmpsOf(amps)} A`).join(", ");
  return `${opens}${outcomeSays[outcome]}${fed === "" ? "" : `, fed by ${fed}`}`;
}

const whySays: Readonly<Record<SeenOnPaper["why"], string>> = {
  opens: "",
  "within its rating": "stays closed: within its rating",
  "may stay closed": "may stay closed by its standard",
  "not published": "nothing published",
};

function printSeen({ sees }: CourseOnPaper, width: number, paint: Paint): string[] {
  const columns: readonly Column<SeenOnPaper>[] = [
    { head: "seen by", cell: (s) => s.device, least: 8 },
    { head: "from", cell: (s) => s.from, least: 8 },
    { head: "A", cell: (s) => faultAmpsOf(s.amps), align: "number" },
    { head: ["closed", "until s"], cell: (s) => secondsOf(s.least), align: "number" },
    { head: ["open", "by s"], cell: (s) => secondsOf(s.most), align: "number" },
    { head: "", cell: (s) => whySays[s.why], least: 10 },
  ];
  return sees.length === 0 ? ["No device sees it."] : printRows(columns, sees, width, paint);
}

function printBears(conductors: readonly ConductorFaultOnPaper[], width: number, paint: Paint): string[] {
  const columns: readonly Column<ConductorFaultOnPaper>[] = [
    { head: "conductor", cell: (c) => c.conductor, least: 8 },
    { head: ["greatest", "A"], cell: (c) => (c.greatest === null ? NOTHING : rangeOf(c.greatest)), align: "number" },
    { head: ["least", "A"], cell: (c) => (c.least === null ? NOTHING : rangeOf(c.least)), align: "number" },
    { head: ["within", "s"], cell: (c) => secondsOf(c.clears.mostS), align: "number" },
    { head: ["bears", "%"], cell: (c) => bearsOf(c.withstandShare, c.withstandLeastShare), align: "number" },
    { head: ["for good", "A"], cell: (c) => faultAmpsOf(c.forGoodA), align: "number" },
  ];
  return [
    paint("bold", "What its conductors bear"),
    ...printRows(columns, conductors, width, paint),
    ...wrap(
      "bears: what the hardest short that is cleared within 5 s lets through, of what the conductor bears; unproven: it may be more than that. For good: the most that nothing certain opens, anywhere in the build.",
      width,
    ),
  ];
}
