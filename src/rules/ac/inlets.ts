import type { DeviceOnLine } from "../../plan/index.ts";
import { lineVolts, type Fn, type Source } from "../../system/index.ts";
import type { Build, PartView } from "../build.ts";
import { factsOf } from "../stated.ts";

/** A place where a supply from outside enters. */
export interface Inlet {
  readonly view: PartView;
  readonly source: Source;
  /** Amps that it is made for; null: not stated, or not in amps. */
  readonly amps: number | null;
}

/** The shore inlets of a build, in the order of the plan. */
export const inletsOf = (build: Build): readonly Inlet[] =>
  build.parts.flatMap((view) => {
    const source = view.elements.find((e) => e.is === "source" && e.from === "shore");
    return source?.is === "source" ? [inletAt(view, source)] : [];
  });

/** The plugs of a build that something in the plan feeds: what leads on from each is as a source of its rating to what is behind it. */
export const plugsOf = (build: Build): readonly Inlet[] =>
  build.parts.flatMap((view) => {
    const { part, supply } = view;
    if (part.traits.plug !== true || supply === undefined) return [];
    // A breaker in the line of a circuit there is a contact of this part too, with a mover of its own.
    const behind = view.elements.flatMap((e) => (e.is === "contact" && e.mover === undefined ? [e.b] : []));
    const { rated: value } = part;
    const source: Source = {
      is: "source",
      id: part.id,
      part: part.id,
      from: "shore",
      terminals: Object.fromEntries(behind.map((t): [string, string] => [t.slice(t.lastIndexOf(":") + 1), t])) satisfies Partial<Record<Fn, string>>, // prettier-ignore
      volts: behind.some((t) => t.endsWith(":N")) ? lineVolts(supply.nominal, supply.cores) : supply.nominal,
      joined: "unknown",
      ...(value === undefined ? {} : { gives: value === "unknown" ? value : { value, unit: "A" } }),
    };
    return [inletAt(view, source)];
  });

function inletAt(view: PartView, source: Source): Inlet {
  const { gives } = source;
  const isTold = gives !== undefined && gives !== "unknown" && gives.unit === "A" && gives.value.origin !== "unknown";
  return { view, source, amps: isTold ? gives.value.low : null };
}

/** Terminals of the lines of a source. */
export const linesOf = ({ terminals }: Source): readonly string[] =>
  [terminals.L, terminals.L1, terminals.L2, terminals.L3].filter((t) => t !== undefined);

/** Volts from a line of a source to neutral, or to where neutral would be. */
export function lineVoltsOf(source: Source): number {
  const lines = linesOf(source).length;
  if (source.terminals.N !== undefined || lines < 2) return source.volts;
  return source.volts / (lines === 2 ? 2 : Math.sqrt(3));
}

/** The breaker that is built into an inlet, with its rating where that is told; null: there is none, or nobody says it. */
export function builtIn({ view }: Inlet): { readonly rating: number | null } | null {
  const value = factsOf(view)["breaker"]?.value as DeviceOnLine | "unknown" | undefined; // read by the rules of the inlet
  if (value === undefined || value === "unknown" || value.is === "none") return null;
  return { rating: value.is === "device" && value.rating !== "unknown" ? value.rating.high : null };
}
