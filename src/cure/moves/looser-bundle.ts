import type { Move } from "../case.ts";
import { put, takeOff } from "../write.ts";

/** Fewer conductors lie together: so many as the steps of the tables allow, and at last none but its own. */
const STEPS = [24, 6, 3];

export const looserBundle: Move = (at) =>
  at.circuits.map((c) => {
    const path = ["circuits", c.id, "bundle"];
    const { bundle } = c.circuit;
    const alone = takeOff(at.document, path);
    if (bundle === "own" || alone.length === 0) return [];
    const fewer = typeof bundle === "number" ? STEPS.filter((n) => n < bundle) : [];
    return [...fewer.map((n) => ({ edits: [put(at.document, path, String(n))] })), { edits: alone }];
  });
