import { tellStates } from "../draw/states/index.ts";
import { studySwitching } from "../switching/index.ts";
import type { Run } from "./command.ts";
import { codeOf, compileFile } from "./compile-file.ts";
import { complain } from "./complain.ts";
import { printJson, statesDocument } from "./documents.ts";
import { positionOnPaper } from "./positions-on-paper.ts";
import { printPosition } from "./print-position.ts";
import { printSwitching } from "./print-switching.ts";
import { readPositions } from "./read-positions.ts";
import { widthOf, WIDTH_PROBLEM } from "./width-of.ts";

/** `states PLAN` */
export const runStates: Run = async (given, terminal) => {
  const width = widthOf(given, terminal);
  if (width === null) return complain(terminal, WIDTH_PROBLEM, "write `--width 100`");
  const [file = ""] = given.names;
  const { set, json } = given.options;
  const read = await compileFile(file);
  if (!read.ok) return complain(terminal, read.problem, read.hint);
  const { compiled } = read;
  const switching = studySwitching(compiled.system);
  const asked = typeof set === "string" ? readPositions(set, switching.problem.movers) : null;
  if (asked !== null && !asked.ok) return complain(terminal, asked.problem, asked.hint);
  const told = tellStates(switching, compiled.judgement.findings);
  const position = asked === null ? null : positionOnPaper(compiled, switching, asked.positions);
  if (json === true) terminal.data(printJson(statesDocument(file, compiled, told, position)));
  else
    terminal.out(
      position === null
        ? printSwitching(compiled, told, width, terminal.paint)
        : printPosition(position, width, terminal.paint),
    );
  return codeOf(compiled);
};
