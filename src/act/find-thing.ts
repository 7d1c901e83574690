import { namesIn } from "../cure/write.ts";
import { foldName, nearestNames, shown } from "../plan/index.ts";
import { refuse } from "./draft.ts";
import type { KeyPath, NotActed } from "./request.ts";
import type { Stand } from "./stand.ts";

/** What a name stands for, as messages say it. */
const SAID: Readonly<Record<string, string>> = {
  parts: "part",
  circuits: "circuit",
  states: "state",
  systems: "system",
  zones: "zone",
  places: "place",
  waivers: "waiver",
};

/** A thing that is written in the plan. */
export interface Thing {
  readonly section: string;
  /** As the plan writes it. */
  readonly name: string;
  readonly about: KeyPath;
}

/** A thing by its key path, whatever the case and blanks of its name; or who may have been meant. */
export function findThing({ document }: Stand, about: KeyPath, sections?: readonly string[]): Thing | NotActed {
  const [, said = "", rest = ""] = /^(\w+)\.(.*)$/s.exec(about) ?? [];
  const section = foldName(said);
  const kind = SAID[section];
  if (kind === undefined || (sections !== undefined && !sections.includes(section))) {
    const wanted = (sections ?? Object.keys(SAID)).map((s) => `a ${SAID[s] ?? s}`).join(" or ");
    return refuse(`\`${shown(about)}\` is not ${wanted}`, "choose one on the drawing or in the list");
  }
  const names = namesIn(document, [section]);
  const name =
    names.find((n) => n === rest) ?? names.find((n) => foldName(n) === foldName(rest)) ?? endOf(section, names, rest);
  if (name !== undefined) return { section, name, about: `${section}.${name}` };
  const near = nearestNames(rest, names, 1)[0];
  return refuse(
    `no ${kind} is called \`${shown(rest)}\``,
    near === undefined ? "choose one on the drawing or in the list" : `did you mean \`${shown(near)}\`?`,
  );
}

/** Findings also speak of one end of a circuit. */
function endOf(section: string, names: readonly string[], name: string): string | undefined {
  const circuit = section === "circuits" ? /^(.*)\.(?:from|to)$/s.exec(name)?.[1] : undefined;
  return circuit === undefined ? undefined : names.find((n) => foldName(n) === foldName(circuit));
}

/** A part, and a way of it where one is named: `parts.PNL:3`, `parts.ACP:inverter.2`. */
export function findPartAndWay(stand: Stand, about: KeyPath): { part: Thing; way: string | null } | NotActed {
  const whole = findThing(stand, about, ["parts"]);
  if (!("ok" in whole)) return { part: whole, way: null };
  const colon = about.lastIndexOf(":");
  const part = colon < 0 ? whole : findThing(stand, about.slice(0, colon), ["parts"]);
  if ("ok" in part) return whole;
  return { part, way: about.slice(colon + 1).trim() };
}
