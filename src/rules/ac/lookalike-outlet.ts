import { cite } from "../../explain/index.ts";
import { foldName } from "../../plan/index.ts";
import { nameSome } from "../battery/name-some.ts";
import type { PartView } from "../build.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf } from "../stated.ts";

/** Patterns of sockets that take a plug in common, from memory of IEC TR 60083. A pattern that is in none takes its own plugs alone. */
const COMMON: readonly (readonly string[])[] = [
  // The flat plug CEE 7/16 fits them all.
  ["cee 7/1", "cee 7/3", "cee 7/4", "cee 7/5", "cee 7/7", "schuko", "type e", "type f", "type c", "type j", "type l"],
  // A plug of 15 A fits an outlet of 20 A.
  ["nema 1-15", "nema 5-15", "nema 5-20", "type a", "type b"],
  ["nema 6-15", "nema 6-20"],
  ["bs 1363", "type g"],
  ["as/nzs 3112", "type i"],
  ["car lighter", "cigarette lighter", "sae j563", "iso 4165", "12 v vehicle"],
];

/** Volts that differ by less than this are one system to a plug: 110 and 120 V, 220 and 240 V. */
const ALIKE = 1.3;

const two = (
  direct: string,
  alternating: string,
): string => `rules: { DC: iso-small-craft 2020+A1:2022, AC: iec-caravan }
systems:
  AC: { kind: AC, nominal: 230 V, cores: [L, N, PE] }
parts:
  INL: { kind: shore inlet, rated: 16 A }
  CU: { kind: consumer unit, ways: { 1: breaker 10 A 30 mA 2-pole } }
  sockets: { kind: outlet, running: 3 A${alternating} }
  low volts: { kind: outlet, running: 2 A${direct} }
circuits:
  W20: { path: INL → CU:in, length: 1 m }
  W21: { path: CU:1 → sockets, length: 3 m }
  W22: { path: PNL:4 → low volts, length: 2 m }`;

export const lookalikeOutlet = defineRule({
  id: "ac/lookalike-outlet",
  title: "Lookalike outlet",
  severity: { otherwise: "should", sets: { "iec-caravan": "must" } },
  danger: "somebody plugs a lamp of 12 V into the mains",
  why: `No plug of one system aboard fits an outlet of another: low volts, 120 V and 230 V have sockets of patterns of their own. The plan says the pattern of an outlet as its standard names it: \`socket: CEE 7/3\`.`,
  silent: ["outlets of which no pattern is stated", "builds whose outlets are all of one system"],
  sources: [
    { cite: cite("iec-60364-7-721", "721.55", "memory"), sets: ["iec-caravan"] },
    { cite: cite("trade-practice", "an own pattern of socket for each system", "practice") },
  ],
  messages: { fits: "a plug that is made for {place} ({own}, {volts}) fits {others}, of other volts" },
  cures: [],
  examples: {
    good: [
      { says: "a pattern of its own", plan: two(", socket: ISO 4165", ", socket: CEE 7/3") },
      { says: "nothing is stated", plan: two("", "") },
      { says: "one of them is stated", plan: two(", socket: CEE 7/3", "") },
    ],
    bad: [
      {
        says: "12 V in an outlet for mains",
        plan: two(", socket: CEE 7/3", ", socket: CEE 7/3"),
        fails: "fits",
        about: "parts.low volts",
      },
      {
        says: "two patterns that take the same plug",
        plan: two(", socket: type L", ", socket: Schuko"),
        fails: "fits",
        about: "parts.low volts",
      },
      {
        says: "nobody knows what is there",
        plan: two(", socket: unknown", ", socket: CEE 7/3"),
        fails: "cannot tell",
        about: "parts.low volts",
      },
    ],
  },
  judge(build, report) {
    const outlets = build.parts.filter((p) => p.part.traits.outlet === true);
    for (const view of outlets) {
      const { subject } = view;
      const [own, volts] = [socketOf(view), voltsOf(view)];
      const others = outlets.filter((o) => isOtherSystem(view, o));
      if (others.length === 0) report.notApplicable(subject, "every outlet is of the same system");
      else if (own === undefined || volts === null) report.notApplicable(subject, "its pattern is not stated");
      else {
        // The lower one is told: it is what is destroyed, and what is changed for less.
        const higher = others.filter((o) => (voltsOf(o) ?? 0) > volts || (isDirect(view) && !isDirect(o)));
        const open = others.filter((o) => socketOf(o) === "unknown");
        const fits = higher.filter((o) => own !== "unknown" && takeOnePlug(own, socketOf(o)));
        if (fits.length > 0)
          report.fail(subject, "fits", {
            words: { own, volts: `${volts} V`, others: nameSome(fits.map((o) => o.id)) },
          });
        else if (own === "unknown") tellNeeded(view);
        else if (open.length > 0) for (const o of open) tellNeeded(o);
        else if (others.every((o) => socketOf(o) === undefined))
          report.notApplicable(subject, "no pattern of another system is stated");
        else report.pass(subject);
      }
    }

    function tellNeeded({ subject }: PartView): void {
      report.cannotTell(subject, [needed("the pattern of its sockets", subject)]);
    }
  },
});

const isDirect = ({ part }: PartView): boolean => part.current === "DC";

/** Volts of the system that an outlet belongs to; null: none. */
const voltsOf = ({ supply }: PartView): number | null => supply?.nominal ?? null;

function isOtherSystem(a: PartView, b: PartView): boolean {
  const [one, two] = [voltsOf(a), voltsOf(b)];
  if (one === null || two === null) return false;
  return a.part.current !== b.part.current || Math.max(one, two) / Math.min(one, two) > ALIKE;
}

/** Its pattern, which may be `unknown`; undefined: not stated. */
function socketOf(view: PartView): string | undefined {
  const value = factsOf(view)["socket"]?.value;
  return typeof value === "string" ? value : undefined;
}

function takeOnePlug(a: string, b: string | undefined): boolean {
  if (b === undefined || b === "unknown") return false;
  const [one, two] = [foldName(a), foldName(b)];
  return one === two || COMMON.some((group) => group.includes(one) && group.includes(two));
}
