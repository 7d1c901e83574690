import type { Diagnostic } from "../diagnostic.ts";
import { foldName, listed, placed, shown, type CircuitFacts, type Plan, type PlanItem } from "../plan/index.ts";
import type { BoundPart } from "./bind-parts.ts";
import type { BoundSegment } from "./bind-path.ts";
import type { Default } from "./fact-reader.ts";
import type { NameIndex } from "./name-index.ts";
import { sayNoMinus } from "./resolve-supplies.ts";
import type { Supply } from "./system.ts";
import { functionsOf, terminalName } from "./terminal.ts";

export const LEAD_TO_STRUCTURE: Default = {
  id: "lead-to-structure",
  value: 0,
  says: "a return through chassis or structure lands on it with no metres of lead",
  trust: "practice",
  pin: "return length",
};

/** Where a circuit's return goes when an end has no minus of its own. */
export interface Return {
  readonly to: string | undefined;
  /** `return:` names a part. */
  readonly forced: boolean;
  /** `return: none`, or a name that could not be found and has been told. */
  readonly none: boolean;
  readonly throughStructure: boolean;
}

type Say = (d: Diagnostic) => void;

export function findReturn(
  item: PlanItem<CircuitFacts>,
  supply: Supply | undefined,
  parts: NameIndex<BoundPart>,
  say: Say,
): Return {
  const fact = item.facts.return;
  const nowhere: Return = { to: undefined, forced: false, none: false, throughStructure: false };
  if (fact !== undefined && fact.value !== "unknown") {
    if (foldName(fact.value) === "none") return { ...nowhere, none: true };
    const at = placed(item.base, fact.span);
    const about = `circuits.${item.key}.return`;
    if (supply?.current === "AC") {
      sayOwnNeutral(item.key, fact.value, at, about, say);
      return nowhere;
    }
    const colon = parts.get(fact.value) === undefined ? fact.value.lastIndexOf(":") : -1;
    const name = colon < 0 ? fact.value : fact.value.slice(0, colon);
    const part = parts.find(name.trim(), at, about, say);
    if (part === undefined) return { ...nowhere, none: true };
    const to = returnTerminal(part, colon < 0 ? "" : fact.value.slice(colon + 1).trim(), at, about, say);
    return { to, forced: true, none: to === undefined, throughStructure: part.traits.structure === true };
  }
  const part = supply?.returnPart === undefined ? undefined : parts.get(supply.returnPart);
  if (part === undefined) return nowhere;
  const port = part.ports[0];
  // What cannot take a return has been told where the supply names it.
  if (port === undefined || port.shape === "line") return { ...nowhere, none: true };
  return { ...nowhere, to: terminalName(part.key, port.name, port.shape === "pair" ? "−" : "pole") };
}

/** A neutral goes with its line: what goes elsewhere by itself is drawn only where it is written. */
function sayOwnNeutral(circuit: string, to: string, at: readonly [number, number], about: string, say: Say): void {
  say({
    id: "system/neutral-elsewhere",
    level: "error",
    at: [at],
    about,
    message: `\`${shown(circuit)}\` is of alternating current: \`return\` moves no neutral, and it is taken as going with its line`,
    hint: `a neutral that really goes to \`${shown(to)}\` is a circuit of its own with \`cores: [N]\`, and this one then has \`cores: [L, PE]\``,
  });
}

function returnTerminal(
  part: BoundPart,
  joint: string,
  at: readonly [number, number],
  about: string,
  say: Say,
): string | undefined {
  const named = part.ports.find((p) => foldName(p.name) === foldName(joint));
  const isPole = /^[-−]$|^minus$|^negative$/i.test(joint);
  // The studs of a bar are one piece of metal, whatever they are called.
  const oneMetal = part.ports.length === 1 && part.ports[0]?.shape === "pole";
  const port = named ?? (joint === "" || isPole || oneMetal ? part.ports[0] : undefined);
  if (port === undefined) {
    say({
      id: "system/terminal-unknown",
      level: "error",
      at: [at],
      about,
      message: `\`${shown(part.key)}\` has no terminal \`${shown(joint)}\``,
      hint: `it has ${listed(part.ports.flatMap((p) => (p.name === "" ? [] : [p.name])).slice(0, 14))}`,
    });
    return undefined;
  }
  if (port.shape === "line") {
    sayNoMinus(part, at, about, say);
    return undefined;
  }
  return terminalName(part.key, port.name, port.shape === "pair" ? "−" : "pole");
}

/** A direct-current circuit of which an end has no minus, and nothing says where its return goes, would have half its conductors. */
export function checkReturn(
  item: PlanItem<CircuitFacts>,
  segments: readonly BoundSegment[],
  supply: Supply | undefined,
  plan: Plan,
  ownMinus: ReadonlySet<string>,
  say: Say,
): void {
  // A plan that names no supply has been told of it; one that names a return that is not there, too.
  const system = plan.systems.find((s) => s.key === supply?.id);
  if (item.facts.cores !== undefined || system === undefined || system.facts.return !== undefined) return;
  const open = segments.find(({ from, to }) => {
    if (from.fn !== undefined || to.fn !== undefined) return false;
    const [a, b] = [from, to].map((p) => functionsOf(p.port, "DC", []).includes("−"));
    const end = a === true ? from : to;
    const own = end.part.traits.store === true && ownMinus.has(end.part.key);
    return a !== b && !own;
  });
  if (open === undefined) return;
  const pole = functionsOf(open.from.port, "DC", []).includes("−") ? open.to : open.from;
  say({
    id: "system/return-open",
    level: "error",
    at: [placed(item.base, item.keySpan)],
    about: `circuits.${item.key}.return`,
    message: `\`${shown(item.key)}\` has no way back: \`${shown(pole.text)}\` carries one pole only, and nothing says where returns go`,
    hint: `write \`return: <part>\` under \`systems: ${shown(system.key)}\`, or on the circuit`,
  });
}
