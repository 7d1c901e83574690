import { isWritten, put, textOf } from "../cure/write.ts";
import { foldName, type PlanMemory } from "../plan/index.ts";
import type { Edit } from "../plan/text/index.ts";
import { decimalText } from "../quantity/decimal-text.ts";
import type { WhatIf } from "./ask/ask-offer.ts";
import { prove, refuse } from "./draft.ts";
import type { ActResult, NotActed } from "./request.ts";
import { openStand, type CompiledPlan, type Stand } from "./stand.ts";
import { findState } from "./states.ts";

/**
 * The text of a plan that is only thought of: in one state the banks stand at another charge, or the engine runs. All else stays as it is,
 * states that start from that one among it.
 *
 * @param whatIf `state: null`: the worst moment in which every load is judged, with the banks at their lowest
 */
export function whatIf(text: string, compiled: CompiledPlan, whatIf: WhatIf, memory?: PlanMemory): ActResult {
  const { state, battery, engine } = whatIf;
  if (battery !== undefined && !(battery >= 0 && battery <= 1)) {
    return refuse("a charge from 0 to 100 % was expected", "move it within that");
  }
  if (state === null && engine !== undefined) {
    return refuse("no state is chosen in which the engine could run", "choose a state first");
  }
  const stand = openStand(text, compiled, memory);
  const share = battery === undefined ? null : percent(battery);
  const made = state === null ? lowest(stand, share) : inState(stand, state, share, engine);
  if ("ok" in made) return made;
  const said = [
    share === null ? "" : `battery ${share}`,
    engine === undefined ? "" : `engine ${engine ? "on" : "off"}`,
  ];
  return prove(stand, {
    edits: made,
    step: `what if: ${said.filter((w) => w !== "").join(", ")}${state === null ? "" : ` in ${state}`}`,
    select: state === null ? null : `states.${state}`,
    remarks: [],
    mustHold: "everything",
  });
}

const percent = (share: number): string => `${decimalText(Number((100 * share).toFixed(2)), { figures: 6 })} %`;

/** Every bank at a lowest charge of its own. */
function lowest({ document, build }: Stand, share: string | null): readonly Edit[] {
  if (share === null) return [];
  return build.parts
    .filter(({ part, plan }) => part.traits.store === true && plan !== undefined)
    .map(({ id }) => put(document, ["parts", id, "lowest charge"], share));
}

function inState(
  stand: Stand,
  name: string,
  share: string | null,
  engine: boolean | undefined,
): readonly Edit[] | NotActed {
  const moment = findState(stand, name);
  if ("ok" in moment) return moment;
  const { document, build, compiled } = stand;
  const edits: Edit[] = [];
  // Whoever starts from this state keeps what it had.
  for (const key of ["charge", "engine"] as const) {
    const wanted = key === "charge" ? share : engine === undefined ? null : engine ? "running" : "off";
    if (wanted === null) continue;
    if (textOf(document, ["states", moment.name, key]) === wanted) continue;
    edits.push(put(document, ["states", moment.name, key], wanted));
    for (const { key: heir, facts } of build.plan.states) {
      const model = foldName(facts.like?.value ?? "");
      if (model !== foldName(moment.name) || isWritten(document, ["states", heir, key])) continue;
      const was = compiled.system.states.find((s) => s.id === heir);
      if (was === undefined) continue;
      if (key === "engine") edits.push(put(document, ["states", heir, key], was.engine ? "running" : "off"));
      else edits.push(...keepCharge(stand, heir, was.charge));
    }
  }
  return edits;
}

/** What a state has taken over, written out. */
function keepCharge(
  { document, build }: Stand,
  state: string,
  charge: Readonly<Record<string, { readonly low: number; readonly high: number }>>,
): readonly Edit[] {
  const lowestOf = (id: string): string => {
    const store = build.part(id)?.elements.find((e) => e.is === "store");
    return store?.is === "store" ? percent(store.lowestCharge.low) : "20 %";
  };
  const stores = build.parts.filter(({ part }) => part.traits.store === true);
  const entries = stores.map(({ id }) => {
    const own = charge[id];
    if (own === undefined) return [id, lowestOf(id)] as const;
    return [
      id,
      own.low === own.high ? percent(own.low) : `${percent(own.low).replace(" %", "")}…${percent(own.high)}`,
    ] as const;
  });
  const [first] = entries;
  if (first === undefined) return [];
  const alike = entries.every(([, text]) => text === first[1]);
  return [put(document, ["states", state, "charge"], alike ? first[1] : { entries })];
}
