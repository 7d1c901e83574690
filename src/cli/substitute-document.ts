import type { Substitution } from "../act/index.ts";
import { version } from "./version.ts";

/** `wireworthy substitute --json`: a wire that is bought in place of the drawn one, judged in its place. */
export interface SubstituteDocument {
  readonly format: "wireworthy-substitute-1";
  /** Version of the program that wrote it. */
  readonly wireworthy: string;
  readonly circuit: string;
  /** Sizes as printed. */
  readonly drawn: string;
  readonly bought: string;
  /** More resistance than the drawn wire has, in parts of one: 0.09 is 9 % more; null: not known. */
  readonly resistanceShare: number | null;
  /** It raises no finding and has no more resistance. */
  readonly does: boolean;
  /** The verdict in a sentence. */
  readonly says: string;
  /** Figures of the circuit and of the whole build, with all other copper held as it lies. */
  readonly figures: readonly SubstituteFigure[];
  readonly clears: Substitution["comparison"]["clears"];
  readonly raises: Substitution["comparison"]["raises"];
  /** What no computation tells: ends, glands, tools. */
  readonly lookAt: readonly string[];
}

/** A figure as it is printed, with the drawn wire and with the bought one. */
export interface SubstituteFigure {
  readonly label: string;
  readonly now: string;
  readonly then: string;
  readonly changed: boolean;
}

export const substituteDocument = (s: Substitution): SubstituteDocument => ({
  format: "wireworthy-substitute-1",
  wireworthy: version,
  circuit: s.circuit,
  drawn: s.drawn,
  bought: s.bought,
  resistanceShare: s.resistanceChange,
  does: s.does,
  says: s.says,
  figures: s.comparison.rows.map(({ label, now, then, changed }) => ({ label, now, then, changed })),
  clears: s.comparison.clears,
  raises: s.comparison.raises,
  lookAt: s.lookAt,
});
