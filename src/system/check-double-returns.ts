import type { Diagnostic } from "../diagnostic.ts";
import { placed, shown, type Plan } from "../plan/index.ts";
import type { BoundPart } from "./bind-parts.ts";
import type { NameIndex } from "./name-index.ts";
import type { SystemCircuit } from "./system.ts";

/**
 * Returns that are drawn as circuits of their own beside a pair that brings its own return: two ways back where one was meant, each counted.
 *
 * A second way back may be meant, so it is a hint. Says nothing of batteries, whose pair leaves its return out where one is drawn, nor of bars, where returns meet.
 */
export function checkDoubleReturns(
  plan: Plan,
  circuits: readonly SystemCircuit[],
  parts: NameIndex<BoundPart>,
  say: (d: Diagnostic) => void,
): void {
  const alone = circuits.filter((c) => c.conductors.length > 0 && c.conductors.every((k) => k.role === "return"));
  if (alone.length === 0) return;
  const drawn = alone.filter((c) => c.current === "DC");
  for (const circuit of alone) if (circuit.current === "AC") checkNeutral(plan, circuit, circuits, parts, say);
  const pairs = new Map<string, string>();
  for (const { id, conductors } of circuits) {
    if (!conductors.some((k) => k.role === "live")) continue;
    for (const { role, from, to } of conductors) if (role === "return") for (const t of [from, to]) pairs.set(t, id);
  }
  for (const { id, conductors } of drawn) {
    const item = plan.circuits.find((c) => c.key === id);
    if (item === undefined) continue;
    // Between two things that take, it joins their minus, and is no way home.
    const leadsHome = conductors.some((k) =>
      [k.from, k.to].some((t) => {
        const traits = parts.get(t.slice(0, t.indexOf(":")))?.traits;
        return traits?.distributes === true || traits?.structure === true || traits?.store === true;
      }),
    );
    if (!leadsHome) continue;
    const told = conductors.flatMap((k) => [k.from, k.to]).find((t) => pairs.has(t) && /:−$/.test(t));
    const pair = told === undefined ? undefined : pairs.get(told);
    const part = told === undefined ? undefined : parts.get(told.slice(0, told.indexOf(":")));
    if (pair === undefined || part === undefined || part.traits.store === true) continue;
    const other = plan.circuits.find((c) => c.key === pair);
    say({
      id: "system/return-drawn-twice",
      level: "hint",
      at: [placed(item.base, item.keySpan), ...(other === undefined ? [] : [placed(other.base, other.keySpan)])],
      about: `circuits.${id}`,
      message: `\`${shown(id)}\` is the return of \`${shown(part.key)}\`, and \`${shown(pair)}\` brings a return of its own: both are counted, as two wires side by side`,
      hint: `write \`return: none\` on \`${shown(pair)}\`, or delete \`${shown(id)}\``,
    });
  }
}

/**
 * A neutral that is drawn as a circuit of its own: beside one that brings line and neutral it is a second, beside one that brings the line alone it may be meant as
 * the other core of one cable.
 *
 * Speaks of loads alone: elsewhere a neutral by itself may be where neutral is earthed.
 */
function checkNeutral(
  plan: Plan,
  { id, conductors }: SystemCircuit,
  circuits: readonly SystemCircuit[],
  parts: NameIndex<BoundPart>,
  say: (d: Diagnostic) => void,
): void {
  const partOf = (terminal: string): string => terminal.slice(0, terminal.indexOf(":"));
  const ends = new Set(conductors.flatMap((k) => [k.from, k.to]).map(partOf));
  const load = [...ends].map((p) => parts.get(p)).find((p) => p?.traits.load === true);
  const item = plan.circuits.find((c) => c.key === id);
  if (load === undefined || item === undefined) return;
  const line = circuits.find((c) => c.id !== id && c.conductors.some((k) => k.role === "live" && [k.from, k.to].some((t) => partOf(t) === load.key))); // prettier-ignore
  const other = line === undefined ? undefined : plan.circuits.find((c) => c.key === line.id);
  if (line === undefined || other === undefined) return;
  const isTwice = line.conductors.some((k) => k.role === "return");
  const cores = line.conductors.flatMap((k) => (k.role === "return" ? [] : [k.fn])).join(", ");
  const [own, others] = [shown(id), shown(line.id)];
  say({
    id: isTwice ? "system/return-drawn-twice" : "system/cores-drawn-apart",
    level: "hint",
    at: [placed(item.base, item.keySpan), placed(other.base, other.keySpan)],
    about: `circuits.${id}`,
    message: isTwice
      ? `\`${own}\` is the neutral of \`${shown(load.key)}\`, and \`${others}\` brings a neutral of its own: both are counted, as two wires side by side`
      : `\`${own}\` is the neutral of \`${shown(load.key)}\` and \`${others}\` its line: as two circuits they are counted as single wires that lie apart, not as one cable`,
    hint: isTwice
      ? `delete \`${own}\`, or write \`cores: [${cores}]\` on \`${others}\``
      : `where one cable holds both, delete \`${own}\` and the \`cores\` of \`${others}\`: a circuit of alternating current has line, neutral and protective earth`,
  });
}
