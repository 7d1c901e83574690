import { complain } from "./complain.ts";
import type { Run } from "./command.ts";
import { scheduleCsv, voltagesCsv } from "./design-csv.ts";
import { designDocument, printJson } from "./documents.ts";
import { printDesign, printStatesPage } from "./print-design.ts";
import { codeOf, compileFile } from "./compile-file.ts";
import { widthOf, WIDTH_PROBLEM } from "./width-of.ts";

/** `schedule PLAN` */
export const runSchedule: Run = async (given, terminal) => {
  const { names, options } = given;
  const width = widthOf(given, terminal);
  if (width === null) return complain(terminal, WIDTH_PROBLEM, "write `--width 100`");
  if (options["csv"] === true && options["json"] === true) {
    return complain(terminal, "both `--csv` and `--json` are asked for", "ask for one of the two");
  }
  const [file = ""] = names;
  const read = await compileFile(file);
  if (!read.ok) return complain(terminal, read.problem, read.hint);
  const { compiled } = read;
  const { design } = compiled;
  if (options["json"] === true) terminal.data(printJson(designDocument(file, compiled)));
  else if (options["csv"] === true)
    terminal.data(options["states"] === true ? voltagesCsv(design) : scheduleCsv(compiled));
  else if (options["states"] === true) terminal.out(printStatesPage(compiled, width, terminal.paint));
  else terminal.out(printDesign(file, compiled, width, terminal.paint));
  return codeOf(compiled);
};
