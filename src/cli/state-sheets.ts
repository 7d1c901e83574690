import type { Compiled } from "../compile.ts";
import { defaultPaper } from "../draw/one-line/index.ts";
import { titleOf } from "../draw/one-line/title-of.ts";
import type { Scene } from "../draw/scene.ts";
import type { PaperName } from "../draw/sheet/paper.ts";
import { drawStates, tellStates, type ToldStates } from "../draw/states/index.ts";
import { writeSvg } from "../draw/write-svg.ts";
import { studySwitching, type SystemSwitching } from "../switching/index.ts";
import { drawingPdf } from "./drawing-pdf.ts";

/** Sheets with a picture of every state; none where nothing alternates. American builds on Letter, unless a paper is named. */
export function stateSheets(
  { plan, system, runs, design, judgement }: Compiled,
  switching: SystemSwitching,
  told: ToldStates,
  named?: PaperName,
): Scene[] {
  const usual = defaultPaper(system);
  const paper = named ?? usual.paper;
  const title = titleOf(
    { plan, system, runs, design, findings: judgement.findings },
    { variant: usual.variant, paper },
  );
  return drawStates(switching, told, plan.name, {
    on: paper,
    fields: {
      ...title,
      documentType: "states of the alternating side",
      identification: title.identification.replace(/-E1$/, "-S1"),
    },
  });
}

/** The states as files that stand alone: their table as JSON, one SVG a sheet, and one PDF of all. */
export async function stateFiles(
  compiled: Compiled,
  embedFont: { readonly regular: string; readonly semibold: string },
  paper?: PaperName,
): Promise<{ readonly name: string; readonly holds: string; readonly text: string | Uint8Array }[]> {
  const switching = studySwitching(compiled.system);
  const told = tellStates(switching, compiled.judgement.findings, compiled.judgement.notApplicable);
  const scenes = stateSheets(compiled, switching, told, paper);
  if (scenes.length === 0) return [];
  const svgs = scenes.map((scene, i) => ({
    name: i === 0 ? "states.svg" : `states-${i + 1}.svg`,
    holds: `states of the alternating side${scenes.length === 1 ? "" : `, sheet ${i + 1} of ${scenes.length}`}`,
    text: writeSvg(scene, { embedFont }),
  }));
  return [
    ...svgs,
    {
      name: "states.pdf",
      holds: "the same for the printer",
      text: await drawingPdf(compiled, "states of the alternating side", scenes),
    },
  ];
}
