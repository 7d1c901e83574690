import { cite } from "../../explain/index.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";

export const ambiguousCableName = defineRule<never>({
  id: "cable/ambiguous-cable-name",
  title: "Ambiguous cable name",
  severity: "must",
  danger: "the cable that comes has a conductor less than the one that was meant",
  why: `\`12/3\` is three wires in boat cable and four in building cable, \`2x10\` one cable or two: what the second figure counts depends on the kind of
    cable. Until the plan says the kind, or the cores one by one, nothing is counted, and no kind is taken for granted. The message where the name
    is written lists what it can mean.`,
  silent: ["circuits without a cable", "cables of which only the name in the plan is said"],
  sources: [{ cite: cite("trade-practice", "what the second figure of a cable name counts", "article") }],
  messages: {},
  cures: [],
  examples: {
    good: [
      {
        says: "the kind beside the figures",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, cable: 14/2 boat duplex }",
      },
    ],
    bad: [
      {
        says: "two figures and no kind",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, cable: 12/3 }",
        fails: "cannot tell",
        about: "circuits.W10",
      },
    ],
  },
  judge(build, report) {
    for (const { id, subject, circuit } of build.circuits) {
      const { cable } = circuit;
      if (cable === undefined) report.notApplicable(subject, "the plan names no cable");
      else if (cable.circuits[0] !== id)
        report.notApplicable(subject, "it is told with the first circuit of its cable");
      else if (cable.label !== null) report.pass(subject);
      else if (cable.isUnclear) report.cannotTell(subject, [needed("which kind of cable it is", subject)]);
      else report.notApplicable(subject, "the plan names no kind of cable");
    }
  },
});
