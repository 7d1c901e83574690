import { compile, createMemory, type Compiled } from "../compile.ts";
import { findCures, findDecidingAssumptions, type DecidingAssumptions } from "../cure/index.ts";
import type { Finding } from "../rules/index.ts";
import { compileFile, judgedCodeOf, today } from "./compile-file.ts";
import { complain } from "./complain.ts";
import type { Run } from "./command.ts";
import { checkedPlan, printJson, tallyOf, type CheckedPlan, type FoundCures } from "./documents.ts";
import { exitCodes, type ExitCode } from "./exit-codes.ts";
import { counted } from "./figures.ts";
import { printAttention } from "./print-attention.ts";
import { cautions, printAssumptions, printMissing } from "./print-basis.ts";
import { printCures, printMovedAssumptions } from "./print-cures.ts";
import { printDiagnostics, printTally } from "./print-diagnostics.ts";
import { printFindings, printJudged, printPasses, printUntold, type FindingsOptions } from "./print-findings.ts";
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
    const cures = given.options["cures"] === true ? curesOf(compiled) : null;
    const deciding = given.options["assumptions"] === true ? decidingIn(compiled) : null;
    if (deciding?.findings.some((f) => f.waived === null) === true) worsen(exitCodes.findings);
    if (asJson) {
      plans.push(checkedPlan(file, compiled, { cures, deciding }));
      continue;
    }
    const blocks = [
      printDiagnostics(file, plan.text, diagnostics, { width, paint, withoutNotes: isQuiet }),
      printAttention(design, width),
      // The facts that are missing are findings themselves; one by one they would say the same many times.
      printWithCures(
        file,
        plan.text,
        [
          ...judgement.findings.filter(
            (f) => (f.outcome === "fail" || given.options["all"] === true) && !(isQuiet && f.severity === "note"),
          ),
          ...(deciding?.findings ?? []),
        ],
        cures,
        { width, paint },
      ),
      deciding === null ? [] : printMovedAssumptions(deciding, { width, paint }),
      printUntold(judgement.findings, width),
      given.options["all"] === true ? printPasses(judgement, { width, paint }) : [],
      printMissing(design.missing, width),
      isQuiet ? [] : printAssumptions(design.assumptions, width),
      [
        paint("bold", `${file}: ${printTally(tallyOf(diagnostics))}`) +
          `; ${counted(design.assumptions.length, "assumption")}, ${counted(design.missing.length, "missing fact")}`,
        ...wrap(printJudged(judgement.tally), width),
      ],
      wrap(cautions[0] ?? "", width),
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

/** Cures of each fail that nobody answers for yet. */
function curesOf(compiled: Compiled): FoundCures[] {
  const { plan, judgement } = compiled;
  const options = { today: today(), memory: createMemory(), compiled };
  return judgement.findings
    .filter((f) => f.outcome === "fail" && f.waived === null)
    .map((f) => ({ rule: f.rule, about: f.about, search: findCures(plan.text, f, compile, options) }));
}

const decidingIn = (compiled: Compiled): DecidingAssumptions =>
  findDecidingAssumptions(compiled.plan.text, compile, { today: today(), compiled });

/** Findings, each with its cures under it where they were looked for. */
function printWithCures(
  file: string,
  text: string,
  findings: readonly Finding[],
  cures: readonly FoundCures[] | null,
  options: FindingsOptions,
): string[] {
  if (cures === null) return printFindings(file, text, findings, options);
  const of = new Map(cures.map((c) => [`${c.rule} ${c.about}`, c.search]));
  return findings.flatMap((f, i) => {
    const search = of.get(`${f.rule} ${f.about}`);
    return [
      ...(i === 0 ? [] : [""]),
      ...printFindings(file, text, [f], options),
      ...(search === undefined ? [] : printCures(search, f, options)),
    ];
  });
}
