import { studyHeat, type HeatRange } from "../size/study-heat.ts";
import type { Built, CircuitAt } from "./built.ts";
import type { Explanation, WorkedFigure, WorkedSection, WorkedStep } from "./explanation.ts";
import { emptyExplanation, finish } from "./finish.ts";
import { modelOverTable } from "./laws.ts";
import { ofCircuit, type Thing } from "./leans-on.ts";
import { figureText, withUnit } from "./print-number.ts";
import { workRun } from "./why-ampacity.ts";
import { figure, taken, work } from "./work.ts";

const SOURCE = "balance of heat, docs/method.md, Heat beside the table";

/** Between two bounds in words: with neighbours that nobody names idle, and with them carrying the same. */
const between = ({ lowC, highC }: HeatRange): string => {
  const [low, high] = [figureText.degrees(lowC), figureText.degrees(highC)];
  return low === high ? high : `${low.replace(" °C", "")} to ${high}`;
};

/** How warm a circuit gets in each state by the balance of heat, and how near the published table is. */
export function explainHeat(built: Built, { circuit, model }: CircuitAt): Explanation {
  const subject = `${circuit.id}.heat`;
  const question = `How warm does ${circuit.id} get, state by state?`;
  const heat = model === null ? null : studyHeat(built.settled, built.runs, built.design).circuit(model.position);
  if (heat === null || model === null) {
    const why = circuit.current === "AC" ? "alternating current is not studied" : "its size is not known";
    return finish(built, emptyExplanation(subject, question, `The heat of ${circuit.id} cannot be told: ${why}.`), [
      ofCircuit(circuit.id),
    ]);
  }
  const { states, worst, atDesign, ratingC, together, unnamed, zone, beside } = heat;
  const degrees = (name: string, flows: number, range: HeatRange): WorkedStep => ({
    ...taken(name, range.highC, "°C", SOURCE, "derived"),
    working: `${figureText.amps(flows)}: ${between(range)}`,
  });
  const lies = `${together} ${together === 1 ? "conductor" : "conductors"} that carry current ${together === 1 ? "lies alone" : "lie together"}${zone === null ? "" : ` in ${zone}`}${unnamed > 0 ? `, of which no circuit is known for ${unnamed}: they count once as idle and once as carrying the same` : ""}`;
  const sections: WorkedSection[] = [
    {
      title: "By state",
      says: lies,
      steps: [
        ...states.map((s) => degrees(s.state, s.amps, s)),
        degrees("at its design current", atDesign.amps, atDesign),
      ],
      way: [],
    },
  ];
  const figures: WorkedFigure[] = [
    figure("modelLowC", atDesign.lowC, "°C", figureText.degrees),
    figure("modelHighC", atDesign.highC, "°C", figureText.degrees),
  ];
  if (beside !== null) {
    const { published, modelled, says, trust } = beside;
    const ratio = work(() => modelOverTable({ model: modelled, table: published }), "model over table");
    sections.push({
      title: "The table beside the model",
      says,
      steps: [
        taken("one conductor by the table and its factors", published, "A", `\`why PLAN ${circuit.id}.ampacity\``),
        taken("the same by the balance of heat", modelled, "A", SOURCE, trust),
        ...ratio.steps,
        taken("metal at the table's current, by the model", beside.atPublishedC, "°C", SOURCE, trust),
      ],
      way: [],
    });
  }
  const run = workRun(built, model);
  if (run !== null) sections.push({ ...run.section, title: `As the table's rule has it: ${run.section.title}` });
  const most =
    worst === null || worst.highC < atDesign.highC
      ? { ...atDesign, when: "at its design current" }
      : { ...worst, when: `in the state "${worst.state}"` };
  const things: Thing[] = [
    ofCircuit(circuit.id),
    ...(circuit.cable?.circuits ?? []).filter((id) => id !== circuit.id).map(ofCircuit),
  ];
  return finish(
    built,
    {
      ...emptyExplanation(
        subject,
        question,
        `The metal of ${circuit.id} comes to ${between(most)} ${most.when} by the balance of heat; its insulation bears ${withUnit(ratingC, "°C", 3)}${most.highC > ratingC ? ", which is less" : ""}.`,
      ),
      figures,
      sections,
      cautions: ["The published table decides; the model only tells how near it is: about ±20 K at a rise of 100 K."],
      further: [`${circuit.id}.temperature`, `${circuit.id}.ampacity`],
    },
    things,
  );
}
