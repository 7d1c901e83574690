import { foldName } from "../grammar/record.ts";
import { ruleSets } from "../../ruleset/index.ts";
import { known } from "../fact.ts";
import type { PlanPart } from "../plan.ts";
import type { Around, Offered } from "./around.ts";

/** How a part is called and what it is: `DC panel, panel`. */
export function saysOfPart(part: PlanPart): string {
  const name = known(part.facts.name);
  return [name, part.kind].filter((s) => s !== undefined && s !== "").join(", ");
}

/** The part that a name means, whatever its capitals and blanks. */
export const partCalled = ({ plan }: Around, name: string): PlanPart | undefined => {
  const folded = foldName(name);
  return plan.parts.find((p) => foldName(p.key) === folded);
};

/**
 * Names of things of one sort, in the order of the plan.
 *
 * @param what as the grammar calls it: `a part`, `zone`, `a load`
 */
export function namesOf(what: string, around: Around): Offered[] {
  const { plan, kinds } = around;
  const parts = (which: (p: PlanPart) => boolean): Offered[] =>
    plan.parts.filter(which).map((p) => ({ text: p.key, says: saysOfPart(p) }));
  const items = (list: readonly { readonly key: string }[], says: string): Offered[] =>
    list.map(({ key }) => ({ text: key, says }));
  const position = /^position of (.*)$/.exec(what);
  if (position !== null) {
    const part = partCalled(around, position[1] ?? "");
    return part === undefined
      ? []
      : (around.positionsOf?.(part) ?? []).map((text) => ({ text, says: `position of ${part.key}` }));
  }
  switch (what.replace(/^an? /, "")) {
    case "kind":
      return kinds.map((k) => ({ text: k.name, says: k.says }));
    case "part":
      return parts(() => true);
    case "part, or `none`":
      return [
        ...parts((p) => around.endsOf === undefined || around.isLoad?.(p) !== true),
        { text: "none", says: "a conductor on its own" },
      ];
    case "load":
      return parts((p) => around.isLoad?.(p) ?? true);
    case "battery":
      return parts((p) => p.kind === "battery");
    case "part in a state":
      return parts((p) => (around.positionsOf?.(p) ?? []).length > 0);
    case "thing":
    case "finding":
      return [...parts(() => true), ...items(plan.circuits, "circuit")];
    case "zone":
      return items(plan.zones, "zone");
    case "place":
      return items(plan.places, "place");
    case "system":
      return items(plan.systems, "system");
    case "state":
      return items(plan.states, "state");
    case "rule set":
      return ruleSets.flatMap((set) => set.editions.map((e) => ({ text: `${set.id} ${e.name}`, says: set.title })));
    case "wire number":
      return nextWireNumber(around);
    default:
      return [];
  }
}

/** The number after the highest of those that begin alike. */
function nextWireNumber({ plan }: Around): Offered[] {
  let highest: { lead: string; digits: string } | undefined;
  for (const { key } of plan.circuits) {
    const found = /^(.*?)(\d{1,6})$/.exec(key);
    if (found === null) continue;
    const [, lead = "", digits = ""] = found;
    if (highest === undefined || Number(digits) > Number(highest.digits)) highest = { lead, digits };
  }
  const { lead, digits } = highest ?? { lead: "W", digits: "00" };
  return [{ text: lead + String(Number(digits) + 1).padStart(digits.length, "0"), says: "next wire number" }];
}
