import { isVerified, printTrust } from "../explain/index.ts";
import { missingSays } from "../system/index.ts";
import type { Built } from "./built.ts";
import type { LeansOn, WorkedSection } from "./explanation.ts";
import { factOf } from "./plan-place.ts";

/** A thing of the plan whose facts are leaned on. */
export interface Thing {
  readonly section: "circuits" | "parts";
  readonly name: string;
  readonly keys: readonly string[];
}

export const ofCircuit = (name: string): Thing => ({
  section: "circuits",
  name,
  keys: [
    "path",
    "length",
    "zone",
    "zones",
    "ambient",
    "bundle",
    "parallel",
    "wire",
    "demand",
    "drop",
    "drop class",
    "fuse",
    "breaker",
  ],
});

/** A circuit on the way of another. */
export const onTheWay = (name: string): Thing => ({ section: "circuits", name, keys: ["length", "wire"] });

export const ofPart = (name: string): Thing => ({
  section: "parts",
  name,
  keys: [
    "running",
    "rated",
    "transmitting",
    "starting",
    "start time",
    "rated at",
    "count",
    "runs above",
    "starts above",
    "critical",
    "always on",
    "output",
    "efficiency",
    "charging volts",
    "nominal",
    "capacity",
    "short-circuit",
    "cranking",
    "resistance",
    "lowest charge",
    "Isc",
    "Voc",
    "Vmp",
    "Voc per kelvin",
    "Vmp per kelvin",
    "in series",
    "strings in parallel",
    "largest fuse",
    "mounting",
    "input limit",
    "input above battery",
  ],
});

/**
 * What an answer rests on: what the plan says and where, defaults that were used and how to pin them, tables and how far they can be leaned on,
 * facts that are missing.
 */
export function listLeaning(
  { plan, design }: Built,
  things: readonly Thing[],
  sections: readonly WorkedSection[],
): LeansOn[] {
  const list: LeansOn[] = [];
  const seen = new Set<string>();
  const add = (item: LeansOn): void => {
    const key = `${item.kind} ${item.says} ${item.line ?? ""}`;
    if (seen.size === seen.add(key).size) return;
    list.push(item);
  };
  for (const { section, name, keys } of things) {
    for (const key of keys) {
      const fact = factOf(plan, section, name, key);
      if (fact === null) continue;
      add({
        kind: "plan",
        says: `${name}, ${key}: ${clipped(fact.text)}`,
        line: fact.line,
        column: fact.column,
        pin: "",
        trust: null,
      });
    }
  }
  const names = new Set(things.map(({ name }) => name));
  for (const { says, trust, pin, about } of design.assumptions) {
    if (about.some((a) => names.has(a))) add({ kind: "assumption", says, line: null, column: null, pin, trust });
  }
  for (const { about, fact, why } of design.missing) {
    if (names.has(about))
      add({
        kind: "missing",
        says: `${about}: ${fact} is ${missingSays[why]}`,
        line: null,
        column: null,
        pin: fact,
        trust: "missing",
      });
  }
  for (const { steps } of sections) {
    for (const { source, trust, table } of steps) {
      if (trust === null || source === "" || (table === null && isVerified(trust))) continue;
      add({
        kind: "table",
        says: table === null ? source : `${source} (${table.id})`,
        line: null,
        column: null,
        pin: "",
        trust,
      });
    }
  }
  return list;
}

/** Longer facts are cut: they stand in the plan. */
const clipped = (text: string): string => (text.length > 60 ? `${text.slice(0, 59)}…` : text);

/** What has to be minded of the numbers in an answer, once for each word of trust. */
export function cautionsOf(leansOn: readonly LeansOn[]): string[] {
  const unsure = leansOn.filter(
    (l) => l.kind === "table" && l.trust !== null && !isVerified(l.trust) && l.trust !== "practice",
  );
  const words = new Map<string, string[]>();
  for (const { says, trust } of unsure) {
    const word = trust === null ? "" : printTrust(trust);
    words.set(word, [...(words.get(word) ?? []), says]);
  }
  return [...words].map(([word, names]) => `Check before you rely on it, ${word}: ${names.join("; ")}.`);
}
