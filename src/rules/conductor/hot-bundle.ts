import { cite } from "../../explain/index.ts";
import { studyHeat } from "../../size/index.ts";
import type { CircuitView } from "../build.ts";
import { below, needed } from "../report.ts";
import { defineRule } from "../rule.ts";

/** Conductors that carry current together above which bundle factors trust that most of them idle. */
const CROWD = 10;

export const hotBundle = defineRule({
  id: "conductor/hot-bundle",
  title: "Hot bundle",
  severity: "note",
  danger: "wires in the middle of the bundle grow old years before those outside",
  why: `The factors of the tables trust that most wires of a large bundle idle. Where more than ${CROWD} conductors that carry current lie together, the balance of heat works out
    how hot the metal gets with the circuits that share its cable at what they carry in the same state, and that may not be more than its insulation bears. Of neighbours that
    the plan counts and does not name, it is tried with all of them idle and with all of them carrying the same.`,
  silent: [
    `conductors of which no more than ${CROWD} lie together: the tables are right for them`,
    "alternating-current circuits, which are not studied yet",
  ],
  alternating: true,
  sources: [
    {
      cite: cite("own-derivation", "balance of heat of a bundle, conductivity fitted to published factors", "derived"),
    },
  ],
  messages: {
    hot: "{place} comes to {measured} among {together} conductors ({state}); its insulation bears {limit}",
  },
  cures: ["looser-bundle", "next-size", "hotter-insulation"],
  examples: {
    good: [
      {
        says: "thirty conductors, and little flows",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 3 m, wire: 10 mm², bundle: 30 }",
      },
    ],
    bad: [
      {
        says: "60 A in 1.5 mm², hot though thirty others idle",
        plan: "parts:\n  lamp: { kind: light, running: 60 A, runs above: 9 V }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 0.3 m, wire: 1.5 mm², bundle: 32 }",
        fails: "hot",
        about: "circuits.W10",
      },
      {
        says: "30 A in 2.5 mm² among thirty",
        plan: "parts:\n  lamp: { kind: light, running: 30 A, runs above: 9 V }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 0.5 m, wire: 2.5 mm², bundle: 30 }",
        fails: "cannot tell",
        about: "circuits.W10",
      },
    ],
  },
  judge(build, report) {
    for (const c of build.circuits) {
      if (c.model === null) report.notApplicable(c.subject, "alternating current is not studied yet");
      else if (crowdOf(c) <= CROWD) report.notApplicable(c.subject, `no more than ${CROWD} conductors lie together`);
      else {
        const heat = studyHeat(build.settled, build.runs, build.design).circuit(c.model.position);
        if (heat === null) {
          report.cannotTell(c.subject, [needed("its size", c.subject)]);
          continue;
        }
        const { atDesign, ratingC, together } = heat;
        const said = (measured: number) => ({
          measured,
          limit: ratingC,
          unit: "°C" as const, // a unit that figures know
          margin: below(measured, ratingC),
          state: c.design.steadyIn,
        });
        if (atDesign.highC <= ratingC) report.pass(c.subject, said(atDesign.highC));
        else if (atDesign.lowC <= ratingC)
          report.cannotTell(c.subject, [needed("which circuits lie with it", c.subject)], said(atDesign.highC));
        else
          report.fail(c.subject, "hot", {
            ...said(atDesign.lowC),
            trust: "memory",
            words: { together: String(together) },
          });
      }
    }
  },
});

/** Conductors that lie together where most do. */
const crowdOf = ({ run }: CircuitView): number => run.stretches.reduce((most, { bundle }) => Math.max(most, bundle), 0);
