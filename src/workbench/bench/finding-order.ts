import type { Finding } from "../../rules/index.ts";
import { statusOf, type Status } from "../look/status-shape.tsx";

const order: readonly Status[] = ["fail", "warn", "unknown", "note"];

/** The gravest first, otherwise as the rules have them; what is waived is left out. */
export const byGravity = (findings: readonly Finding[]): Finding[] =>
  findings
    .filter(({ waived }) => waived === null || waived.lapsed !== null)
    .sort((a, b) => order.indexOf(statusOf(a)) - order.indexOf(statusOf(b)));
