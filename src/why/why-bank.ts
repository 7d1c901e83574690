import { bankSharing, type UnitShare } from "../size/bank-sharing.ts";
import { studyFaults } from "../size/study-faults.ts";
import type { Built } from "./built.ts";
import type { Explanation, WorkedFigure, WorkedSection, WorkedStep } from "./explanation.ts";
import { emptyExplanation, finish } from "./finish.ts";
import { shareOfBank } from "./laws.ts";
import { ofCircuit, ofPart } from "./leans-on.ts";
import { figureText, withUnit } from "./print-number.ts";
import { figure, summed, taken, work } from "./work.ts";

/** How a battery and those beside it share a load and a fault; for a battery alone what it gives into a fault. Null: no battery. */
export function explainBank(built: Built, part: string): Explanation | null {
  const study = studyFaults(built.settled);
  const own = study.stores.find((s) => s.part === part);
  if (own === undefined) return null;
  const bank = bankSharing(built.settled).find(({ units }) => units.includes(part));
  const subject = `${part}.fault`;
  const leads = built.system.circuits
    .filter((c) => [c.from.part, c.to.part].includes(part))
    .map((c) => ofCircuit(c.id));
  const sections: WorkedSection[] = [
    {
      title: `What ${part} gives into a dead short at its terminals`,
      says: `from its ${own.basis}; full, warm and new at best, at its lowest charge, cold and aged at worst${own.opens === null ? "" : `; its management may open ${own.opens.aboveAmps === null ? "first, at a current that nobody says" : `above ${withUnit(own.opens.aboveAmps, "A", 3)}`}`}`,
      steps: [
        taken("volts at best", own.best.volts, "V", "its curve at full charge"),
        taken("amps at best, at least", own.best.amps.low, "A", "docs/method.md, Faults", own.trust),
        taken("amps at best, at most", own.best.amps.high, "A", "docs/method.md, Faults", own.trust),
        taken("volts at worst", own.worst.volts, "V", "its curve at its lowest charge"),
        taken("resistance at worst, at most", own.worst.ohms.high, "Ω", "docs/method.md, Faults", own.trust),
      ],
      way: [],
    },
  ];
  const figures: WorkedFigure[] = [figure("bestA", own.best.amps.high, "A", (x) => withUnit(x, "A", 3))];
  const question = `What does ${part} give into a fault, and how does its bank share?`;
  const counted = own.trust === "missing" ? "nobody says how large it is; counted as 100 Ah " : "";
  const at = `${counted}${part} gives ${withUnit(own.best.amps.high, "A", 3)} into a dead short at its terminals at best`;
  if (bank === undefined) {
    return finish(
      built,
      {
        ...emptyExplanation(subject, question, `${at}; it stands alone, so it shares with none.`),
        figures,
        sections,
        further: [part],
      },
      [ofPart(part), ...leads],
    );
  }
  if (bank.atFault !== null) {
    const { units, amps, terminal } = bank.atFault;
    sections.push(sharing(`In the hardest short beyond their leads, at ${terminal}`, units, amps));
  }
  for (const { state, units } of bank.atLoad) {
    const sum = units.reduce((total, u) => total + u.amps, 0);
    sections.push(sharing(`In the state "${state}"`, units, sum));
  }
  const mine = bank.atFault?.units.find((u) => u.part === part)?.share ?? null;
  if (mine !== null) figures.push(figure("faultShare", mine, "", figureText.percent));
  const worst = bank.atLoad
    .flatMap(({ state, units }) =>
      units.filter((u) => u.part === part && u.share !== null).map((u) => ({ state, share: u.share ?? 0 })),
    )
    .sort((a, b) => b.share - a.share)[0];
  const even = 1 / bank.units.length;
  const answer = `${at}; of ${bank.units.length} batteries it gives ${mine === null ? "an unknown part" : figureText.percent(mine)} of the hardest short beyond their leads${worst === undefined ? "" : ` and at most ${figureText.percent(worst.share)} of a load, in "${worst.state}"`}, where even shares are ${figureText.percent(even)}.`;
  return finish(
    built,
    {
      ...emptyExplanation(subject, question, answer),
      figures,
      sections,
      cautions: ["Batteries of different age, charge or temperature share otherwise than their leads say."],
      further: bank.units.filter((u) => u !== part).map((u) => `${u}.fault`),
    },
    [ofPart(part), ...bank.units.filter((u) => u !== part).map(ofPart), ...leads],
  );
}

function sharing(title: string, units: readonly UnitShare[], all: number): WorkedSection {
  const steps: WorkedStep[] = [];
  if (Math.abs(all) < 1e-3) return { title, says: "the bank gives next to nothing", steps, way: [] };
  steps.push(
    summed(
      "the bank gives",
      units.map(({ part, amps }) => ({ says: part, value: amps })),
      "A",
      "I",
    ),
  );
  for (const { part, amps } of units)
    steps.push(...work(() => shareOfBank({ one: amps, all }), `share of ${part}`).steps);
  return { title, says: "", steps, way: [] };
}
