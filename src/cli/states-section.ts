import type { Compiled } from "../compile.ts";
import { drawStates, gatherStates, tellStates, type StatesInOne } from "../draw/states/index.ts";
import { writeSvg } from "../draw/write-svg.ts";
import { studySwitching } from "../switching/index.ts";
import { tag } from "./html.ts";
import {
  feedsSay,
  GATHERED,
  gradeSays,
  joinsSay,
  keptAway,
  numberDangers,
  numbersSay,
  STATES_CAUTION,
  sumSays,
  type NumberedDanger,
} from "./print-switching.ts";
import { list, table, type Cell } from "./html-blocks.ts";

/** Width of the pictures, mm: two states beside each other. */
const WIDTH = 184;

/** States of the alternating side for the report: table, dangers, pictures. */
export function statesSection({ system, plan, judgement }: Compiled): string[] {
  const switching = studySwitching(system);
  const told = tellStates(switching, judgement.findings, judgement.notApplicable);
  const head = '<section id="positions"><h2>States of the alternating side</h2>';
  if (told.untold !== null) return [head, tag("p", `Nothing is told: ${told.untold}.`), "</section>"];
  const pictures = drawStates(switching, told, plan.name, { on: "screen", width: WIDTH });
  if (pictures.length === 0) return [head, tag("p", "Nothing alternates in it."), "</section>"];
  const dangers = numberDangers(told);
  const rows = gatherStates(told.states);
  return [
    head,
    tag("p", STATES_CAUTION, "caution"),
    tag("p", sumSays(told)),
    table(
      ["no", "what is done", "gives", "feeds", "neutral meets earth", "danger", "positions"],
      rows.map((row) => rowOf(row, dangers)),
    ),
    ...(rows.length === told.states.length ? [] : [tag("p", GATHERED)]),
    "<h3>Dangers</h3>",
    list(dangers.map(({ number, grade, says, rule }) => `${number} ${gradeSays[grade]}: ${says}${rule === null ? "" : ` (${rule})`}`)), // prettier-ignore
    "<h3>Beside them</h3>",
    list(keptAway(told)),
    ...pictures.map((scene) => `<figure>${writeSvg(scene)}</figure>`),
    "</section>",
  ];
}

function rowOf({ numbers, state, positions }: StatesInOne, dangers: readonly NumberedDanger[]): Cell[] {
  const cell = (text: readonly string[], isNumber = false): Cell => ({ text, isNumber });
  const own = dangers.filter((d) => d.states.includes(state.number)).map((d) => String(d.number));
  return [
    cell([numbersSay(numbers)], true),
    cell(state.steps.length === 0 ? [state.way] : state.steps),
    cell(state.gives),
    cell(feedsSay(state)),
    cell(joinsSay(state.joins)),
    cell([own.join(", ")]),
    cell([String(positions)], true),
  ];
}
