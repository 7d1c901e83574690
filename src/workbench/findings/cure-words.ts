import type { ComparedRow } from "../../act/index.ts";
import type { Change, Cure, FindingName } from "../../cure/index.ts";
import type { FindingKey, Units } from "../contract.ts";
import { inSentence, printNumber } from "../look/print-in-units.ts";
import { placeName } from "./finding-words.ts";

/** One line of the table of a cure. */
export interface NowThen {
  readonly name: string;
  readonly now: string;
  readonly then: string;
}

/** So many circuits are named that come out otherwise. */
const MOST_MOVED = 4;

/** What a cure does to the plan and what comes of it: the edits, then figures that change, then circuits that are chosen otherwise. */
export function changesOf(cure: Cure, compared: readonly ComparedRow[], units: Units): readonly NowThen[] {
  const own = cure.changes.map((c) => rowOf(c, units));
  const figures = compared
    .filter((r) => r.changed)
    .map((r) => ({
      name: r.about === "plan" ? r.label : `${placeName(r.about)}, ${r.label}`,
      now: inSentence(r.now, units),
      then: inSentence(r.then, units),
    }));
  const moved = cure.moved.slice(0, MOST_MOVED).map((c) => rowOf(c, units));
  const rest = cure.moved.length - moved.length;
  return [
    ...own,
    ...figures,
    ...moved,
    ...(rest > 0 ? [{ name: "other circuits", now: "", then: `${rest} more change` }] : []),
  ];
}

const rowOf = ({ name, now, then }: Change, units: Units): NowThen => ({
  name,
  now: inSentence(now, units),
  then: inSentence(then, units),
});

/** `Clears this and 2 others, raises none. 3.9 mm²·m more copper.` */
export function effectOf(
  { clears, raises, addedMm2M, touchesPinned }: Cure,
  finding: FindingKey,
  units: Units,
): string {
  const others = clears.filter((c) => c.rule !== finding.rule || c.about !== finding.about).length;
  const cleared = others === 0 ? "Clears this" : `Clears this and ${others} ${others === 1 ? "other" : "others"}`;
  const raised = raises.length === 0 ? "raises none" : `raises ${raises.length}: ${raises.map(raisedText).join("; ")}`;
  const copper = printNumber(Math.abs(addedMm2M), { figures: 3 }, units);
  return [
    `${cleared}, ${raised}.`,
    addedMm2M === 0 ? "No copper more." : `${copper} mm²·m ${addedMm2M > 0 ? "more" : "less"} copper.`,
    ...(touchesPinned ? ["Changes what is pinned or as found."] : []),
  ].join(" ");
}

const raisedText = ({ title, about, outcome, severity }: FindingName): string =>
  `${title.toLowerCase()} of ${placeName(about)} (${outcome === "fail" ? severity : "cannot tell"})`;
