import { cite } from "../../explain/index.ts";
import { needed } from "../report.ts";
import { defineRule, severityOf } from "../rule.ts";
import { factsOf, recordOfFacts, saysYes } from "../stated.ts";
import { askOnce, batteriesOf, type Battery } from "./batteries.ts";

const lithium = (more: string): string =>
  `parts:\n  B1: { kind: battery, chemistry: LFP, nominal: 12.8 V, capacity: 200 Ah, short-circuit: 3 kA, management: { continuous: 200 A${more} } }`;

export const silentShutdown = defineRule({
  id: "battery/silent-shutdown",
  title: "Silent shutdown",
  severity: { otherwise: "should", sets: { "us-small-craft": "must", "iso-small-craft": "must" } },
  danger: "the autopilot and the lights die without a word, at the worst moment",
  why: "Before the management of a lithium battery switches it off, people at the helm or the seat see or hear it: `management: { warns: yes }`.",
  silent: ["batteries without a management", "sets that only advise it, where the plan does not say"],
  sources: [
    { cite: cite("abyc-e-13", "warning before a shutdown", "article"), sets: ["us-small-craft"] },
    { cite: cite("iso-23625-2025", "warning before a shutdown", "article"), sets: ["iso-small-craft"] },
    { cite: cite("trade-practice", "a display or a buzzer before the management opens", "practice") },
  ],
  messages: { silent: "the management of {place} switches it off without a warning" },
  cures: ["warning-signal"],
  examples: {
    good: [
      { says: "it warns", plan: lithium(", warns: yes") },
      {
        says: "lead has nothing that opens",
        plan: "parts:\n  B1: { kind: battery, chemistry: AGM, capacity: 200 Ah }",
      },
    ],
    bad: [
      { says: "it does not warn", plan: lithium(", warns: no"), fails: "silent", about: "parts.B1" },
      { says: "the plan does not say", plan: lithium(""), fails: "cannot tell", about: "parts.B1" },
    ],
  },
  judge(build, report) {
    const quiet: Battery[] = [];
    for (const battery of batteriesOf(build)) {
      const { view, store } = battery;
      const { subject } = view;
      const warns = saysYes(recordOfFacts(factsOf(view), "management", ["warns"]), "warns");
      if (store.curve === "lead" && factsOf(view)["management"] === undefined)
        report.notApplicable(subject, "it has no management");
      else if (warns === true) report.pass(subject);
      else if (warns === false) report.fail(subject, "silent");
      else if (warns === "unknown") report.cannotTell(subject, [needed("whether its management warns", subject)]);
      else quiet.push(battery);
    }
    askOnce(
      report,
      quiet,
      ({ view }) => severityOf(silentShutdown, view.subject.set) === "must",
      (names) => `whether the management of ${names} warns before it opens`,
    );
  },
});
