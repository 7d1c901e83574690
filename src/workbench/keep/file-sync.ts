import { withFile, withLog, type Build, type FileLink } from "./build.ts";
import type { Clock } from "./clock.ts";
import type { FileHandle, Files, OpenedFile } from "./file.ts";
import { pushStep, textOf } from "./log.ts";
import { mergeLines } from "./merge-lines.ts";
import type { FileTrouble } from "./saved-line.ts";
import { splicesBetween } from "./splices-between.ts";

/** So long, in ms, after the last change the file is written. */
const REST = 2000;

/** What does not pass by itself. */
const WAITS_FOR_A_PERSON: ReadonlySet<FileTrouble> = new Set(["changed-outside", "damaged", "denied", "gone"]);

/** A plan that was changed here and in its file, at the same lines. */
export interface Comparison {
  readonly fileName: string;
  /** What both started from. */
  readonly base: string;
  readonly theirs: string;
}

/** Keeps a build and its file the same. */
export interface FileSync {
  /** The file that the page may write; null: none. */
  readonly link: (handle: FileHandle | null, trouble: FileTrouble | null) => void;
  readonly handle: () => FileHandle | null;
  readonly state: () => {
    readonly writing: boolean;
    readonly trouble: FileTrouble | null;
    readonly comparison: Comparison | null;
  };
  /** The text has changed: the file follows after a rest. */
  readonly touch: () => void;
  /** Looks whether the file was changed outside, and takes that over where it can. */
  readonly look: () => Promise<void>;
  /** @param mayAsk called from a click */
  readonly save: (mayAsk: boolean) => Promise<FileTrouble | null>;
  /** Decides a comparison: what stands here goes into the file, or what stands in the file comes here. One undo gives the other. */
  readonly decide: (whose: "mine" | "theirs") => Promise<void>;
}

export interface FileSyncParts {
  readonly files: Files;
  readonly clock: Clock;
  readonly build: () => Build | null;
  /** Another state of the build; the text is a new one if a step came from the file. */
  readonly become: (build: Build, text: boolean) => void;
  /** Another state of the writing. */
  readonly onState: () => void;
}

export function fileSync({ files, clock, build, become, onState }: FileSyncParts): FileSync {
  let handle: FileHandle | null = null;
  let trouble: FileTrouble | null = null;
  let found: OpenedFile | null = null;
  let stop: (() => void) | null = null;
  /** Looking and writing happen one after the other. */
  let busy: Promise<FileTrouble | null> | null = null;

  /** The build and its file, if they are still those that some work began with. */
  const here = (mine: FileHandle): { now: Build; file: FileLink } | null => {
    const now = build();
    return handle === mine && now !== null && now.file !== null ? { now, file: now.file } : null;
  };

  const halt = (): void => {
    stop?.();
    stop = null;
  };

  /** Looks at the file; null: nothing stands in the way of writing it. */
  const reconcile = async (mine: FileHandle): Promise<FileTrouble | null> => {
    const looked = await files.modified(mine);
    if (!looked.ok) return looked.why;
    if (here(mine)?.file.modified === looked.value && found === null) return null;
    const read = await files.read(mine);
    const there = here(mine);
    if (!read.ok) return read.why;
    if (there === null) return null;
    if (read.value.damagedLine !== null) return "damaged";
    const { now, file } = there;
    const [text, theirs] = [textOf(now.log), read.value.text];
    const merged = mergeLines(file.text, text, theirs);
    if (merged === null) {
      found = read.value;
      return "changed-outside";
    }
    found = null;
    take(now, file, read.value, [merged]);
    return null;
  };

  /** Goes on from what was found in the file, by one text after the other: each is a step, so that undo reaches all of them. */
  const take = (now: Build, file: FileLink, read: OpenedFile, texts: readonly string[]): void => {
    const names = [`${file.name} changed outside`, `mine instead of ${file.name}`];
    let next = now;
    for (const [i, text] of texts.entries()) {
      const splices = splicesBetween(textOf(next.log), text);
      const log = pushStep(next.log, { name: names[i] ?? "", splices, at: clock.now() });
      if (log !== next.log) next = withLog(next, log, clock.now());
    }
    const { text: theirs, form, modified } = read;
    const changed = textOf(next.log) !== textOf(now.log);
    become(withFile(next, { ...file, text: theirs, form, modified }), changed);
  };

  const alone = async (work: () => Promise<FileTrouble | null>): Promise<FileTrouble | null> => {
    busy = work();
    onState();
    try {
      return await busy;
    } finally {
      busy = null;
    }
  };

  const save = async (mayAsk: boolean): Promise<FileTrouble | null> => {
    halt();
    // What was changed since the last writing began is not in it.
    while (busy !== null) await busy;
    const mine = handle;
    if (mine === null) return null;
    const failed = await alone(() => write(mine, mayAsk));
    if (handle === mine) {
      trouble = failed;
      const now = build();
      if (failed === null && now !== null && now.unsaved > 0) touch();
    }
    onState();
    return failed;
  };

  const write = async (mine: FileHandle, mayAsk: boolean): Promise<FileTrouble | null> => {
    const allowed = await files.allow(mine, mayAsk);
    if (!allowed.ok) return allowed.why;
    const against = await reconcile(mine);
    const before = here(mine);
    if (against !== null || before === null) return against;
    const text = textOf(before.now.log);
    if (text === before.file.text) return null;
    const written = await files.write(mine, text, before.file.form);
    const after = here(mine);
    if (!written.ok) return written.why;
    const { modified } = written.value;
    if (after !== null) become(withFile(after.now, { ...after.file, text, modified, savedAt: clock.now() }), false);
    return null;
  };

  const touch = (): void => {
    halt();
    if (handle === null || (trouble !== null && WAITS_FOR_A_PERSON.has(trouble))) return;
    stop = clock.after(REST, () => {
      stop = null;
      void save(false);
    });
  };

  return {
    link(next, why) {
      halt();
      [handle, trouble, found] = [next, why, null];
    },
    handle: () => handle,
    state: () => ({
      writing: (busy !== null || stop !== null) && trouble === null,
      trouble,
      comparison: found === null ? null : { fileName: found.name, base: build()?.file?.text ?? "", theirs: found.text },
    }),
    touch,
    async look() {
      const mine = handle;
      if (mine === null || busy !== null) return;
      const failed = await alone(() => reconcile(mine));
      // Between visits the browser lets nobody look before it has asked; that is no news.
      if (handle === mine && failed !== "asks" && failed !== "denied") trouble = failed;
      if ((build()?.unsaved ?? 0) > 0) touch();
      onState();
    },
    save,
    async decide(whose) {
      const there = handle === null ? null : here(handle);
      const read = found;
      if (there === null || read === null) return;
      [found, trouble] = [null, null];
      // Mine is put over theirs as a step of its own: what stood in the file is one undo away before it is written over.
      take(there.now, there.file, read, whose === "mine" ? [read.text, textOf(there.now.log)] : [read.text]);
      await save(true);
    },
  };
}
