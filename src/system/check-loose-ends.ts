import type { Diagnostic } from "../diagnostic.ts";
import { foldName, known, listed, placed, shown, type Plan } from "../plan/index.ts";
import type { BoundPart } from "./bind-parts.ts";
import type { BoundCircuit } from "./find-currents.ts";

/**
 * Parts that no circuit leads to, and switches, shunts and fuses with wires on one side only: then what looks like a way through them goes
 * past them.
 *
 * Says nothing while a path could not be read, since its parts would be counted as left out.
 */
export function checkLooseEnds(
  plan: Plan,
  parts: readonly BoundPart[],
  bound: readonly BoundCircuit[],
  say: (d: Diagnostic) => void,
): void {
  if (bound.length === 0 || bound.length < new Set(plan.circuits.map((c) => foldName(c.key))).size) return;
  const ports = new Map<string, Set<string>>();
  const wires = new Map<string, string[]>();
  for (const { key, segments } of bound) {
    for (const { part, port } of segments.flatMap((s) => [s.from, s.to])) {
      ports.set(part.key, (ports.get(part.key) ?? new Set()).add(port.name));
      if (part.traits.passes !== true) continue;
      const list = wires.get(part.key);
      if (list === undefined) wires.set(part.key, [key]);
      else if (list.at(-1) !== key) list.push(key);
    }
  }
  const named = namedOutsidePaths(plan);
  for (const part of parts) {
    const used = ports.get(part.key);
    const at = [placed(part.plan.base, part.plan.keySpan)];
    const about = `parts.${part.key}`;
    if (used === undefined) {
      if (named.has(foldName(part.key))) continue;
      say({
        id: "system/part-in-no-circuit",
        level: "note",
        at,
        about,
        message: `no circuit leads to \`${shown(part.key)}\``,
        hint: "give it a circuit, or delete it",
      });
      continue;
    }
    if (part.traits.passes !== true || named.has(foldName(part.key))) continue;
    const open = ["in", "out"].filter((p) => part.ports.some((x) => x.name === p) && !used.has(p));
    const [side] = open;
    if (open.length !== 1 || side === undefined) continue;
    const other = side === "in" ? "out" : "in";
    const all = wires.get(part.key) ?? [];
    say({
      id: "system/one-side-open",
      level: all.length > 1 ? "warning" : "note",
      at,
      about,
      message: `nothing is wired to \`${shown(part.key)}:${side}\`; ${listed(all.slice(0, 6))} ${all.length === 1 ? "lands" : "land"} on \`${shown(part.key)}:${other}\``,
      hint: `a path that leads to it lands on \`in\`, one that starts at it on \`out\`; turn a path round, or name the side, as in \`${shown(part.key)}:${side}\``,
    });
  }
}

/** Names that systems and circuits use outside their paths. */
function namedOutsidePaths(plan: Plan): Set<string> {
  const names = new Set<string>();
  const add = (value: unknown): void => {
    if (typeof value === "string") for (const name of [value, value.split(":")[0] ?? ""]) names.add(foldName(name));
  };
  for (const { facts } of plan.systems) {
    add(facts.return?.value);
    add(facts["earthed at"]?.value);
  }
  for (const { facts } of plan.circuits) {
    add(facts.return?.value);
    add(facts["in PE"]?.value);
    for (const f of known(facts.then) ?? []) add(f.value);
    for (const fact of [facts.fuse, facts.breaker]) {
      if (fact === undefined || fact.value === "unknown") continue;
      for (const f of fact.value) if (f.value !== "unknown" && f.value.is === "part") add(f.value.part);
    }
  }
  return names;
}
