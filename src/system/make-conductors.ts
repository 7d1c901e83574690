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

/** The terminal of a point for one function: a point of one pole has only itself. */
function terminalFor(point: BoundPoint, fn: Fn, current: CurrentKind, cores: readonly Fn[]): string {
  return at(point, functionsOf(point.port, current, cores).includes("pole") ? "pole" : fn);
}

/**
 * Expands a circuit to one conductor for each function; `docs/method.md` section 1 gives the table.
 *
 * Between two points of one pole the function stays `pole`: which pole it is depends on what else they are joined to.
 */
export function makeConductors(plan: ConductorPlan): Conductor[] {
  const conductors: Conductor[] = [];
  plan.segments.forEach((segment, i) => {
    const length = plan.lengths[i] ?? plan.lengths[0];
    if (length === undefined) return;
    const add = (fn: Fn, role: Conductor["role"], from: string, to: string, metres: Value = length): void => {
      const stem = conductorName(plan.circuit, fn, i);
      // A core that another part is set into comes in two pieces.
      const id = conductors.some((c) => c.id === stem) ? `${stem}'` : stem;
      conductors.push({ id, circuit: plan.circuit, fn, role, from, to, length: metres });
    };
    const named = segment.from.fn ?? segment.to.fn;
    if (named !== undefined) outright(segment, named, plan, add);
    else if (plan.current === "DC") direct(segment, plan, add);
    else alternating(segment, plan, add);
  });
  return conductors;
}

/** `W12+`; of a path with several stops `W12+.2` for the second stretch. */
export function conductorName(circuit: string, fn: Fn, stretch: number): string {
  return `${circuit}${fn === "pole" ? "" : fn}${stretch === 0 ? "" : `.${stretch + 1}`}`;
}

type Add = (fn: Fn, role: Conductor["role"], from: string, to: string, metres?: Value) => void;

/** A terminal named outright: one conductor, of the function that it names. */
function outright({ from, to }: BoundSegment, named: Fn, plan: ConductorPlan, add: Add): void {
  // B1:− → B2:+ is a link between units; it is live. N → PE is where neutral is earthed.
  const crossing = from.fn !== undefined && to.fn !== undefined && from.fn !== to.fn;
  const ends = [from, to].map((point) => terminalFor(point, point.fn ?? named, plan.current, plan.cores));
  const [a = "", b = ""] = ends;
  if (crossing && plan.current === "DC") add("pole", "live", a, b);
  else add(crossing ? "PE" : named, crossing ? "protective" : roleOf(named), a, b);
}

const roleOf = (fn: Fn): Conductor["role"] =>
  fn === "PE" ? "protective" : fn === "−" || fn === "N" ? "return" : "live";

function direct({ from, to }: BoundSegment, plan: ConductorPlan, add: Add): void {
  const wants = (fn: Fn): boolean => !plan.coresGiven || plan.cores.includes(fn);
  const isPair = (point: BoundPoint): boolean => functionsOf(point.port, "DC", plan.cores).includes("+");
  const pairs = [from, to].filter(isPair);
  const lead = (fn: Fn): void => {
    add(fn, roleOf(fn), terminalFor(from, fn, "DC", plan.cores), terminalFor(to, fn, "DC", plan.cores));
  };
  if (plan.coresGiven && wants("PE") && (plan.cores.length === 1 || pairs.length === 2)) lead("PE");
  if (wants("+")) {
    if (pairs.length > 0 || plan.coresGiven) lead("+");
    else add("pole", "live", at(from, "pole"), at(to, "pole"));
  }
  if (!wants("−")) return;
  if (plan.coresGiven && plan.cores.length === 1) {
    lead("−");
    return;
  }
  if (plan.noReturn) return;
  const back = plan.returnLength;
  if (pairs.length === 2 && !plan.returnForced) {
    add("−", "return", at(from, "−"), at(to, "−"), back);
    return;
  }
  if (plan.returnTo === undefined) return;
  for (const end of pairs) {
    // The minus of a store has a circuit of its own already.
    const own = end.part.traits.store === true && plan.ownMinus.has(end.part.key);
    if (own && (!plan.returnForced || pairs.length === 2)) continue;
    // With `return:` given, a panel is left as it is: only what hangs on it is sent back another way.
    if (plan.returnForced && pairs.length === 2 && end.part.traits.distributes === true) continue;
    const minus = at(end, "−");
    if (end === from) add("−", "return", minus, plan.returnTo, back);
    else add("−", "return", plan.returnTo, minus, back);
  }
}

function alternating({ from, to }: BoundSegment, plan: ConductorPlan, add: Add): void {
  const isPole = (point: BoundPoint): boolean => functionsOf(point.port, "AC", plan.cores).includes("pole");
  if (isPole(from) && isPole(to)) {
    // Between two points of one pole there is one conductor, whatever the system has: it bonds, unless it says what else it is.
    const fn = plan.coresGiven && plan.cores.length === 1 ? (plan.cores[0] ?? "PE") : "PE";
    add(fn, roleOf(fn), at(from, "pole"), at(to, "pole"));
    return;
  }
  for (const fn of plan.cores) {
    const a = terminalFor(from, fn, "AC", plan.cores);
    const b = terminalFor(to, fn, "AC", plan.cores);
    if (fn === "PE" && plan.inPE !== undefined) {
      const through = plan.inPE.key;
      add(fn, "protective", a, terminalName(through, "in", "PE"));
      add(fn, "protective", terminalName(through, "out", "PE"), b);
    } else {
      add(fn, roleOf(fn), a, b);
    }
  }
}
