import { foldName } from "../../plan/index.ts";
import type { AskOffer, ViewId } from "./ask-offer.ts";

/** Words for each view that there is; the first is its name. */
const VIEWS: readonly (readonly [ViewId, readonly string[]])[] = [
  ["one-line", ["one-line", "one line", "drawing", "sheet"]],
  ["circuits", ["circuits", "circuit diagram"]],
  ["states", ["states", "operating states"]],
  ["schedules", ["schedules", "schedule", "table"]],
  ["faults", ["faults", "fault map", "fault currents", "short circuits", "selectivity", "curves"]],
  ["findings", ["findings", "findings list", "problems"]],
  ["wire-desk", ["wire desk", "desk", "question"]],
  ["list", ["list", "read as list"]],
  ["text", ["text", "plan text", "source"]],
  ["pack", ["pack", "documents", "print"]],
  ["units", ["units", "language", "settings"]],
  ["keys", ["keys", "shortcuts", "help"]],
  ["start", ["start", "builds", "home"]],
];

/** Views that answer to a text: by a whole word, or by its beginning. */
export function viewsFor(text: string, whole = false): readonly AskOffer[] {
  const wanted = foldName(text);
  if (wanted === "") return [];
  return VIEWS.flatMap(([view, words]): readonly AskOffer[] => {
    const fits = words.some((word) => word === wanted || (!whole && wanted.length > 1 && word.startsWith(wanted)));
    return fits ? [{ kind: "view", view, says: `show ${words[0] ?? view}`, more: "" }] : [];
  });
}
