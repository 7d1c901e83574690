import type { Step } from "./blocks.ts";
import type { PartView } from "./part-view.ts";
import type { WireView } from "./wire-view.ts";

/** Whether a wire comes to a panel where its main device stands: at its feed, not at a section, a way or a bar of neutral or earth. */
export function landsOnMain({ id, main }: PartView, wire: WireView | undefined): boolean {
  const end = [wire?.to, wire?.from].find((e) => e?.part === id);
  return main !== null && end !== undefined && (end.port === "" || end.port === "in");
}

/** The main device of a panel, as what sits in the line that lands on its feed; a bar that another wire feeds has none. */
export function mainStep(part: PartView, wire: WireView | undefined): Step[] {
  if (part.main === null || !landsOnMain(part, wire)) return [];
  // `30 A 30 mA`: in a short line its residual current is left to the schedule.
  const [, rating = part.main.text, rest] = /^(\S+ \S+) (.+)$/.exec(part.main.text) ?? [];
  const through: PartView = {
    ...part,
    about: "",
    label: rating,
    called: null,
    values: rest === undefined ? [] : [rest],
    says: `main device of ${part.label}, ${part.main.text}`,
    symbol: "breaker",
    rings: part.main.kind === "rcd",
  };
  return [{ wire: null, through }];
}
