import type { Compiled } from "../../compile.ts";
import { freePlaces } from "../../act/free-places.ts";
import type { Span } from "../../diagnostic.ts";
import type { PagePlan, PageState, PageThing } from "./protocol.ts";
import { answerState } from "./state-answer.ts";

/** What the page shows of a compiled plan; of thousands of passes only how many there are. */
export function makePagePlan(
  compiled: Compiled,
  revision: number,
  took: PagePlan["took"],
  judged: PagePlan["judged"] = "yes",
): PagePlan {
  const { plan, system, design, judgement, diagnostics } = compiled;
  return {
    revision,
    name: plan.name,
    planRevision: plan.revision,
    rules: plan.rules.map(({ text }) => text),
    stockSizes: system.stock.system,
    things: listThings(compiled),
    openEnds: openEnds(compiled),
    states: system.states.map((given): PageState => {
      const solved = design.states.find(({ id }) => id === given.id);
      return { id: given.id, name: given.id, ...answerState(solved, given, system) };
    }),
    design,
    judged,
    findings: judgement.findings,
    tally: judgement.tally,
    diagnostics,
    freePlaces: freePlaces(compiled).places.map((place) => ({
      ...place,
      says: place.way === null ? place.name : `way ${place.way} of ${place.name}`,
    })),
    took,
  };
}

/** A wire whose end was taken away stays in the plan and has no place in the build. */
function openEnds({ plan, system }: Compiled): PagePlan["openEnds"] {
  const bound = new Set(system.circuits.map(({ id }) => id));
  return plan.circuits
    .filter(({ key }) => !bound.has(key))
    .map(({ key, facts }) => ({ about: `circuits.${key}`, says: `${key} ${writtenPath(facts)}`.trim() }));
}

const writtenPath = ({ path }: Compiled["plan"]["circuits"][number]["facts"]): string =>
  path === undefined || path.value === "unknown"
    ? ""
    : path.value.stops.map((points) => points.map(({ text }) => text).join(" + ")).join(" → ");

const placed = (base: number, [start, end]: Span): Span => [base + start, base + end];

function listThings({ plan, system }: Compiled): PageThing[] {
  const partOf = new Map(system.parts.map((p) => [p.id, p]));
  const circuitOf = new Map(system.circuits.map((c) => [c.id, c]));
  const onIn = new Map<string, string[]>();
  for (const { id, on } of system.states)
    for (const part of on) {
      const list = onIn.get(part);
      if (list === undefined) onIn.set(part, [id]);
      else list.push(id);
    }
  return [
    ...plan.parts.map((p): PageThing => {
      const part = partOf.get(p.key);
      return {
        about: `parts.${p.key}`,
        id: p.key,
        name: part?.name ?? p.key,
        what: "part",
        says: part?.kind ?? p.kind ?? "",
        at: placed(p.base, p.keySpan),
        on: onIn.get(p.key) ?? [],
      };
    }),
    ...plan.circuits.map((c): PageThing => {
      const circuit = circuitOf.get(c.key);
      return {
        about: `circuits.${c.key}`,
        id: c.key,
        name: c.key,
        what: "circuit",
        says: circuit === undefined ? "" : `${circuit.fromText} → ${circuit.toText}`,
        at: placed(c.base, c.keySpan),
        on: [],
      };
    }),
    ...plan.systems.map((s): PageThing => ({
      about: `systems.${s.key}`,
      id: s.key,
      name: s.key,
      what: "system",
      says: "",
      at: placed(s.base, s.keySpan),
      on: [],
    })),
    ...plan.states.map((s): PageThing => ({
      about: `states.${s.key}`,
      id: s.key,
      name: s.key,
      what: "state",
      says: "",
      at: placed(s.base, s.keySpan),
      on: [],
    })),
  ];
}
