import type { Compiled } from "../compile.ts";
import { countsInFeet } from "../draw/one-line/wire-view.ts";
import { tallyOf } from "./documents.ts";
import { printFaultSchedule } from "./fault-schedule.ts";
import { printAttention } from "./print-attention.ts";
import { printAssumptions, printCaution, printMissing } from "./print-basis.ts";
import { printTally } from "./print-diagnostics.ts";
import { printSchedule } from "./print-schedule.ts";
import { printStates } from "./print-states.ts";
import type { Paint } from "./terminal.ts";
import { wrap } from "./text-width.ts";

/** The computed build as one page of text. */
export function printDesign(file: string, compiled: Compiled, width: number, paint: Paint): string {
  const { plan, design, diagnostics, judgement } = compiled;
  const name = plan.name === "" ? file : plan.name;
  const blocks = [
    [
      ...wrap(plan.revision === "" ? name : `${name}, revision ${plan.revision}`, width).map((l) => paint("bold", l)),
      ...wrap(`${file}: ${printTally(tallyOf(diagnostics))}`, width),
    ],
    printAttention(design, width, judgement),
    printSchedule(design, width, paint, countsInFeet(compiled.system)),
    printFaultSchedule(compiled, width, paint),
    printStates(design, width, paint),
    printMissing(design.missing, width),
    printAssumptions(design.assumptions, width),
    printCaution(width),
  ];
  return joinBlocks(blocks);
}

/** The states alone. */
export const printStatesPage = ({ design }: Compiled, width: number, paint: Paint): string =>
  joinBlocks([printAttention(design, width), printStates(design, width, paint), printCaution(width)]);

export const joinBlocks = (blocks: readonly (readonly string[])[]): string =>
  blocks
    .filter((block) => block.length > 0)
    .map((block) => `${block.join("\n")}\n`)
    .join("\n");
