import type { Finding } from "../../rules/index.ts";
import { isUnjudged } from "../../draw/one-line/drawn-finding.ts";
import { byGravity } from "../bench/finding-order.ts";
import type { Units } from "../contract.ts";
import { printFigureIn } from "../look/print-in-units.ts";
import { statusOf, type Status } from "../look/status-shape.tsx";
import type { PageDrawing, PagePlan } from "../worker/protocol.ts";

/** A note of the margin: all findings of one thing that is drawn, the gravest first. */
export interface Note {
  /** The thing as the drawing has it. */
  readonly key: string;
  readonly findings: readonly Finding[];
  readonly status: Status;
  /** Where it is tied to in the drawing, mm; null: the thing is not drawn. */
  readonly at: { readonly x: number; readonly y: number } | null;
}

export const keyOf = ({ rule, about }: Pick<Finding, "rule" | "about">): string => `${rule} ${about}`;

/** All notes of a plan, the gravest first; what is waived stands in the list of findings alone. */
export function notesOf(plan: PagePlan, drawing: PageDrawing): Note[] {
  const groups = new Map<string, { readonly key: string; readonly at: Note["at"]; readonly findings: Finding[] }>();
  // Where only a rule set's numbers are missing nothing of the thing itself is at fault: the title block says so once.
  for (const finding of byGravity(plan.findings).filter((f) => !isUnjudged(f))) {
    const key = thingOf(finding.about, drawing);
    const at = placeOf(key, drawing);
    // Things that share a mark share a note: a load and the wire that feeds it.
    const spot = at === null ? key : `${at.x.toFixed(0)} ${at.y.toFixed(0)}`;
    const group = groups.get(spot);
    if (group === undefined) groups.set(spot, { key, at, findings: [finding] });
    else group.findings.push(finding);
  }
  return [...groups.values()].map(({ key, at, findings }) => ({
    key,
    findings,
    status: findings[0] === undefined ? "note" : statusOf(findings[0]),
    at,
  }));
}

/** Figure and limit in one line, else what is. */
export function lineOf({ measured, limit, because, outcome }: Finding, units: Units): string {
  if (outcome !== "fail" || measured === null || limit === null) return because;
  return `${printFigureIn(measured, units)}, limit ${printFigureIn(limit, units)}`;
}

/** What is drawn of a key path: the thing itself, or what it is a piece of. */
function thingOf(about: string, { marks, places }: PageDrawing): string {
  for (let path = about; path !== ""; path = path.slice(0, Math.max(0, path.lastIndexOf(".")))) {
    if (places[path] !== undefined || marks.some((m) => m.about === path)) return path;
  }
  return about;
}

function placeOf(about: string, { marks, places, width }: PageDrawing): Note["at"] {
  const mark = marks.find((m) => m.about === about);
  if (mark !== undefined) return { x: mark.x, y: mark.y };
  const place = places[about];
  if (place === undefined) return null;
  const right = place.x + place.width;
  // Behind a load stand its figures: the leader begins where a mark would stand.
  return { x: right > 0.55 * width ? Math.max(right, 0.93 * width) : right, y: place.y + place.height / 2 };
}
