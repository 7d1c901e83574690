import { readFile } from "node:fs/promises";
import type { Compiled } from "../compile.ts";
import { defaultPaper, drawOneLine } from "../draw/one-line/index.ts";
import type { Scene } from "../draw/scene.ts";
import { papers, type PaperName } from "../draw/sheet/paper.ts";
import { writeSvg } from "../draw/write-svg.ts";
import { drawingPdf } from "./drawing-pdf.ts";

/** Put in by the build, whose files lie one folder less deep. */
declare const WIREWORTHY_VERSION: string | undefined;
const fonts = new URL(typeof WIREWORTHY_VERSION === "string" ? "../fonts/" : "../../fonts/", import.meta.url);

export const paperNames = Object.keys(papers) as readonly PaperName[]; // the keys of that list

/** The one-line drawing of a build; American builds on Letter with American symbols, unless a paper is named. */
export function drawSheets({ plan, system, runs, design, judgement }: Compiled, paper?: PaperName): Scene[] {
  const usual = defaultPaper(system);
  return drawOneLine(
    { plan, system, runs, design, findings: judgement.findings },
    { ...usual, paper: paper ?? usual.paper },
  );
}

/** What one document of several sheets is called, where each of them has its own title. */
export function titleOfAll(sheets: readonly Scene[]): string {
  const titles = [...new Set(sheets.map(({ title }) => title.replace(/, sheet \d+ of \d+$/, "")))].join("; ");
  return sheets.length === 1 ? titles : `${titles}, ${sheets.length} sheets`;
}

/** Addresses of the drawing font that hold the font itself. */
export async function fontAddresses(): Promise<{ readonly regular: string; readonly semibold: string }> {
  const [regular = "", semibold = ""] = await Promise.all(
    ["IBMPlexSans-Regular.ttf", "IBMPlexSans-SemiBold.ttf"].map(
      async (name) => `data:font/ttf;base64,${(await readFile(new URL(name, fonts))).toString("base64")}`,
    ),
  );
  return { regular, semibold };
}

/** Drawings as files that stand alone: one SVG a sheet with the font in it, and one PDF of all. */
export async function sheetFiles(
  compiled: Compiled,
  scenes: readonly Scene[],
  embedFont: { readonly regular: string; readonly semibold: string },
): Promise<{ readonly name: string; readonly holds: string; readonly text: string | Uint8Array }[]> {
  if (scenes.length === 0) return [];
  const svgs = scenes.map((scene, i) => ({
    name: i === 0 ? "one-line.svg" : `one-line-${i + 1}.svg`,
    holds: scenes.length === 1 ? "the one-line drawing" : `the one-line drawing, sheet ${i + 1} of ${scenes.length}`,
    text: writeSvg(scene, { embedFont }),
  }));
  return [
    ...svgs,
    {
      name: "one-line.pdf",
      holds: "the same for the printer",
      text: await drawingPdf(compiled, "one-line diagram", scenes),
    },
  ];
}
