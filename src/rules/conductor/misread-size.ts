import { cite } from "../../explain/index.ts";
import { isUnknown, known } from "../../plan/index.ts";
import { resistancePerMetre20 } from "../../wire/index.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { wireNeeded } from "../wire-needed.ts";
import { boughtOf, drawnMake, quoted } from "./bought-of.ts";

export const misreadSize = defineRule({
  id: "conductor/misread-size",
  title: "Misread size",
  severity: "must",
  danger: "wire with less copper than was drawn runs hotter and loses more volts than anything here says",
  why: `The size on a label is told by five systems that share their numbers: \`6 mm\` of vehicle cable is its outside, and holds 4.6 mm². Where the plan
    says what was bought, the copper of that label has to carry no more resistance than the size that the design was computed with. An area that
    stands on a label as a size of IEC 60228 is taken for one; any other area, and strands that are counted, are the metal itself. A label with several
    readings is told where all of them agree, and else asked back. Another size of the tables is no misread one, and judged as a substitute.`,
  silent: [
    "wires of which the plan does not say what was bought",
    "wire bought in another size of the tables: `conductor/shrunken-substitute` judges it",
    "alternating-current circuits, which are not studied yet",
  ],
  alternating: true,
  sources: [
    { cite: cite("own-derivation", "resistance of the copper bought beside that of the size drawn", "derived") },
  ],
  messages: {
    lean: "{place} was bought as {bought}: {measured} of copper, where the {size} of the design stands for {limit}; it has {more} % more resistance",
  },
  cures: ["as-drawn", "next-size"],
  examples: {
    good: [
      {
        says: "vehicle cable, drawn by its area",
        plan: 'circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 4 mm², bought as: "6 mm auto cable twin, 4.59 mm²" }',
      },
      {
        says: "the same size",
        plan: 'circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 6 mm², bought as: "2 x 6 mm² boat cable" }',
      },
    ],
    bad: [
      {
        says: "vehicle cable by its width",
        plan: 'circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 6 mm², bought as: "6 mm auto cable twin, 4.59 mm²" }',
        fails: "lean",
        about: "circuits.W10",
      },
      {
        says: "6 mm of what",
        plan: 'circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 6 mm², bought as: "6 mm twin" }',
        fails: "cannot tell",
        about: "circuits.W10",
      },
    ],
  },
  judge(build, report) {
    for (const c of build.circuits) {
      const { subject, plan } = c;
      const fact = plan?.facts["bought as"];
      const drawn = drawnMake(build, c);
      if (c.model === null) report.notApplicable(subject, "alternating current is not studied yet");
      else if (c.circuit.unreadWire !== undefined) report.cannotTell(subject, [wireNeeded(c)]);
      else if (fact === undefined) report.notApplicable(subject, "the plan does not say what was bought");
      else if (isUnknown(fact)) report.cannotTell(subject, [needed("what the label of its wire says", subject)]);
      else if (drawn === null) report.cannotTell(subject, [wireNeeded(c)]);
      else {
        const label = known(fact) ?? "";
        const bought = boughtOf(c, label, drawn);
        const asked = bought.makes.map(({ make }) => {
          // Area and resistance are each other's inverse: so much copper of that kind would have the resistance of the size drawn.
          const ratio = resistancePerMetre20(make).ohmsPerMetre / resistancePerMetre20(drawn).ohmsPerMetre;
          return { areaMm2: make.size.areaMm2, asked: make.size.areaMm2 * ratio, isEnough: ratio <= 1 + 1e-9 };
        });
        const [poorest] = asked;
        if (poorest === undefined)
          report.cannotTell(subject, [needed(bought.question ?? "the area of the wire that was bought", subject)]);
        else if (bought.makes.every((m) => m.isSubstitute))
          report.notApplicable(subject, "another size was bought in its place");
        else if (asked.some((m) => m.isEnough !== poorest.isEnough))
          report.cannotTell(subject, [needed(bought.question ?? "what its label means", subject)]);
        else {
          const said = {
            measured: poorest.areaMm2,
            limit: poorest.asked,
            unit: "mm²",
            margin: poorest.areaMm2 / poorest.asked - 1,
          } as const;
          if (poorest.isEnough) report.pass(subject, said);
          else
            report.fail(subject, "lean", {
              ...said,
              words: {
                bought: quoted(label),
                size: drawn.size.label,
                more: (100 * (poorest.asked / poorest.areaMm2 - 1)).toFixed(1),
              },
            });
        }
      }
    }
  },
});
