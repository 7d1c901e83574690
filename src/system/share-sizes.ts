import type { Diagnostic } from "../diagnostic.ts";
import { foldName, known, placed, shown, type Plan } from "../plan/index.ts";
import type { SystemCircuit } from "./system.ts";

/**
 * Finds the circuits that get one common size: each names others, and who names the same belongs to the same. Where one of them has its size from the
 * plan, the others get that size.
 */
export function shareSizes(
  circuits: readonly SystemCircuit[],
  plan: Plan,
  say: (d: Diagnostic) => void,
): SystemCircuit[] {
  const at = new Map(circuits.map((c, i) => [foldName(c.id), i]));
  const leader = circuits.map((_, i) => i);
  const find = (i: number): number => {
    let head = i;
    while ((leader[head] ?? head) !== head) head = leader[head] ?? head;
    return head;
  };
  let shared = false;
  for (const { key, facts, base } of plan.circuits) {
    const own = at.get(foldName(key));
    for (const fact of known(facts["same size as"]) ?? []) {
      if (fact.value === "unknown" || own === undefined) continue;
      const other = at.get(foldName(fact.value));
      if (other === undefined || circuits[other]?.current !== circuits[own]?.current) {
        say({
          id: "system/same-size-as-nothing",
          level: "error",
          at: [placed(base, fact.span)],
          about: `circuits.${key}.same size as`,
          message:
            other === undefined
              ? `there is no circuit \`${shown(fact.value)}\``
              : `\`${shown(fact.value)}\` carries the other kind of current than \`${shown(key)}\``,
          hint: "name a circuit of this plan, by its number",
        });
        continue;
      }
      // The earlier circuit leads, so that the answer does not hang on who names whom.
      const [a, b] = [find(own), find(other)];
      leader[Math.max(a, b)] = Math.min(a, b);
      shared = true;
    }
  }
  if (!shared) return [...circuits];
  const members = new Map<number, SystemCircuit[]>();
  circuits.forEach((c, i) => {
    const there = members.get(find(i));
    if (there === undefined) members.set(find(i), [c]);
    else there.push(c);
  });
  for (const group of members.values()) if (group.length > 1) checkPins(group, say);
  return circuits.map((circuit, i): SystemCircuit => {
    const others = (members.get(find(i)) ?? []).filter((o) => o !== circuit);
    if (others.length === 0) return circuit;
    const ofPlan = circuit.size === undefined ? others.find(isPinned)?.size : undefined;
    return {
      ...circuit,
      ...(ofPlan === undefined ? {} : { size: ofPlan }),
      sameSizeAs: others.map((o) => o.id),
    };
  });
}

const isPinned = ({ size }: SystemCircuit): boolean => size !== undefined && size !== "unknown";
const labelOf = ({ size }: SystemCircuit): string => (size === undefined || size === "unknown" ? "" : size.label);

function checkPins(group: readonly SystemCircuit[], say: (d: Diagnostic) => void): void {
  const pinned = group.filter(isPinned);
  const [first] = pinned;
  const other = pinned.find((c) => first !== undefined && labelOf(c) !== labelOf(first));
  if (first === undefined || other === undefined) return;
  say({
    id: "system/same-size-disagrees",
    level: "warning",
    at: [other.keySpan],
    about: `circuits.${other.id}.same size as`,
    message: `\`${shown(first.id)}\` and \`${shown(other.id)}\` are to have one size, and the plan gives them ${labelOf(first)} and ${labelOf(other)}; each keeps its own`,
    hint: "write one size for both, or take one out of the group",
  });
}
