import { foldName } from "../plan/index.ts";
import type { Run } from "./command.ts";
import { codeOf, compileFile } from "./compile-file.ts";
import { complain } from "./complain.ts";
import { faultsDocument, printJson } from "./documents.ts";
import { faultsOnPaper } from "./faults-on-paper.ts";
import { faultsOfCircuit, printCircuitFault } from "./print-circuit-fault.ts";
import { printFaults } from "./print-faults.ts";
import { widthOf, WIDTH_PROBLEM } from "./width-of.ts";

/** `faults PLAN [CIRCUIT]` */
export const runFaults: Run = async (given, terminal) => {
  const width = widthOf(given, terminal);
  if (width === null) return complain(terminal, WIDTH_PROBLEM, "write `--width 100`");
  const [file = "", ...words] = given.names;
  const asked = words.join(" ");
  const read = await compileFile(file);
  if (!read.ok) return complain(terminal, read.problem, read.hint);
  const { compiled } = read;
  const all = faultsOnPaper(compiled);
  const ids = compiled.system.circuits.map((c) => c.id);
  const id = ids.find((one) => one === asked) ?? ids.find((one) => foldName(one) === foldName(asked));
  if (asked !== "" && id === undefined)
    return complain(
      terminal,
      `the plan has no circuit \`${asked}\``,
      ids.length === 0 ? "it has none" : `it has ${ids.slice(0, 8).join(", ")}${ids.length > 8 ? " …" : ""}`,
    );
  const faults = id === undefined ? all : faultsOfCircuit(all, id);
  if (given.options["json"] === true) terminal.data(printJson(faultsDocument(file, compiled, faults)));
  else
    terminal.out(
      id === undefined
        ? printFaults(compiled, faults, width, terminal.paint)
        : printCircuitFault(compiled, id, faults, width, terminal.paint),
    );
  return codeOf(compiled);
};
