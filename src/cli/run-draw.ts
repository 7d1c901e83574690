import type { Compiled } from "../compile.ts";
import { drawBench } from "../draw/bench/index.ts";
import { defaultPaper } from "../draw/one-line/index.ts";
import { drawTimeCurrent, plotCircuit } from "../draw/time-current/index.ts";
import type { Scene } from "../draw/scene.ts";
import type { PaperName } from "../draw/sheet/paper.ts";
import { drawStrip } from "../draw/strip/index.ts";
import { writeSvg } from "../draw/write-svg.ts";
import { foldName } from "../plan/index.ts";
import type { Given, Run } from "./command.ts";
import { circuitDiagramSheets } from "./circuit-diagram-sheets.ts";
import { codeOf, compileFile } from "./compile-file.ts";
import { complain } from "./complain.ts";
import { directorySheets } from "./directory-sheets.ts";
import { drawingPdf } from "./drawing-pdf.ts";
import { drawSheets, fontAddresses, paperNames, titleOfAll } from "./draw-sheets.ts";
import { titleOf } from "../draw/one-line/title-of.ts";
import { writeDrawing } from "./write-drawing.ts";

/** A drawing: the sheet that is shown, and all that go into a PDF. */
interface Drawn {
  readonly scene: Scene;
  readonly sheets: readonly Scene[];
  /** `one-line diagram` */
  readonly what: string;
  /** On paper: it is taken away by itself, so the font is in it even where it is printed. */
  readonly onPaper: boolean;
}

type Problem = { readonly problem: string; readonly hint: string };

/** `draw PLAN` */
export const runDraw: Run = async (given, terminal) => {
  const [file = ""] = given.names;
  const wrong = clash(given);
  if (wrong !== null) return complain(terminal, wrong.problem, wrong.hint);
  const read = await compileFile(file);
  if (!read.ok) return complain(terminal, read.problem, read.hint);
  const drawn = draw(read.compiled, given);
  if ("problem" in drawn) return complain(terminal, drawn.problem, drawn.hint);
  const out = given.options["out"];
  const { scene, sheets, what, onPaper: isSheet } = drawn;
  if (typeof out !== "string") {
    // As the page has it, byte for byte: no font is put into a picture of the page.
    terminal.data(writeSvg(scene, isSheet ? { embedFont: await fontAddresses() } : {}));
    return codeOf(read.compiled);
  }
  const isPdf = /\.pdf$/i.test(out);
  const text = isPdf
    ? await drawingPdf(read.compiled, what, sheets)
    : // A file is taken away by itself, and shown where nobody has the font.
      writeSvg(scene, { embedFont: await fontAddresses() });
  const written = await writeDrawing(out, text, file);
  if (!written.ok) return complain(terminal, written.problem, written.hint);
  terminal.out(`wrote ${written.path}  (${isPdf ? titleOfAll(sheets) : scene.title})\n`);
  return codeOf(read.compiled);
};

/** Drawings that are on paper whatever is said. */
const onPaper = [
  ["circuit-diagram", "a circuit diagram has"],
  ["directory", "directories have"],
] as const;

/** Forms of pictures and documents that are not written. */
const OTHER_FORM = /\.(?:png|jpe?g|gif|webp|tiff?|bmp|e?ps|dxf|dwg|html?|docx?|odg)$/i;

/** Options that do not go together. */
function clash({ options }: Given): Problem | null {
  const { on, out } = options;
  if (typeof out === "string" && OTHER_FORM.test(out))
    return { problem: `a drawing cannot be written as \`${out}\``, hint: "name a file that ends in .svg or .pdf" };
  for (const [name, called] of onPaper) {
    if (options[name] !== true) continue;
    const all = ["state", "circuit", "handles", "curves", ...onPaper.map(([n]) => n).filter((n) => n !== name)];
    const other = all.find((n) => options[n] !== undefined);
    if (other === undefined) return null;
    return { problem: `${called} no \`--${other}\``, hint: `write \`--${name}\` alone, or with \`--on A4\`` };
  }
  if (options["curves"] !== undefined) {
    const other = ["state", "circuit", "handles", "sheet"].find((name) => options[name] !== undefined);
    return other === undefined
      ? null
      : { problem: `curves have no \`--${other}\``, hint: "write `--curves` alone, or with `--on A4`" };
  }
  const isBench = on === undefined || (typeof on === "string" && on.toLowerCase() === "bench");
  if (options["circuit"] !== undefined && (!isBench || options["handles"] === true))
    return {
      problem: "a strip has neither paper nor handles",
      hint: "write `--circuit` without `--on` and `--handles`",
    };
  if (isBench) {
    return options["sheet"] === undefined
      ? null
      : { problem: "the bench has one sheet", hint: "name a paper as well: `--on A4 --sheet 2`" };
  }
  if (options["state"] !== undefined || options["handles"] === true)
    return {
      problem: "on paper contacts stand at rest, without handles",
      hint: "write `--on bench` with `--state` or `--handles`",
    };
  return null;
}

