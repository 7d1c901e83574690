import type { JudgementTally } from "../../rules/index.ts";
import { leadsTo, newLog, textOf, type Log } from "./log.ts";
import type { FileForm } from "./file-form.ts";

/** The file of a build, as it was when page and file last agreed. */
export interface FileLink {
  readonly name: string;
  /** What stood in it, line ends made plain: the common ancestor if it is changed outside. */
  readonly text: string;
  readonly form: FileForm;
  /** The file's own time of change then, ms; 0 where the page cannot look at the file again. */
  readonly modified: number;
  /** When page and file last agreed, ms. */
  readonly savedAt: number;
  /** The page may write into it again, it only gave it to the browser as a download, or it only read it. */
  readonly how: "linked" | "download" | "read";
}

/** What the compiler made of the text when it was last good. */
export interface Summary {
  /** As the plan states them: `Coastal sloop`, `B`. */
  readonly name: string;
  readonly revision: string;
  readonly tally: JudgementTally;
}

/** All about a build but its text. */
export interface BuildHead {
  readonly id: string;
  readonly name: string;
  readonly file: FileLink | null;
  readonly summary: Summary | null;
  /** Changes that are in no file yet, and when the first of them was made. */
  readonly unsaved: number;
  readonly unsavedSince: number | null;
  readonly openedAt: number;
  readonly changedAt: number;
  /** The tab that has it open and has not said goodbye; null: none. */
  readonly openBy: string | null;
  /** Counts the tabs that took the pen, one after the other. The store takes no writing from an earlier one. */
  readonly turn: number;
}

/** A plan with all that is kept about it. */
export interface Build extends BuildHead {
  readonly log: Log;
}

/** A text that compiled without an error of the plan, as it was then. */
export interface GoodCopy {
  readonly at: number;
  readonly text: string;
  readonly summary: Summary;
}

/** So many good copies of a build are kept; the oldest go. */
export const COPIES_KEPT = 30;

/** Makes a build of a text. */
export function newBuild(id: string, name: string, text: string, now: number): Build {
  return {
    id,
    name,
    file: null,
    summary: null,
    unsaved: 0,
    unsavedSince: null,
    openedAt: now,
    changedAt: now,
    openBy: null,
    turn: 0,
    log: newLog(text),
  };
}

/**
 * A build with another state of its undo list.
 *
 * Counts the change among those that are in no file, or forgets all of them if the text is the file's again.
 */
export function withLog(build: Build, log: Log, now: number): Build {
  const saved = build.file?.text === textOf(log);
  return {
    ...build,
    log,
    changedAt: now,
    unsaved: saved ? 0 : Math.max(1, build.unsaved + (grows(build.log, log) ? 0 : 1)),
    unsavedSince: saved ? null : (build.unsavedSince ?? now),
  };
}

/** More keys in a step that is counted already. */
function grows(before: Log, after: Log): boolean {
  return (
    before.done > 0 && before.folded + before.done === after.folded + after.done && after.done === after.steps.length
  );
}

/** A build whose text stands in its file. */
export function withFile(build: Build, file: FileLink): Build {
  const saved = file.text === textOf(build.log);
  return {
    ...build,
    file,
    unsaved: saved ? 0 : Math.max(1, build.unsaved),
    unsavedSince: saved ? null : (build.unsavedSince ?? build.changedAt),
  };
}

/** Puts a build together from what a store gave; a history that does not lead to the text is given up, the text is not. */
export function readBuild(head: BuildHead, text: string, log: Log): Build {
  return { ...head, log: leadsTo(log, text) ? log : newLog(text) };
}
