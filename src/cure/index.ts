/**
 * Cures: changes of a plan after which a finding is gone, found by making them and compiling again. Never in the path of a keystroke.
 *
 * finding ─ open-case ─ moves ─▶ edits ─ try-edits ─▶ text, compiled, compared ─ rank ─▶ at most three
 */
export type { Change, Cure, CureSearch, FindingName } from "./cure.ts";
export { findDecidingAssumptions, type DecidingAssumptions } from "./deciding-assumptions.ts";
export { findCures, searchCures, type CureOptions, type Wanted } from "./find-cures.ts";
export type { CompilePlan } from "./try-edits.ts";
