import type { Plan } from "../../plan/index.ts";
import type { Runs } from "../../route/index.ts";
import type { Design } from "../../size/index.ts";
import type { System } from "../../system/index.ts";
import type { PaperName } from "../sheet/paper.ts";
import type { DrawnFinding } from "./drawn-finding.ts";

/** What a one-line is drawn from. */
export interface OneLineBuild {
  readonly plan: Plan;
  readonly system: System;
  readonly runs: Runs;
  readonly design: Design;
  readonly findings: readonly DrawnFinding[];
}

export interface OneLineOptions {
  readonly paper: PaperName;
  /** Of issue, `2026-05-04`; else the field is left for a hand. */
  readonly date?: string;
  readonly variant: "iec" | "na";
}
