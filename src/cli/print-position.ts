import { ampsOf, NOTHING, voltsOf } from "./figures.ts";
import type {
  PositionCircuitOnPaper,
  PositionLoadOnPaper,
  PositionOnPaper,
  PositionSourceOnPaper,
} from "./positions-on-paper.ts";
import { joinBlocks } from "./print-design.ts";
import { gradeSays, STATES_CAUTION } from "./print-switching.ts";
import { printRows } from "./stack-rows.ts";
import type { Column } from "./table.ts";
import type { Paint } from "./terminal.ts";
import { wrap } from "./text-width.ts";

const earthSays: Readonly<Record<string, string>> = { dead: NOTHING, joined: "joined", none: "has none" };

/** One position of everything that moves, with volts and currents while every load is on. */
export function printPosition(position: PositionOnPaper, width: number, paint: Paint): string {
  const { stands, follows, forbiddenBy, gives, joins, dangers, sources, loads, circuits } = position;
  const untold = [...new Set(loads.flatMap((l) => l.cannotTell))];
  const loadColumns: readonly Column<PositionLoadOnPaper>[] = [
    { head: "load", cell: (l) => l.load, least: 8 },
    { head: "is", cell: (l) => l.state },
    { head: "from", cell: (l) => (l.sources.length === 0 ? NOTHING : l.sources.join(", ")), least: 6 },
    { head: ["volts", "V"], cell: (l) => voltsOf(l.volts), align: "number" },
    { head: ["lost", "V"], cell: (l) => voltsOf(l.dropV), align: "number" },
    { head: ["takes", "A"], cell: (l) => (l.amps === 0 ? NOTHING : ampsOf(l.amps)), align: "number" },
    { head: "earth", cell: (l) => earthSays[l.earth] ?? l.earth },
  ];
  const sourceColumns: readonly Column<PositionSourceOnPaper>[] = [
    { head: "source", cell: (s) => s.source, least: 8 },
    { head: ["lines", "A"], cell: (s) => s.amps.map((a) => ampsOf(a)).join(" ") },
    { head: ["neutral", "A"], cell: (s) => ampsOf(s.neutralAmps), align: "number" },
    { head: ["aboard", "V"], cell: (s) => voltsOf(s.volts), align: "number" },
  ];
  const cores = ["L", "L1", "L2", "L3", "N", "PE"].filter((core) =>
    circuits.some((c) => c.cores.some((one) => one.core === core)),
  );
  const circuitColumns: readonly Column<PositionCircuitOnPaper>[] = [
    { head: "circuit", cell: (c) => c.circuit, least: 6 },
    ...cores.map((core): Column<PositionCircuitOnPaper> => ({
      head: [core, "A"],
      cell: (c) => {
        const own = c.cores.find((one) => one.core === core);
        return own?.amps === 0 ? "0" : ampsOf(own?.amps);
      },
      align: "number",
    })),
  ];
  return joinBlocks([
    [
      paint("bold", "One position"),
      ...wrap(stands.map((s) => `${s.mover} ${s.position}`).join(", "), width),
      ...follows.flatMap((says) => wrap(`- ${says}`, width, 2)),
      ...(forbiddenBy.length === 0 ? [] : wrap(`Forbidden by ${forbiddenBy.join(", ")}.`, width)),
    ],
    wrap(
      gives.length === 0
        ? "Nothing gives."
        : `${gives.join(" and ")} ${gives.length === 1 ? "gives" : "give"}; ${joins
            .map(
              (j) =>
                `the neutral of ${j.sources.join(", ")} meets earth ${j.high === 0 ? "nowhere" : `at ${j.places.join("; ")}`}`,
            )
            .join("; ")}.`,
      width,
    ),
    dangers.flatMap(({ grade, says }) => wrap(`${gradeSays[grade].padEnd(7)} ${says}`, width, 8)),
    sources.length === 0
      ? []
      : [paint("bold", "Sources, with every load on"), ...printRows(sourceColumns, sources, width, paint)],
    loads.length === 0
      ? []
      : [
          paint("bold", "Loads, all on"),
          ...printRows(loadColumns, loads, width, paint),
          ...untold.flatMap((says) => wrap(`- not told: ${says}`, width, 2)),
        ],
    circuits.length === 0
      ? []
      : [paint("bold", "Currents in the cores"), ...printRows(circuitColumns, circuits, width, paint)],
    wrap(STATES_CAUTION, width),
  ]);
}
