import { cite } from "../../explain/index.ts";
import { below, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { isBoat, isRoad } from "./batteries.ts";
import { banksOf, nameOf } from "./banks.ts";
import { joinedPieces } from "./pieces.ts";
import { many, type Limit } from "./unit-limits.ts";

const cranked = (battery: string, amps: string): string =>
  `parts:\n  B1: { kind: battery, ${battery} }\n  STM: { kind: starter, running: 0 A, starting: ${amps}, start time: 2 s }\ncircuits:\n  W20: { path: SW1:out → STM, length: 1 m, wire: 70 mm², fuse: none, cranking: yes }`;
const LFP =
  "chemistry: LFP, nominal: 12.8 V, capacity: 200 Ah, short-circuit: 3 kA, management: { continuous: 200 A, peak:";

export const crankingBeyondTheBattery = defineRule({
  id: "battery/cranking-beyond-the-battery",
  title: "Cranking beyond the battery",
  severity: "should",
  danger:
    "the management opens while the engine is cranked, and the alternator that has just come alive loses its battery",
  why: `A starter takes no more than what the management of every bank that it can be switched to lets through for a short time; of a lead battery no
    more than its cold cranking amps. Every position of every switch counts.`,
  silent: ["buildings", "batteries whose maker states neither a peak nor cold cranking amps"],
  sources: [{ cite: cite("trade-practice", "an engine is cranked by a battery made for it", "practice") }],
  messages: { beyond: "{starter} takes {measured} to crank; {place}, which it can be switched to, bears {limit}" },
  cures: ["another-unit"],
  examples: {
    good: [
      { says: "no starter", plan: "" },
      {
        says: "a lead battery made for it",
        plan: cranked("chemistry: AGM, capacity: 90 Ah, cranking: 800 A", "400 A"),
      },
    ],
    bad: [
      {
        says: "lithium whose management lets less through",
        plan: cranked(`${LFP} 300 A }`, "400 A"),
        fails: "beyond",
        about: "parts.B1",
      },
      {
        says: "nobody knows the peak",
        plan: cranked(`${LFP} unknown }`, "400 A"),
        fails: "cannot tell",
        about: "parts.B1",
      },
    ],
  },
  judge(build, report) {
    const { grid } = build.settled.model;
    const starters = grid.draws.filter((d) => build.part(d.element.part)?.part.traits.cranks === true);
    if (starters.length === 0) return;
    const pieces = joinedPieces(build.settled);
    for (const bank of banksOf(build).list) {
      const { subject } = bank.first;
      const plus = pieces[grid.stores[bank.top[0] ?? -1]?.plus ?? -1];
      const own = starters.filter((d) => pieces[d.plus] === plus);
      const [first] = own;
      const limits = bank.top.map((i): Limit => {
        const unit = grid.stores[i]?.element;
        return unit === undefined ? undefined : many(unit.unit.peakAmps ?? unit.unit.crankingAmps, unit.strings);
      });
      if (!isBoat(subject.set) && !isRoad(subject.set)) report.notApplicable(subject, "it is no boat and no vehicle");
      else if (first === undefined) report.notApplicable(subject, "no starter can be switched to it");
      else if (limits.some((l) => l === undefined))
        report.notApplicable(subject, "neither a peak nor cold cranking amps are stated");
      else if (limits.includes("unknown"))
        report.cannotTell(subject, [needed("what it bears for a short time", subject)]);
      else {
        const sum = (end: "low" | "high"): number =>
          limits.reduce((all, l) => all + (typeof l === "object" ? l[end] : 0), 0);
        const asked = (d: (typeof own)[number]): number => Math.max(...d.element.levels.map((l) => l.amps.high), 0);
        const worst = own.reduce((a, b) => (asked(b) > asked(a) ? b : a), first);
        const amps = asked(worst);
        const said = { measured: amps, limit: sum("low"), unit: "A", margin: below(amps, sum("low")) } as const;
        if (amps > sum("high"))
          report.fail(subject, "beyond", { ...said, words: { place: nameOf(bank), starter: worst.element.part } });
        else if (amps > sum("low"))
          report.cannotTell(subject, [needed("what it bears for a short time, closer", subject)], said);
        else report.pass(subject, said);
      }
    }
  },
});
