import { cite } from "../../explain/index.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, saysWord, saysYes } from "../stated.ts";
import { fedByBanks } from "./fed-by-banks.ts";
import { joinedPieces, piecesOf } from "./pieces.ts";
import { switchesOf, type Switch } from "./switches.ts";

const remote = (facts: string, path = "B1 → REL → BP, legs: [0.4 m, 0.4 m]"): string =>
  `rules: { DC: us-small-craft 2021 }\nparts:\n  REL: { kind: relay, rated: 200 A${facts} }\ncircuits:\n  W01: { path: ${path}, sheathed: yes }\n  W02: { path: SW1:in → SW1:out, length: 0.4 m }`;

export const softSwitchedContactor = defineRule({
  id: "battery/soft-switched-contactor",
  title: "Soft-switched contactor",
  severity: { otherwise: "note", sets: { "us-small-craft": "must" } },
  danger: "a controller that hangs keeps the bank on while people believe that it is off",
  why: `The remote switch of a contactor opens the supply of its coil: a line that only tells its electronics is no disconnect. A switch by hand in series
    with it does as well. us-small-craft asks it for lithium; other sets do not.`,
  silent: [
    "sets other than us-small-craft",
    "relays that are not said to be worked from afar",
    "relays with a switch by hand in series",
  ],
  sources: [
    { cite: cite("abyc-e-13", "version 2 (July 2025), 13.6.7.1.1", "article"), sets: ["us-small-craft"] },
    { cite: cite("trade-practice", "a remote switch opens the supply of the coil", "practice") },
  ],
  messages: {
    soft: "the remote switch of {place} only tells its electronics to open, and no switch by hand is in series",
  },
  cures: ["hold-by-coil"],
  examples: {
    good: [
      { says: "no contactor", plan: "" },
      { says: "its coil is switched", plan: remote(", remote: yes, held by: coil supply") },
      {
        says: "a main switch in series",
        plan: `rules: { DC: us-small-craft 2021 }\nparts:\n  REL: { kind: relay, rated: 200 A, remote: yes, held by: message }\ncircuits:\n  W02: { path: SW1 → REL → BP, legs: [0.2 m, 0.2 m] }`,
      },
    ],
    bad: [
      {
        says: "a message and nothing else",
        plan: remote(", remote: yes, held by: message"),
        fails: "soft",
        about: "parts.REL",
      },
      { says: "the plan does not say", plan: remote(", remote: yes"), fails: "cannot tell", about: "parts.REL" },
    ],
  },
  judge(build, report) {
    const { draws } = build.settled.model.grid;
    const switches = switchesOf(build);
    const coils = switches.filter(({ view }) => view.part.traits.coil === true);
    if (coils.length === 0) return;
    const isFed = fedByBanks(build, joinedPieces(build.settled));
    const cutBy = ({ contacts }: Switch): ReadonlySet<number> => {
      const still = fedByBanks(
        build,
        piecesOf(build.settled, (e) => !contacts.includes(e)),
      );
      return new Set(draws.flatMap((d, i) => (isFed(d) && !still(d) ? [i] : [])));
    };
    const byHand = switches.filter((s) => !coils.includes(s)).map(cutBy);
    for (const coil of coils) {
      const { subject } = coil.view;
      const facts = factsOf(coil.view);
      const held = saysWord(facts, "held by", ["coil supply", "message"]);
      const cut = cutBy(coil);
      if (subject.set !== "us-small-craft") report.notApplicable(subject, "the set does not ask it");
      else if (cut.size === 0) report.notApplicable(subject, "it cuts nothing off a battery");
      else if (byHand.some((other) => [...cut].every((d) => other.has(d))))
        report.notApplicable(subject, "a switch by hand is in series");
      else if (held === "coil supply") report.pass(subject);
      else if (held === "message") report.fail(subject, "soft");
      else if (held === undefined && saysYes(facts, "remote") !== true)
        report.notApplicable(subject, "it is not said to be worked from afar");
      else report.cannotTell(subject, [needed("what its remote switch opens", subject)]);
    }
  },
});
