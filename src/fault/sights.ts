/** When a device opens at a current. */
export interface Opens {
  /** It stays closed until then, s. */
  readonly least: number;
  /** It has opened by then, s; null: nobody can say that it does. */
  readonly most: number | null;
  /** Where it may stay closed: within its rating; above it, but by its standard it may; or nothing is published of it. */
  readonly why: "opens" | "within its rating" | "may stay closed" | "not published";
}

/** A device in an edge. */
export interface Guard {
  readonly edge: number;
  /** End of the edge that it stands at. */
  readonly at: "a" | "b";
  readonly opens: (amps: number) => Opens;
}

/** A current through a device. */
export interface Sight {
  /** Index of the device. */
  readonly device: number;
  readonly amps: number;
  /** Side that the current comes from: the end of the edge at which it enters. */
  readonly from: "a" | "b";
  readonly opens: Opens;
}

/** A device that opens, in the order of their greatest times. */
/** The devices of a network, and which of them stand in each edge. */
export interface Guards {
  readonly guards: readonly Guard[];
  readonly at: readonly (readonly number[] | undefined)[];
}

/** Less than this share of the fault's current feeds nothing. */
export const NOTHING = 1e-6;

/** Notes the devices of an edge that a current is seen by. */
export function noteSights(
  { guards, at }: Guards,
  edge: number,
  atA: number,
  atB: number,
  least: number,
  into: Sight[],
): void {
  const here = at[edge];
  if (here === undefined) return;
  for (const device of here) {
    const guard = guards[device];
    if (guard === undefined) continue;
    const through = guard.at === "a" ? atA : atB;
    const amps = Math.abs(through);
    if (amps > least) into.push({ device, amps, from: through > 0 ? "a" : "b", opens: guard.opens(amps) });
  }
}

/** The one with the least greatest opening time; null: none is certain to open. */
export function firstToOpen(sights: readonly Sight[]): Sight | null {
  let first: Sight | null = null;
  let by = Infinity;
  for (const s of sights) {
    const { most } = s.opens;
    if (most === null || (first !== null && !(most < by))) continue;
    first = s;
    by = most;
  }
  return first;
}
