import type { Diagnostic, Span } from "../diagnostic.ts";
import { listed, placed, shown } from "../plan/index.ts";
import type { BoundPart } from "./bind-parts.ts";
import type { InternalElement } from "./element.ts";
import type { NameIndex } from "./name-index.ts";
import type { SystemCircuit } from "./system.ts";

/**
 * Loads of the direct-current side with one pole that leads to a source and one that leads to none, whatever the switches do: half of
 * their wiring is missing; and sources of which one pole has no conductor. One message for each piece of metal.
 *
 * @param root the terminal that stands for the metal of another, from `joinMetal`
 */
export function checkFed(
  circuits: readonly SystemCircuit[],
  elements: readonly InternalElement[],
  root: (terminal: string) => string,
  parts: NameIndex<BoundPart>,
  say: (d: Diagnostic) => void,
): void {
  const placesOf = (names: readonly string[]): Span[] =>
    names.flatMap((name) => {
      const part = parts.get(name)?.plan;
      return part === undefined ? [] : [placed(part.base, part.keySpan)];
    });
  const halves: Diagnostic[] = [];
  const sources = new Set<string>();
  const wired = new Set(circuits.flatMap((c) => c.conductors.flatMap((k) => [root(k.from), root(k.to)])));
  for (const { part, plus, minus } of elements.flatMap(giversOf)) {
    sources.add(root(plus));
    sources.add(root(minus));
    const [hasPlus, hasMinus] = [wired.has(root(plus)), wired.has(root(minus))];
    if (hasPlus === hasMinus) continue;
    halves.push({
      id: "system/source-half-wired",
      level: "warning",
      at: placesOf([part]),
      about: `parts.${part}`,
      message: `nothing is wired to the ${hasPlus ? "minus" : "plus"} of \`${shown(part)}\`, so it gives nothing`,
      hint: `give it a conductor, as in \`path: ${shown(part)}:${hasPlus ? "−" : "+"} → …\`; a path that names one pole has that one only`,
    });
  }
  if (sources.size === 0) return;
  let anyFed = false;
  const open = new Map<string, { pole: "plus" | "minus"; loads: string[] }>();
  for (const { part, plus, minus } of elements.flatMap(takersOf)) {
    const [hasPlus, hasMinus] = [sources.has(root(plus)), sources.has(root(minus))];
    anyFed ||= hasPlus && hasMinus;
    // With neither it is not wired up yet, and found without volts in every state.
    if (hasPlus === hasMinus) continue;
    const at = root(hasPlus ? minus : plus);
    const there = open.get(at);
    if (there === undefined) open.set(at, { pole: hasPlus ? "minus" : "plus", loads: [part] });
    else if (!there.loads.includes(part)) there.loads.push(part);
  }
  // Before the first load has its volts the plan is still being written.
  if (anyFed) for (const half of halves) say(half);
  for (const { pole, loads } of open.values()) {
    const few = loads.length > 4 ? loads.slice(0, 3) : loads;
    const more = loads.length - few.length;
    say({
      id: "system/load-not-fed",
      level: "warning",
      at: placesOf(loads),
      about: `parts.${loads[0] ?? ""}`,
      message: `the ${pole} of ${listed(few)}${more > 0 ? ` and ${more} more` : ""} leads to no source`,
      hint: `follow it from \`${shown(loads[0] ?? "")}\` back to a battery: a conductor, or the ${pole === "minus" ? "return" : "feeder"} of a panel or bar, is missing`,
    });
  }
}

/** The direct-current terminals through which an element gives. */
function giversOf(e: InternalElement): { part: string; plus: string; minus: string }[] {
  if (e.is === "store" || e.is === "feed") return [{ part: e.part, plus: e.plus, minus: e.minus }];
  const isOutput = e.is === "converter" && e.outCurrent === "DC";
  return isOutput ? [{ part: e.part, plus: e.outPlus, minus: e.outMinus }] : [];
}

/** The direct-current terminals through which an element takes. */
function takersOf(e: InternalElement): { part: string; plus: string; minus: string }[] {
  if (e.is === "draw" && e.current === "DC") return [{ part: e.part, plus: e.plus, minus: e.minus }];
  const isInput = e.is === "converter" && e.inCurrent === "DC" && e.input === "as needed";
  return isInput ? [{ part: e.part, plus: e.inPlus, minus: e.inMinus }] : [];
}
