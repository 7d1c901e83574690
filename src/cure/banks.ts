import type { CircuitView } from "../rules/index.ts";
import type { Case } from "./case.ts";

/** The lead of a unit that stands in parallel with others. */
export interface Lead {
  readonly circuit: CircuitView;
  /** The part at its store's end; for parallel conductors that at its start. */
  readonly unit: string;
}

/** Leads that should be alike: of the units of one bank, or of conductors in parallel between two parts. One group for each far end. */
export function leadsOf({ build, part, circuits }: Case): readonly (readonly Lead[])[] {
  const isStore = (id: string): boolean => build.part(id)?.part.traits.store === true;
  if (part !== undefined) {
    const ends = new Set(circuits.map(({ circuit: c }) => (c.from.part === part.id ? c.to.part : c.from.part)));
    return [...ends].flatMap((end) => {
      const group = build.circuits.flatMap((c): Lead[] => {
        const { from, to } = c.circuit;
        if (to.part === end && isStore(from.part)) return [{ circuit: c, unit: from.part }];
        return from.part === end && isStore(to.part) ? [{ circuit: c, unit: to.part }] : [];
      });
      return group.length > 1 ? [group] : [];
    });
  }
  return circuits.flatMap(({ circuit: own }) => {
    const ends = [own.from.part, own.to.part].sort().join("\n");
    const group = build.circuits.filter(({ circuit: c }) => [c.from.part, c.to.part].sort().join("\n") === ends);
    return group.length > 1 ? [group.map((c): Lead => ({ circuit: c, unit: c.circuit.from.part }))] : [];
  });
}
