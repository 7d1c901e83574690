import type { Said } from "./rule.ts";

const REASONS: Readonly<Record<string, string>> = {
  "plan/cable-label": "the label is that of a cable",
  "plan/size-expected": "the label does not say a size",
  "plan/not-a-size": "the label says a size that no table goes to",
  "plan/cores-missing": "the label does not say how many conductors there are",
};

/** Why the label of a wire or cable is not taken: completes "its wire: …". */
export function unreadLabel({ id, data }: Said): string {
  const ways = data?.["ways"];
  return typeof ways === "number"
    ? `the label can be read in ${ways} ways`
    : (REASONS[id] ?? "the label cannot be read");
}
