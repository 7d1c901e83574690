import type { CircuitModel, JudgedWorst, Settled } from "../../size/index.ts";
import type { Build, CircuitView, PartView } from "../build.ts";
import { lacksNumbers } from "../lacks-numbers.ts";
import { needed, type Report } from "../report.ts";
import { worstOf } from "./volts-on-the-way.ts";

/** A load where a circuit ends in it, and how it stands there at its worst. */
export interface LoadAtEnd {
  readonly load: PartView;
  readonly view: CircuitView;
  readonly model: CircuitModel;
  readonly worst: JudgedWorst;
}

const found = new WeakMap<Settled, ReadonlyMap<string, readonly LoadAtEnd[]>>();
const circuitsTo = new WeakMap<Build, ReadonlyMap<string, CircuitView>>();

/** By part: the circuits that a load of direct current hangs on. */
function loadsAtEnds(build: Build): ReadonlyMap<string, readonly LoadAtEnd[]> {
  const known = found.get(build.settled);
  if (known !== undefined) return known;
  const map = new Map<string, LoadAtEnd[]>();
  for (const view of build.circuits) {
    const { model } = view;
    if (model === null) continue;
    for (const worst of worstOf(build, model)) {
      const load = build.part(worst.judged.part);
      if (worst.judged.draw < 0 || load?.part.traits.load !== true) continue;
      const there = map.get(load.id);
      if (there === undefined) map.set(load.id, [{ load, view, model, worst }]);
      else there.push({ load, view, model, worst });
    }
  }
  found.set(build.settled, map);
  return map;
}

function circuitTo(build: Build, part: string): CircuitView | undefined {
  let map = circuitsTo.get(build);
  if (map === undefined) {
    const made = new Map<string, CircuitView>();
    for (const c of build.circuits)
      for (const id of [c.circuit.to.part, ...c.circuit.draws]) if (!made.has(id)) made.set(id, c);
    circuitsTo.set(build, (map = made));
  }
  return map.get(part);
}

/** Whether any source reaches a load in the case that leaves it the fewest volts. */
export function isFed({ settled }: Build, { model, worst }: LoadAtEnd): boolean {
  const { look } = settled.weigher;
  return (
    Number.isFinite(worst.leastVolts) && look.sourceOf(look.judgedIn(model, worst.judged, worst.leastCase)) !== null
  );
}

/**
 * Calls back for every load of direct current at its end of each circuit, and tells for the others why nothing can be said of them.
 *
 * @param asks why a load is not asked at all, or null
 */
export function eachLoad(
  build: Build,
  report: Report<never>,
  asks: (load: PartView) => string | null,
  judge: (at: LoadAtEnd) => void,
): void {
  const ends = loadsAtEnds(build);
  for (const load of build.parts) {
    const { part, subject } = load;
    if (part.traits.load !== true) continue;
    if (part.current === "AC") {
      report.notApplicable(subject, "alternating current is not studied yet");
      continue;
    }
    const reason = asks(load);
    if (reason !== null) {
      report.notApplicable(subject, reason);
      continue;
    }
    const at = ends.get(load.id);
    if (at !== undefined) {
      for (const one of at) judge(one);
      continue;
    }
    const view = circuitTo(build, load.id);
    if (view === undefined) report.notApplicable(subject, "no circuit leads to it");
    else if (!lacksNumbers(build, view, report, subject))
      report.cannotTell(subject, [needed(`what ${load.id} takes`, subject)]);
  }
}
