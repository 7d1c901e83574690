import { cite } from "../../explain/index.ts";
import type { ResidualDemand } from "../../ruleset/earthing-rules.ts";
import type { ResidualGuard } from "../../system/index.ts";
import { figure } from "../figure.ts";
import { below, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { oneSource } from "./example-plans.ts";
import { isFed, sourcesOf, takersOf } from "./fed.ts";
import { demandAhead, guardName, guardsOf, isGuarded, standingOf } from "./guarded.ts";
import { alternatingPart, statesOf } from "./switching-of.ts";
import { alternates } from "./tell-states.ts";

const behind = (set: string, main: string, nominal = "230 V"): string =>
  oneSource({
    set,
    system: `kind: AC, nominal: ${nominal}, cores: [L, N, PE]`,
    parts: {
      INL: "kind: shore inlet, rated: 16 A, polarity indicator: yes",
      CU: `kind: consumer unit, main: { rated: 16 A, residual device: 30 mA, ${main} }, ways: { 1: breaker 10 A 2-pole }`,
    },
  });
const american = (main: string): string => behind("us-small-craft ABYC E-11", main, "120 V");

export const unfitResidualDevice = defineRule({
  id: "ac/unfit-residual-device",
  title: "Unfit residual device",
  severity: "must",
  danger:
    "it opens, and what it should have made dead is still live; or it opens later than a heart or a swimmer can wait",
  why: `Supplies and plugs exchange line and neutral, so that a residual device of one pole can leave the conductor whole that is live. On boats, in caravans and vehicles the one that guards opens all live conductors, neutral
    with the lines; on an American boat it does so within 0.1 s of a leakage of its rated current, which not every device of 30 mA does: those of IEC 61008 have 0.3 s. Of several that lead to a thing one
    that does is enough.`,
  silent: [
    "devices that guard nothing where the set asks for one: missing-residual-device tells it",
    "devices in outlets, and sets that ask by the place of an outlet",
    "us-small-craft: devices of other sources than shore power",
  ],
  sources: [
    { cite: cite("abyc-e-11", "11.11.1", "read"), sets: ["us-small-craft"] },
    { cite: cite("iec-60364-7-721", "721.415.1", "article"), sets: ["iec-caravan"] },
    { cite: cite("as-nzs-3001-2-2022", "residual-current devices", "memory"), sets: ["au-nz-vehicle"] },
    { cite: cite("iso-13297-2020", "residual-current devices", "memory"), sets: ["iso-small-craft"] },
    { cite: cite("trade-practice", "a residual device opens all live conductors", "practice") },
  ],
  messages: {
    poles: "{device} leaves neutral whole when it opens; take one that opens all live poles",
    slow: "{device} may take {time} at its rated current, where {limit} is the most; take one that is quicker",
  },
  cures: ["all-poles"],
  examples: {
    good: [
      { says: "line and neutral in a caravan", plan: behind("iec-caravan", "poles: 2") },
      { says: "0.1 s on an American boat", plan: american("poles: 2, residual time: 0.1 s") },
      { says: "one pole in a cabin, where outlets alone are asked for", plan: behind("iec-cabin", "poles: 1") },
      {
        says: "one pole in the main, behind two at the inlet",
        plan: behind("iec-caravan", "poles: 1").replace("W20: { ", "W20: { breaker: 16 A 30 mA 2-pole at INL, "),
      },
    ],
    bad: [
      { says: "one pole in a caravan", plan: behind("iec-caravan", "poles: 1"), fails: "poles", about: "parts.CU" },
      {
        says: "one pole on an American boat",
        plan: american("poles: 1, residual time: 0.1 s"),
        fails: "poles",
        about: "parts.CU",
      },
      {
        says: "0.3 s on an American boat",
        plan: american("poles: 2, residual time: 0.3 s"),
        fails: "slow",
        about: "parts.CU",
      },
      {
        says: "nobody says how soon it opens on an American boat",
        plan: american("poles: 2"),
        fails: "cannot tell",
        about: "parts.CU",
      },
    ],
  },
  judge(build, report) {
    if (!alternates(build, report)) return;
    for (const [part, relied] of reliedOn(build)) {
      const subject = alternatingPart(build, part);
      const [first] = relied;
      if (first === undefined) {
        report.notApplicable(subject, "nothing is asked of it, or another device does what is asked");
        continue;
      }
      const of = (is: Fitness["is"]): Relied | undefined => relied.find(({ fitness }) => fitness.is === is);
      const worst = of("half") ?? of("slow") ?? of("untimed") ?? first;
      const { guard, fitness, demand } = worst;
      const device = guardName(guard);
      const limit = demand.mostSeconds ?? undefined;
      const source = demand.source;
      if (fitness.is === "half") report.fail(subject, "poles", { words: { device }, source });
      else if (fitness.is === "slow") {
        const { seconds } = fitness;
        const time = { time: figure(seconds, "s"), limit: figure(limit ?? 0, "s") };
        report.fail(subject, "slow", { words: { device, ...time }, source, measured: seconds, limit, unit: "s", margin: below(seconds, limit ?? 0) }); // prettier-ignore
      } else if (fitness.is === "untimed")
        report.cannotTell(subject, [needed(`in what time ${device} opens at its rated current`, subject)]);
      else report.pass(subject);
    }
  },
});

/** What a device is of all that is asked of it. */
type Fitness = { readonly is: "fit" | "half" | "untimed" } | { readonly is: "slow"; readonly seconds: number };

interface Relied {
  readonly guard: ResidualGuard;
  readonly fitness: Fitness;
  readonly demand: ResidualDemand;
}

function fitnessOf({ through = [], seconds }: ResidualGuard, { allLive, mostSeconds }: ResidualDemand): Fitness {
  if (allLive && through.length > 0) return { is: "half" };
  if (mostSeconds === null) return { is: "fit" };
  if (seconds === undefined || seconds === "unknown" || seconds.origin === "unknown") return { is: "untimed" };
  if (seconds.low > mostSeconds + 1e-9) return { is: "slow", seconds: seconds.low };
  // A range on both sides of it: nobody knows.
  return { is: seconds.high > mostSeconds + 1e-9 ? "untimed" : "fit" };
}

/** Devices by their part, with what each is relied on for: where none that guards a thing does all that is asked, all of them are. */
function reliedOn(build: Parameters<typeof guardsOf>[0]): ReadonlyMap<string, readonly Relied[]> {
  const guards = guardsOf(build);
  const sources = sourcesOf(build);
  const found = new Map<string, Relied[]>();
  for (const { part, contacts } of guards.values()) if (contacts.length > 0) found.set(part, []);
  for (const [id, taker] of takersOf(build)) {
    const { set } = alternatingPart(build, taker.part);
    const demand = demandAhead(set);
    if (demand === null || (!demand.allLive && demand.mostSeconds === null)) continue;
    for (const state of statesOf(build)) {
      const at = state.takers.find((t) => t.taker === id);
      if (at === undefined || !isFed(at, taker)) continue;
      if (set === "us-small-craft" && !at.sources.some((s) => sources.get(s)?.kind === "shore")) continue;
      const own = at.guards.flatMap((on): Relied[] => {
        const guard = guards.get(on.guard);
        const works = isGuarded({ ...at, guards: [on] }, guards, demand.mostAmps, standingOf(demand)) === true;
        return guard === undefined || !works ? [] : [{ guard, fitness: fitnessOf(guard, demand), demand }];
      });
      const fit = own.find(({ fitness }) => fitness.is === "fit");
      for (const one of fit === undefined ? own : [fit]) found.get(one.guard.part)?.push(one);
    }
  }
  return found;
}
