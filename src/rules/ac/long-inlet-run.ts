import { cite } from "../../explain/index.ts";
import { isBoat, isRoad } from "../battery/batteries.ts";
import { nameSome } from "../battery/name-some.ts";
import { below, needed } from "../report.ts";
import type { RuleSetId } from "../rule-set-id.ts";
import { defineRule } from "../rule.ts";
import { firstDevice } from "./first-device.ts";
import { builtIn, inletsOf } from "./inlets.ts";

const aboard = (set: string, circuit: string, inlet = "rated: 30 A"): string =>
  `rules: { DC: iso-small-craft 2020+A1:2022, AC: ${set} }\nsystems:\n  AC: { kind: AC, nominal: 120 V, cores: [L, N, PE] }\nparts:\n  INL: { kind: shore inlet, ${inlet} }\n  CU: { kind: consumer unit, main: breaker 30 A 2-pole, ways: { 1: breaker 15 A 2-pole } }\n  kettle: { kind: load, rated: 1 kW }\ncircuits:\n  W20: { path: INL → CU:in, ${circuit} }\n  W21: { path: CU:1 → kettle, length: 3 m }`;

/** Greatest run from an inlet to its first device, m. */
const MOST: Readonly<Partial<Record<RuleSetId, number>>> = { "us-small-craft": 3, "iso-small-craft": 0.5 };
const ON_THE_ROAD = 3;

export const longInletRun = defineRule({
  id: "ac/long-inlet-run",
  title: "Long run from an inlet",
  severity: { otherwise: "should", sets: { "us-small-craft": "must", "iso-small-craft": "must" } },
  danger:
    "a wire that chafes behind the inlet is guarded by nothing but the breaker ashore, which is as large as it likes",
  why: `From the inlet to the first fuse or breaker aboard the conductors have only what stands ashore to guard them. On American boats that run is at most 3 m (10 ft), on boats by the international standard 0.5 m or a run in
    a sheath, a cable or a pipe all the way; on vehicles 3 m by custom. Every way that the line takes while the inlet feeds is followed to its first device; the longest counts. A
    switch or changeover breaks no overcurrent and is none.`,
  silent: ["inlets with a breaker built in", "cabins and houses, whose supply has a device of its own ahead"],
  sources: [
    { cite: cite("abyc-e-11", "11.10.2.8.3", "read"), sets: ["us-small-craft"] },
    { cite: cite("iso-13297-2020", "13.2.2", "read"), sets: ["iso-small-craft"] },
    { cite: cite("trade-practice", "a device near the inlet of a vehicle", "practice") },
  ],
  messages: {
    long: "{place}: the first device behind it stands {measured} of conductor away, at {at}; {limit} is the most",
    proposed:
      "{place}: the plan sets no fuse or breaker into its line; the first that is proposed stands {measured} of conductor away, in {at}; {limit} is the most",
    none: "{place}: its line reaches {at} without a fuse or a breaker on the way",
  },
  cures: ["breaker-at-inlet"],
  examples: {
    good: [
      { says: "2.9 m on an American boat", plan: aboard("us-small-craft ABYC E-11", "length: 2.9 m") },
      { says: "a breaker in the inlet", plan: aboard("us-small-craft ABYC E-11", "length: 6 m", "rated: 30 A, breaker: 30 A 2-pole") }, // prettier-ignore
      { says: "a sheathed run", plan: aboard("iso-small-craft 2020+A1:2022", "length: 2 m, sheathed: yes") },
    ],
    bad: [
      {
        says: "4 m on an American boat",
        plan: aboard("us-small-craft ABYC E-11", "length: 4 m"),
        fails: "long",
        about: "parts.INL",
      },
      {
        says: "single wires over 2 m",
        plan: aboard("iso-small-craft 2020+A1:2022", "length: 2 m"),
        fails: "long",
        about: "parts.INL",
      },
      {
        says: "no device at all",
        plan: `${aboard("us-small-craft ABYC E-11", "length: 2 m")}\n  W22: { path: INL → heater, length: 1 m, breaker: none }`.replace("  kettle:", "  heater: { kind: load, rated: 1 kW }\n  kettle:"), // prettier-ignore
        fails: "none",
        about: "parts.INL",
      },
      {
        says: "a changeover, which breaks nothing, and behind its other contact the breaker of a generator",
        plan: `rules: { DC: iso-small-craft 2020+A1:2022, AC: iso-small-craft 2020+A1:2022 }\nsystems:\n  AC: { kind: AC, nominal: 230 V, cores: [L, N, PE] }\nparts:\n  INL: { kind: shore inlet, rated: 16 A }\n  GEN: { kind: generator, rated: 3 kVA, neutral: joined to earth }\n  GB: { kind: breaker, rated: 16 A, poles: 2, for: AC }\n  CO: { kind: transfer switch, inputs: [shore, generator], off: yes, poles: 2, rated: 16 A }\n  kettle: { kind: load, rated: 1 kW }\ncircuits:\n  W20: { path: INL → CO:shore, length: 1.2 m }\n  W21: { path: GEN → GB, length: 0.4 m }\n  W22: { path: GB → CO:generator, length: 3 m }\n  W23: { path: CO:out → kettle, length: 3 m }`,
        fails: "proposed",
        about: "parts.INL",
      },
      {
        says: "nobody measured it",
        plan: aboard("us-small-craft ABYC E-11", "length: unknown"),
        fails: "cannot tell",
        about: "parts.INL",
      },
    ],
  },
  judge(build, report) {
    for (const inlet of inletsOf(build)) {
      const { subject } = inlet.view;
      const { set } = subject;
      const limit = (set === null ? undefined : MOST[set]) ?? (isRoad(set) ? ON_THE_ROAD : undefined);
      const first = firstDevice(build, inlet);
      if (limit === undefined && !isBoat(set)) report.notApplicable(subject, "its rule set names no distance");
      else if (builtIn(inlet) !== null) report.notApplicable(subject, "a breaker is built into it");
      else if (first === null) report.notApplicable(subject, "nothing hangs on it");
      else if (first.metres === null) report.fail(subject, "none", { words: { at: first.at } });
      else {
        const most = limit ?? ON_THE_ROAD;
        const { metres, untold } = first;
        const said = { measured: metres, limit: most, unit: "m", margin: below(metres, most) } as const;
        const maySheathe = set === "iso-small-craft" && metres > most * (1 + 1e-9);
        if (maySheathe && first.isSheathed === true) report.pass(subject);
        else if (maySheathe && first.isSheathed === "unknown")
          report.cannotTell(subject, [needed(`whether ${nameSome(first.circuits)} is sheathed`, `circuits.${first.circuits[0] ?? ""}`)], said); // prettier-ignore
        else if (metres > most * (1 + 1e-9))
          report.fail(subject, first.isProposed ? "proposed" : "long", { ...said, words: { at: first.at } });
        else if (untold.length > 0)
          report.cannotTell(subject, [needed(`the length of ${nameSome(untold)}`, `circuits.${untold[0] ?? ""}`)]); // prettier-ignore
        else report.pass(subject, said);
      }
    }
  },
});
