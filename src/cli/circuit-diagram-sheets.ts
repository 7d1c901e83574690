import type { Compiled } from "../compile.ts";
import { drawCircuitDiagram } from "../draw/circuit-diagram/index.ts";
import { defaultPaper } from "../draw/one-line/index.ts";
import { titleOf } from "../draw/one-line/title-of.ts";
import type { Scene } from "../draw/scene.ts";
import type { PaperName } from "../draw/sheet/paper.ts";
import { writeSvg } from "../draw/write-svg.ts";
import { drawingPdf } from "./drawing-pdf.ts";

/** The alternating side of a build, conductor by conductor; none where nothing alternates. American builds on Letter, unless a paper is named. */
export function circuitDiagramSheets({ plan, system, runs, design, judgement }: Compiled, named?: PaperName): Scene[] {
  const usual = defaultPaper(system);
  const paper = named ?? usual.paper;
  const title = titleOf(
    { plan, system, runs, design, findings: judgement.findings },
    { variant: usual.variant, paper },
  );
  return drawCircuitDiagram({ plan, system, runs, design, findings: judgement.findings }, paper, usual.variant, {
    ...title,
    documentType: "circuit diagram, alternating side",
    identification: title.identification.replace(/-E1$/, "-C1"),
  });
}

/** The circuit diagram as files that stand alone: one SVG a sheet, and one PDF of all; none where nothing alternates. */
export async function circuitDiagramFiles(
  compiled: Compiled,
  embedFont: { readonly regular: string; readonly semibold: string },
  paper?: PaperName,
): Promise<{ readonly name: string; readonly holds: string; readonly text: string | Uint8Array }[]> {
  const scenes = circuitDiagramSheets(compiled, paper);
  if (scenes.length === 0) return [];
  const svgs = scenes.map((scene, i) => ({
    name: i === 0 ? "circuit-diagram.svg" : `circuit-diagram-${i + 1}.svg`,
    holds: `the alternating side conductor by conductor${scenes.length === 1 ? "" : `, sheet ${i + 1} of ${scenes.length}`}`,
    text: writeSvg(scene, { embedFont }),
  }));
  return [...svgs, { name: "circuit-diagram.pdf", holds: "the same for the printer", text: await drawingPdf(compiled, "circuit diagram", scenes) }]; // prettier-ignore
}
