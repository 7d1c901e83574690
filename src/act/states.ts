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
  const found = findBoth(stand, about, state);
  return isRefusal(found) ? found : turn(stand, found, to);
}

/** A load that is on in a state goes off and the other way round; what has positions goes to its next one, from the last to the first. */
export function flip(stand: Stand, { about, state }: Asked<"flip">): ActResult {
  const found = findBoth(stand, about, state);
  if (isRefusal(found)) return found;
  const { thing, moment } = found;
  const positions = positionsOf(stand, thing);
  if (positions.length === 0 && isAlwaysOn(stand, thing)) {
    return nothingToDo(stand, `${brief(thing.name)} stays on in ${brief(moment.name)}`, thing.about, ALWAYS_ON);
  }
  const now = standsAt(stand, moment, thing);
  const words = positions.length === 0 ? ["on", "off"] : positions;
  return turn(stand, found, words[(words.indexOf(now) + 1) % words.length] ?? "on");
}

const ALWAYS_ON = "it is always on: what a state says of it changes nothing";

interface Both {
  readonly thing: Thing;
  readonly moment: Thing;
}

function findBoth(stand: Stand, about: string, state: string): Both | NotActed {
  const thing = findThing(stand, about, ["parts"]);
  if (isRefusal(thing)) return thing;
  const moment = findState(stand, state);
  return isRefusal(moment) ? moment : { thing, moment };
}

function turn(stand: Stand, { thing, moment }: Both, to: string): ActResult {
  const edits = switchEdits(stand, moment, thing, to);
  if (isRefusal(edits)) return edits;
  const step = `${brief(thing.name)} ${brief(to)} in ${brief(moment.name)}`;
  if (edits.length === 0) return nothingToDo(stand, step, thing.about, "it is so already");
  return prove(stand, {
    edits,
    step,
    select: thing.about,
    remarks: [
      ...(isAlwaysOn(stand, thing) ? [ALWAYS_ON] : []),
      ...heirs(stand, moment, (state) => saysOf(stand, state, thing)),
    ],
    mustHold: moment.about,
  });
}

const isAlwaysOn = ({ build }: Stand, { name }: Thing): boolean =>
  build.part(name)?.plan?.kindFacts["always on"]?.value === true;

const positionsOf = ({ build }: Stand, { name }: Thing): readonly string[] => build.part(name)?.part.positions ?? [];

const solvedState = ({ compiled }: Stand, name: string) => compiled.system.states.find(({ id }) => id === name);

/** Where a part stands in a state, said or not: a switch of which nothing is said is at its first position. */
function standsAt(stand: Stand, moment: Thing, thing: Thing): string {
  const [first] = positionsOf(stand, thing);
  const solved = solvedState(stand, moment.name);
  if (first !== undefined) return solved?.positions[thing.name] ?? first;
  return solved?.on.includes(thing.name) === true ? "on" : "off";
}

/** Whether a state says itself how a part stands, so that no other state says it for it. */
function saysOf(stand: Stand, state: string, thing: Thing): boolean {
  const { document } = stand;
  if (isWritten(document, ["states", state, thing.name])) return true;
  const list = ["states", state, "on"];
  // A list of loads takes the place of the whole list that was taken over; positions stay unless they are named in it.
  return positionsOf(stand, thing).length === 0
    ? isWritten(document, list)
    : textsOf(document, list).some((text) => foldName(text) === foldName(thing.name));
}

/** States that start from another one, or from one that does, and take over what changes in it. */
function heirs({ build }: Stand, moment: Thing, says: (state: string) => boolean): readonly string[] {
  const found: string[] = [];
  for (let models = [foldName(moment.name)]; models.length > 0;) {
    const next = build.plan.states
      .filter(({ key, facts }) => models.includes(foldName(facts.like?.value ?? "")) && !says(key))
      .map(({ key }) => key)
      .filter((key) => key !== moment.name && !found.includes(key));
    found.push(...next);
    models = next.map(foldName);
  }
  const names = found.map((name) => `\`${shown(name)}\``).join(", ");
  return found.length === 0 ? [] : [`so it is in ${names}, which ${found.length === 1 ? "starts" : "start"} from it`];
}

/** Edits that put a part into a position in a state; none where it is in it. */
export function switchEdits(stand: Stand, moment: Thing, thing: Thing, to: string): readonly Edit[] | NotActed {
  const { document } = stand;
  const positions = positionsOf(stand, thing);
  const word = foldName(to);
  const name = `\`${shown(thing.name)}\``;
  const solved = solvedState(stand, moment.name);
  const own = namesIn(document, ["states", moment.name]).find((key) => foldName(key) === foldName(thing.name));
  const said = ["states", moment.name, own ?? thing.name];
  if (positions.length > 0) {
    const position = positions.find((p) => foldName(p) === word);
    if (position === undefined) {
      const words = positions.map((p) => `\`${shown(p)}\``).join(", ");
      return refuse(`${name} has no position \`${shown(to)}\``, `its positions are ${words}`);
    }
    return solved?.positions[thing.name] === position ? [] : [put(document, said, position)];
  }
  if (!canRun(stand, thing)) return refuse(`${name} is never turned on or off`, "choose a load, a switch or a source");
  if (word !== "on" && word !== "off")
    return refuse(`\`${shown(to)}\` is no position of a load`, "write `on` or `off`");
  if (standsAt(stand, moment, thing) === word) return [];
  const list = ["states", moment.name, "on"];
  const texts = textsOf(document, list);
  const without = texts.filter((text) => foldName(text) !== foldName(thing.name));
  const above = own === undefined ? [] : takeOff(document, said);
  if (word === "off" && without.length < texts.length) {
    const at = texts.findIndex((text) => foldName(text) === foldName(thing.name));
    const isOne = without.length === texts.length - 1 && without.length > 0;
    return [...above, ...(isOne ? takeOff(document, [...list, at]) : [put(document, list, without)])];
  }
  // Where the state contradicts what it starts from, it need no longer.
  if (
    own !== undefined &&
    !isWritten(document, list) &&
    modelOf(stand, moment)?.on.includes(thing.name) === (word === "on")
  ) {
    return above;
  }
  // A list on one line grows; one that is inherited or has lines of its own stays, and the state says it of the part.
  if (word === "on" && texts.length > 0 && isOnOneLine(stand, list))
    return [...above, put(document, list, [...texts, thing.name])];
  if (word === "on" && !isWritten(document, ["states", moment.name, "like"]) && texts.length === 0) {
    return [...above, put(document, list, [thing.name])];
  }
  return [put(document, said, word)];
}

/** Whether a part can be named as on; of one that is not read yet nobody knows. */
function canRun({ build }: Stand, { name }: Thing): boolean {
  const view = build.part(name);
  if (view === undefined || view.part.traits.load === true) return true;
  return view.elements.some(({ is }) => is === "draw" || is === "converter" || is === "feed");
}

function modelOf(stand: Stand, { name }: Thing) {
  const like = stand.build.plan.states.find(({ key }) => key === name)?.facts.like?.value;
  return stand.compiled.system.states.find(({ id }) => foldName(id) === foldName(like ?? ""));
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
    remarks: heirs(stand, moment, (name) => isWritten(stand.document, ["states", name, key])),
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
