import { cite } from "../../explain/index.ts";
import type { Value } from "../../system/index.ts";
import { isBoat } from "../battery/batteries.ts";
import { contactAmpsOf } from "../battery/contact-amps.ts";
import { below, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, saysYes } from "../stated.ts";
import { metalOf } from "./metal.ts";
import { returnsThrough } from "./returns-through.ts";

/** A joint loses no more than this, V: 1 mΩ at 50 A [practice]. */
const MOST_VOLTS = 0.05;
const MOST_OHMS = 0.001;

const road = (chassis: string, load = "running: 8 A"): string =>
  `rules: { DC: us-rv NEC 2023 }\nparts:\n  chassis: { kind: chassis, ${chassis} }\n  step: { kind: load, ${load} }\ncircuits:\n  W20: { path: BN → chassis:fore, length: 0.5 m, wire: 35 mm² }\n  W21: { path: BP → step, length: 3 m, return: chassis:aft }`;

export const unpreparedChassisJoint = defineRule({
  id: "return/unprepared-chassis-joint",
  title: "Unprepared chassis joint",
  severity: {
    otherwise: "should",
    sets: { "us-rv": "must", "vehicle-practice": "must" },
  },
  danger: "paint and rust between lug and sheet take a volt from the load, and a hot joint lights what lies beside it",
  why: `Where a chassis carries current each joint is bare metal under a plated toothed washer, can be reached, and has no more than 1 mΩ up to 50 A, and loses no
    more than 50 mV above that, at the greatest current that comes back through it. What a joint of an existing build has is measured, not assumed.`,
  silent: [
    "joints that no current comes back through",
    "small-craft sets, which let no structure carry current",
    "what belongs to the harness of an engine or a vehicle",
  ],
  sources: [
    { cite: cite("nfpa-70-2023", "552.10(C)(4)", "read"), sets: ["us-rv"] },
    { cite: cite("trade-practice", "no more than 50 mV in a chassis joint", "practice") },
  ],
  messages: {
    loses: "{place}: its joint {joint} loses {measured} at {amps} ({state}); {limit} is the most",
    paint:
      "{place} brings back {amps} ({state}) through joints that are not bare metal under toothed washers, or cannot be reached",
  },
  cures: ["remake-joints", "own-negative"],
  examples: {
    good: [
      { says: "good joints", plan: road("joints: { fore: 0.5 mΩ, aft: 0.5 mΩ }, prepared: yes") },
      { says: "prepared, and not measured", plan: road("joints: [fore, aft], prepared: yes") },
      {
        says: "a chassis that carries nothing",
        plan: "rules: { DC: us-rv NEC 2023 }\nparts:\n  chassis: { kind: chassis }",
      },
    ],
    bad: [
      {
        says: "a joint of 8 mΩ",
        plan: road("joints: { fore: 0.5 mΩ, aft: 8 mΩ }, prepared: yes"),
        fails: "loses",
        about: "parts.chassis",
      },
      {
        says: "lugs on paint",
        plan: road("joints: { fore: 0.5 mΩ, aft: 0.5 mΩ }, prepared: no"),
        fails: "paint",
        about: "parts.chassis",
      },
      {
        says: "a joint that nobody has measured",
        plan: road("joints: { fore: 0.5 mΩ, aft: unknown }"),
        fails: "cannot tell",
        about: "parts.chassis",
      },
      {
        says: "joints of which nothing is said",
        plan: road("joints: [fore, aft]"),
        fails: "cannot tell",
        about: "parts.chassis",
      },
    ],
  },
  judge(build, report) {
    for (const [id] of metalOf(build).structures) {
      const view = build.part(id);
      if (view === undefined) continue;
      const { subject } = view;
      const { users } = returnsThrough(build, id);
      if (users.length === 0 || isBoat(subject.set)) {
        const why =
          users.length === 0
            ? "no load of this build comes back through it"
            : "its rule set lets no structure carry current";
        report.notApplicable(subject, why);
        continue;
      }
      const amps = contactAmpsOf(build);
      const prepared = saysYes(factsOf(view), "prepared");
      let worst = { joint: "", volts: -1, amps: 0, limit: 0, state: "", ohms: NO_VALUE };
      let most = { amps: 0, state: "" };
      for (const { part, grid } of metalOf(build).edges) {
        const edge = build.settled.model.grid.edges[grid];
        if (part !== id || edge?.contact === null || edge === undefined) continue;
        const { steady, state } = amps(grid);
        if (steady > most.amps) most = { amps: steady, state };
        // Up to 50 A it is the ohms that count.
        const limit = Math.max(steady, 0) <= MOST_VOLTS / MOST_OHMS ? steady * MOST_OHMS : MOST_VOLTS;
        const { ohms } = edge.contact;
        const volts = steady * ohms.high;
        if (steady > 0 && volts - limit > worst.volts - worst.limit)
          worst = { joint: edge.id.slice(id.length + 1), volts, amps: steady, limit, state, ohms };
      }
      const said = { state: worst.state === "" ? "whenever they run" : worst.state };
      const isOver = (ohms: number): boolean => worst.amps * ohms > worst.limit * (1 + 1e-9);
      const open = worst.ohms.origin === "unknown" || (worst.ohms.origin === "default" && prepared !== true);
      if (prepared === false)
        report.fail(subject, "paint", {
          ...said,
          measured: most.amps,
          unit: "A",
          words: { amps: { value: most.amps, unit: "A" } },
        });
      else if (worst.ohms.origin === "given" && isOver(worst.ohms.low))
        report.fail(subject, "loses", {
          ...said,
          measured: worst.volts,
          limit: worst.limit,
          unit: "V",
          margin: below(worst.volts, worst.limit),
          words: { joint: worst.joint, amps: { value: worst.amps, unit: "A" } },
        });
      else if (open || isOver(worst.ohms.high) || prepared === "unknown") {
        const fact = prepared === "unknown" ? "how its joints are made" : `the resistance of its joint ${worst.joint}`;
        report.cannotTell(subject, [needed(fact, subject)]);
      } else
        report.pass(subject, {
          ...said,
          measured: worst.volts,
          limit: worst.limit,
          unit: "V",
          margin: below(worst.volts, worst.limit),
        });
    }
  },
});

const NO_VALUE: Value = { low: 0, high: 0, origin: "derived" };
