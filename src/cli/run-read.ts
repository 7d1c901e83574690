import { nearestNames } from "../plan/text/nearest.ts";
import { labelContexts, type LabelContext, type LabelReading } from "../wire/label/label-reading.ts";
import { readLabel } from "../wire/label/read-label.ts";
import type { Given, Run } from "./command.ts";
import { complain } from "./complain.ts";
import { printJsonLine } from "./documents.ts";
import { exitCodes, type ExitCode } from "./exit-codes.ts";
import { printReadings } from "./print-reading.ts";
import { readDocument } from "./read-document.ts";
import { readText } from "./read-text.ts";
import { widthOf, WIDTH_PROBLEM } from "./width-of.ts";

/** `read TEXT…`, `read --file LIST`, or lines from standard input */
export const runRead: Run = async (given, terminal) => {
  const width = widthOf(given, terminal);
  if (width === null) return complain(terminal, WIDTH_PROBLEM, "write `--width 100`");
  const context = contextOf(given);
  if (context !== null && !isContext(context)) {
    const [near] = nearestNames(context, labelContexts, 1);
    const hint = near === undefined ? `the contexts are ${labelContexts.join(", ")}` : `did you mean \`${near}\`?`;
    return complain(terminal, `there is no context \`${context}\``, hint);
  }
  const asked = await labelsOf(given);
  if (!asked.ok) return complain(terminal, asked.problem, asked.hint);
  const read = asked.labels.map((text) => ({ text, read: readLabel(text, context === null ? {} : { context }) }));
  if (given.options["json"] === true) {
    terminal.data(read.map((one) => printJsonLine(readDocument(one.text, one.read))).join(""));
  } else {
    const options = { width, paint: terminal.paint, isLong: read.length === 1 || given.options["all"] === true };
    terminal.out(`${printReadings(read, options).join("\n")}\n`);
  }
  return codeOf(read.map((one) => one.read));
};

const contextOf = ({ options }: Given): string | null => {
  const { context } = options;
  return typeof context === "string" ? context : null;
};

const isContext = (text: string): text is LabelContext => labelContexts.some((known) => known === text);

/** The gravest of them all: a label that means nothing, then one that means several things. */
function codeOf(read: readonly LabelReading[]): ExitCode {
  if (read.some(({ verdict }) => verdict === "rejected")) return exitCodes.planHasErrors;
  return read.some(({ verdict }) => verdict === "ambiguous") ? exitCodes.findings : exitCodes.clean;
}

type Labels =
  | { readonly ok: true; readonly labels: readonly string[] }
  | { readonly ok: false; readonly problem: string; readonly hint: string };

const no = (problem: string, hint: string): Labels => ({ ok: false, problem, hint });

/** Words without quotes are one label; where one of them was quoted, each is a label. */
async function labelsOf({ names, options }: Given): Promise<Labels> {
  const { file } = options;
  if (names.length > 0) {
    if (typeof file === "string") return no("labels are given both on the line and as a file", "give them one way");
    const areQuoted = names.some((name) => /\s/.test(name.trim()));
    return { ok: true, labels: areQuoted ? names : [names.join(" ")] };
  }
  const read = await readText(typeof file === "string" ? file : "-", {
    noun: "list of labels",
    example: "wireworthy read 14/3 SOOW",
  });
  if (!read.ok) return read;
  const labels = read.text
    .replace(/^\ufeff/, "")
    .split(/\r\n|\r|\n/)
    .filter((line) => line.trim() !== "");
  return labels.length === 0
    ? no("there is no label to read", "write `wireworthy read 14/3 SOOW`")
    : { ok: true, labels };
}
