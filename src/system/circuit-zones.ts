import type { Diagnostic, Span } from "../diagnostic.ts";
import { foldName, known, listed, placed, shown, type CircuitFacts, type Named, type PlanItem } from "../plan/index.ts";
import type { NameIndex } from "./name-index.ts";
import { plainZones } from "./resolve-zones.ts";
import type { Zone, ZoneShare } from "./system.ts";
import { given } from "./value.ts";

type Say = (d: Diagnostic) => void;

/** The zones that a run crosses, with the metres that are known. */
export function zonesOf(item: PlanItem<CircuitFacts>, index: NameIndex<Zone>, say: Say): ZoneShare[] {
  const { facts, base, key } = item;
  const about = `circuits.${key}`;
  const check = (name: string, span: Span, where: string): string | undefined =>
    zoneCalled(name, index) ?? index.find(name, placed(base, span), where, say)?.id;
  const shares: ZoneShare[] = [];
  for (const share of known(facts.zones) ?? []) {
    const zone = check(share.name, share.nameSpan, `${about}.zones`);
    if (zone === undefined) continue;
    const metres =
      share.value === "unknown" ? "some" : typeof share.value === "string" ? share.value : given(share.value);
    shares.push({ zone, metres });
  }
  for (const fact of known(facts.zone) ?? []) {
    if (fact.value === "unknown") continue;
    const zone = check(fact.value, fact.span, `${about}.zone`);
    if (zone !== undefined) shares.push({ zone, metres: "rest" });
  }
  return shares;
}

const zoneCalled = (name: string, index: NameIndex<Zone>): string | undefined =>
  index.get(name)?.id ?? plainZones.find((z) => z === foldName(name));

/** How many conductors lie together in each zone of the run. */
export function bundlesOf(
  { base, key }: PlanItem<CircuitFacts>,
  bundles: readonly Named<number>[],
  shares: readonly ZoneShare[],
  index: NameIndex<Zone>,
  say: Say,
): { zone: string; count: number }[] {
  return bundles.flatMap(({ name, nameSpan, value }) => {
    if (value === "unknown") return [];
    if (foldName(name) === "rest") return [{ zone: "rest", count: value }];
    const at = placed(base, nameSpan);
    const about = `circuits.${key}.bundle`;
    const zone = zoneCalled(name, index) ?? index.find(name, at, about, say)?.id;
    if (zone === undefined) return [];
    if (shares.some((s) => s.zone === zone)) return [{ zone, count: value }];
    say({
      id: "system/bundle-outside-run",
      level: "error",
      at: [at],
      about,
      message: `the run of \`${shown(key)}\` does not cross \`${shown(name)}\`, so its bundle there counts nowhere`,
      hint:
        shares.length > 0
          ? `its zones are ${listed(shares.map((s) => s.zone))}; \`rest\` is what no zone is given for`
          : `give the run its zones, or write one number: \`bundle: ${value}\``,
    });
    return [];
  });
}