function draw(compiled: Compiled, { options }: Given): Drawn | Problem {
  if (options["directory"] === true)
    return drawSet(options, (paper) => directorySheets(compiled, paper), "directory of boards", {
      are: "directories are",
      problem: "no board of the plan has ways",
      hint: "give a panel or a fuse block `ways`",
    }); // prettier-ignore
  if (options["circuit-diagram"] === true)
    return drawSet(options, (paper) => circuitDiagramSheets(compiled, paper), "circuit diagram", {
      are: "a circuit diagram is",
      problem: "no conductor of the plan carries alternating current",
      hint: "the direct side is drawn as a one-line: `wireworthy draw PLAN`",
    }); // prettier-ignore
  const { plan, system, runs, design, judgement, settled } = compiled;
  const build = { plan, system, runs, design, findings: judgement.findings };
  const { variant } = defaultPaper(system);
  const { on, circuit, curves, sheet } = options;
  if (curves !== undefined) return drawCurves(compiled, String(curves), on === undefined ? "bench" : String(on));
  if (typeof on === "string" && on.toLowerCase() !== "bench") {
    const paper = paperNames.find((name) => name.toLowerCase() === on.toLowerCase());
    if (paper === undefined)
      return { problem: `there is no paper \`${on}\``, hint: `write bench, ${paperNames.join(", ")}` };
    return oneSheet(drawSheets(compiled, paper), sheet, "one-line diagram");
  }
  const state = named(
    options["state"],
    design.states.map(({ id }) => id),
  );
  if (state === undefined)
    return {
      problem: `the plan has no state \`${String(options["state"])}\``,
      hint: listed(design.states.map(({ id }) => id)),
    };
  let scene: Scene;
  if (circuit === undefined) scene = drawBench(build, { variant, state, handles: options["handles"] === true }).scene;
  else {
    const ids = system.circuits.map(({ id }) => id);
    const id = named(circuit, ids);
    if (id === undefined || id === null)
      return { problem: `the plan has no circuit \`${String(circuit)}\``, hint: listed(ids) };
    scene = drawStrip({ ...build, settled }, id, { variant, state });
  }
  return { scene, sheets: [scene], what: circuit === undefined ? "one-line diagram" : "circuit", onPaper: false };
}

/** One sheet of a drawing that has its own set of them; a PDF has all. */
function drawSet(
  { on, sheet }: Given["options"],
  draw: (paper?: PaperName) => Scene[],
  what: string,
  says: { readonly are: string } & Problem,
): Drawn | Problem {
  const paper = paperNames.find((name) => name.toLowerCase() === String(on).toLowerCase());
  if (on !== undefined && paper === undefined)
    return { problem: `${says.are} not drawn on \`${String(on)}\``, hint: `write ${paperNames.join(", ")}` };
  const scenes = draw(paper);
  if (scenes.length === 0) return { problem: says.problem, hint: says.hint };
  return oneSheet(scenes, sheet, what);
}

/** The sheet that was asked for, else the first; a PDF has all unless one was asked for. */
function oneSheet(sheets: readonly Scene[], sheet: string | true | undefined, what: string): Drawn | Problem {
  const scene = sheets[sheet === undefined ? 0 : Number(sheet) - 1];
  if (scene === undefined)
    return {
      problem: `there is no sheet \`${String(sheet)}\``,
      hint: `the drawing has ${sheets.length} ${sheets.length === 1 ? "sheet" : "sheets"}`,
    };
  return { scene, sheets: sheet === undefined ? sheets : [scene], what, onPaper: true };
}

/** What of a list was typed, whatever its case; null: nothing was; undefined: none of these. */
function named(typed: string | true | undefined, list: readonly string[]): string | null | undefined {
  if (typeof typed !== "string") return null;
  return list.find((id) => id === typed) ?? list.find((id) => foldName(id) === foldName(typed));
}

const listed = (names: readonly string[]): string =>
  names.length === 0 ? "it has none" : `it has ${names.slice(0, 8).map((n) => `\`${n}\``).join(", ")}${names.length > 8 ? " …" : ""}`; // prettier-ignore

/** When the devices that feed a circuit open. */
function drawCurves(
  { plan, system, runs, design, judgement, settled }: Compiled,
  circuit: string,
  on: string,
): Drawn | Problem {
  const ids = system.circuits.map(({ id }) => id);
  const id = named(circuit, ids);
  if (id === undefined || id === null) return { problem: `the plan has no circuit \`${circuit}\``, hint: listed(ids) };
  const plot = plotCircuit(settled, id);
  if (plot === null)
    return {
      problem: `no fault current of a battery can be told for \`${id}\``,
      hint: "curves are drawn for circuits of direct current that a source reaches",
    };
  const paper = (["A4", "Letter"] as const).find((name) => name.toLowerCase() === on.toLowerCase());
  if (paper === undefined && on.toLowerCase() !== "bench")
    return { problem: `curves are not drawn on \`${on}\``, hint: "write bench, A4 or Letter" };
  const build = { plan, system, runs, design, findings: judgement.findings };
  const { variant } = defaultPaper(system);
  const scene = drawTimeCurrent(
    plot,
    paper === undefined
      ? { on: "screen" }
      : {
          on: paper,
          fields: { ...titleOf(build, { variant, paper }), documentType: "Time–current curves" },
        },
  );
  return { scene, sheets: [scene], what: "time–current curves", onPaper: paper !== undefined };
}
