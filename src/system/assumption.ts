import type { Trust } from "../explain/index.ts";

/** A default that was used, so that nothing is assumed in silence. One entry stands for every place that used the same one. */
export interface Assumption {
  /** Stable id, e.g. `joint-resistance`. */
  readonly id: string;
  /** What was assumed, in words with its unit: `each joint 0.1 mΩ`. */
  readonly says: string;
  readonly trust: Trust;
  /** Key to write in the plan to say otherwise. */
  readonly pin: string;
  /** What it was used for, in the order of the plan. */
  readonly about: readonly string[];
}

/** A fact that somebody should supply because something could not be told without it. */
export interface MissingFact {
  readonly about: string;
  readonly fact: string;
  /** unknown: the person wrote so; absent: nothing was written and no default is lawful; unread: what was written cannot be read. */
  readonly why: "unknown" | "absent" | "unread";
}

/** Completes "the fact is …". */
export const missingSays: Readonly<Record<MissingFact["why"], string>> = {
  unknown: "said to be unknown",
  absent: "not given",
  unread: "written, and cannot be read",
};
