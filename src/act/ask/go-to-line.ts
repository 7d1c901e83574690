import { placed } from "../../plan/index.ts";
import { lineStartsOf } from "../../plan/text/index.ts";
import type { AskOffer } from "./ask-offer.ts";
import type { Asking } from "./offers.ts";

/** The thing that stands on a line of the plan. */
export function goToLine({ names, compiled }: Asking, line: number): AskOffer {
  const { plan } = compiled;
  const starts = lineStartsOf(plan.text);
  const start = starts[line - 1];
  if (start === undefined) {
    return {
      kind: "told",
      says: `the plan has no line ${line}`,
      more: "",
      message: `the plan has ${starts.length} lines`,
      hint: "name one of them",
    };
  }
  const end = starts[line] ?? plan.text.length + 1;
  // The last name at or before the end of the line: the line is its own, or one of those below it.
  let best: { about: string; at: number } | null = null;
  const items = [
    ...plan.parts.map((item) => ({ section: "parts", item })),
    ...plan.circuits.map((item) => ({ section: "circuits", item })),
    ...plan.states.map((item) => ({ section: "states", item })),
    ...plan.systems.map((item) => ({ section: "systems", item })),
  ];
  for (const { section, item } of items) {
    const [at] = placed(item.base, item.keySpan);
    if (at < end && (best === null || at > best.at)) best = { about: `${section}.${item.key}`, at };
  }
  // A line at the left edge belongs to no entry.
  const isInside = /^[ \t]/.test(plan.text.slice(start, start + 1));
  const about = isInside && best !== null ? best.about : "plan";
  const thing = names.all.find((known) => known.about === about);
  return { kind: "go", about, line, says: `go to line ${line}`, more: thing?.name ?? "" };
}
