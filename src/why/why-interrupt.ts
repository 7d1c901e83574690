import { deviceFamily, deviceResistance, interruptRating } from "../device/index.ts";
import { studyFaults } from "../size/study-faults.ts";
import { printCitation } from "../explain/index.ts";
import type { Built, CircuitAt } from "./built.ts";
import type { Explanation, WorkedFigure, WorkedSection, WorkedStep } from "./explanation.ts";
import { emptyExplanation, finish } from "./finish.ts";
import { throughPlainLink } from "./laws.ts";
import { ofCircuit, ofPart } from "./leans-on.ts";
import { withUnit } from "./print-number.ts";
import { deviceAt } from "./why-fault.ts";
import { explainAlternatingInterrupt } from "./why-interrupt-alternating.ts";
import { figure, picked, taken, work } from "./work.ts";

const ampsText = (x: number): string => withUnit(x, "A", 3);

/** What the devices of a circuit may have to break, and what they break. */
export function explainInterrupt(built: Built, at: CircuitAt): Explanation {
  const { circuit } = at;
  if (circuit.current === "AC") return explainAlternatingInterrupt(built, at);
  const study = studyFaults(built.settled);
  const subject = `${circuit.id}.interrupt`;
  const question = `Does the device of ${circuit.id} break what a short draws?`;
  const own = study.devices.flatMap((device, index) => (device.circuit === circuit.id ? [{ device, index }] : []));
  const sections: WorkedSection[] = [];
  const figures: WorkedFigure[] = [];
  const answers: string[] = [];
  for (const { device, index } of own) {
    const name = deviceAt(device);
    const fault = study.deviceFaults[index];
    const prospective = fault?.prospective ?? 0;
    const most = fault?.greatest ?? null;
    const { family, rating, volts } = device;
    const steps: WorkedStep[] = [
      taken("prospective at its line side, all sources together", prospective, "A", "the fault study", "derived"),
    ];
    let toBreak = prospective;
    if (most !== null) {
      steps.push(
        taken(
          `greatest through it, from ${most.from}, a short in ${most.at}`,
          most.amps.high,
          "A",
          "the fault study",
          "derived",
        ),
      );
      const ohms = family === null || rating === null ? 0 : (deviceResistance(family, rating).cold ?? 0);
      if (ohms > 0) {
        steps.push(
          taken(
            "its own resistance, cold",
            ohms,
            "Ω",
            family === null || rating === null ? "" : printCitation(deviceResistance(family, rating).source),
          ),
        );
        if (volts / most.amps.high - ohms > 1e-6) {
          // What its own resistance leaves is small beside both, so the sum cannot be shown to four figures.
          const link = throughPlainLink({ volts, amps: most.amps.high, ohms });
          steps.push(
            taken(
              "with itself a plain link",
              link,
              "A",
              `U / (U / I − R) at ${withUnit(volts, "V", 3)}, all figures kept`,
              "derived",
            ),
            picked("it may have to break", "min", [{ value: prospective, says: "line side" }, { value: link, says: "through it" }], "A"), // prettier-ignore
          );
          toBreak = Math.min(prospective, link);
        }
      } else {
        steps.push(picked("it may have to break", "min", [{ value: prospective, says: "line side" }, { value: most.amps.high, says: "through it" }], "A")); // prettier-ignore
        toBreak = Math.min(prospective, most.amps.high);
      }
    }
    figures.push(figure("toBreakA", toBreak, "A", ampsText));
    const rated =
      family === null || rating === null
        ? null
        : work(() => interruptRating(family, volts, { rating }), `breaks, at ${withUnit(volts, "V", 3)}`);
    const kind = family === null ? "device of unknown kind" : deviceFamily(family).name;
    if (rated?.value.state === "rated" && rated.value.current !== null) {
      steps.push(...rated.steps);
      figures.push(figure("breaksA", rated.value.current, "A", ampsText));
      answers.push(
        `${name}, a ${kind}, breaks ${ampsText(rated.value.current)} as usually sold and may have to break ${ampsText(toBreak)}${toBreak > rated.value.current ? ": too much for it" : ""}`,
      );
    } else {
      const why =
        rated === null
          ? "its kind or rating is not known"
          : rated.value.state === "not known"
            ? "no interrupt rating is published for it"
            : `it is not made for ${withUnit(volts, "V", 3)}`;
      answers.push(`${name}, a ${kind}, may have to break ${ampsText(toBreak)}, and ${why}`);
    }
    sections.push({ title: `What ${name} may have to break`, says: "", steps, way: [] });
  }
  const answer =
    own.length === 0 ? `${circuit.id} has no device, so there is nothing to break.` : `${answers.join("; ")}.`;
  return finish(
    built,
    {
      ...emptyExplanation(subject, question, answer),
      figures,
      sections,
      cautions: [
        "What is marked on the part wins over the usual grade of its family; the rule about it reads such a marking, this sum does not.",
      ],
      further: [`${circuit.id}.fault`, `${circuit.id}.device`],
    },
    [ofCircuit(circuit.id), ...study.stores.map(({ part }) => ofPart(part))],
  );
}
