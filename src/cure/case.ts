import type { Edit, PlanDocument } from "../plan/text/index.ts";
import type { Build, CircuitView, Finding, PartView } from "../rules/index.ts";

/** A finding and all that a move may look at to cure it. */
export interface Case {
  readonly finding: Finding;
  readonly build: Build;
  readonly document: PlanDocument;
  /** The end of a circuit that the finding is about. */
  readonly end: "from" | "to" | null;
  readonly part: PartView | undefined;
  /** The circuit that the finding is about; of a load or a panel those that feed it, of a battery all that end at it. */
  readonly circuits: readonly CircuitView[];
}

/** One way to change the plan. */
export interface Proposal {
  readonly edits: readonly Edit[];
}

/** Proposals of one kind, the least first: when one cures and raises nothing, those behind it are not tried. */
export type Series = readonly Proposal[];

/** Proposes changes of the plan that may cure a finding. Proves nothing: whether they do is found by compiling. */
export type Move = (at: Case) => readonly Series[];

/** What a finding speaks of, in the build and in the text. */
export function openCase(finding: Finding, build: Build, document: PlanDocument): Case {
  const [, section = "", rest = ""] = /^(\w+)\.(.*)$/s.exec(finding.about) ?? [];
  const [, id = rest, end = null] = build.circuit(rest) === undefined ? (/^(.*)\.(from|to)$/s.exec(rest) ?? []) : [];
  const part = section === "parts" ? build.part(rest) : undefined;
  const circuit = section === "circuits" ? build.circuit(id) : undefined;
  return {
    finding,
    build,
    document,
    end: section === "circuits" && (end === "from" || end === "to") ? end : null,
    part,
    circuits: part !== undefined ? circuitsOf(build, part) : circuit === undefined ? [] : [circuit],
  };
}

/** Circuits that feed a part; of a store, and of what nothing feeds, all that end at it. */
function circuitsOf(build: Build, { id, part, elements }: PartView): readonly CircuitView[] {
  if (part.traits.load === true) {
    const draws = new Set(elements.map((e) => ("id" in e ? e.id : "")));
    const feeding = build.circuits.filter((c) => c.circuit.draws.some((d) => draws.has(d)));
    if (feeding.length > 0) return feeding;
  }
  const feeding = build.circuits.filter(({ circuit }) => circuit.to.part === id);
  if (feeding.length > 0 && part.traits.store !== true) return feeding;
  return build.circuits.filter(({ circuit }) => circuit.from.part === id || circuit.to.part === id);
}
