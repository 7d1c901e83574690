import type { Run } from "./command.ts";
import { codeOf, compileFile } from "./compile-file.ts";
import { complain } from "./complain.ts";
import { coordinationOnPaper } from "./coordination-on-paper.ts";
import { printJson, selectivityDocument } from "./documents.ts";
import { printSelectivity } from "./print-selectivity.ts";
import { widthOf, WIDTH_PROBLEM } from "./width-of.ts";

/** `selectivity PLAN` */
export const runSelectivity: Run = async (given, terminal) => {
  const width = widthOf(given, terminal);
  if (width === null) return complain(terminal, WIDTH_PROBLEM, "write `--width 100`");
  const [file = ""] = given.names;
  const read = await compileFile(file);
  if (!read.ok) return complain(terminal, read.problem, read.hint);
  const { compiled } = read;
  const coordination = coordinationOnPaper(compiled);
  if (given.options["json"] === true) terminal.data(printJson(selectivityDocument(file, compiled, coordination)));
  else terminal.out(printSelectivity(compiled, coordination, width, terminal.paint));
  return codeOf(compiled);
};
