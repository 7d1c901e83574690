import { substitute, type ComparedRow, type Substitution } from "../act/index.ts";
import { compile } from "../compile.ts";
import type { Run } from "./command.ts";
import { codeOf, compileFile, today } from "./compile-file.ts";
import { complain } from "./complain.ts";
import { printJson } from "./documents.ts";
import { exitCodes } from "./exit-codes.ts";
import { substituteDocument } from "./substitute-document.ts";
import { printRows } from "./stack-rows.ts";
import type { Paint } from "./terminal.ts";
import { wrap } from "./text-width.ts";
import { widthOf, WIDTH_PROBLEM } from "./width-of.ts";

/** `substitute PLAN CIRCUIT LABEL` */
export const runSubstitute: Run = async (given, terminal) => {
  const width = widthOf(given, terminal);
  if (width === null) return complain(terminal, WIDTH_PROBLEM, "write `--width 100`");
  const [file = "", circuit = "", ...words] = given.names;
  const read = await compileFile(file);
  if (!read.ok) return complain(terminal, read.problem, read.hint);
  const { compiled } = read;
  const result = substitute(compiled.plan.text, compiled, circuit, words.join(" "), compile, { today: today() });
  if (!result.ok) return complain(terminal, result.message, result.hint);
  if (given.options["json"] === true) terminal.data(printJson(substituteDocument(result)));
  else terminal.out(print(result, width, terminal.paint));
  const code = codeOf(compiled);
  return code === exitCodes.clean && !result.does ? exitCodes.findings : code;
};

function print(result: Substitution, width: number, paint: Paint): string {
  const { circuit, drawn, bought, says, comparison, lookAt } = result;
  const named = (findings: Substitution["comparison"]["raises"]): string =>
    findings
      .map((f) => `${f.outcome === "fail" ? f.severity : "unsure"} ${f.rule} ${f.about.replace(/^\w+\./, "")}`)
      .join("; ");
  const blocks = [
    wrap(`${circuit}: ${bought} in place of ${drawn}: ${says}`, width).map((line) => paint("bold", line)),
    printRows<ComparedRow>(
      [
        { head: "", cell: ({ label }) => label },
        { head: "drawn", cell: ({ now }) => now, least: 12 },
        { head: "bought", cell: ({ then }) => then, least: 12 },
        { head: "", cell: ({ changed }) => (changed ? "" : "the same") },
      ],
      comparison.rows,
      width,
      paint,
    ),
    [
      `raises ${comparison.raises.length === 0 ? "nothing" : named(comparison.raises)}`,
      `clears ${comparison.clears.length === 0 ? "nothing" : named(comparison.clears)}`,
      "All other copper is held as it was drawn.",
    ].flatMap((line) => wrap(line, width, 2)),
    lookAt.length === 0 ? [] : ["Look at the ends", ...lookAt.flatMap((line) => wrap(`- ${line}`, width, 2))],
  ];
  return blocks
    .filter((block) => block.length > 0)
    .map((block) => `${block.join("\n")}\n`)
    .join("\n");
}
