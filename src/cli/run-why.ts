import { explainWhy, explanationPage, howToAsk, listSubjects, type Askable } from "../why/index.ts";
import { codeOf, compileFile } from "./compile-file.ts";
import type { Run } from "./command.ts";
import { complain } from "./complain.ts";
import { printJson, whyDocument } from "./documents.ts";
import { exitCodes } from "./exit-codes.ts";
import { printWhy } from "./print-why.ts";
import { textWidth, wrap } from "./text-width.ts";
import { widthOf, WIDTH_PROBLEM } from "./width-of.ts";

/** `why PLAN SUBJECT` */
export const runWhy: Run = async (given, terminal) => {
  const { names, options } = given;
  const width = widthOf(given, terminal);
  if (width === null) return complain(terminal, WIDTH_PROBLEM, "write `--width 100`");
  const forms = (["json", "html", "list"] as const).filter((form) => options[form] === true);
  if (forms.length > 1) {
    return complain(
      terminal,
      `both \`--${forms[0] ?? ""}\` and \`--${forms[1] ?? ""}\` are asked for`,
      "ask for one of the two",
    );
  }
  const [file = "", ...words] = names;
  const asked = words.join(" ");
  if (asked === "" && options["list"] !== true) {
    return complain(
      terminal,
      "nothing is asked about",
      "write a circuit or a part behind the plan, such as `W12`; `--list` shows what there is",
    );
  }
  const read = await compileFile(file);
  if (!read.ok) return complain(terminal, read.problem, read.hint);
  const { compiled } = read;
  if (options["list"] === true) {
    terminal.out(printList(listSubjects(compiled), width));
    return exitCodes.clean;
  }
  const found = explainWhy(compiled, asked, { changes: options["quick"] !== true });
  if (!found.ok) return complain(terminal, found.problem, found.hint);
  const { explanation } = found;
  const { name, revision } = compiled.plan;
  if (options["json"] === true) terminal.data(printJson(whyDocument(file, compiled, explanation)));
  else if (options["html"] === true) {
    terminal.data(explanationPage(explanation, revision === "" ? name : `${name}, revision ${revision}`));
  } else terminal.out(printWhy(explanation, width, terminal.paint));
  return codeOf(compiled);
};

/** Names that stand in a column of their own; longer ones have what they are below them. */
const LONG = 28;

/** What can be asked, each as it is typed: never cut, since it is to be typed. */
function printList(list: readonly Askable[], width: number): string {
  const lines = list.flatMap(({ subject, says }) => {
    const rest = wrap(says, width - LONG - 2).map((line) => " ".repeat(LONG + 2) + line);
    const [first = ""] = rest;
    if (textWidth(subject) > LONG) return [subject, ...rest];
    return [`${subject}${" ".repeat(LONG - textWidth(subject))}  ${first.trimStart()}`, ...rest.slice(1)];
  });
  return `${[...lines, "", ...wrap(howToAsk, width)].join("\n")}\n`;
}
