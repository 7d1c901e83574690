import { isWritten, put, takeOff, textOf } from "../cure/write.ts";
import { circuitKeys, foldName, nearestNames, partKeys, shown, type KeyRules } from "../plan/index.ts";
import {
  climateKeys,
  measuredKeys,
  placeKeys,
  stateKeys,
  stockKeys,
  systemKeys,
  waiverKeys,
  zoneKeys,
} from "../plan/grammar/section-keys.ts";
import type { Path } from "../plan/text/index.ts";
import { readQuantity, type Dimension } from "../quantity/index.ts";
import { findRuleSet } from "../ruleset/index.ts";
import { kinds } from "../system/index.ts";
import { askBack, tooLong } from "./ask-back.ts";
import { readDeviceSentence, wayWords } from "./device-sentence.ts";
import { isRefusal, nothingToDo, prove, refuse } from "./draft.ts";
import { findPartAndWay, findThing, type Thing } from "./find-thing.ts";
import { pinDevice, pinSize, unpinDevice } from "./pin.ts";
import { oneLine, readValue, withoutSeparator } from "./read-value.ts";
import { renameThing } from "./rename.ts";
import type { ActRequest, ActResult, KeyPath, NotActed } from "./request.ts";
import type { Stand } from "./stand.ts";
import { brief, stepName } from "./step-name.ts";

type Asked = Extract<ActRequest, { readonly do: "set-figure" }>;

const SECTION_KEYS: Readonly<Record<string, KeyRules>> = {
  circuits: circuitKeys,
  systems: systemKeys,
  zones: zoneKeys,
  places: placeKeys,
  states: stateKeys,
  waivers: waiverKeys,
  measured: measuredKeys,
};
/** Sections of one value, and sections that are themselves a record. */
const LINES = ["name", "revision", "country", "for"];
const RECORDS: Readonly<Record<string, KeyRules>> = { stock: stockKeys, climate: climateKeys };
/** Which key holds what a load takes: the first that is written. */
const LOAD_KEYS = ["running", "rated"];
/** Fields that people call otherwise than the language does. */
const CALLED: Readonly<Record<string, string>> = {
  amps: "load",
  watts: "load",
  current: "load",
  power: "load",
  start: "starting",
  "start amps": "starting",
  "least volts": "runs above",
  "start volts": "starts above",
  size: "wire",
  volts: "volts",
  what: "kind",
};

/** A figure or word typed on a drawing goes into its line. */
export function setFigure(stand: Stand, { about, field, text }: Asked): ActResult {
  const asked = foldName(field);
  if (about === "plan" || RECORDS[foldName(about)] !== undefined) return setWhole(stand, foldName(about), asked, text);
  const way = about.includes(":") ? findPartAndWay(stand, about) : null;
  if (way !== null && !("ok" in way) && way.way !== null) {
    return asked === "device"
      ? setWayDevice(stand, way.part, way.way, text)
      : refuse(`a way has no \`${shown(field)}\``, "its `device` can be changed");
  }
  const thing = findThing(stand, about);
  if (isRefusal(thing)) return thing;
  if (asked === "designation") {
    return renameThing(stand, thing, text);
  }
  if (thing.section === "systems" && asked === "rules") return setRules(stand, thing, text);
  const device = thing.section === "circuits" ? /^device(?: (\d+))?$/.exec(asked) : null;
  if (device !== null) {
    const nth = Number(device[1] ?? 1) - 1;
    return text.trim() === "" ? unpinDevice(stand, thing) : pinDevice(stand, thing, text, nth);
  }
  const key = keyOf(stand, thing, asked);
  if (key === "wire" && text.trim() !== "") return pinSize(stand, thing, text);
  const rules = rulesOf(stand, thing);
  const [spelt, rule] = Object.entries(rules).find(([own]) => foldName(own) === key) ?? [];
  if (spelt === undefined || rule === undefined) {
    const near = nearestNames(key, Object.keys(rules), 1)[0];
    return refuse(
      `\`${shown(thing.name)}\` has no field \`${shown(field)}\``,
      near === undefined ? "write it in the text of the plan" : `did you mean \`${near}\`?`,
    );
  }
  const path = [thing.section, thing.name, spelt];
  if (key === "length" && isWritten(stand.document, [...path.slice(0, 2), "legs"])) {
    return refuse(
      `\`${shown(thing.name)}\` has several stops and a length for each stretch`,
      "change its `legs` in the text of the plan",
    );
  }
  return write(stand, thing.about, thing.name, spelt, path, text, rule.value);
}

function keyOf({ document }: Stand, { section, name }: Thing, asked: string): string {
  const called = CALLED[asked] ?? asked;
  if (section === "systems" && asked === "volts") return "nominal";
  if (called !== "load" || section !== "parts") return called;
  return LOAD_KEYS.find((key) => isWritten(document, [section, name, key])) ?? "running";
}

/** Keys that may stand under a thing. */
function rulesOf({ build }: Stand, { section, name }: Thing): KeyRules {
  const kind = section === "parts" ? build.part(name)?.plan?.kind : undefined;
  const own = kinds.find((k) => k.name === kind)?.facts ?? {};
  return section === "parts" ? { ...partKeys, ...own } : (SECTION_KEYS[section] ?? {});
}

