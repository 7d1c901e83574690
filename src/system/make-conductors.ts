import type { BoundPart } from "./bind-parts.ts";
import type { BoundPoint, BoundSegment } from "./bind-path.ts";
import type { Conductor } from "./system.ts";
import { functionsOf, terminalName, type CurrentKind, type Fn } from "./terminal.ts";
import type { Value } from "./value.ts";

/** What decides how a circuit becomes conductors. */
export interface ConductorPlan {
  readonly circuit: string;
  readonly current: CurrentKind;
  /** Cores of the circuit (AC), or of the supply where it says nothing. */
  readonly cores: readonly Fn[];
  readonly coresGiven: boolean;
  readonly segments: readonly BoundSegment[];
  readonly lengths: readonly Value[];
  readonly returnLength: Value | undefined;
  /** Terminal that returns go to where an end has no minus; absent: none is known, or `return: none`. */
  readonly returnTo: string | undefined;
  /** `return:` was written on the circuit and names a part: both ends' minus go there. */
  readonly returnForced: boolean;
  readonly noReturn: boolean;
  /** Parts whose minus has a circuit of its own. */
  readonly ownMinus: ReadonlySet<string>;
  readonly inPE: BoundPart | undefined;
}

const at = (point: BoundPoint, fn: Fn): string => terminalName(point.part.key, point.port.name, fn);

/**
 * Expands a circuit to one conductor for each function; `docs/method.md` section 1 gives the table.
 */
export function makeConductors(plan: ConductorPlan): Conductor[] {
  const conductors: Conductor[] = [];
  plan.segments.forEach((segment, i) => {
    const suffix = i === 0 ? "" : `.${i + 1}`;
    const length = plan.lengths[i] ?? plan.lengths[0];
    if (length === undefined) return;
    const add = (fn: Fn, role: Conductor["role"], from: string, to: string, metres: Value = length): void => {
      const mark = fn === "pole" ? "" : fn;
      const stem = `${plan.circuit}${mark}${suffix}`;
      // A core that another part is set into comes in two pieces.
      const id = conductors.some((c) => c.id === stem) ? `${stem}'` : stem;
      conductors.push({ id, circuit: plan.circuit, fn, role, from, to, length: metres });
    };
    if (plan.current === "DC") direct(segment, plan, add);
    else alternating(segment, plan, add);
  });
  return conductors;
}

type Add = (fn: Fn, role: Conductor["role"], from: string, to: string, metres?: Value) => void;

function direct({ from, to }: BoundSegment, plan: ConductorPlan, add: Add): void {
  const ends = [from, to].map((point) => {
    const functions = functionsOf(point.port, "DC", plan.cores);
    return { point, pair: functions.includes("+") };
  });
  const [a, b] = ends;
  if (a === undefined || b === undefined) return;

  // A terminal named outright: one conductor, of the function that it names.
  const named = from.fn ?? to.fn;
  if (named !== undefined || plan.coresGiven) {
    const fn = named ?? plan.cores[0] ?? "pole";
    const of = (end: typeof a): string => at(end.point, end.point.fn ?? (end.pair ? fn : "pole"));
    // B1:− → B2:+ is a link between units; it is live.
    const crossing = from.fn !== undefined && to.fn !== undefined && from.fn !== to.fn;
    add(crossing ? "pole" : fn, fn === "PE" ? "protective" : fn === "−" && !crossing ? "return" : "live", of(a), of(b));
    return;
  }
  add("+", "live", at(from, a.pair ? "+" : "pole"), at(to, b.pair ? "+" : "pole"));
  if (plan.noReturn) return;
  const back = plan.returnLength;
  if (a.pair && b.pair && !plan.returnForced) {
    add("−", "return", at(from, "−"), at(to, "−"), back);
    return;
  }
  if (plan.returnTo === undefined) return;
  for (const end of [a, b]) {
    if (!end.pair) continue;
    // The minus of a store has a circuit of its own already.
    if (end.point.part.traits.store === true && plan.ownMinus.has(end.point.part.key) && !plan.returnForced) continue;
    // With `return:` given, the supply side of the path is left as it is: only what is fed is sent back another way.
    if (plan.returnForced && a.pair && b.pair && end === a) continue;
    const minus = at(end.point, "−");
    if (end === a) add("−", "return", minus, plan.returnTo, back);
    else add("−", "return", plan.returnTo, minus, back);
  }
}

function alternating({ from, to }: BoundSegment, plan: ConductorPlan, add: Add): void {
  for (const fn of plan.cores) {
    const ofEnd = (point: BoundPoint): string | undefined => {
      const functions = functionsOf(point.port, "AC", plan.cores);
      if (functions.includes(fn)) return at(point, fn);
      return functions.includes("pole") ? at(point, "pole") : undefined;
    };
    const a = ofEnd(from);
    const b = ofEnd(to);
    if (a === undefined || b === undefined) continue;
    const role = fn === "PE" ? "protective" : fn === "N" ? "return" : "live";
    if (fn === "PE" && plan.inPE !== undefined) {
      const through = plan.inPE.key;
      add(fn, role, a, terminalName(through, "in", "PE"));
      add(fn, role, terminalName(through, "out", "PE"), b);
    } else {
      add(fn, role, a, b);
    }
  }
}
