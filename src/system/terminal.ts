/** What a conductor does: the poles of direct current, a point of whichever pole it is joined to, and the cores of alternating current. */
export type Fn = "+" | "−" | "pole" | "L" | "L1" | "L2" | "L3" | "N" | "PE";

const CORE_ORDER: readonly Fn[] = ["L", "L1", "L2", "L3", "N", "PE"];

/** Cores in the order in which everything reads them: lines, neutral, earth. What a plan writes in another order means the same. */
export const inCoreOrder = (cores: readonly Fn[]): Fn[] =>
  [...cores].sort((a, b) => CORE_ORDER.indexOf(a) - CORE_ORDER.indexOf(b));

export type CurrentKind = "DC" | "AC";

/**
 * A place on a part where circuits land: `in`, `out`, way `3`, or the part itself (name empty).
 * Which terminals it has depends on the current that turns out to flow there.
 */
export interface Port {
  readonly name: string;
  /** "either": the same as the rest of the part, found from what it is wired to. */
  readonly current: CurrentKind | "either";
  /**
   * pair: plus and minus, or all cores of the AC supply · line: one pole of direct current, or all cores of alternating · pole: one
   * point, whatever flows there.
   */
  readonly shape: "pair" | "line" | "pole";
}

/** Name of one terminal: `fridge:+`, `PNL:3:+`, `INV:out:L`. */
export function terminalName(part: string, port: string, fn: Fn): string {
  return port === "" ? `${part}:${fn}` : `${part}:${port}:${fn}`;
}

/** The terminals that a port has once it is known what flows there. */
export function functionsOf(port: Port, current: CurrentKind, cores: readonly Fn[]): readonly Fn[] {
  if (port.shape === "pole") return POLE;
  if (current === "AC") return cores;
  return port.shape === "pair" ? PAIR : POLE;
}

const POLE: readonly Fn[] = ["pole"];
const PAIR: readonly Fn[] = ["+", "−"];
