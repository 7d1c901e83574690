import type { Move } from "../case.ts";
import { takeOff, textsOf } from "../write.ts";

/** So many loads are tried. */
const MOST = 12;

/** One load fewer in the state in which it happens, the last one named first. */
export const stagger: Move = ({ finding, build, document }) => {
  const state = build.plan.states.find((s) => s.key === finding.state);
  if (state === undefined) return [];
  const path = ["states", state.key, "on"];
  const on = textsOf(document, path);
  return on
    .map((_, i) => [{ edits: takeOff(document, [...path, i]) }])
    .filter(([p]) => (p?.edits.length ?? 0) > 0)
    .reverse()
    .slice(0, MOST);
};
