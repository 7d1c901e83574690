import { cite } from "../../explain/index.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, saysYes } from "../stated.ts";
import { askOnce, batteriesOf, type Battery } from "./batteries.ts";

const posts = (more: string): string => `parts:\n  B1: { kind: battery, chemistry: AGM, capacity: 200 Ah${more} }`;

export const shortablePost = defineRule({
  id: "battery/shortable-post",
  title: "Shortable post",
  severity: "must",
  danger: "a tool across a post is an arc welder, and nothing opens before it",
  why: "The posts of every battery are covered, or out of reach of anything of metal: boots, a lid, a box.",
  silent: ["studs behind a device of their own"],
  sources: [
    { cite: cite("33-cfr-183", "183.420(b)", "read"), sets: ["us-small-craft"] },
    { cite: cite("iso-10133-2012", "5.4", "read"), sets: ["iso-small-craft"] },
    { cite: cite("trade-practice", "posts wear boots or stand under a lid", "practice") },
  ],
  messages: { bare: "the posts of {place} are bare: metal can fall across them" },
  cures: ["cover-posts"],
  examples: {
    good: [{ says: "boots on its posts", plan: posts(", posts covered: yes") }],
    bad: [
      { says: "bare posts", plan: posts(", posts covered: no"), fails: "bare", about: "parts.B1" },
      { says: "nobody knows", plan: posts(", posts covered: unknown"), fails: "cannot tell", about: "parts.B1" },
      { says: "the plan does not say", plan: posts(""), fails: "cannot tell", about: "parts.B1" },
    ],
  },
  judge(build, report) {
    const silent: Battery[] = [];
    for (const battery of batteriesOf(build)) {
      const { subject } = battery.view;
      const covered = saysYes(factsOf(battery.view), "posts covered");
      if (covered === true) report.pass(subject);
      else if (covered === false) report.fail(subject, "bare");
      else if (covered === "unknown") report.cannotTell(subject, [needed("whether its posts are covered", subject)]);
      else silent.push(battery);
    }
    askOnce(
      report,
      silent,
      () => true,
      (names) => `whether the posts of ${names} are covered`,
    );
  },
});
