import { compile } from "../compile.ts";
import { answerQuestion } from "../size/answer.ts";
import { questionFields } from "../size/question-text.ts";
import { readQuestion } from "../size/question.ts";
import { complain } from "./complain.ts";
import type { Run } from "./command.ts";
import { printJson } from "./documents.ts";
import { exitCodes } from "./exit-codes.ts";
import type { Given } from "./command.ts";
import { optionOf, printAnswer } from "./print-answer.ts";
import { readText } from "./read-text.ts";
import { version } from "./version.ts";
import { widthOf, WIDTH_PROBLEM } from "./width-of.ts";

/** `size --load … --run …` */
export const runSize: Run = async (given, terminal) => {
  const width = widthOf(given, terminal);
  if (width === null) return complain(terminal, WIDTH_PROBLEM, "write `--width 100`");
  const asked = await askedBy(given);
  if (!asked.ok) return complain(terminal, asked.problem, asked.hint);
  const read = readQuestion(asked.input);
  if (!read.ok) {
    for (const { field, message, hint } of read.problems) {
      const name = field === "" ? "" : `${asked.isJson ? field : optionOf(field)}: `;
      complain(terminal, `${name}${message}`, hint);
    }
    return exitCodes.wrongUsage;
  }
  const answer = answerQuestion(read.question, compile);
  if (given.options["json"] === true) {
    terminal.data(printJson({ format: "wireworthy-size-1", wireworthy: version, ...answer }));
  } else {
    terminal.out(printAnswer(answer, width, terminal.paint));
  }
  return exitCodes.clean;
};

type Asked =
  | { readonly ok: true; readonly input: unknown; readonly isJson: boolean }
  | { readonly ok: false; readonly problem: string; readonly hint: string };

/** The question out of the options, or out of a JSON text. */
async function askedBy({ options }: Given): Promise<Asked> {
  const fields = questionFields.flatMap((field) => {
    const value = options[optionOf(field).slice(2)];
    return value === undefined ? [] : [[field, value] as const];
  });
  const file = options["json-in"];
  if (typeof file !== "string") return { ok: true, input: Object.fromEntries(fields), isJson: false };
  if (fields.length > 0) {
    return { ok: false, problem: "a question is given both as options and as JSON", hint: "give it one way" };
  }
  const read = await readText(file);
  if (!read.ok) return read;
  try {
    const input: unknown = JSON.parse(read.text);
    return { ok: true, input, isJson: true };
  } catch (error) {
    const why = error instanceof Error ? error.message : "";
    return {
      ok: false,
      problem: `the question is not JSON: ${why}`,
      hint: 'write `{ "load": "4.3 A", "run": "5.2 m" }`',
    };
  }
}
