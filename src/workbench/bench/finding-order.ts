import type { Finding } from "../../rules/index.ts";
import type { FindingKey } from "../asked.ts";
import { statusOf, type Status } from "../look/status-shape.tsx";

const order: readonly Status[] = ["fail", "warn", "unknown", "note"];

/** The gravest first, otherwise as the rules have them; what is waived is left out. */
export const byGravity = (findings: readonly Finding[]): Finding[] =>
  findings
    .filter(({ waived }) => waived === null || waived.lapsed !== null)
    .sort((a, b) => order.indexOf(statusOf(a)) - order.indexOf(statusOf(b)));

/** The one after or before another in that order, round and round; with none open the first or the last. Null: there is none. */
export function findingAfter(findings: readonly Finding[], open: FindingKey | null, by: 1 | -1): Finding | null {
  const all = byGravity(findings);
  const at = all.findIndex((f) => f.rule === open?.rule && f.about === open.about);
  const next = at < 0 ? (by > 0 ? 0 : all.length - 1) : (at + by + all.length) % all.length;
  return all[next] ?? null;
}
