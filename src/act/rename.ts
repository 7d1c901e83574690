import { namesIn } from "../cure/write.ts";
import { foldName, shown } from "../plan/index.ts";
import { isRefusal, nothingToDo, prove, refuse } from "./draft.ts";
import { findThing, type Thing } from "./find-thing.ts";
import { mentionsOf, type MentionedSection } from "./mentions.ts";
import { oneLine } from "./read-value.ts";
import type { ActRequest, ActResult, NotActed } from "./request.ts";
import type { Stand } from "./stand.ts";
import { brief } from "./step-name.ts";

const RENAMED: readonly MentionedSection[] = ["parts", "circuits", "states", "systems", "zones"];
/** Longer designations fit no sleeve and no drawing. Common practice. */
const LONGEST = 60;
/** Words that mean something else where a name stands. */
const RESERVED = new Set(["unknown", "?", "none", "no", "fuse", "breaker"]);
const STATE_WORDS = new Set(["engine", "shore", "charge", "on", "like", "sun", "ambient", "never together"]);

/** A name that can stand in a path and on a sleeve; or why it cannot. */
export function readNewName(typed: string, section: string, taken: readonly string[]): string | NotActed {
  const line = oneLine(typed);
  if (typeof line !== "string") return line;
  const name = line.replace(/\s+/g, " ");
  const folded = foldName(name);
  if (name === "") return refuse("a name was expected", "type one");
  if (name.length > LONGEST) {
    return refuse(
      `a name of ${name.length} characters; at most ${LONGEST} are taken here`,
      "shorten it; longer words go under `name`",
    );
  }
  if (RESERVED.has(folded) || ((section === "parts" || section === "states") && STATE_WORDS.has(folded))) {
    return refuse(`\`${shown(name)}\` means something else in a plan`, "choose another name");
  }
  if (section === "parts" && /→|->|=>|⟶| \+ |[:.]$|^[:.]|:\S/.test(name)) {
    return refuse(
      `\`${shown(name)}\` would be read as a path or a terminal`,
      "choose a name without arrows, `+` between blanks, and colons",
    );
  }
  if (taken.some((other) => foldName(other) === folded)) {
    return refuse(`\`${shown(name)}\` is in the plan already`, "choose another name");
  }
  return name;
}

export function rename(stand: Stand, { about, to }: Extract<ActRequest, { readonly do: "rename" }>): ActResult {
  const thing = findThing(stand, about);
  return isRefusal(thing) ? thing : renameThing(stand, thing, to);
}

/** Another designation, in every place that speaks of it. */
export function renameThing(stand: Stand, { section, name, about }: Thing, to: string): ActResult {
  const own = RENAMED.find((s) => s === section);
  if (own === undefined)
    return refuse(`\`${shown(name)}\` cannot be renamed`, "rename a part, circuit, state, system or zone");
  const others = namesIn(stand.document, [section]).filter((n) => n !== name);
  const put = readNewName(to, section, others);
  if (typeof put !== "string") return put;
  const step = `${brief(name)} renamed ${brief(put)}`;
  if (put === name) return nothingToDo(stand, step, about, "it is called so already");
  const mentions = mentionsOf(stand.document, own, name);
  const edits = [{ do: "rename", path: [section, name], to: put, and: mentions.map(({ at }) => at) }] as const;
  const count = mentions.length;
  const remarks =
    count === 0
      ? []
      : [`it is named in ${count} more place${count === 1 ? "" : "s"}, which ${count === 1 ? "follows" : "follow"}`];
  return prove(stand, { edits, step, select: `${section}.${put}`, remarks, mustHold: "everything" });
}
