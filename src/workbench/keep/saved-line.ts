import type { BuildHead } from "./build.ts";
import { TOO_LARGE, type FileFault } from "./file.ts";
import type { StoreFault } from "./store.ts";

/** Why a file does not have what the page has. */
export type FileTrouble = FileFault | "changed-outside" | "damaged";

/** Where the work is kept. */
export type Saving =
  /** In a file of the person's; `at`: when page and file last agreed, ms. */
  | {
      readonly kept: "file";
      readonly file: string;
      readonly at: number;
      readonly writing: boolean;
      /** Handed to the browser; where it put it, or whether, the page cannot know. */
      readonly download: boolean;
    }
  /** In the browser, and not all of it in a file. */
  | {
      readonly kept: "browser";
      /** Changes that are in no file, and when the first was made. */
      readonly changes: number;
      readonly since: number | null;
      /** The file that has what was there before. */
      readonly file: { readonly name: string; readonly at: number } | null;
      /** Why the file did not take the rest; null: nobody has asked it yet. */
      readonly why: FileTrouble | null;
    }
  /** Nowhere but in this page; `since`: when it was last kept anywhere. */
  | { readonly kept: "not"; readonly since: number; readonly why: StoreFault };

/**
 * Where a build is kept.
 *
 * @param file how the writing of its file goes
 * @param fault why the store did not take the last change; null: it did
 * @param keptAt when the store last took something, ms
 */
export function savingOf(
  build: BuildHead,
  file: { readonly writing: boolean; readonly trouble: FileTrouble | null },
  fault: StoreFault | null,
  keptAt: number,
): Saving {
  const link = build.file === null ? null : { name: build.file.name, at: build.file.savedAt };
  const inFile = { kept: "file", file: link?.name ?? "", at: link?.at ?? 0 } as const;
  const download = build.file?.how === "download";
  if (link !== null && build.unsaved === 0) return { ...inFile, writing: false, download };
  if (fault !== null) return { kept: "not", since: keptAt, why: fault };
  if (link !== null && file.writing) return { ...inFile, writing: true, download };
  return { kept: "browser", changes: build.unsaved, since: build.unsavedSince, file: link, why: file.trouble };
}

/** The words in the head. */
export interface SavedLine {
  readonly says: string;
  readonly level: "calm" | "warn" | "fail";
}

/** From so many changes on, or after so long, in ms, a plan that is in no file is pointed out. */
const MANY_CHANGES = 10;
const LONG = 24 * 60 * 60 * 1000;

/**
 * Says where the work is kept.
 *
 * @param now ms since 1970; days and hours are those of the place where the code runs
 */
export function savedLine(saving: Saving, now: number): SavedLine {
  switch (saving.kept) {
    case "file":
      if (saving.writing) return { says: `Saving in ${saving.file}`, level: "calm" };
      return {
        says: `${saving.download ? "Downloaded as" : "Saved in"} ${saving.file}, ${timeOf(saving.at, now)}`,
        level: "calm",
      };
    case "browser":
      return { says: browserWords(saving, now), level: isLong(saving, now) || saving.why !== null ? "warn" : "calm" };
    case "not":
      return { says: `Not saved since ${timeOf(saving.since, now)}: ${STORE_REASONS[saving.why]}`, level: "fail" };
  }
}

type InBrowser = Extract<Saving, { kept: "browser" }>;

function isLong({ changes, since }: InBrowser, now: number): boolean {
  return changes >= MANY_CHANGES || (changes > 0 && since !== null && now - since >= LONG);
}

function browserWords(saving: InBrowser, now: number): string {
  const { changes, file, why } = saving;
  const some = `${changes} change${changes === 1 ? "" : "s"}`;
  if (file !== null && why !== null) return `Kept in this browser only: ${FILE_REASONS[why](file.name)}`;
  if (file !== null) return `${some} kept in this browser only, not yet in ${file.name}`;
  if (!isLong(saving, now)) return "Kept in this browser only";
  return `${some} ${changes === 1 ? "is" : "are"} kept in this browser only. Save to a file you own.`;
}

const STORE_REASONS = {
  denied: "this browser lends no store. Everything is still here. Save to a file.",
  full: "the disk is full. Everything is still here. Save elsewhere.",
  broken: "the browser's store does not answer. Everything is still here. Save to a file.",
  elsewhere: "another tab has written since. Everything is still here. Save it under another name.",
} as const satisfies Record<StoreFault, string>;

const FILE_REASONS = {
  cancelled: (name) => `not yet in ${name}.`,
  asks: (name) => `the browser asks again before it writes into ${name}. Save to let it.`,
  denied: (name) => `the browser may not write into ${name}. Save under another name.`,
  full: (name) => `no room on the disk for ${name}. Save elsewhere.`,
  gone: (name) => `${name} is no longer where it was. Save it again.`,
  "too-large": (name) => `${name} ${TOO_LARGE}. Save under another name.`,
  broken: (name) => `${name} cannot be written. Save under another name.`,
  "changed-outside": (name) => `${name} was changed outside at the same lines. Compare both.`,
  damaged: (name) => `${name} holds bytes that are no text, and stays as it is. Save under another name.`,
} as const satisfies Record<FileTrouble, (name: string) => string>;

/**
 * Where a build of the list is kept.
 *
 * @param crashed its tab went without a goodbye
 */
export function rowLine({ file, unsaved }: BuildHead, crashed: boolean, now: number): string {
  const changes = `${unsaved} change${unsaved === 1 ? "" : "s"} not yet in ${file?.name ?? "a file"}`;
  if (unsaved > 0) return crashed ? `${changes}, found after a crash` : changes;
  if (file === null) return "kept in this browser only";
  return `in ${file.name}, saved ${timeOf(file.savedAt, now)}`;
}

/**
 * A moment as people say it: `14:02`, `yesterday 22:41`, `3 November`, `3 November 2024`.
 *
 * @param at ms since 1970
 */
export function timeOf(at: number, now: number): string {
  const [then, today] = [new Date(at), new Date(now)];
  const clock = `${pad(then.getHours())}:${pad(then.getMinutes())}`;
  if (isDay(then, today, 0)) return clock;
  if (isDay(then, today, 1)) return `yesterday ${clock}`;
  const day = `${then.getDate()} ${MONTHS[then.getMonth()] ?? ""}`;
  return then.getFullYear() === today.getFullYear() ? day : `${day} ${then.getFullYear()}`;
}

const pad = (n: number): string => String(n).padStart(2, "0");

/** Whether a moment lies so many days before another: by the calendar, as a day may have 23 or 25 hours. */
function isDay(then: Date, today: Date, before: number): boolean {
  const day = new Date(today.getFullYear(), today.getMonth(), today.getDate() - before);
  return then.toDateString() === day.toDateString();
}

const MONTHS = [
  "January",
  "February",
  "March",
  "April",
  "May",
  "June",
  "July",
  "August",
  "September",
  "October",
  "November",
  "December",
] as const;
