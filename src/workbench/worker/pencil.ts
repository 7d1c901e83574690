import { whatIf } from "../../act/index.ts";
import type { Standing } from "./standing.ts";

export { compareStands } from "../../act/index.ts";

/** The plan with its banks at another charge; null: that cannot be thought of here. */
export function chargedTo({ text, compiled, memory }: Standing, state: string | null, battery: number): string | null {
  const result = whatIf(text, compiled, { state, battery }, memory);
  return result.ok ? result.text : null;
}
