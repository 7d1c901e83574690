import { compareRuleSets } from "../act/compare-rule-sets.ts";
import { compile } from "../compile.ts";
import type { Run } from "./command.ts";
import { codeOf, compileFile, today } from "./compile-file.ts";
import { compareDocument } from "./compare-document.ts";
import { complain } from "./complain.ts";
import { printJson } from "./documents.ts";
import { printCompare } from "./print-compare.ts";
import { widthOf, WIDTH_PROBLEM } from "./width-of.ts";

/** `compare PLAN SET` */
export const runCompare: Run = async (given, terminal) => {
  const width = widthOf(given, terminal);
  if (width === null) return complain(terminal, WIDTH_PROBLEM, "write `--width 100`");
  const [file = "", ...words] = given.names;
  const read = await compileFile(file);
  if (!read.ok) return complain(terminal, read.problem, read.hint);
  const { compiled } = read;
  const result = compareRuleSets(compiled.plan.text, compiled, words.join(" "), compile, { today: today() });
  if (!result.ok) return complain(terminal, result.message, result.hint);
  if (given.options["json"] === true) terminal.data(printJson(compareDocument(file, result)));
  else terminal.out(printCompare(result, width, terminal.paint));
  return codeOf(compiled);
};
