import { studyFaults } from "../size/study-faults.ts";
import type { Built, CircuitAt } from "./built.ts";
import type { Explanation, WorkedStep } from "./explanation.ts";
import { emptyExplanation, finish } from "./finish.ts";
import { governingOf } from "./governing.ts";
import { shareOfLimit } from "./laws.ts";
import { ofCircuit, ofPart } from "./leans-on.ts";
import { withUnit } from "./print-number.ts";
import { figure, taken, work } from "./work.ts";

/** The constraint that governs a circuit, with the room that it leaves. */
export function explainMargin(built: Built, { index, circuit, design }: CircuitAt): Explanation {
  const subject = `${circuit.id}.margin`;
  const question = `What governs ${circuit.id}, and how much room is left?`;
  const shares = (studyFaults(built.settled).circuits[index]?.conductors ?? []).flatMap(
    ({ withstand }) => withstand.share ?? [],
  );
  const { id, margin, is, limit, about } = governingOf(design, shares.length === 0 ? null : Math.max(...shares));
  if (margin === null || is === null || limit === null) {
    const why =
      design.outcome === "cannot tell"
        ? design.cannotTell.join("; ")
        : "what it asks for is judged at the loads behind, or is no figure";
    return finish(
      built,
      emptyExplanation(
        subject,
        question,
        `${circuit.id} is governed by ${id}, which has no margin of its own: ${why}.`,
      ),
      [ofCircuit(circuit.id)],
    );
  }
  const unit = id === "ampacity" || id === "device" ? "A" : id === "start" || id === "least-volts" ? "V" : "%";
  const scale = unit === "%" ? 100 : 1;
  const isFloor = unit === "V";
  const share = work(
    () => shareOfLimit({ is: is * scale, limit: limit * scale }),
    isFloor ? "of what it needs; what is above 100 % is room" : "of the limit; what is below 100 % is room",
  );
  const steps: WorkedStep[] = [
    taken(isFloor ? `${about} has` : "it is", is * scale, unit, `\`why PLAN ${circuit.id}\``),
    taken(isFloor ? "it needs at least" : "it may be at most", limit * scale, unit, `\`why PLAN ${circuit.id}\``),
    ...share.steps,
  ];
  return finish(
    built,
    {
      ...emptyExplanation(
        subject,
        question,
        `${circuit.id} is governed by ${id}: ${margin < 0 ? `it is ${withUnit(-100 * margin, "%", 3)} beyond the limit` : `${withUnit(100 * margin, "%", 3)} of the limit are free`}.`,
      ),
      figures: [figure("margin", margin, "", (x) => withUnit(100 * x, "%", 3))],
      sections: [{ title: "Room to the limit", says: "", steps, way: [] }],
      further: [
        circuit.id,
        `${circuit.id}.${id === "withstand" ? "fault" : id === "start" || id === "least-volts" ? "volts" : id === "ampacity" || id === "drop" || id === "device" ? id : "size"}`,
      ],
    },
    [ofCircuit(circuit.id), ...(about === "" ? [] : [ofPart(about)])],
  );
}
