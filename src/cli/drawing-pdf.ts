import type { Compiled } from "../compile.ts";
import type { Scene } from "../draw/scene.ts";

/**
 * Drawings of a plan as one PDF, a page each.
 *
 * @param what they show: `circuit diagram`
 * @param scenes at least one
 */
export async function drawingPdf({ plan }: Compiled, what: string, scenes: readonly Scene[]): Promise<Uint8Array> {
  // The PDF library comes with it.
  const { makePdf } = await import("./make-pdf.ts");
  return makePdf(scenes, {
    title: `${plan.name === "" ? "" : `${plan.name}: `}${what}`,
    subject: `wiring design, ${what}; advice to a competent person, not a certificate`,
    language: "en",
    creator: "Wireworthy",
    // The clock of a machine says nothing of a plan.
    date: null,
  });
}
