import { cite, printCitation } from "../../explain/index.ts";
import { onPaper, stocked, studyEnds, type Constraint, type Design } from "../../size/index.ts";
import { viewBuild, type Build, type CircuitView, type Computed } from "../build.ts";
import { borneOf, type Borne } from "./borne-of.ts";
import { whyNotAsked } from "./not-asked.ts";

const SOURCE = cite("iec-60364-4-43", "434.5.2", "read");

/** What shorts ask of the wire of a circuit; null: none draws anything in it, or none is asked about. */
export function withstandOf(build: Build, view: CircuitView): Borne | null {
  if (typeof whyNotAsked(build, view) === "string") return null;
  const study = studyEnds(build.settled);
  const faults = view.model === null ? null : study.circuits[view.model.index];
  return faults == null ? null : borneOf(build, study, view, faults, faults.ends);
}

/**
 * A design with what shorts ask of its sizes, each circuit alone. No size is chosen for it: studying the faults of a build takes as long as half of choosing its sizes,
 * and it would have to be done again for each choice.
 *
 * What a wire bears grows with the square of its area, so that the area which bears what is let through follows at once. With the currents as they are: a short at
 * the near end of a wire does not go through it, so that a thicker one draws no more there; at its far end it draws more and opens its device sooner.
 *
 * @source IEC 60364-4-43 434.5.2
 */
export function withWithstand(computed: Computed): Design {
  const { design, settled, runs } = computed;
  const build = viewBuild(computed);
  const answers = new Map(
    build.circuits.flatMap((view): [string, Constraint][] => {
      const { model, id } = view;
      const rungs = model?.rungs;
      if (model === null || rungs == null) return [];
      const borne = withstandOf(build, view);
      const share = borne === null || !("share" in borne) ? null : borne.share;
      const stock = share === null ? null : stocked(settled, runs, model);
      const area = rungs.ladder.makes[settled.chosen.rungs[model.position] ?? 0]?.size.areaMm2 ?? 0;
      const least = area * Math.sqrt(share ?? 0) * (1 - 1e-9);
      const rung = stock === null ? -1 : stock.ladder.makes.findIndex(({ size }) => size.areaMm2 >= least);
      return [
        [
          id,
          {
            id: "withstand",
            outcome: outcomeOf(borne),
            alone: stock === null || rung < 0 ? null : onPaper(stock, rung),
            ...(borne === null ? { source: "", trust: null } : { source: printCitation(SOURCE), trust: SOURCE.trust }),
          },
        ],
      ];
    }),
  );
  const circuits = design.circuits.map((circuit) => {
    const answer = answers.get(circuit.id);
    if (answer === undefined || circuit.constraints.length === 0) return circuit;
    return { ...circuit, constraints: circuit.constraints.map((k) => (k.id === "withstand" ? answer : k)) };
  });
  return { ...design, circuits };
}

function outcomeOf(borne: Borne | null): Constraint["outcome"] {
  if (borne === null) return "not stated";
  return borne.is === "borne" ? "met" : borne.is === "burnt" ? "not met" : "cannot tell";
}
