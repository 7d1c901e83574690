import { drawSheets, fontAddresses, paperNames, sheetFiles } from "./draw-sheets.ts";
import { circuitDiagramFiles, circuitDiagramSheets } from "./circuit-diagram-sheets.ts";
import { complain } from "./complain.ts";
import type { Run } from "./command.ts";
import { scheduleCsv, voltagesCsv } from "./design-csv.ts";
import { directoryFiles } from "./directory-sheets.ts";
import { designDocument, printJson, tallyOf } from "./documents.ts";
import { printDesign } from "./print-design.ts";
import { printDiagnostics, printTally } from "./print-diagnostics.ts";
import { compileFile, judgedCodeOf } from "./compile-file.ts";
import { printFindings, printJudged } from "./print-findings.ts";
import { reportPage } from "./report-page.ts";
import { harmless, plain } from "./terminal.ts";
import { stateFiles } from "./state-sheets.ts";
import { version } from "./version.ts";
import { writeFiles, type OutFile } from "./write-files.ts";

/** A sheet of paper across. */
const SHEET = 140;

/** `build PLAN -o DIR` */
export const runBuild: Run = async ({ names, options }, terminal) => {
  const [file = ""] = names;
  const folder = options["out"];
  if (typeof folder !== "string") {
    return complain(terminal, "`build` needs a folder to write into", "write `wireworthy build PLAN -o DIR`");
  }
  const read = await compileFile(file);
  if (!read.ok) return complain(terminal, read.problem, read.hint);
  const { compiled } = read;
  const { plan, design, diagnostics, judgement } = compiled;
  const tally = tallyOf(diagnostics);
  const told = printDiagnostics(file, plan.text, diagnostics, { width: SHEET, paint: plain });
  const paper = options["paper"];
  const named = paperNames.find((name) => typeof paper === "string" && name.toLowerCase() === paper.toLowerCase());
  if (paper !== undefined && named === undefined) {
    return complain(terminal, `there is no paper \`${String(paper)}\``, `write one of ${paperNames.join(", ")}`);
  }
  const scenes = drawSheets(compiled, named);
  const font = await fontAddresses();
  const files: (OutFile & { readonly holds: string })[] = [
    { name: "design.json", holds: "everything, for programs", text: printJson(designDocument(file, compiled)) },
    { name: "schedule.csv", holds: "the circuits, for a spreadsheet", text: scheduleCsv(compiled) },
    {
      name: "schedule.txt",
      holds: "the circuits and states, to read",
      text: harmless(printDesign(file, compiled, SHEET, plain)),
    },
    {
      name: "findings.txt",
      holds: "what the rules say, to read",
      text: harmless(
        [
          ...printFindings(file, plan.text, judgement.findings, { width: SHEET, paint: plain }),
          ...(judgement.findings.length > 0 ? [""] : []),
          printJudged(judgement.tally),
          "",
        ].join("\n"),
      ),
    },
    {
      name: "report.html",
      holds: "all of it on one page, for a browser",
      text: reportPage(file, compiled, scenes, circuitDiagramSheets(compiled, named), font),
    },
    ...(await sheetFiles(compiled, scenes, font)),
    ...(await circuitDiagramFiles(compiled, font, named)),
    ...(await stateFiles(compiled, font, named)),
    ...(await directoryFiles(compiled, font, named)),
    { name: "voltages.csv", holds: "volts at every load in every state", text: voltagesCsv(design) },
    {
      name: "diagnostics.txt",
      holds: "what is said about the plan",
      text: harmless([...told, ...(told.length > 0 ? [""] : []), `${file}: ${printTally(tally)}`, ""].join("\n")),
    },
  ];
  const written = await writeFiles(folder, files, file === "-" ? null : file, "design.json");
  if (!written.ok) return complain(terminal, written.problem, written.hint);
  if (options["json"] === true) {
    terminal.data(
      printJson({
        format: "wireworthy-build-1",
        wireworthy: version,
        folder,
        files: files.map(({ name, holds, text }) => ({
          name,
          bytes: typeof text === "string" ? Buffer.byteLength(text) : text.length,
          holds,
        })),
        tally,
        judged: judgement.tally,
      }),
    );
  } else {
    const lines = files.map(({ holds }, i) => `wrote ${written.paths[i] ?? ""}  (${holds})`);
    terminal.out(`${lines.join("\n")}\n${file}: ${printTally(tally)}\n${printJudged(judgement.tally)}\n`);
  }
  return judgedCodeOf(compiled);
};
