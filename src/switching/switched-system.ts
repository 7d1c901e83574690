import type { System } from "../system/index.ts";

/** As much of a system as the study of positions looks at. */
export type SwitchedSystem = Pick<System, "parts" | "circuits" | "elements" | "interlocks"> &
  Partial<Pick<System, "supplies">>;
