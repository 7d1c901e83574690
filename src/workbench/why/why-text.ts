import { leaningText, sourceText, workedText } from "../../why/explanation-page.ts";
import type { Explanation } from "../../why/explanation.ts";
import type { Units } from "../contract.ts";
import { inSentence } from "../look/print-in-units.ts";
import { judgedRungs } from "./ladder-picture.ts";

/**
 * An explanation as plain text with its sources, for a letter or a forum.
 *
 * @param heading what it is of: the plan's name and revision
 */
export function whyText(explanation: Explanation, heading: string, units: Units): string {
  const { question, answer, ladder, sections, changes, leansOn, cautions } = explanation;
  const rungs = judgedRungs(ladder).map(
    (r) =>
      `- ${r.id}: ${r.size ?? "nothing on sale"}${r.decides ? ", decides" : ""}${r.says === "" ? "" : `; ${r.says}`}${r.source === "" ? "" : ` [${r.source}]`}`,
  );
  const blocks: readonly (readonly string[])[] = [
    [heading],
    [question, answer],
    rungs.length === 0 ? [] : ["What each constraint alone asks for", ...rungs],
    ...sections.map((s) => [
      s.title,
      ...(s.says === "" ? [] : [s.says]),
      ...s.steps.map((step) => {
        const source = sourceText(step);
        const sum = step.equation === "" ? workedText(step) : `${step.equation} ${workedText(step)}`;
        return `- ${step.name}: ${sum}${source === "" ? "" : ` [${source}]`}`;
      }),
    ]),
    changes.length === 0 ? [] : ["What would change it", ...changes.map((c) => `- ${c.when}: ${c.then}`)],
    leansOn.length === 0 ? [] : ["Leans on", ...leansOn.map((l) => `- ${leaningText(l)}`)],
    cautions,
    ["Advice to a competent person, not a certificate."],
  ];
  return blocks
    .filter((block) => block.length > 0)
    .map((block) => `${inSentence(block.join("\n"), units)}\n`)
    .join("\n");
}
