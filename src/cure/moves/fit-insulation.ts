import type { Move } from "../case.ts";
import { put, textsOf } from "../write.ts";

/** What wire in a zone has to be fit for. */
const ASKS: Readonly<Record<string, readonly string[]>> = {
  engine: ["oil"],
  wet: ["wet"],
  bilge: ["wet"],
  outside: ["wet", "sun"],
  sun: ["sun"],
  buried: ["buried", "wet"],
  moving: ["moving"],
};

/** Wire that is fit for where it lies: first each need by itself, then all of its zones together. */
export const fitInsulation: Move = (at) =>
  at.circuits.map((c) => {
    const path = ["circuits", c.id, "fit for"];
    const now = textsOf(at.document, path);
    const zones = new Set(c.run.stretches.map((s) => s.zone));
    const kinds = at.build.system.zones.filter((z) => zones.has(z.id)).flatMap((z) => z.kinds);
    const missing = [...new Set(kinds.flatMap((k) => ASKS[k] ?? []))].filter((word) => !now.includes(word));
    const steps = missing.length > 1 ? [...missing.map((word) => [word]), missing] : missing.map((word) => [word]);
    return steps.map((words) => ({ edits: [put(at.document, path, [...now, ...words])] }));
  });
