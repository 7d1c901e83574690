import { cite } from "../../explain/index.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { shoreAndInverter } from "./example-plans.ts";
import { isFed, takersOf } from "./fed.ts";
import { alternatingPart, statesOf } from "./switching-of.ts";
import { alternates, tellStates, verdictOn } from "./tell-states.ts";

const heater = (more: string, cores: string): string =>
  shoreAndInverter({
    parts: { heater: `kind: load, rated: 500 W${more}` },
    circuits: { W25: `path: CU:2 → heater, length: 3 m, cores: [${cores}]` },
  });

export const missingProtectiveConductor = defineRule({
  id: "ac/missing-protective-conductor",
  title: "Missing protective conductor",
  severity: "must",
  danger: "the case goes live with the first fault inside, and stays so until somebody touches it",
  why: `Every outlet, charger and appliance of class I has a protective conductor that is one piece of metal with the place where neutral and earth of its source are joined, in every state: no switch, fuse or plug of
    another source may open it.`,
  silent: [
    "appliances of class II or III",
    "states in which nothing joins neutral and earth: missing-neutral-earth-join tells those",
  ],
  sources: [
    { cite: cite("iec-60364-4-41", "411.3.1", "memory"), sets: ["iec-cabin", "iec-caravan", "au-nz-vehicle"] },
    { cite: cite("nfpa-70-2023", "250", "memory"), sets: ["us-cabin", "us-rv"] },
    { cite: cite("abyc-e-11", "green conductor, never switched or fused", "article"), sets: ["us-small-craft"] },
    { cite: cite("trade-practice", "a protective conductor to every case", "practice") },
  ],
  messages: {
    none: "{place} is fed with {state} and has no protective conductor; the way there: {steps}",
    open: "with {state}, the protective conductor of {place} does not lead to where neutral and earth are joined; the way there: {steps}",
  },
  cures: ["protective-core"],
  examples: {
    good: [
      { says: "three cores", plan: heater("", "L, N, PE") },
      { says: "two cores to class II", plan: heater(", class: II", "L, N") },
    ],
    bad: [
      { says: "two cores to class I", plan: heater(", class: I", "L, N"), fails: "none", about: "parts.heater" },
      {
        says: "an inverter that is joined to no protective conductor",
        plan: shoreAndInverter({
          circuits: {
            W22: "path: INV:out → TS:inverter, length: 1 m, cores: [L, N], breaker: 10 A 30 mA 2-pole at INV",
          },
        }),
        fails: "open",
        about: "parts.sockets",
      },
      { says: "nobody knows its class", plan: heater("", "L, N"), fails: "cannot tell", about: "parts.heater" },
    ],
  },
  judge(build, report) {
    if (!alternates(build, report)) return;
    for (const [id, taker] of takersOf(build)) {
      const subject = alternatingPart(build, taker.part);
      const verdict = verdictOn<"none" | "open">(subject);
      const view = build.part(taker.part);
      const draw = view?.elements.find((e) => e.is === "draw");
      const stated = draw?.is === "draw" ? draw.alternating?.protection : "I";
      const class_ = view?.part.traits.outlet === true ? "I" : stated;
      if (class_ === "II" || class_ === "III") verdict.exempt = `it is of class ${class_}`;
      for (const state of verdict.exempt === null ? statesOf(build) : []) {
        const at = state.takers.find((t) => t.taker === id);
        if (at === undefined || !isFed(at, taker)) continue;
        if (at.earth === "open") verdict.faults.push({ message: "open", state });
        else if (at.earth !== "none") continue;
        else if (class_ === "I") verdict.faults.push({ message: "none", state });
        else verdict.needs.push(needed("its protection class", subject));
      }
      tellStates(build, report, [verdict]);
    }
  },
});
