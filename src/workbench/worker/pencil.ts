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

/** A plan whose sizes were held: they count as chosen again, so that nothing is shown as pinned that nobody pinned. */
export function letGo(then: Standing, now: Standing): Standing {
  const chosen = new Set(
    now.compiled.design.circuits.filter(({ outcome }) => outcome === "chosen").map(({ id }) => id),
  );
  const { design } = then.compiled;
  const circuits = design.circuits.map((c) =>
    c.outcome === "pinned" && chosen.has(c.id) ? { ...c, outcome: "chosen" as const } : c,
  );
  return { ...then, compiled: { ...then.compiled, design: { ...design, circuits } } };
}
