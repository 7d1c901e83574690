import { isWritten, namesIn, put, takeOff, textOf, textsOf } from "../cure/write.ts";
import { foldName, shown } from "../plan/index.ts";
import { locate, type Edit } from "../plan/text/index.ts";
import { readQuantity, printAmount } from "../quantity/index.ts";
import { isRefusal, nothingToDo, prove, refuse } from "./draft.ts";
import { findThing, type Thing } from "./find-thing.ts";
import { readNewName } from "./rename.ts";
import type { ActRequest, ActResult, NotActed } from "./request.ts";
import type { Stand } from "./stand.ts";
import { brief, stepName } from "./step-name.ts";

type Asked<D extends ActRequest["do"]> = Extract<ActRequest, { readonly do: D }>;

/** A state by its name; or who may have been meant. */
export function findState(stand: Stand, name: string): Thing | NotActed {
  if (namesIn(stand.document, ["states"]).length === 0) {
    return refuse("the plan has no states: every load that can run is taken as on", "add a state first");
  }
  return findThing(stand, `states.${name}`);
}

/** A load on or off in a state, or a part in a position. */
export function switchIn(stand: Stand, { about, state, to }: Asked<"switch">): ActResult {
  const thing = findThing(stand, about, ["parts"]);
  if (isRefusal(thing)) return thing;
  const moment = findState(stand, state);
  if (isRefusal(moment)) return moment;
  const edits = switchEdits(stand, moment, thing, to);
  if (isRefusal(edits)) return edits;
  const step = `${brief(thing.name)} ${brief(to)} in ${brief(moment.name)}`;
  if (edits.length === 0) return nothingToDo(stand, step, thing.about, "it is so already");
  const always = stand.build.part(thing.name)?.plan?.kindFacts["always on"]?.value === true;
  const remarks = always ? ["it is always on: what a state says of it changes nothing"] : [];
  return prove(stand, {
    edits,
    step,
    select: thing.about,
    remarks: [...remarks, ...heirs(stand, moment, ["on", thing.name])],
    mustHold: moment.about,
  });
}

/** States that start from another one take over what changes in it, unless they say it themselves under one of some keys. */
function heirs({ build, document }: Stand, { name }: Thing, keys: readonly string[]): readonly string[] {
  const like = build.plan.states.filter(
    ({ key, facts }) =>
      foldName(facts.like?.value ?? "") === foldName(name) &&
      !keys.some((own) => isWritten(document, ["states", key, own])),
  );
  return like.length === 0
    ? []
    : [`so it is in ${like.map((s) => `\`${shown(s.key)}\``).join(", ")}, which starts from it`];
}

/** Edits that put a part into a position in a state; none where it is in it. */
export function switchEdits(stand: Stand, moment: Thing, thing: Thing, to: string): readonly Edit[] | NotActed {
  const { document, build, compiled } = stand;
  const positions = build.part(thing.name)?.part.positions ?? [];
  const word = foldName(to);
  const solved = compiled.system.states.find((s) => s.id === moment.name);
  const own = namesIn(document, ["states", moment.name]).find((key) => foldName(key) === foldName(thing.name));
  if (positions.length > 0) {
    const position = positions.find((p) => foldName(p) === word);
    if (position === undefined) {
      return refuse(
        `\`${shown(thing.name)}\` has no position \`${shown(to)}\``,
        `its positions are ${positions.join(", ")}`,
      );
    }
    if (own !== undefined && textOf(document, ["states", moment.name, own]) === position) return [];
    return [put(document, ["states", moment.name, own ?? thing.name], position)];
  }
  if (word !== "on" && word !== "off")
    return refuse(`\`${shown(to)}\` is no position of a load`, "write `on` or `off`");
  const isOn = solved?.on.includes(thing.name) === true;
  if ((word === "on") === isOn) return [];
  const list = ["states", moment.name, "on"];
  const texts = textsOf(document, list);
  const at = texts.findIndex((text) => foldName(text) === foldName(thing.name));
  const above = own === undefined ? [] : takeOff(document, ["states", moment.name, own]);
  if (word === "off" && at >= 0) {
    return [...above, ...(texts.length === 1 ? [put(document, list, [])] : takeOff(document, [...list, at]))];
  }
  // A list on one line grows; one that is inherited or has lines of its own stays, and the state says it of the part.
  if (word === "on" && texts.length > 0 && isOnOneLine(stand, list))
    return [...above, put(document, list, [...texts, thing.name])];
  if (word === "on" && !isWritten(document, ["states", moment.name, "like"]) && texts.length === 0) {
    return [...above, put(document, list, [thing.name])];
  }
  return [put(document, ["states", moment.name, own ?? thing.name], word)];
}

