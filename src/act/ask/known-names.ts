import { foldName, known, nearestNames } from "../../plan/index.ts";
import { viewBuild, type Build } from "../../rules/index.ts";
import { placesIn } from "../free-places.ts";
import type { FreePlace } from "../free-place.ts";
import type { KeyPath } from "../request.ts";
import type { CompiledPlan } from "../stand.ts";

/** A thing of the plan that can be asked for. */
export interface Known {
  readonly about: KeyPath;
  readonly section: "parts" | "circuits" | "states" | "systems";
  /** Designation. */
  readonly name: string;
  /** What people call it, where that is another word; empty: nothing. */
  readonly called: string;
  /** What it is, in a few words. */
  readonly more: string;
  readonly folded: string;
  readonly foldedCalled: string;
}

/** All names of a compiled plan, for the ask field. */
export interface KnownNames {
  readonly all: readonly Known[];
  readonly byName: ReadonlyMap<string, Known>;
  readonly build: Build;
  readonly places: readonly FreePlace[];
  /** Designations, and what people call things. */
  readonly said: readonly string[];
}

const kept = new WeakMap<CompiledPlan, KnownNames>();

/** The names of a plan, made once for each compilation: a field is asked at every key. */
export function knownNames(compiled: CompiledPlan): KnownNames {
  const there = kept.get(compiled);
  if (there !== undefined) return there;
  const made = makeNames(compiled);
  kept.set(compiled, made);
  return made;
}

function makeNames(compiled: CompiledPlan): KnownNames {
  const build = viewBuild(compiled);
  const make = (section: Known["section"], name: string, called: string, more: string): Known => ({
    about: `${section}.${name}`,
    section,
    name,
    called: foldName(called) === foldName(name) ? "" : called,
    more,
    folded: foldName(name),
    foldedCalled: foldName(called),
  });
  const all = [
    ...build.circuits.map(({ id, plan, circuit, design }) => {
      const size = design.size === null ? "" : `, ${design.size.label}`;
      return make("circuits", id, known(plan?.facts.name) ?? id, `${circuit.fromText} → ${circuit.toText}${size}`);
    }),
    ...build.parts
      .filter(({ plan }) => plan !== undefined)
      .map(({ id, part }) => make("parts", id, part.name, part.kind)),
    ...build.plan.states.map(({ key }) => make("states", key, key, "state")),
    ...build.plan.systems.map(({ key }) => make("systems", key, key, "system")),
  ];
  const byName = new Map<string, Known>();
  // A designation before what somebody else is called; a circuit before a part of the same designation.
  for (const item of all) if (!byName.has(item.folded)) byName.set(item.folded, item);
  for (const item of all) if (!byName.has(item.foldedCalled)) byName.set(item.foldedCalled, item);
  const said = all.flatMap(({ name, called }) => (called === "" ? [name] : [name, called]));
  return { all, byName, build, places: placesIn(build).places, said };
}

/** A name at the start of a text, the longest that there is, and what follows it. */
export interface Taken {
  readonly thing: Known;
  /** Way or terminal behind it: `PNL:3`. */
  readonly way: string | null;
  readonly rest: string;
}

/** More words than any name has. */
const MOST_WORDS = 8;

export function takeName({ byName }: KnownNames, text: string): Taken | null {
  const words = text.trim().split(/\s+/);
  for (let n = Math.min(words.length, MOST_WORDS); n > 0; n--) {
    const head = words.slice(0, n).join(" ").replace(/[,;]$/, "");
    const rest = words.slice(n).join(" ");
    const thing = byName.get(foldName(head));
    if (thing !== undefined) return { thing, way: null, rest };
    const colon = head.lastIndexOf(":");
    const part = colon <= 0 ? undefined : byName.get(foldName(head.slice(0, colon)));
    if (part?.section === "parts") return { thing: part, way: head.slice(colon + 1), rest };
  }
  return null;
}

/** How well a thing answers to what was typed; 0: not at all. */
function fit({ folded, foldedCalled, more }: Known, wanted: string): number {
  if (folded === wanted) return 6;
  if (foldedCalled === wanted) return 5;
  if (folded.startsWith(wanted)) return 4;
  if (foldedCalled.startsWith(wanted) || folded.includes(` ${wanted}`) || foldedCalled.includes(` ${wanted}`)) return 3;
  if (wanted.length < 2) return 0;
  if (folded.includes(wanted) || foldedCalled.includes(wanted)) return 2;
  return wanted.length > 2 && foldName(more).includes(wanted) ? 1 : 0;
}

/** Things that answer to a text, the best first; where none does, those that it is nearly the name of. */
export function searchNames(names: KnownNames, text: string, most: number): readonly { thing: Known; near: boolean }[] {
  const wanted = foldName(text);
  if (wanted === "") return [];
  const found = names.all
    .map((thing, order) => ({ thing, order, fit: fit(thing, wanted) }))
    .filter((f) => f.fit > 0)
    .sort((a, b) => b.fit - a.fit || a.order - b.order)
    .slice(0, most);
  if (found.length > 0) return found.map(({ thing }) => ({ thing, near: false }));
  return nearest(names, text, most).map((thing) => ({ thing, near: true }));
}

/** Things that somebody may have meant who mistyped a name. */
export function nearest({ said, byName }: KnownNames, text: string, most: number): readonly Known[] {
  // Slips of the finger leave a name about as long as it was; only such names are compared sign by sign.
  const names = said.filter((name) => Math.abs(name.length - text.length) <= 1 + text.length / 3);
  return nearestNames(text, names, most).flatMap((name) => byName.get(foldName(name)) ?? []);
}
