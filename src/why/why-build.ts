import type { Design } from "../size/index.ts";
import { printTrust } from "../explain/index.ts";
import { assumedIn } from "./assumed.ts";
import type { Built } from "./built.ts";
import { emptyExplanation, finish } from "./finish.ts";
import type { Explanation, WorkedStep } from "./explanation.ts";
import { copperOfCircuit } from "./laws.ts";
import { ofCircuit, ofPart, type Thing } from "./leans-on.ts";
import { figure, summed, work } from "./work.ts";

/** Explains a default by its id. */
export function explainAssumption(built: Built, id: string): Explanation | null {
  const all = assumedIn(built).filter((a) => a.id === id);
  const [first] = all;
  if (first === undefined) return null;
  const about = [...new Set(all.flatMap((a) => a.about))];
  const whom = about.length === 0 ? "the whole build" : about.join(", ");
  const pin =
    first.pin === ""
      ? "The method holds it for every build; no key of the plan changes it."
      : `Write \`${first.pin}\` in the plan to say otherwise.`;
  const things = about.map((name): Thing =>
    built.system.circuits.some((c) => c.id === name) ? ofCircuit(name) : ofPart(name),
  );
  return finish(
    built,
    {
      ...emptyExplanation(
        id,
        `What is assumed, and for what?`,
        `${all.map((a) => a.says).join("; ")}: used for ${whom}.`,
      ),
      leansOn: all.map((a) => ({
        kind: "assumption",
        says: a.says,
        line: null,
        column: null,
        pin: a.pin,
        trust: a.trust,
      })),
      cautions: [`${pin} It is ${printTrust(first.trust)}.`],
      further: about,
    },
    things,
  );
}

const bestBy: Readonly<Record<Design["aim"], string>> = {
  "least copper": "no choice of sizes that meets everything has less",
  "fewest sizes":
    "no choice of so few sizes that meets everything has less, and fewer sizes would take more than there is to spare",
  "least cost": "no choice of sizes that meets everything costs less, by the prices of the plan",
};

/** Explains the copper of the build. */
export function explainCopper(built: Built): Explanation {
  const { settled, alternating, design } = built;
  const steps: WorkedStep[] = [];
  const sides = alternating === null || alternating === undefined ? [settled] : [settled, alternating];
  const parts = sides.flatMap(({ model, chosen }) =>
    model.circuits.flatMap((c, i) => {
      const size = c.rungs?.ladder.makes[chosen.rungs[i] ?? 0]?.size;
      if (size === undefined) return [];
      const one = work(() => copperOfCircuit({ areaMm2: size.areaMm2, metres: c.metres }), c.circuit.id);
      steps.push(...one.steps);
      return [{ value: one.value, says: c.circuit.id }];
    }),
  );
  const sum = summed("all conductors", parts, "mm²·m", "V");
  const proved = design.leastCopperProved
    ? bestBy[design.aim]
    : "the search for less was broken off before every choice was looked at";
  return finish(
    built,
    {
      ...emptyExplanation("copper", "How much copper is it?", `${sum.text} in all conductors together; ${proved}.`),
      figures: [figure("copperMm2M", typeof sum.value === "number" ? sum.value : 0, "mm²·m")],
      sections: [{ title: "Copper, area × length of all conductors", says: "", steps: [...steps, sum], way: [] }],
    },
    [],
  );
}
