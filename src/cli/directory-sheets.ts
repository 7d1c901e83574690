import type { Compiled } from "../compile.ts";
import { drawDirectories, readBoards } from "../draw/directory/index.ts";
import { defaultPaper } from "../draw/one-line/index.ts";
import { titleOf } from "../draw/one-line/title-of.ts";
import type { Scene } from "../draw/scene.ts";
import type { PaperName } from "../draw/sheet/paper.ts";
import { writeSvg } from "../draw/write-svg.ts";
import { drawingPdf } from "./drawing-pdf.ts";

/** What hangs on the doors of the boards of a build; American builds on Letter, unless a paper is named. */
export function directorySheets({ plan, system, runs, design, judgement }: Compiled, named?: PaperName): Scene[] {
  const usual = defaultPaper(system);
  const paper = named ?? usual.paper;
  const title = titleOf(
    { plan, system, runs, design, findings: judgement.findings },
    { variant: usual.variant, paper },
  );
  return drawDirectories(readBoards({ plan, system, design }), paper, {
    ...title,
    documentType: "directory of boards",
    identification: title.identification.replace(/-E1$/, "-D1"),
  });
}

/** The directories as files that stand alone: one SVG a sheet, and one PDF of all; none where no board has ways. */
export async function directoryFiles(
  compiled: Compiled,
  embedFont: { readonly regular: string; readonly semibold: string },
  paper?: PaperName,
): Promise<{ readonly name: string; readonly holds: string; readonly text: string | Uint8Array }[]> {
  const scenes = directorySheets(compiled, paper);
  if (scenes.length === 0) return [];
  const svgs = scenes.map((scene, i) => ({
    name: i === 0 ? "directory.svg" : `directory-${i + 1}.svg`,
    holds: `what each way of each board feeds${scenes.length === 1 ? "" : `, sheet ${i + 1} of ${scenes.length}`}`,
    text: writeSvg(scene, { embedFont }),
  }));
  return [...svgs, { name: "directory.pdf", holds: "the same for the printer", text: await drawingPdf(compiled, "directory of boards", scenes) }]; // prettier-ignore
}
