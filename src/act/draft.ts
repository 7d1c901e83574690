import { applyEdits, type Edit } from "../plan/text/index.ts";
import { foldName, readPlan } from "../plan/index.ts";
import type { Diagnostic } from "../diagnostic.ts";
import { routeRuns } from "../route/index.ts";
import { kinds, resolveSystem } from "../system/index.ts";
import type { Acted, ActResult, KeyPath, NotActed } from "./request.ts";
import type { Stand } from "./stand.ts";

/** What an act is to do, before it is proved. */
export interface Draft {
  readonly edits: readonly Edit[];
  readonly step: string;
  readonly select: KeyPath | null;
  readonly remarks: readonly string[];
  /**
   * Where a new error means that what was typed is wrong, so that it is asked back: the thing itself, or `everything`. A new error
   * elsewhere is what the act broke, and is told.
   */
  readonly mustHold: KeyPath | null;
}

export const refuse = (message: string, hint: string, at?: readonly [number, number]): NotActed => ({
  ok: false,
  message,
  hint,
  ...(at === undefined ? {} : { at }),
});

export const isRefusal = (x: object): x is NotActed => "ok" in x && !x.ok;

/** An act that finds everything as it should be. */
export const nothingToDo = ({ text }: Stand, step: string, select: KeyPath | null, remark: string): Acted => ({
  ok: true,
  splices: [],
  text,
  step,
  select,
  remarks: [remark],
});

/** Makes the edits of a draft, reads the plan again, and tells what reading says that it had not said before. Solves and judges nothing. */
export function prove(stand: Stand, draft: Draft): ActResult {
  const { value, diagnostics } = applyEdits(stand.text, draft.edits, stand.memory.document);
  const [problem] = diagnostics;
  if (problem !== undefined) return refuse(problem.message, problem.hint ?? "edit the text by hand");
  if (value.text === stand.text)
    return nothingToDo(stand, draft.step, draft.select, "nothing changes: it says so already");
  const fresh = firstNew(stand.diagnostics, diagnose(value.text, stand));
  const own = fresh.find((d) => d.level === "error" && isOf(d, draft.mustHold));
  if (own !== undefined) return refuse(own.message, own.hint ?? "write it another way");
  const broken = [
    ...new Set(fresh.flatMap((d) => (d.level === "error" || d.level === "warning" ? [`now ${d.message}`] : []))),
  ];
  return {
    ok: true,
    splices: value.splices,
    text: value.text,
    step: draft.step,
    select: draft.select,
    remarks: [...draft.remarks, ...broken.slice(0, MOST_TOLD), ...more(broken)],
  };
}

const MOST_TOLD = 3;

const more = (broken: readonly string[]): readonly string[] =>
  broken.length > MOST_TOLD ? [`and ${broken.length - MOST_TOLD} more messages in the plan`] : [];

function isOf({ about }: Diagnostic, hold: Draft["mustHold"]): boolean {
  if (hold === null) return false;
  const [thing, whole] = [foldName(about), foldName(hold)];
  return hold === "everything" || thing === whole || thing.startsWith(`${whole}.`);
}

/** What reading, binding and laying the runs have to say of a text: everything but what is computed. */
function diagnose(text: string, { memory }: Stand): readonly Diagnostic[] {
  const plan = readPlan(text, kinds, memory);
  const system = resolveSystem(plan.value, kinds);
  return [...plan.diagnostics, ...system.diagnostics, ...routeRuns(system.value).diagnostics];
}

/** Messages that were not there before; of several alike as many as are more. */
function firstNew(before: readonly Diagnostic[], after: readonly Diagnostic[]): readonly Diagnostic[] {
  const keyOf = ({ id, about, message }: Diagnostic): string => `${id} ${about} ${message}`;
  const known = new Map<string, number>();
  for (const d of before) known.set(keyOf(d), (known.get(keyOf(d)) ?? 0) + 1);
  return after.filter((d) => {
    const left = known.get(keyOf(d)) ?? 0;
    known.set(keyOf(d), left - 1);
    return left <= 0;
  });
}
