import { convertSize } from "../wire/convert/index.ts";
import type { Given, Run } from "./command.ts";
import { complain } from "./complain.ts";
import { convertDocument } from "./convert-document.ts";
import { readConvertQuestion } from "./convert-question.ts";
import { printJson } from "./documents.ts";
import { exitCodes, type ExitCode } from "./exit-codes.ts";
import { printConversion } from "./print-convert.ts";
import type { Terminal } from "./terminal.ts";
import { widthOf, WIDTH_PROBLEM } from "./width-of.ts";

/** `convert SIZE --to SYSTEM` */
export const runConvert: Run = (given, terminal) => Promise.resolve(answer(given, terminal));

function answer(given: Given, terminal: Terminal): ExitCode {
  const width = widthOf(given, terminal);
  if (width === null) return complain(terminal, WIDTH_PROBLEM, "write `--width 100`");
  const asked = readConvertQuestion(given);
  if (!asked.ok) return complain(terminal, asked.problem, asked.hint);
  const { input, notes } = asked;
  const conversion = convertSize(input);
  if (conversion === null) {
    return complain(
      terminal,
      `the tables have no figures for ${input.size.label}`,
      "convert a size of the American gauge, of mm², SAE, SWG or JIS",
    );
  }
  if (given.options["json"] === true) terminal.data(printJson(convertDocument(conversion, input.conductorC)));
  else terminal.out(printConversion(conversion, input, notes, width, terminal.paint));
  return conversion.to === null ? exitCodes.findings : exitCodes.clean;
}
