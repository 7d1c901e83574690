import { cite } from "../../explain/index.ts";
import { contactAmpsOf } from "../battery/contact-amps.ts";
import { nameSome } from "../battery/name-some.ts";
import type { Build, PartView } from "../build.ts";
import { below } from "../report.ts";
import { defineRule } from "../rule.ts";
import { metalOf } from "./metal.ts";
import { returnsThrough } from "./returns-through.ts";

/** Less than this is leakage and measuring error, A [practice]. */
const STRAY = 0.05;

const through = (load: string, more = ""): string =>
  `parts:\n  hull: { kind: structure, joints: { fore: 0.3 mΩ, aft: 0.3 mΩ } }\n  ${load}\ncircuits:\n  W20: { path: BN → hull:aft, length: 0.5 m }\n  ${more}`;

export const structureAsConductor = defineRule({
  id: "return/structure-as-conductor",
  title: "Structure as conductor",
  severity: {
    otherwise: "should",
    sets: { "us-small-craft": "must", "iso-small-craft": "must" },
  },
  danger: "a rusty bolt becomes the weakest wire of the build, and metal that nobody watches carries its current",
  why: `No load or source has its current brought back through hull, frame or bonding: each has a negative of its own. The engine may bring back what belongs to it, its starter and its
    alternator; so may the harness that the maker of a vehicle or an engine has fitted. us-rv and vehicle-practice let a chassis carry current: its joints are then judged.`,
  silent: [
    "structures that no current comes back through",
    "starter, alternator and all that is marked as of the factory's harness",
    "us-rv and vehicle-practice, where a chassis may carry current",
  ],
  sources: [
    { cite: cite("iso-10133-2012", "4.1", "read"), sets: ["iso-small-craft"] },
    { cite: cite("abyc-e-11", "fully insulated two-wire systems", "memory"), sets: ["us-small-craft"] },
    { cite: cite("trade-practice", "a negative of its own for each load", "practice") },
  ],
  messages: {
    carries: "{place} brings back {measured} ({state}) of {others}",
  },
  cures: ["own-negative"],
  examples: {
    good: [
      { says: "a negative for each load", plan: "" },
      {
        says: "a hull that is bonded and carries nothing",
        plan: "parts:\n  hull: { kind: structure }\ncircuits:\n  W20: { path: BN → hull, length: 0.5 m, cores: [PE], wire: 10 mm² }",
      },
      {
        says: "an alternator on its engine",
        plan: "parts:\n  engine: { kind: structure, is: engine, joints: { stud: 0.3 mΩ, bracket: 0.3 mΩ } }\n  ALT: { kind: alternator, rated: 50 A }\ncircuits:\n  W20: { path: BN → engine:stud, length: 1 m, wire: 35 mm² }\n  W21: { path: ALT → SW1:in, length: 1 m, return: engine:bracket }",
      },
    ],
    bad: [
      {
        says: "a deck light that returns through the hull",
        plan: through(
          "flood: { kind: light, running: 4 A }",
          "W21: { path: BP → flood, length: 4 m, fuse: 10 A class T at BP, return: hull:fore }",
        ),
        fails: "carries",
        about: "parts.hull",
      },
    ],
  },
  judge(build, report) {
    for (const [id] of metalOf(build).structures) {
      const view = build.part(id);
      if (view === undefined) continue;
      const { subject } = view;
      const { users, own } = returnsThrough(build, id);
      if (users.length === 0 && own.length === 0) {
        const { amps, state } = flowIn(build, id);
        if (amps <= STRAY)
          report.pass(subject, { measured: amps, limit: STRAY, unit: "A", margin: below(amps, STRAY) });
        else tell(view, amps, state, ["what returns beside it"]);
      } else if (users.length === 0)
        report.notApplicable(subject, "it brings back only what belongs to its engine or vehicle");
      else if (subject.set === "us-rv" || subject.set === "vehicle-practice")
        report.notApplicable(
          subject,
          "its rule set lets a chassis carry current: unprepared-chassis-joint judges its joints",
        );
      else {
        const { amps, state } = flowIn(build, id);
        tell(view, amps, state, users);
      }
    }

    function tell({ subject }: PartView, amps: number, state: string, users: readonly string[]): void {
      report.fail(subject, "carries", {
        measured: amps,
        limit: STRAY,
        unit: "A",
        margin: below(amps, STRAY),
        state: state === "" ? "whenever they run" : state,
        words: { others: nameSome(users) },
      });
    }
  },
});

/** The most that flows in any joint of a structure. */
function flowIn(build: Build, id: string): { readonly amps: number; readonly state: string } {
  const amps = contactAmpsOf(build);
  let most = { amps: 0, state: "" };
  for (const edge of metalOf(build).edges) {
    if (edge.part !== id || edge.grid < 0) continue;
    const { steady, state } = amps(edge.grid);
    if (steady > most.amps) most = { amps: steady, state };
  }
  return most;
}
