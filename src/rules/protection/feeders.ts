import type { Build } from "../build.ts";
import type { GuardedCircuit } from "./guards.ts";

/** Whether a circuit feeds a part that divides current further, other than from what charges it. */
export function isFeeder(build: Build, { view }: GuardedCircuit): boolean {
  const to = build.part(view.circuit.to.part)?.part.traits;
  const from = build.part(view.circuit.from.part)?.part.traits;
  return to?.distributes === true && to.structure !== true && from?.charges !== true;
}
