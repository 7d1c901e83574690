import { cite } from "../../explain/index.ts";
import { known } from "../../plan/index.ts";
import { boughtAmps, type BoughtMake } from "../../size/index.ts";
import { resistancePerMetre20, type ConductorMake } from "../../wire/index.ts";
import type { CircuitView } from "../build.ts";
import { above, below, needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { boughtOf, drawnMake, quoted } from "./bought-of.ts";

export const shrunkenSubstitute = defineRule({
  id: "conductor/shrunken-substitute",
  title: "Shrunken substitute",
  severity: "must",
  danger: "the wire in its place loses more volts or runs hotter than the one that was computed",
  why: `Tables of equal sizes hold in one direction only: 10 AWG goes for 6 mm² in one list, and has 12 % less area. A wire that is bought in another size
    than the drawn one must have no more resistance at 20 °C, and carry no less where it lies, by the table and the factors of the rule set: insulation for less heat loses more in hot air. The devices that suit the drawn wire then suit it as well.
    Resistances are compared, never areas or names: 2 AWG has less resistance than a 35 mm² conductor of class 5 may have. Lugs, ferrules and
    glands follow the bought wire, which the schedule says.`,
  silent: [
    "wires bought in the size that is drawn",
    "labels whose copper is no size of the tables, which are judged as misread sizes",
    "alternating-current circuits, which are not studied yet",
  ],
  alternating: true,
  sources: [
    {
      cite: cite(
        "own-derivation",
        "resistance and ampacity of the wire bought beside those of the size drawn",
        "derived",
      ),
    },
  ],
  messages: {
    resistance: "{place} was bought as {bought}: a metre of it has {measured}, and of the {size} that is drawn {limit}",
    ampacity:
      "{place} was bought as {bought}, which may carry {measured} where it lies, and the {size} that is drawn {limit}",
  },
  cures: ["as-drawn", "next-size"],
  examples: {
    good: [
      {
        says: "less resistance under a smaller number",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 35 mm², bought as: 2 AWG }",
      },
      {
        says: "the next size up in the other system",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 6 mm², bought as: 8 AWG }",
      },
    ],
    bad: [
      {
        says: "10 AWG for 6 mm²",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 6 mm², bought as: 10 AWG boat cable }",
        fails: "resistance",
        about: "circuits.W10",
      },
      {
        says: "poorer insulation",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 10 mm², bought as: 10 mm² 70 °C, insulation: 105 °C }",
        fails: "ampacity",
        about: "circuits.W10",
      },
      {
        says: "a thicker wire with insulation that hot air leaves little",
        plan: "zones:\n  engine space: { ambient: 60 °C }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, zone: engine space, wire: 10 mm², insulation: 105 °C, bought as: 16 mm² 75 °C }",
        fails: "ampacity",
        about: "circuits.W10",
      },
    ],
  },
  judge(build, report) {
    for (const c of build.circuits) {
      const { subject, plan } = c;
      const label = known(plan?.facts["bought as"]);
      const drawn = label === undefined ? null : drawnMake(build, c);
      if (c.model === null) report.notApplicable(subject, "alternating current is not studied yet");
      else if (label === undefined) report.notApplicable(subject, "the plan does not say what was bought");
      else if (drawn === null) report.notApplicable(subject, "it is not known what it would stand in for");
      else {
        const { makes, question } = boughtOf(c, label, drawn);
        const [poorest, other] = makes;
        if (poorest === undefined || !makes.every((m) => m.isSubstitute))
          report.notApplicable(subject, "no other size of the tables was bought in its place");
        else if (other !== undefined) report.cannotTell(subject, [needed(question ?? "what its label means", subject)]);
        else judgeSubstitute(c, label, drawn, poorest, report);
      }
    }
  },
});

function judgeSubstitute(
  c: CircuitView,
  label: string,
  drawn: ConductorMake,
  bought: BoughtMake,
  report: Report<"resistance" | "ampacity">,
): void {
  const { subject, model, run } = c;
  if (model === null) return;
  const words = { bought: quoted(label), size: drawn.size.label };
  const [measured, limit] = [bought.make, drawn].map((make) => resistancePerMetre20(make).ohmsPerMetre);
  if (measured === undefined || limit === undefined) return;
  const said = { measured, limit, unit: "Ω", margin: below(measured, limit) } as const;
  if (measured > limit * (1 + 1e-9)) {
    report.fail(subject, "resistance", { ...said, words });
    return;
  }
  const carries = boughtAmps(model, run, bought);
  const asked = boughtAmps(model, run, { ...bought, make: drawn, insulationC: null });
  if (carries === null || asked === null) report.pass(subject, said);
  else if (carries < asked)
    report.fail(subject, "ampacity", {
      measured: carries,
      limit: asked,
      unit: "A",
      margin: above(carries, asked),
      words,
    });
  else report.pass(subject, said);
}
