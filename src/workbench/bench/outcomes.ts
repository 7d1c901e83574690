import type { Outcome } from "../contract.ts";

/** What came of an act where it is always the same. */
export const READ_ONLY: Outcome = { ok: false, message: "the plan is read only here", hint: "work here instead" };
export const NOT_WORKED_OUT: Outcome = {
  ok: false,
  message: "it was not done: the plan could not be worked out",
  hint: "mend the text first",
};
export const DONE: Outcome = { ok: true };
export const OTHER_PLAN: Outcome = { ok: false, message: "another plan was opened meanwhile", hint: "" };
