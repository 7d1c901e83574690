import { deviceResistance } from "../device/index.ts";
import { printCitation } from "../explain/index.ts";
import type { Built } from "./built.ts";
import type { Explanation, LeansOn, WorkedSection } from "./explanation.ts";
import { JOINTS } from "./assumed.ts";
import { cautionsOf, listLeaning, type Thing } from "./leans-on.ts";

/** An explanation with nothing but its answer. */
export const emptyExplanation = (subject: string, question: string, answer: string): Explanation => ({
  subject,
  question,
  answer,
  figures: [],
  ladder: [],
  sections: [],
  leansOn: [],
  changes: [],
  cautions: [],
  further: [],
});

/** What the resistances on the ways of an explanation rest on beside wires: joints, and devices by their kind. */
function onTheWays({ settled, design }: Built, sections: readonly WorkedSection[]): LeansOn[] {
  const passed = new Set(sections.flatMap((s) => s.way.map((e) => e.element)));
  const list: LeansOn[] = [];
  if (sections.some((s) => s.way.some((e) => e.what === "joints"))) {
    list.push({ kind: "assumption", says: JOINTS.says, line: null, column: null, pin: "", trust: JOINTS.trust });
  }
  const devices = new Map<string, LeansOn>();
  design.circuits.forEach((c, i) => {
    if (!c.conductors.some((id) => passed.has(id))) return;
    for (const { family, rating } of settled.devices.circuits[settled.model.at[i] ?? -1]?.devices ?? []) {
      if (family === null || rating === null) continue;
      const { source, trust } = deviceResistance(family, rating);
      const says = `${printCitation(source)} (device/drops)`;
      devices.set(says, { kind: "table", says, line: null, column: null, pin: "", trust });
    }
  });
  return [...list, ...devices.values()];
}

/** Adds what an explanation leans on, and what has to be minded of that. */
export function finish(built: Built, explanation: Explanation, things: readonly Thing[]): Explanation {
  const leansOn = [
    ...explanation.leansOn,
    ...listLeaning(built, things, explanation.sections),
    ...onTheWays(built, explanation.sections),
  ];
  const untold = built.design.circuits
    .filter((c) => c.current === "DC" && c.outcome === "cannot tell")
    .map((c) => c.id);
  const cautions = [...explanation.cautions, ...cautionsOf(leansOn)];
  if (untold.length > 0 && explanation.sections.some((s) => s.way.length > 0)) {
    cautions.push(
      `What is lost in wires that cannot be told is not in these volts: ${untold.slice(0, 8).join(", ")}${untold.length > 8 ? " …" : ""}.`,
    );
  }
  if (!built.design.settled) cautions.push("The sizes of this build did not come to rest: take nothing here as final.");
  return { ...explanation, leansOn, cautions };
}
