import type { PlanMemory } from "../plan/index.ts";
import { addLoad } from "./add-load.ts";
import { prove, refuse } from "./draft.ts";
import { findThing } from "./find-thing.ts";
import { insertDevice } from "./insert-device.ts";
import { emptyPlan, newPlan } from "./new-plan.ts";
import { pinDevice, pinSize, unpinDevice, unpinSize } from "./pin.ts";
import { putQuestion } from "./put-question.ts";
import { remove } from "./remove.ts";
import { rename } from "./rename.ts";
import type { ActRequest, ActResult } from "./request.ts";
import { feed, moveWay } from "./rewire.ts";
import { setFigure } from "./set-figure.ts";
import { openStand, type CompiledPlan, type Stand } from "./stand.ts";
import { addState, flip, setStateFigure, switchIn } from "./states.ts";
import { unwaive, waive } from "./waive.ts";

/**
 * Does what a person asks, as one edit of the plan.
 *
 * Only what is meant changes: comments, order and style of every other line stay. What was typed wrongly is asked back. What another line no longer means
 * by it (a name that is gone, a run shorter than its ends are apart) is told: the new errors and warnings of reading the plan, binding its names and
 * laying its runs. Does not solve the build: what the rules find then, the next compile says. Never throws on what a person typed or wrote.
 *
 * @param text the plan
 * @param compiled what `compile` gives of this very text
 * @param memory of the readings of this plan, as the compiler keeps it
 * @returns splices from the old text to the new, and the name of the step; none where nothing would change; or the question back
 */
export function act(text: string, compiled: CompiledPlan, request: ActRequest, memory?: PlanMemory): ActResult {
  if (request.do === "new-plan") return replaceWith(text, request.answers);
  if (compiled.plan.text !== text) {
    return refuse("the plan has changed in between", "wait until it is read again");
  }
  return actOn(openStand(text, compiled, memory), request);
}

function actOn(stand: Stand, request: Exclude<ActRequest, { readonly do: "new-plan" }>): ActResult {
  switch (request.do) {
    case "set-figure":
      return setFigure(stand, request);
    case "pin":
    case "unpin":
      return pinOrUnpin(stand, request);
    case "add-load":
      return addLoad(stand, request);
    case "insert-device":
      return insertDevice(stand, request);
    case "remove":
      return remove(stand, request);
    case "rename":
      return rename(stand, request);
    case "feed":
      return feed(stand, request);
    case "move-way":
      return moveWay(stand, request);
    case "switch":
      return switchIn(stand, request);
    case "flip":
      return flip(stand, request);
    case "set-state-figure":
      return setStateFigure(stand, request);
    case "add-state":
      return addState(stand, request);
    case "waive":
      return waive(stand, request);
    case "unwaive":
      return unwaive(stand, request);
    case "put-question-in-plan":
      return putQuestion(stand, request);
    case "apply-edits":
      return prove(stand, {
        edits: request.edits,
        step: request.step,
        select: request.select ?? null,
        remarks: [],
        mustHold: null,
      });
  }
}

function pinOrUnpin(stand: Stand, request: Extract<ActRequest, { readonly do: "pin" | "unpin" }>): ActResult {
  const thing = findThing(stand, request.about, ["circuits"]);
  if ("ok" in thing) return thing;
  if (request.do === "unpin") return request.what === "device" ? unpinDevice(stand, thing) : unpinSize(stand, thing);
  return request.what === "device" ? pinDevice(stand, thing, request.text) : pinSize(stand, thing, request.text);
}

type Answers = Extract<ActRequest, { readonly do: "new-plan" }>["answers"];

const isBare = ({ battery = "", load = "", there }: Answers): boolean =>
  battery.trim() === "" && load.trim() === "" && there !== "old wiring";

const bare = ({ name = "" }: Answers) =>
  ({ ok: true, text: emptyPlan(name), step: "empty sheet", select: null, remarks: [] }) as const;

/** A new plan takes the place of the text that stands. */
function replaceWith(text: string, answers: Answers): ActResult {
  // Whoever names neither a battery nor a load wants an empty sheet.
  const made = isBare(answers) ? bare(answers) : newPlan(answers);
  if (!made.ok) return made;
  return {
    ok: true,
    splices: [{ start: 0, end: text.length, text: made.text }],
    text: made.text,
    step: made.step,
    select: made.select,
    remarks: made.remarks,
  };
}
