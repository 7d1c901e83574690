import { copyOf, namesIn, put, takeOff } from "../cure/write.ts";
import { foldName, shown } from "../plan/index.ts";
import type { Edit } from "../plan/text/index.ts";
import { isRefusal, prove } from "./draft.ts";
import { findThing, type Thing } from "./find-thing.ts";
import { mentionsOf, type Mention } from "./mentions.ts";
import type { ActRequest, ActResult } from "./request.ts";
import type { Stand } from "./stand.ts";
import { brief } from "./step-name.ts";

const REMOVED = ["parts", "circuits", "states", "zones", "places", "waivers"];

/**
 * Takes a thing out of the plan. Circuits of a part that goes stay as they are written, with an open end: reading the plan says which part is
 * missing. What states say of it goes with it.
 */
export function remove(stand: Stand, { about }: Extract<ActRequest, { readonly do: "remove" }>): ActResult {
  const thing = findThing(stand, about, REMOVED);
  if (isRefusal(thing)) return thing;
  const { section, name } = thing;
  const self: Edit = { do: "remove", path: [section, name] };
  if (section === "circuits") return removeCircuit(stand, thing, self);
  if (section !== "parts") {
    const step = `${brief(name)} removed`;
    return prove(stand, { edits: [self], step, select: null, remarks: [], mustHold: null });
  }
  const mentions = mentionsOf(stand.document, "parts", name);
  const states = mentions.filter((m) => m.section === "states");
  const open = [...new Set(mentions.filter((m) => m.section === "circuits").map((m) => m.entry))];
  const copies = mentions.filter((m) => m.section === "parts" && m.keys.at(-1) === "like").map((m) => m.entry);
  const remarks = [
    ...(copies.length === 0 ? [] : [`its facts go to ${list(copies.slice(0, 1))}, which was written as being like it`]),
    ...(open.length === 0
      ? []
      : [
          `${list(open)} ${open.length === 1 ? "stays, with an open end" : "stay, with open ends"} where \`${shown(name)}\` was`,
        ]),
    ...(states.length === 0
      ? []
      : [`${list([...new Set(states.map((m) => m.entry))])} ${states.length === 1 ? "says" : "say"} no more of it`]),
  ];
  return prove(stand, {
    edits: [...outOfStates(states), ...handOver(stand, name, copies), self],
    step: `${brief(name)} removed`,
    select: open[0] === undefined ? null : `circuits.${open[0]}`,
    remarks,
    mustHold: null,
  });
}

/** Gives the facts of a part to the first that is written as being like it; others are then like that one. */
function handOver({ document }: Stand, name: string, copies: readonly string[]): readonly Edit[] {
  const [heir, ...others] = copies;
  if (heir === undefined) return [];
  const facts = copyOf(document, ["parts", name], {});
  const own = namesIn(document, ["parts", heir]).map(foldName);
  const given = facts.entries.filter(([key]) => !own.includes(foldName(key)) || foldName(key) === "like");
  const inherits = given.some(([key]) => foldName(key) === "like");
  return [
    ...given.map(([key, value]): Edit =>
      foldName(key) === "like"
        ? { do: "set", path: ["parts", heir, "like"], value }
        : { do: "add", path: ["parts", heir], key, value },
    ),
    ...(inherits ? [] : takeOff(document, ["parts", heir, "like"])),
    ...others.map((other) => put(document, ["parts", other, "like"], heir)),
  ];
}

/** What states say of a part, the last item of a list first, so that the places before it hold. */
const outOfStates = (mentions: readonly Mention[]): readonly Edit[] =>
  [...mentions].reverse().map(({ entry, keys }): Edit => ({ do: "remove", path: ["states", entry, ...keys] }));

function removeCircuit(stand: Stand, { name }: Thing, self: Edit): ActResult {
  const view = stand.build.circuit(name);
  const ends = view === undefined ? [] : [view.circuit.from.part, view.circuit.to.part];
  const left = ends.filter((id) => {
    const others = stand.build.circuits.filter(
      (c) => c.id !== name && [c.circuit.from.part, c.circuit.to.part].includes(id),
    );
    return others.length === 0 && stand.build.part(id) !== undefined;
  });
  const remarks = left.length === 0 ? [] : [`no circuit leads to ${list(left)} now`];
  const select = left[0] === undefined ? null : `parts.${left[0]}`;
  return prove(stand, { edits: [self], step: `${brief(name)} removed`, select, remarks, mustHold: null });
}

const MOST_NAMED = 4;

function list(names: readonly string[]): string {
  const some = names.slice(0, MOST_NAMED).map((n) => `\`${shown(n)}\``);
  const more = names.length - some.length;
  return `${some.join(", ")}${more > 0 ? ` and ${more} more` : ""}`;
}