function isOnOneLine({ document }: Stand, path: readonly string[]): boolean {
  const found = locate(document, path);
  const level = typeof found === "string" ? null : found.part.inside();
  return level?.flow === true && !document.text.slice(...level.span).includes("\n");
}

const FIGURES = {
  battery: { key: "charge", words: null },
  engine: { key: "engine", words: { on: "running", running: "running", off: "off", stopped: "off" } },
  shore: { key: "shore", words: { in: "in", on: "in", plugged: "in", out: "out", off: "out", unplugged: "out" } },
  sun: { key: "sun", words: { yes: "yes", on: "yes", no: "no", off: "no" } },
} as const;

/** Charge, engine, shore plug or sun of a state. */
export function setStateFigure(stand: Stand, { state, figure, text }: Asked<"set-state-figure">): ActResult {
  const moment = findState(stand, state);
  if (isRefusal(moment)) return moment;
  const { key, words } = FIGURES[figure];
  const path = ["states", moment.name, key];
  const now = textOf(stand.document, path);
  const typed = text.trim();
  if (typed === "") {
    const edits = takeOff(stand.document, path);
    const step = stepName(moment.name, key, now, null);
    if (edits.length === 0) return nothingToDo(stand, step, moment.about, "the state says nothing of it");
    return prove(stand, { edits, step, select: moment.about, remarks: [], mustHold: moment.about });
  }
  const value =
    words === null
      ? readCharge(typed)
      : (Object.entries(words).find(([word]) => word === foldName(typed))?.[1] ?? null);
  if (value === null) {
    return refuse(
      `\`${shown(typed)}\` is not what ${figure} can be in a state`,
      `write one of ${Object.keys(words ?? {}).join(", ")}`,
    );
  }
  if (typeof value !== "string") return value;
  const step = stepName(moment.name, figure, now, value);
  if (now === value) return nothingToDo(stand, step, moment.about, "it is so already");
  return prove(stand, {
    edits: [put(stand.document, path, value)],
    step,
    select: moment.about,
    remarks: heirs(stand, moment, [key]),
    mustHold: moment.about,
  });
}

/** A charge as a plan says it. */
export function readCharge(text: string): string | NotActed {
  const read = readQuantity(text, "ratio", { min: 0, max: 1 });
  if (read.ok && read.amount.form !== "unknown") {
    const written = printAmount(read.amount);
    return written.includes("%") ? written : refuse(`\`${shown(text)}\` has no unit`, `write \`${shown(text)} %\``);
  }
  const [problem] = read.problems;
  return refuse(problem?.message ?? "a charge was expected", problem?.hint ?? "write it as in `40 %`");
}

/** Another moment: with nothing on, or like another one. */
export function addState(stand: Stand, { name, like }: Asked<"add-state">): ActResult {
  const key = readNewName(name, "states", namesIn(stand.document, ["states"]));
  if (typeof key !== "string") return key;
  const model = like === undefined ? null : findState(stand, like);
  if (model !== null && isRefusal(model)) return model;
  const value = { entries: [model === null ? (["on", []] as const) : (["like", model.name] as const)] };
  return prove(stand, {
    edits: [{ do: "add", path: ["states"], key, value }],
    step: `state ${brief(key)} added`,
    select: `states.${key}`,
    remarks: model === null ? ["nothing is on in it yet but what is always on"] : [],
    mustHold: "everything",
  });
}
