import { cite } from "../../explain/index.ts";
import type { Build } from "../build.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import type { RuleSetId } from "../rule-set-id.ts";
import { zonesOfPlace } from "../zone-kinds.ts";
import { oneSource } from "./example-plans.ts";
import { isFed, takersOf } from "./fed.ts";
import { wayInWords } from "./guard-place.ts";
import { CLASS_A, guardsOf, isGuarded, SEES_NOTHING, unsureGuard } from "./guarded.ts";
import { alternatingPart, statesOf } from "./switching-of.ts";
import { alternates, tellStates, verdictOn } from "./tell-states.ts";

/** Kinds of zones in which each set asks for a device of class A. */
const PLACES: Readonly<Partial<Record<RuleSetId, readonly string[]>>> = {
  "us-small-craft": ["bath", "galley", "engine", "outside", "sun"],
  "us-cabin": ["bath", "galley", "laundry", "outside", "sun", "wet"],
  "us-rv": ["bath", "galley", "outside", "sun"],
};

const outlet = (zone: string, facts = "", load = "outlet"): string =>
  oneSource({
    set: "us-cabin NEC 2023",
    parts: {
      GEN: "kind: generator, rated: 2 kVA, neutral: joined to earth",
      CU: "kind: panel, main: breaker 16 A, ways: { 1: breaker 10 A }",
      sockets: `kind: ${load}, running: 3 A${facts}`,
    },
    circuits: { W20: "path: GEN → CU:in, length: 1 m", W23: `path: CU:1 → sockets, length: 3 m${zone}` },
    more: "zones:\n  bathroom: { kind: bath }",
  });

export const unguardedOutlet = defineRule({
  id: "ac/unguarded-outlet",
  title: "Unguarded outlet",
  severity: { otherwise: "note", sets: { "us-small-craft": "must", "us-cabin": "must", "us-rv": "must" } },
  danger: "wet hands meet a tool with a fault",
  why: `American sets ask by place: outlets in heads and baths, galleys and kitchens, laundries, machinery spaces, on deck and out of doors have a residual device of class A (5 mA), in the outlet or ahead of it, whatever
    source feeds them. The place is the zone of
    the place that the outlet sits in, else the zone in which the run to it ends.`,
  silent: [
    "sets that ask for 30 mA ahead of everything: see missing-residual-device",
    "loads that are wired fast",
    "outlets in zones of other kinds",
  ],
  sources: [
    { cite: cite("abyc-e-11", "5 mA in head, galley, machinery space, on deck", "read"), sets: ["us-small-craft"] },
    { cite: cite("nfpa-70-2023", "210.8(A)", "article"), sets: ["us-cabin"] },
    { cite: cite("nfpa-70-2023", "551.40", "article"), sets: ["us-rv"] },
    { cite: cite("trade-practice", "guarded outlets where hands are wet", "practice") },
  ],
  messages: {
    bare: "{place} is in a zone of kind {kind}, and with {state} no residual device of 5 mA that works lies ahead of it; one goes into {where}, or into the outlet itself",
  },
  cures: ["class-a-way", "class-a-outlet"],
  examples: {
    good: [
      { says: "a guarded outlet in the bath", plan: outlet(", zone: bathroom", ", residual device: 5 mA") },
      { says: "an outlet in the dry", plan: outlet(", zone: dry") },
      { says: "a water heater that is wired fast", plan: outlet(", zone: bathroom", "", "load") },
    ],
    bad: [
      { says: "a bare outlet in the bath", plan: outlet(", zone: bathroom"), fails: "bare", about: "parts.sockets" },
      { says: "nobody says where it is", plan: outlet(""), fails: "cannot tell", about: "parts.sockets" },
    ],
  },
  judge(build, report) {
    if (!alternates(build, report)) return;
    const guards = guardsOf(build);
    for (const [id, taker] of takersOf(build)) {
      const subject = alternatingPart(build, taker.part);
      const places = subject.set === null ? undefined : PLACES[subject.set];
      const verdict = verdictOn<"bare">(subject);
      if (build.part(taker.part)?.part.traits.outlet !== true) verdict.exempt = "it is no outlet";
      else if (places === undefined) verdict.exempt = "its rule set does not ask by place";
      const fed = statesOf(build).flatMap((state) => {
        const at = state.takers.find((t) => t.taker === id);
        return at === undefined || !isFed(at, taker) ? [] : [{ state, is: isGuarded(at, guards, CLASS_A) }];
      });
      const bare = fed.filter(({ is }) => is === false);
      if (verdict.exempt === null && fed.length > 0 && fed.every(({ is }) => is === "no join"))
        verdict.exempt = SEES_NOTHING;
      if (verdict.exempt === null && fed.some(({ is }) => is !== true && is !== "no join")) {
        const kinds = kindsAt(build, taker.part);
        const kind = kinds?.find((k) => places?.includes(k));
        if (kinds === null) verdict.needs.push(needed("in what kind of zone it is", subject));
        else if (kind === undefined) verdict.exempt = "it is where its rule set asks for none";
        else {
          for (const { state } of bare)
            verdict.faults.push({
              message: "bare",
              state,
              said: { words: { kind, where: wayInWords(build, taker.part) } },
            });
          for (const { is } of fed)
            if (typeof is === "string" && is !== "no join") verdict.needs.push(unsureGuard(is, subject));
        }
      }
      tellStates(build, report, [verdict]);
    }
  },
});

/** Kinds of the zones of a part's place, else of the zone in which the run to it ends; null: the plan names neither. */
function kindsAt(build: Build, part: string): readonly string[] | null {
  const { circuits, system } = build;
  const own = zonesOfPlace(build, build.part(part)?.plan);
  if (own.length > 0) return own.flatMap((z) => z.kinds);
  for (const { circuit, run } of circuits) {
    if (circuit.current !== "AC" || circuit.to.part !== part) continue;
    const last = run.stretches.at(-1)?.zone;
    const zone = system.zones.find((z) => z.id === last);
    if (zone !== undefined) return zone.kinds;
  }
  return null;
}
