import type { Compiled, Memory } from "../../compile.ts";

/** A text and what it came to. */
export interface Standing {
  readonly text: string;
  readonly compiled: Compiled;
  readonly memory: Memory;
  /** ms; of a text that was known, as long as it took then. */
  readonly tookMs: number;
}
