import type { KeyRules } from "./rule.ts";
import { listOf, name, text } from "./values.ts";

/** One interlock under `interlocks:`. */
export const interlockKeys = {
  never: {
    value: listOf(name("what moves and its position")),
    doc: "Positions that it never lets be at once: `[GEN running, INL in]`, `[LC:1 on, LC:2 on]`; of a board a way, or `main`.",
  },
  kind: { value: text(), doc: "What it is: a slide, a key, a relay." },
} as const satisfies KeyRules;
