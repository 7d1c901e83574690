import type { Compiled } from "../compile.ts";
import {
  gatherNames,
  gatherStates,
  type StateDanger,
  type StatesInOne,
  type ToldJoins,
  type ToldState,
  type ToldStates,
} from "../draw/states/index.ts";
import { counted, NOTHING } from "./figures.ts";
import { joinBlocks } from "./print-design.ts";
import { printTable, type Column } from "./table.ts";
import type { Paint, Style } from "./terminal.ts";
import { wrap } from "./text-width.ts";

export const STATES_CAUTION =
  "What is drawn from a plan shows how it is meant, not how it is built: a wrong wire or a relay that sticks makes states that stand nowhere here. Mains current kills. A licensed electrician and the local code decide; prove dead before you touch.";

/** Where neutral meets earth, joins of one group of sources; of several groups each says whose they are: `INL: ashore`. */
export function joinsSay(joins: readonly ToldJoins[]): string[] {
  return joins.map(({ sources, hasNeutral, low, high, places }) => {
    const whose = joins.length > 1 ? `${sources.join(" and ")}: ` : "";
    if (!hasNeutral) return `${whose}no neutral`;
    if (high === 0) return `${whose}nowhere`;
    const list = places.map(({ join, where, certain }) => {
      const isOwn = whose !== "" && sources.length === 1 && sources[0] === join;
      const at = where === "aboard" ? (whose === "" ? join : `at ${join}`) : isOwn ? where : `${join}, ${where}`;
      return certain ? at : `${at}?`;
    });
    const count = low === high ? String(high) : `${low} to ${high}`;
    return `${whose}${high === 1 && low === 1 ? list.join("") : `${count}: ${list.join("; ")}`}`;
  });
}

/** What some sources feed, short where it is nearly all. */
export function feedsSay(state: ToldState): string[] {
  const all = state.feeds.reduce((sum, { takers }) => sum + takers.length, state.dead.length);
  return state.feeds.map(({ sources, takers }) => {
    const others = [...state.dead, ...state.feeds.flatMap((f) => (f.takers === takers ? [] : f.takers))];
    const whom =
      takers.length === all && all > 2
        ? "everything"
        : takers.length > 4 && others.length <= 2
          ? `all but ${others.join(", ")}`
          : takers.join(", ");
    return `${sources.join(" and ")}: ${whom}`;
  });
}

/** Dangers of all states, each once; how grave, and in which states it stands. */
export interface NumberedDanger extends StateDanger {
  readonly number: number;
  readonly states: readonly number[];
}

export function numberDangers({ states }: ToldStates): NumberedDanger[] {
  const list = new Map<string, { danger: StateDanger; states: number[] }>();
  for (const { number, dangers } of states) {
    for (const danger of dangers) {
      const key = JSON.stringify(danger);
      const known = list.get(key);
      if (known === undefined) list.set(key, { danger, states: [number] });
      else known.states.push(number);
    }
  }
  return [...list.values()].map(({ danger, states: numbers }, i) => ({ ...danger, number: i + 1, states: numbers }));
}

export const gradeSays: Readonly<Record<StateDanger["grade"], string>> = {
  must: "must",
  should: "should",
  unknown: "unsure",
  note: "note",
};
const styles: Readonly<Record<StateDanger["grade"], Style>> = {
  must: "red",
  should: "yellow",
  unknown: "dim",
  note: "cyan",
};

/** The states of an alternating side as a page of text. */
export function printSwitching({ plan }: Compiled, told: ToldStates, width: number, paint: Paint): string {
  const title = wrap(`States of the alternating side of ${plan.name === "" ? "the plan" : plan.name}`, width).map(
    (line) => paint("bold", line),
  );
  if (told.untold !== null) return joinBlocks([title, wrap(`Nothing is told: ${told.untold}.`, width)]);
  if (told.states.every(({ gives }) => gives.length === 0) && told.movers.length === 0)
    return joinBlocks([title, ["Nothing alternates in it."]]);
  const dangers = numberDangers(told);
  return joinBlocks([
    [...title, ...wrap(sumSays(told), width)],
    printStateTable(told, dangers, width, paint),
    printDangers(dangers, width, paint),
    printKeptAway(told, width, paint),
    wrap(STATES_CAUTION, width),
  ]);
}

export const sumSays = ({ states, combinations, reached, movers }: ToldStates): string =>
  `${counted(states.length, "state differs", "states differ")}, out of ${counted(combinations, "position")} of ${movers.join(", ")}${reached === combinations ? "" : `, of which ${reached} can come about`}.`;

function printStateTable(
  { states }: ToldStates,
  dangers: readonly NumberedDanger[],
  width: number,
  paint: Paint,
): string[] {
  const rows = gatherStates(states);
  // Cells of free text seldom fill their room, so it is first dealt out generously.
  const table = [30, 46]
    .map((others) =>
      width - others < LEAST_FREE ? null : printTable(stateColumns(dangers, width - others), rows, width, paint),
    )
    .find((t) => t !== null);
  return [
    paint("bold", "States"),
    ...(table ?? printStateBlocks(rows, dangers, width)),
    ...(rows.length === states.length ? [] : ["", ...wrap(GATHERED, width)].slice(table === undefined ? 0 : 1)),
  ];
}

