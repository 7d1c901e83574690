import type { KindWords, Plan, PlanPart } from "../../plan/index.ts";
import { kinds, type System, type SystemPart } from "../../system/index.ts";
import { cleanText } from "../clean-text.ts";
import { symbolByName } from "./symbol-by-name.ts";

/** A part as the one-line shows it. */
export interface PartView {
  readonly id: string;
  readonly about: string;
  /** Its designation, and what people call it where that is something else. */
  readonly label: string;
  readonly called: string | null;
  /** Key of its symbol. */
  readonly symbol: string;
  /** Rating and the like as the plan writes them, the most telling first. */
  readonly values: readonly string[];
  /** What the reader who cannot see it is told. */
  readonly says: string;
  readonly is: "bar" | "panel" | "converter" | "through" | "choice" | "store" | "source" | "load" | "end";
  readonly structure: boolean;
  /** Opens on leakage: a ring behind its contacts compares what goes out with what comes back. */
  readonly rings: boolean;
  /** Of what chooses or opens, in its own order. */
  readonly positions: readonly string[];
  /** What stands on its way in, of a panel: rating or residual current. */
  readonly main: { readonly text: string; readonly kind: "breaker" | "rcd" } | null;
  /** Bar of each way of a panel, and of each feed that has its main device before it. */
  readonly barOfWay: Readonly<Record<string, string>>;
  readonly place: string | null;
}

/** Facts that say how large a part is, by the keys under which kinds file them; the first that are there are shown. */
const TELLING = ["capacity", "output", "rated", "charging", "hot", "idle", "resistance to earth"] as const;
const WORDED: Readonly<Record<string, string>> = { hot: "hot", idle: "idle", charging: "charges" };

interface Fact {
  readonly value: unknown;
}

const textOf = (value: unknown): string | null => {
  if (value === "unknown") return "?";
  if (typeof value === "object" && value !== null && "text" in value && typeof value.text === "string")
    return cleanText(value.text);
  return null;
};

const countOf = (fact: Fact | undefined): number => (typeof fact?.value === "number" ? fact.value : 1);

/** Reads what is shown of each part, by its facts and traits and never by its kind. */
export function viewParts(plan: Plan, system: System, unknown: string): Map<string, PartView> {
  const planned = new Map(plan.parts.map((part) => [part.key, part]));
  const inside = new Map<string, System["elements"][number][]>();
  for (const element of system.elements) {
    const list = inside.get(element.part);
    if (list === undefined) inside.set(element.part, [element]);
    else list.push(element);
  }
  return new Map(
    system.parts.map((part) => [part.id, viewPart(part, planned.get(part.id), inside.get(part.id) ?? [], unknown)]),
  );
}

function viewPart(
  part: SystemPart,
  planned: PlanPart | undefined,
  inside: System["elements"],
  unknown: string,
): PartView {
  const facts: Readonly<Record<string, Fact>> = planned?.kindFacts ?? {};
  const kind = kinds.find(({ name }) => name === part.kind);
  const units = countOf(facts["count"]) * countOf(facts["in series"]) * countOf(facts["strings in parallel"]);
  const barOfWay = barsOf(part.id, inside);
  const label = cleanText(part.id);
  const called = part.name === part.id ? null : cleanText(part.name);
  const residual = part.traits.load === true ? null : textOf(facts["residual device"]?.value);
  const values = valuesOf(facts, units, residual);
  return {
    id: part.id,
    about: `parts.${part.id}`,
    label,
    called,
    symbol: kind === undefined ? unknown : symbolOf(part, kind, units),
    values,
    says: [called === null ? label : `${label}, ${called}`, part.kind, ...values].join(", "),
    is: roleOf(part, kind, inside, barOfWay),
    structure: part.traits.structure === true,
    rings: residual !== null && part.traits.passes === true,
    positions: part.positions,
    main: mainOf(facts["main"]),
    barOfWay,
    place: typeof planned?.facts.in?.value === "string" ? cleanText(planned.facts.in.value) : null,
  };
}

function symbolOf(part: SystemPart, kind: KindWords & { readonly symbol: SymbolChoice }, units: number): string {
  const { usual, onAC, motor, several } = kind.symbol;
  if (units > 1 && several !== undefined) return several;
  if (part.current === "AC" && onAC !== undefined) return onAC;
  if (part.traits.load !== true) return usual;
  const byName = symbolByName(part.name, usual);
  const turns = part.traits.motor === true ? motor : undefined;
  return byName ?? (turns === "motor" && part.current === "AC" ? "motor_ac" : (turns ?? usual));
}

interface SymbolChoice {
  readonly usual: string;
  readonly onAC?: string;
  readonly motor?: string;
  readonly several?: string;
}

function roleOf(
  { traits, ...part }: SystemPart,
  kind: { readonly ports: (at: never) => readonly { readonly name: string }[] } | undefined,
  inside: System["elements"],
  barOfWay: Readonly<Record<string, string>>,
): PartView["is"] {
  if (Object.keys(barOfWay).length > 0 || (traits.distributes === true && traits.dropUse === "panel feeder"))
    return "panel";
  if (traits.distributes === true) return "bar";
  if (inside.some(({ is }) => is === "converter")) return "converter";
  if (traits.store === true) return "store";
  if (traits.load === true) return "load";
  if (inside.some(({ is }) => is === "feed")) return "source";
  if (part.positions.length > 2 || (traits.passes !== true && part.positions.length === 2)) return "choice";
  if (traits.passes === true || inside.length > 0) return "through";
  return kind === undefined ? "end" : "end";
}

/**
 * The bar that each way of a panel hangs on, by the contact that stands in it; a feed with a main device before its bar stands for that bar, for
 * the device is drawn in the line that comes to it.
 */
function barsOf(part: string, inside: System["elements"]): Record<string, string> {
  const contacts = inside.filter((element) => element.is === "contact");
  const portOf = (terminal: string): string => /^:?(.*):[^:]*$/.exec(terminal.slice(part.length))?.[1] ?? "";
  const bars: Record<string, string> = {};
  for (const { way, a } of contacts) if (way !== undefined) bars[way] ??= portOf(a);
  const behind = new Set(Object.values(bars));
  for (const { way, a, b } of contacts) if (way === undefined && behind.has(portOf(b))) bars[portOf(a)] ??= portOf(b);
  return bars;
}

function valuesOf(facts: Readonly<Record<string, Fact>>, units: number, residual: string | null): string[] {
  const values = TELLING.flatMap((key) => {
    const text = textOf(facts[key]?.value);
    if (text === null) return [];
    return [WORDED[key] === undefined ? text : `${WORDED[key]} ${text}`];
  });
  if (units > 1 && values[0] !== undefined) values[0] = `${units} × ${values[0]}`;
  // What it carries and at what leakage it opens are told in one breath.
  if (residual !== null) values.splice(0, 1, values[0] === undefined ? residual : `${values[0]} ${residual}`);
  return values;
}

function mainOf(fact: Fact | undefined): PartView["main"] {
  const value = fact?.value;
  if (typeof value !== "object" || value === null) return null;
  const residual = "residual device" in value ? innerText(value["residual device"]) : null;
  const rated = "rated" in value ? innerText(value.rated) : "rating" in value ? textOf(value.rating) : null;
  if (residual === null && rated === null) return null;
  return { text: [rated, residual].filter((t) => t !== null).join(" "), kind: residual === null ? "breaker" : "rcd" };
}

const innerText = (fact: unknown): string | null =>
  typeof fact === "object" && fact !== null && "value" in fact ? textOf(fact.value) : null;
