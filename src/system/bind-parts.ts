import type { Diagnostic } from "../diagnostic.ts";
import { foldName, known, placed, shown, type Plan, type PlanPart } from "../plan/index.ts";
import type { Kind, Traits } from "./kind.ts";
import { indexNames, type NameIndex } from "./name-index.ts";
import type { Point3 } from "./system.ts";
import type { Port } from "./terminal.ts";

/** A part with its kind found. */
export interface BoundPart {
  readonly key: string;
  readonly plan: PlanPart;
  /** Absent when the plan gives no kind, or one that is not known: it then has one open port, so that its circuits can still be read. */
  readonly kind: Kind | undefined;
  readonly traits: Traits;
  readonly ports: readonly Port[];
  readonly positions: readonly string[];
  readonly position: Point3 | undefined;
}

const ANY_PORT: readonly Port[] = [{ name: "", current: "either", shape: "pair" }];
const NO_TRAITS: Traits = {};

/** Finds each part's kind, ports and place. The first of two parts with one name counts. */
export function bindParts(
  plan: Plan,
  kinds: readonly Kind[],
  say: (d: Diagnostic) => void,
): { parts: BoundPart[]; index: NameIndex<BoundPart> } {
  const byName = new Map(kinds.map((k) => [k.name, k]));
  const seen = new Set<string>();
  const planParts = plan.parts.filter((p) => {
    const folded = foldName(p.key);
    if (seen.has(folded)) return false;
    seen.add(folded);
    return true;
  });
  const where = locate(plan, planParts, say);
  const parts = planParts.map((p): BoundPart => {
    const kind = p.kind === undefined ? undefined : byName.get(p.kind);
    const at = { facts: { ...p.facts, ...p.kindFacts } };
    return {
      key: p.key,
      plan: p,
      kind,
      traits: kind?.traits(at) ?? NO_TRAITS,
      ports: kind?.ports(at) ?? ANY_PORT,
      positions: kind?.positions?.(at) ?? [],
      position: where.get(p),
    };
  });
  return { parts, index: indexParts(parts) };
}

export const indexParts = (parts: readonly BoundPart[]): NameIndex<BoundPart> =>
  indexNames("part", parts, (p) => p.key, (p) => known(p.plan.facts.name)); // prettier-ignore

/** Where each part sits: by its own figures, by its place, or beside another. */
function locate(plan: Plan, parts: readonly PlanPart[], say: (d: Diagnostic) => void): Map<PlanPart, Point3> {
  const index = indexNames("part", parts, (p) => p.key);
  const places = indexNames("place", plan.places, (p) => p.key);
  const found = new Map<PlanPart, Point3>();
  const nowhere = new Set<PlanPart>();
  const open = new Set<PlanPart>();

  const find = (part: PlanPart): Point3 | undefined => {
    const there = found.get(part);
    if (there !== undefined || nowhere.has(part)) return there;
    if (open.has(part)) {
      say({
        id: "system/beside-itself",
        level: "error",
        at: [placed(part.base, part.keySpan)],
        about: `parts.${part.key}.beside`,
        message: `\`${shown(part.key)}\` is beside itself, through others`,
        hint: "give one of them a position",
      });
      return undefined;
    }
    open.add(part);
    const point = locateOne(part);
    open.delete(part);
    if (point === undefined) nowhere.add(part);
    else found.set(part, point);
    return point;
  };

  const locateOne = (part: PlanPart): Point3 | undefined => {
    const { at, in: place, beside } = part.facts;
    const about = `parts.${part.key}`;
    const axes = known(at);
    if (axes !== undefined) return [middle(axes[0]), middle(axes[1]), middle(axes[2])];
    if (place !== undefined && place.value !== "unknown") {
      const target = places.find(place.value, placed(part.base, place.span), `${about}.in`, say);
      const point = target === undefined ? undefined : known(target.facts.at);
      if (point !== undefined) return [middle(point[0]), middle(point[1]), middle(point[2])];
    }
    if (beside !== undefined && beside.value !== "unknown") {
      const target = index.find(beside.value, placed(part.base, beside.span), `${about}.beside`, say);
      if (target !== undefined) return find(target);
    }
    return undefined;
  };

  for (const part of parts) find(part);
  return found;
}

const middle = (m: { low: number; high: number }): number => (m.low + m.high) / 2;
