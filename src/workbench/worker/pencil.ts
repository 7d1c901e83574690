import { holdSizes, whatIf } from "../../act/index.ts";
import type { Standing } from "./standing.ts";

export { compareStands } from "../../act/index.ts";

/**
 * The plan with its banks at another charge and its copper as it lies, or why that cannot be thought of. Let go, sizes would be chosen for the
 * other charge, and nobody would learn what the wires that are drawn do at it.
 */
export function chargedTo(
  { text, compiled, memory }: Standing,
  state: string | null,
  battery: number,
): { readonly ok: true; readonly text: string } | { readonly ok: false; readonly message: string } {
  const tried = whatIf(text, compiled, { state, battery }, memory);
  return tried.ok ? { ok: true, text: holdSizes(tried.text, compiled, memory) } : tried;
}
