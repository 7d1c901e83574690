import type { Compiled, Memory } from "../../compile.ts";
import type { PagePlan } from "./protocol.ts";

/** A text and what it came to. */
export interface Standing {
  readonly text: string;
  readonly compiled: Compiled;
  readonly judged: PagePlan["judged"];
  readonly memory: Memory;
  /** ms; of a text that was known, as long as it took then. */
  readonly tookMs: number;
}
