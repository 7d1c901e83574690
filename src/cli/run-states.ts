import { mkdir } from "node:fs/promises";
import { join } from "node:path";
import type { Compiled } from "../compile.ts";
import { tellStates, type ToldStates } from "../draw/states/index.ts";
import type { Scene } from "../draw/scene.ts";
import { writeSvg } from "../draw/write-svg.ts";
import { studySwitching, type SystemSwitching } from "../switching/index.ts";
import type { Given, Run } from "./command.ts";
import { codeOf, compileFile } from "./compile-file.ts";
import { complain } from "./complain.ts";
import { printJson, statesDocument } from "./documents.ts";
import { fontAddresses, paperNames, titleOfAll } from "./draw-sheets.ts";
import { counted } from "./figures.ts";
import { drawingPdf } from "./drawing-pdf.ts";
import { stateSheets } from "./state-sheets.ts";
import { systemWords } from "./read-text.ts";
import type { Terminal } from "./terminal.ts";
import { writeDrawing } from "./write-drawing.ts";
import { positionOnPaper } from "./positions-on-paper.ts";
import { printPosition } from "./print-position.ts";
import { printSwitching } from "./print-switching.ts";
import { readPositions } from "./read-positions.ts";
import { widthOf, WIDTH_PROBLEM } from "./width-of.ts";

/** `states PLAN` */
export const runStates: Run = async (given, terminal) => {
  const width = widthOf(given, terminal);
  if (width === null) return complain(terminal, WIDTH_PROBLEM, "write `--width 100`");
  const [file = ""] = given.names;
  const { set, json, draw } = given.options;
  const clash = clashOf(given);
  if (clash !== null) return complain(terminal, clash.problem, clash.hint);
  const read = await compileFile(file);
  if (!read.ok) return complain(terminal, read.problem, read.hint);
  const { compiled } = read;
  const switching = studySwitching(compiled.system);
  const asked = typeof set === "string" ? readPositions(set, switching.problem.movers) : null;
  if (asked !== null && !asked.ok) return complain(terminal, asked.problem, asked.hint);
  const told = tellStates(switching, compiled.judgement.findings, compiled.judgement.notApplicable);
  if (typeof draw === "string") {
    const wrong = await drawInto(draw, file, compiled, switching, told, given, terminal);
    return wrong === null ? codeOf(compiled) : complain(terminal, wrong.problem, wrong.hint);
  }
  const position = asked === null ? null : positionOnPaper(compiled, switching, asked.positions);
  if (json === true) terminal.data(printJson(statesDocument(file, compiled, told, position)));
  else
    terminal.out(
      position === null
        ? printSwitching(compiled, told, width, terminal.paint)
        : printPosition(position, width, terminal.paint),
    );
  return codeOf(compiled);
};

interface Problem {
  readonly problem: string;
  readonly hint: string;
}

/** Options that do not go together. */
function clashOf({ options: { set, json, draw, paper, sheet } }: Given): Problem | null {
  if (draw === undefined && (paper !== undefined || sheet !== undefined))
    return { problem: "only a drawing has paper and sheets", hint: "write `--draw FILE.svg` as well" };
  if (draw !== undefined && (set !== undefined || json !== undefined))
    return { problem: "a drawing shows every state, and is no JSON", hint: "write `--draw` alone" };
  return null;
}

/** Draws the states into one file or a folder; null: it is done. */
async function drawInto(
  where: string,
  file: string,
  compiled: Compiled,
  switching: SystemSwitching,
  told: ToldStates,
  { options }: Given,
  terminal: Terminal,
): Promise<Problem | null> {
  const named = paperNames.find((n) => typeof options["paper"] === "string" && n.toLowerCase() === options["paper"].toLowerCase()); // prettier-ignore
  if (options["paper"] !== undefined && named === undefined)
    return {
      problem: `there is no paper \`${String(options["paper"])}\``,
      hint: `write one of ${paperNames.join(", ")}`,
    };
  const scenes = stateSheets(compiled, switching, told, named);
  if (scenes.length === 0)
    return {
      problem: told.untold ?? "nothing alternates in this plan",
      hint: "there are no states that could be drawn",
    };
  const isPdf = /\.pdf$/i.test(where);
  if (isPdf || /\.svg$/i.test(where)) {
    const number = options["sheet"] === undefined ? 1 : Number(options["sheet"]);
    const scene = scenes[number - 1];
    if (scene === undefined || (isPdf && options["sheet"] !== undefined))
      return {
        problem: isPdf ? "a PDF has all sheets" : `there is no sheet \`${String(options["sheet"])}\``,
        hint: isPdf ? "leave `--sheet` out" : `the drawing has ${counted(scenes.length, "sheet")}`,
      };
    return write(
      where,
      isPdf ? await drawingPdf(compiled, "states of the alternating side", scenes) : await svgOf(scene),
      isPdf ? titleOfAll(scenes) : scene.title,
    );
  }
  try {
    await mkdir(where, { recursive: true });
  } catch (error) {
    return {
      problem: `\`${where}\` cannot be made: ${systemWords(error)}`,
      hint: "name a folder that can be written to",
    };
  }
  for (const [i, scene] of scenes.entries()) {
    const wrong = await write(join(where, `states-${i + 1}.svg`), await svgOf(scene), scene.title);
    if (wrong !== null) return wrong;
  }
  return write(
    join(where, "states.pdf"),
    await drawingPdf(compiled, "states of the alternating side", scenes),
    "all of them, for the printer",
  );

  async function write(path: string, drawing: string | Uint8Array, says: string): Promise<Problem | null> {
    const written = await writeDrawing(path, drawing, file);
    if (!written.ok) return written;
    terminal.out(`wrote ${written.path}  (${says})\n`);
    return null;
  }
}

const svgOf = async (scene: Scene): Promise<string> => writeSvg(scene, { embedFont: await fontAddresses() });
