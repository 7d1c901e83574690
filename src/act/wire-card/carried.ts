import { carriesBy } from "../../ampacity/carries.ts";
import { printCitation, type Trust } from "../../explain/index.ts";
import { celsius } from "../../quantity/index.ts";
import type { Conductor } from "./conductor-of.ts";

/** What one rule set lets a conductor carry, ready to show. */
export interface CarriedBy {
  readonly title: string;
  readonly edition: string;
  readonly lying: readonly {
    readonly lies: string;
    /** A; null: nothing may be carried, or it cannot be told. */
    readonly amps: number | null;
    readonly refused: string | null;
    readonly trust: Trust;
  }[];
  /** Where the table stands; null: there is none. */
  readonly source: string | null;
  readonly notes: readonly string[];
  readonly cannotTell: string | null;
}

/** What is carried under every rule set, and what the insulation was taken as. */
export interface Carried {
  readonly ruleSets: readonly CarriedBy[];
  readonly insulationC: number;
  /** The label does not tell the insulation. */
  readonly isAssumed: boolean;
}

/** The least rating that insulation is made for, °C: what is not stated is taken as no better. */
const LEAST_INSULATION = 60;

/**
 * @param stated °C, as the label says; null: it does not
 * @param taken °C, as the person takes it where the label does not say; null: 60
 */
export function carriedOf({ make }: Conductor, stated: number | null, taken: number | null): Carried {
  const insulationC = stated ?? taken ?? LEAST_INSULATION;
  const ruleSets = carriesBy(make, celsius(insulationC)).map(({ title, edition, lying, cannotTell }): CarriedBy => {
    const [first] = lying;
    const told = cannotTell === null ? lying : [];
    return {
      title,
      edition,
      lying: told.map(({ lies, ampacity: { amps, refused, trust } }) => ({
        lies,
        amps: refused === null ? amps : null,
        refused,
        trust,
      })),
      source: told.length === 0 || first?.ampacity.table == null ? null : printCitation(first.ampacity.table.source),
      notes: [...new Set(told.flatMap(({ ampacity: { notes } }) => notes))],
      cannotTell,
    };
  });
  return { ruleSets, insulationC, isAssumed: stated === null };
}