/** Room for free text below which a table of states is a row of slivers. */
const LEAST_FREE = 50;

/** @param wide columns for free text */
function stateColumns(dangers: readonly NumberedDanger[], wide: number): Column<StatesInOne>[] {
  const [doing, feeding, joining] = [Math.floor(0.4 * wide), Math.floor(0.38 * wide), Math.floor(0.22 * wide)];
  const hasDangers = dangers.length > 0;
  const lines = (list: readonly string[], room: number): string[] =>
    list.length === 0 ? [NOTHING] : list.flatMap((text) => wrap(text, room, 2));
  return [
    { head: "no", cell: ({ numbers }) => wrap(numbersSay(numbers), 7), align: "number" },
    { head: "what is done", cell: ({ state: s }) => wrap(s.way, doing) },
    { head: "gives", cell: ({ state: s }) => (s.gives.length === 0 ? NOTHING : wrap(s.gives.join(" and "), 12)) },
    { head: "feeds", cell: ({ state: s }) => lines(feedsSay(s), feeding) },
    { head: ["neutral", "meets earth"], cell: ({ state: s }) => lines(joinsSay(s.joins), joining) },
    ...(hasDangers
      ? [
          {
            head: "danger",
            cell: ({ state: s }: StatesInOne) => {
              const own = dangers.filter((d) => d.states.includes(s.number));
              return own.length === 0 ? NOTHING : wrap(own.map((d) => String(d.number)).join(", "), 12);
            },
          },
        ]
      : []),
    { head: ["posi-", "tions"], cell: (s) => String(s.positions), align: "number" },
  ];
}

/** The same below each other, for a page on which the table does not fit. */
function printStateBlocks(rows: readonly StatesInOne[], dangers: readonly NumberedDanger[], width: number): string[] {
  const line = (head: string, text: string): string[] =>
    wrap(text, width - BLOCK).map((row, i) => (i === 0 ? `    ${head}` : "").padEnd(BLOCK) + row);
  return rows.flatMap(({ numbers, state: s, positions }) => {
    const own = dangers.filter((d) => d.states.includes(s.number)).map((d) => String(d.number));
    return [
      "",
      ...wrap(`${numbersSay(numbers)}: ${s.way}`, width, 4),
      ...line("gives", s.gives.length === 0 ? NOTHING : s.gives.join(" and ")),
      ...(s.feeds.length === 0 ? [] : line("feeds", feedsSay(s).join("; "))),
      ...(s.joins.length === 0 ? [] : line("neutral meets earth", joinsSay(s.joins).join("; "))),
      ...(own.length === 0 ? [] : line("danger", own.join(", "))),
      ...line("positions", String(positions)),
    ];
  });
}

/** Columns before the words of a block. */
const BLOCK = 25;

/** Below a table with rows of several states. */
export const GATHERED =
  "Numbers in one row are states that feed the same and differ by what is live up to an open switch; the way is that to the first.";

export const numbersSay = (numbers: readonly number[]): string => numbers.join(", ");

function printDangers(dangers: readonly NumberedDanger[], width: number, paint: Paint): string[] {
  if (dangers.length === 0) return wrap("No danger can be read off these states by themselves.", width);
  return [
    paint("bold", "Dangers"),
    ...dangers.flatMap(({ number, grade, says, rule }) => {
      const word = gradeSays[grade].padEnd(7);
      const [first = "", ...rest] = wrap(`${says}${rule === null ? "" : ` [${rule}]`}`, width - 12);
      return [
        `${String(number).padStart(2)}  ${paint(styles[grade], word)} ${first}`,
        ...rest.map((line) => " ".repeat(12) + line),
      ];
    }),
  ];
}

/** What cannot be, what plays no part, and what nobody says. */
function printKeptAway(told: ToldStates, width: number, paint: Paint): string[] {
  const points = keptAway(told);
  return points.length === 0
    ? []
    : [paint("bold", "Beside them"), ...points.flatMap((says) => wrap(`- ${says}`, width, 2))];
}

const are = (names: readonly string[], one: string, many: string, count: number): string =>
  `${names.join(", ")} ${count === 1 ? one : many}`;

/** The same as sentences. */
export function keptAway({ moments, forbidden, enclosed, never, leaves, idle, unclear }: ToldStates): string[] {
  return [
    ...moments.map(({ says }) => says),
    ...forbidden.map(({ interlock, count }) => `${interlock} forbids ${counted(count, "position")}`),
    ...(enclosed === null
      ? []
      : [
          `${counted(enclosed.count, "position is allowed and cannot", "positions are allowed and cannot")} be come to, shut in by ${enclosed.interlocks.join(", ")}: ${enclosed.example}`,
        ]),
    ...never.map(
      ({ mover, position, interlocks }) =>
        `${mover} never stands at ${position}${interlocks.length === 0 ? ": nothing leads it there" : `, by ${interlocks.join(", ")}`}`,
    ),
    ...(leaves.length === 0
      ? []
      : [`${are(gatherNames(leaves), "turns", "turn", leaves.length)} single loads on and off, in every state`]),
    ...(idle.length === 0 ? [] : [`${are(gatherNames(idle), "touches", "touch", idle.length)} nothing alternating`]),
    ...unclear.map((says) => `not clear: ${says}`),
  ];
}
