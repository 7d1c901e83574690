import { coresOf } from "../../system/index.ts";
import { coloursOfBuild, colourClashes } from "../../rules/index.ts";
import { colourName } from "../../wire/colour/index.ts";
import type { Edit } from "../../plan/text/index.ts";
import type { Move } from "../case.ts";
import { isWritten, put } from "../write.ts";

/** The colour of the freer function becomes one that no other of the build has, in every circuit where it is written. */
export const recolour: Move = ({ build, document, finding }) => {
  const used = coloursOfBuild(build);
  const edits: Edit[] = [];
  for (const clash of colourClashes(used)) {
    const { to } = clash;
    if (to === null || (finding.about !== "plan" && !clash.places.includes(finding.about))) continue;
    const changed = clash[clash.change];
    const circuits = new Set(
      used
        .filter((u) => u.function === changed.function && u.colour.join() === changed.colour.join())
        .map((u) => u.circuit),
    );
    for (const id of circuits) {
      const path = ["circuits", id, "colour"];
      const view = build.circuit(id);
      // What stands on a label cannot be written otherwise.
      if (view === undefined || !isWritten(document, path)) return [];
      const entries = view.circuit.colours.map(({ fn, colour }): [string, string] => {
        const own = used.find((u) => u.circuit === id && u.fn === fn);
        const isIt = own?.function === changed.function && own.colour.join() === changed.colour.join();
        return [fn === "pole" ? "+" : fn, colourName(isIt ? to : colour)];
      });
      // In the order of the cores a list says it; where one has no colour yet, each is named.
      const isWhole = entries.length === coresOf(view.circuit.conductors).length;
      edits.push(put(document, path, isWhole ? entries.map(([, name]) => name) : { entries }));
    }
  }
  return edits.length === 0 ? [] : [[{ edits }]];
};