function write(
  stand: Stand,
  about: KeyPath,
  name: string,
  key: string,
  path: Path,
  typed: string,
  rule: KeyRules[string]["value"],
): ActResult {
  const { document } = stand;
  const now = textOf(document, path);
  const field = key === "name" && about !== "plan" ? "is called" : key;
  if (typed.trim() === "") {
    const edits = takeOff(document, path);
    const step = stepName(name, field, now, null);
    if (edits.length === 0) return nothingToDo(stand, step, about, `\`${key}\` is not written: nothing to take away`);
    if (key === "path") {
      return refuse("a circuit cannot be without its path", "remove the circuit, or write where it leads");
    }
    const remark = `\`${key}\` is left out: it is chosen or assumed again where the tool can, else missing`;
    return prove(stand, { edits, step, select: about, remarks: [remark], mustHold: about });
  }
  const value = readFigure(stand, typed, key, rule);
  if (typeof value !== "string") return value;
  const step = stepName(name, field, now, value);
  if (now === value) return nothingToDo(stand, step, about, `it is \`${brief(value)}\` already`);
  if (now === null && isWritten(document, path)) {
    return refuse(`\`${key}\` of \`${shown(name)}\` holds more than one value`, "change it in the text of the plan");
  }
  return prove(stand, { edits: [put(document, path, value)], step, select: about, remarks: [], mustHold: about });
}

/** Dimensions of which a person is told what to write in the units of the plan. */
const TOLD: readonly Dimension[] = ["length", "current", "power"];

/** What was typed, read by the rule of its key; else what to write instead. */
function readFigure(stand: Stand, typed: string, key: string, rule: KeyRules[string]["value"]): string | NotActed {
  const asked = rule.takes?.dimensions ?? [];
  const isTold = asked.length > 0 && asked.every((one) => TOLD.includes(one));
  const value = readValue(typed, rule);
  if (typeof value === "string") {
    const read = key === "length" && asked.includes("length") ? readQuantity(value, "length") : null;
    return read?.ok === true && read.amount.form !== "unknown"
      ? (tooLong(stand, value, read.amount.high) ?? value)
      : value;
  }
  if (!isTold) return value;
  return askBack(stand, value, withoutSeparator(typed), asked, (text) => {
    const again = readValue(text, rule);
    return typeof again === "string" ? null : again;
  });
}

/** What the plan says of the build as a whole. */
function setWhole(stand: Stand, section: string, field: string, text: string): ActResult {
  const rules = RECORDS[section];
  if (rules === undefined) {
    if (!LINES.includes(field)) return refuse(`a plan has no field \`${shown(field)}\``, `it has ${LINES.join(", ")}`);
    const value = oneLine(text);
    if (typeof value !== "string") return value;
    const now = textOf(stand.document, [field]);
    const step = stepName(field, "", now, value === "" ? null : value);
    const taken = takeOff(stand.document, [field]);
    const after = stand.document.sections[0]?.key.text ?? null;
    const edits =
      value === "" ? taken : [now === null ? added(field, value, after) : put(stand.document, [field], value)];
    return prove(stand, { edits, step, select: "plan", remarks: [], mustHold: "everything" });
  }
  const rule = rules[field];
  if (rule === undefined) {
    const near = nearestNames(field, Object.keys(rules), 1)[0] ?? Object.keys(rules)[0] ?? "";
    return refuse(`\`${section}\` has no field \`${shown(field)}\``, `did you mean \`${near}\`?`);
  }
  return write(stand, section, section, field, [section, field], text, rule.value);
}

const added = (key: string, value: string, after: string | null) =>
  ({ do: "add", path: [], key, value, after }) as const;

function setRules(stand: Stand, { name, about }: Thing, text: string): ActResult {
  const found = findRuleSet(text);
  if (!found.found) return refuse(found.problem, found.hint);
  const value = `${found.set.id} ${found.edition.name}`;
  const path = ["rules", name];
  const step = stepName(name, "rules", textOf(stand.document, path), value);
  const edits = [put(stand.document, path, value)];
  return prove(stand, { edits, step, select: about, remarks: found.remarks, mustHold: "everything" });
}

/** The device in a way of a panel that lists its ways. */
function setWayDevice(stand: Stand, { name, about }: Thing, way: string, typed: string): ActResult {
  const path = ["parts", name, "ways", way];
  const now = textOf(stand.document, path);
  if (now === null) {
    return refuse(
      `\`${shown(name)}\` does not list its ways one by one`,
      "change the device of the circuit that stands on the way",
    );
  }
  const read = typed.trim() === "" ? null : readDeviceSentence(typed);
  if (read !== null && isRefusal(read)) return read;
  // Without words the way keeps its kind of device, and which one is left to be chosen.
  const kind = /breaker|fuse/i.exec(now)?.[0].toLowerCase() ?? "breaker";
  const value = read === null ? kind : read.none ? "none" : wayWords(read, now);
  const step = stepName(`${name}:${way}`, "", now, value);
  return prove(stand, {
    edits: [put(stand.document, path, value)],
    step,
    select: about,
    remarks: [],
    mustHold: about,
  });
}
