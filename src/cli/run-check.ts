import { compileFile, judgedCodeOf } from "./compile-file.ts";
import { complain } from "./complain.ts";
import type { Run } from "./command.ts";
import { checkedPlan, printJson, tallyOf, type CheckedPlan } from "./documents.ts";
import { exitCodes, type ExitCode } from "./exit-codes.ts";
import { counted } from "./figures.ts";
import { printAttention } from "./print-attention.ts";
import { printAssumptions, printMissing } from "./print-basis.ts";
import { printDiagnostics, printTally } from "./print-diagnostics.ts";
import { printFindings, printJudged, printPasses, printUntold } from "./print-findings.ts";
import { wrap } from "./text-width.ts";
import { version } from "./version.ts";
import { widthOf, WIDTH_PROBLEM } from "./width-of.ts";

/** `check PLAN…` */
export const runCheck: Run = async (given, terminal) => {
  const width = widthOf(given, terminal);
  if (width === null) return complain(terminal, WIDTH_PROBLEM, "write `--width 100`");
  if (given.names.filter((name) => name === "-").length > 1) {
    return complain(terminal, "standard input is named twice", "write `-` once");
  }
  const { paint } = terminal;
  const plans: CheckedPlan[] = [];
  let code: ExitCode = exitCodes.clean;
  const worsen = (other: ExitCode): void => {
    if (other > code) code = other;
  };
  const asJson = given.options["json"] === true;
  const isQuiet = given.options["quiet"] === true;
  for (const file of given.names) {
    const read = await compileFile(file);
    if (!read.ok) {
      worsen(complain(terminal, read.problem, read.hint));
      continue;
    }
    const { compiled } = read;
    const { plan, design, diagnostics, judgement } = compiled;
    worsen(judgedCodeOf(compiled));
    if (asJson) {
      plans.push(checkedPlan(file, compiled));
      continue;
    }
    const blocks = [
      printDiagnostics(file, plan.text, diagnostics, { width, paint, withoutNotes: isQuiet }),
      printAttention(design, width),
      // The facts that are missing are findings themselves; one by one they would say the same many times.
      printFindings(
        file,
        plan.text,
        judgement.findings.filter((f) => f.outcome === "fail" || given.options["all"] === true),
        { width, paint },
      ),
      printUntold(judgement.findings, width),
      given.options["all"] === true ? printPasses(judgement, { width, paint }) : [],
      printMissing(design.missing, width),
      isQuiet ? [] : printAssumptions(design.assumptions, width),
      [
        paint("bold", `${file}: ${printTally(tallyOf(diagnostics))}`) +
          `; ${counted(design.assumptions.length, "assumption")}, ${counted(design.missing.length, "missing fact")}`,
        ...wrap(printJudged(judgement.tally), width),
      ],
    ];
    terminal.out(
      blocks
        .filter((block) => block.length > 0)
        .map((block) => `${block.join("\n")}\n`)
        .join("\n"),
    );
    if (file !== given.names.at(-1)) terminal.out("\n");
  }
  if (asJson) terminal.data(printJson({ format: "wireworthy-check-1", wireworthy: version, plans }));
  return code;
};
