import type { Finding } from "../../rules/index.ts";
import { byGravity } from "../bench/finding-order.ts";
import { placeName, thingOf } from "./finding-words.ts";

export const groupings = ["gravity", "consequence", "place", "rule"] as const;
export type Grouping = (typeof groupings)[number];

export const groupingWords: Readonly<Record<Grouping, string>> = {
  gravity: "by gravity alone",
  consequence: "by what could happen",
  place: "by place",
  rule: "by rule",
};

export interface FindingGroup {
  readonly id: string;
  /** Empty: the whole list stands under the heading of the view. */
  readonly title: string;
  readonly findings: readonly Finding[];
}

/** Open findings in groups, the group with the gravest finding first, the gravest first in each. */
export function groupFindings(findings: readonly Finding[], by: Grouping): readonly FindingGroup[] {
  const sorted = byGravity(findings);
  if (by === "gravity") return sorted.length === 0 ? [] : [{ id: "all", title: "", findings: sorted }];
  const groups = new Map<string, { readonly title: string; readonly findings: Finding[] }>();
  for (const finding of sorted) {
    const [id, title] = placeIn(finding, by);
    const group = groups.get(id);
    if (group === undefined) groups.set(id, { title, findings: [finding] });
    else group.findings.push(finding);
  }
  return [...groups].map(([id, group]) => ({ id, ...group }));
}

function placeIn(finding: Finding, by: Exclude<Grouping, "gravity">): readonly [id: string, title: string] {
  switch (by) {
    // What a rule warns of is said in the same words of every thing: rules that warn of the same stand together.
    case "consequence":
      return [finding.danger, finding.danger];
    case "place":
      return [thingOf(finding.about), placeName(thingOf(finding.about))];
    case "rule":
      return [finding.rule, finding.title];
  }
}
