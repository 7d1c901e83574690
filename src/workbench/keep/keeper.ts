import { newBuild, withFile, withLog, type Build } from "./build.ts";
import { linkOf, listRows, ownerOf } from "./build-rows.ts";
import { fileNameOf, type FileHandle, type OpenedFile } from "./file.ts";
import { plainForm } from "./file-form.ts";
import { fileSync } from "./file-sync.ts";
import { goodCopies } from "./good-copies.ts";
import { holdingStore } from "./holding-store.ts";
import type { Keeper, KeeperChange, KeeperParts } from "./keeper-shape.ts";
import { pushStep, redo, textOf, undo, undoTo, type Log } from "./log.ts";
import { openPen, type Pen } from "./one-pen.ts";
import { savingOf, type FileTrouble } from "./saved-line.ts";
import { storeWriter } from "./store-writer.ts";
import type { StoreFault } from "./store.ts";

export type { CurrentBuild, Keeper, KeeperChange, KeeperParts } from "./keeper-shape.ts";

/** A tab that reads shows what the other one writes so much later, in ms: loading with every key would slow both. */
const FOLLOW = 300;

/** Opens a keeper with no plan open. */
export function openKeeper({ store: lent, files, pens, clock, newId }: KeeperParts): Keeper {
  const store = holdingStore(lent);
  const session = newId();
  const listeners = new Set<(change: KeeperChange) => void>();
  let build: Build | null = null;
  let pen: Pen | null = null;
  let fault: StoreFault | null = store.passing;
  let keptAt = clock.now();
  let damagedLine: number | null = null;
  /** The pen is on its way here: what is shown may not be the last that was written. */
  let taking = false;
  /** The plan is being laid away, and what it has is written for the last time. */
  let leaving = false;
  let queue: Promise<unknown> = Promise.resolve();

  const tell = (change: KeeperChange): void => {
    for (const listener of listeners) listener(change);
  };
  /** Opening, closing and the moving of the pen happen one after the other. */
  const inTurn = <T>(call: () => Promise<T>): Promise<T> => {
    const result = queue.then(call);
    queue = result.catch(() => undefined);
    return result;
  };
  const isReadOnly = (): boolean => build !== null && (taking || pen?.state() === "elsewhere" || fault === "elsewhere");

  const writer = storeWriter(
    store,
    clock,
    () => build,
    (result) => {
      fault = result.ok ? store.passing : result.why;
      if (result.ok) {
        keptAt = clock.now();
        pen?.written();
      }
      tell("head");
    },
  );
  const sync = fileSync({
    files,
    clock,
    build: () => build,
    become(next, text) {
      build = next;
      writer.touch();
      tell(text ? "text" : "head");
    },
    onState: () => {
      tell("head");
    },
  });
  const copies = goodCopies(store, clock);

  const change = (log: Log): boolean => {
    if (build === null || leaving || isReadOnly() || log === build.log) return false;
    build = withLog(build, log, clock.now());
    writer.touch();
    sync.touch();
    return true;
  };
  const changeText = (next: (log: Log) => Log): void => {
    if (build !== null && change(next(build.log))) tell("text");
  };

  const leave = async (): Promise<void> => {
    if (build === null) return;
    if (!isReadOnly()) {
      if (sync.state().writing) await sync.save(false);
      await copies.flush();
      leaving = true;
      build = { ...build, openBy: null };
      writer.touch();
    }
    // Also where the pen was taken without a word: the store decides, and what it refuses is laid aside.
    if (writer.isBehind()) await writer.flush();
    if (fault === "elsewhere") await layAside();
    writer.drop();
    sync.link(null, null);
    pen?.close();
    [build, pen, damagedLine, leaving] = [null, null, null, false];
    fault = store.passing;
  };

  const penFor = (id: string): Promise<Pen> =>
    openPen({
      id,
      host: pens,
      clock,
      flush: () => writer.flush(),
      onLost: () => {
        sync.link(null, null);
        tell("head");
      },
      onWritten: () => {
        follow(id);
      },
    });

  /** Shows what the tab that has the pen has written; what this tab could not store is not thrown away for that. */
  let stopFollowing: (() => void) | null = null;
  const follow = (id: string): void => {
    stopFollowing ??= clock.after(FOLLOW, () => {
      stopFollowing = null;
      void store.load(id).then((loaded) => {
        if (!loaded.ok || loaded.value === null || build?.id !== id || !isReadOnly() || fault === "elsewhere") return;
        build = loaded.value;
        tell("text");
      });
    });
  };

  /**
   * Makes a build the open one, with the pen in hand or without.
   *
   * It is told before anything is waited for: a key in between would go into a plan that nobody sees yet.
   */
  const begin = async (next: Build, turn: number | null, how: KeeperChange): Promise<void> => {
    const now = clock.now();
    build = turn === null ? next : { ...next, turn, openBy: session, openedAt: now };
    keptAt = next.changedAt;
    taking = false;
    if (turn !== null) writer.touch();
    tell(how);
    const kept = turn === null ? null : await store.handle(next.id);
    // Only `keepHandle` puts one there, and it puts nothing else. Meanwhile another tab may have taken the pen.
    if (kept?.ok === true && kept.value !== null && !isReadOnly()) sync.link(kept.value as FileHandle, null);
  };

  /** @param file that the build was made of */
  const openNew = async (next: Build, file: OpenedFile | null = null): Promise<void> => {
    await leave();
    pen = await penFor(next.id);
    build = { ...next, openBy: session };
    keptAt = clock.now();
    damagedLine = file?.damagedLine ?? null;
    if (file !== null) sync.link(damagedLine === null ? file.handle : null, damagedLine === null ? null : "damaged");
    writer.touch();
    tell("opened");
    await writer.flush();
    if (file !== null && file.handle !== null && damagedLine === null) await store.keepHandle(next.id, file.handle);
  };

  const openKept = async (id: string): Promise<boolean> => {
    if (build?.id === id) return true;
    const there = await store.load(id);
    if (!there.ok || there.value === null) return false;
    await leave();
    pen = await penFor(id);
    const turn = pen.state() === "here" ? await store.takeTurn(id) : null;
    // Loaded anew: the tab that laid the pen down may have written last.
    const loaded = await store.load(id);
    const next = loaded.ok && loaded.value !== null ? loaded.value : there.value;
    await begin(next, turn?.ok === true ? turn.value : null, "opened");
    await sync.look();
    return true;
  };

  const openRead = (file: OpenedFile): Promise<void> =>
    inTurn(async () => {
      const owner = file.damagedLine === null ? await ownerOf(file, store, files) : null;
      if (owner !== null && (await openKept(owner))) return;
      const name = file.name.replace(/\.ya?ml$/i, "");
      await openNew(withFile(newBuild(newId(), name, file.text, clock.now()), linkOf(file)), file);
    });

  const saveAs = async (): Promise<FileTrouble | null> => {
    const asked = build;
    if (asked === null) return null;
    const text = textOf(asked.log);
    const form = asked.file?.form ?? plainForm;
    const written = await files.saveAs(asked.file?.name ?? fileNameOf(asked.name), text, form);
    if (!written.ok) return written.why;
    if (build?.id !== asked.id) return null;
    const { name, modified, handle } = written.value;
    // A tab that only reads has made a copy for the person; the plan stays linked as it is.
    if (isReadOnly()) return null;
    const how = handle === null ? "download" : "linked";
    build = withFile(build, { name, text, form, modified, savedAt: clock.now(), how });
    sync.link(handle, null);
    damagedLine = null;
    writer.touch();
    if (build.unsaved > 0) sync.touch();
    tell("head");
    await store.keepHandle(asked.id, handle);
    return null;
  };

  const layAside = async (): Promise<void> => {
    if (build === null) return;
    const name = `${build.name}, laid aside`;
    await store.write({
      ...build,
      id: newId(),
      name,
      file: null,
      turn: 0,
      openBy: null,
      unsaved: Math.max(1, build.unsaved),
    });
  };

  return {
    current: () =>
      build && {
        id: build.id,
        name: build.name,
        log: build.log,
        text: textOf(build.log),
        readOnly: isReadOnly(),
        summary: build.summary,
        fileName: build.file?.name ?? null,
        damagedLine,
        comparison: sync.state().comparison,
        saving: savingOf(build, sync.state(), fault, keptAt),
        changedAt: build.changedAt,
      },
    subscribe(listener) {
      listeners.add(listener);
      return () => {
        listeners.delete(listener);
      };
    },
    listBuilds: () => listRows(store, pens, clock, session),
    newBuild: (text, name) => inTurn(() => openNew(newBuild(newId(), name, text, clock.now()))),
    openBuild: (id) => inTurn(() => openKept(id)),
    removeBuild: (id) =>
      inTurn(async () => {
        if (build?.id !== id) await store.remove(id);
      }),
    close: () =>
      inTurn(async () => {
        await leave();
        tell("opened");
      }),

    record(step) {
      if (build === null || !change(pushStep(build.log, { ...step, at: clock.now() }))) return false;
      tell("head");
      return true;
    },
    undo: () => {
      changeText(undo);
    },
    redo: () => {
      changeText(redo);
    },
    undoTo: (done) => {
      changeText((log) => undoTo(log, done));
    },

    async openFile() {
      const opened = await files.open();
      if (!opened.ok) return opened.why;
      await openRead(opened.value);
      return null;
    },
    openRead,
    async saveFile() {
      if (sync.handle() === null) return saveAs();
      const failed = await sync.save(true);
      return failed === "gone" ? saveAs() : failed;
    },
    saveAs,
    decide: sync.decide,

    markGood(text, summary) {
      if (build === null || isReadOnly() || textOf(build.log) !== text) return;
      copies.mark(build.id, text, summary);
      const name = summary.name === "" ? build.name : summary.name;
      if (name === build.name && JSON.stringify(summary) === JSON.stringify(build.summary)) return;
      build = { ...build, name, summary };
      writer.touch();
    },
    async goodCopies(id = build?.id) {
      await copies.flush();
      const found = id === undefined ? null : await store.copies(id);
      return found?.ok === true ? found.value : [];
    },
    workHere: () =>
      inTurn(async () => {
        if (build === null || pen === null || !isReadOnly()) return;
        const { id } = build;
        if (writer.isBehind()) await writer.flush();
        if (fault === "elsewhere") await layAside();
        writer.drop();
        taking = true;
        await pen.take();
        const turn = await store.takeTurn(id);
        const loaded = await store.load(id);
        fault = store.passing;
        if (turn.ok && loaded.ok && loaded.value !== null && pen.state() === "here") {
          await begin(loaded.value, turn.value, "text");
          await sync.look();
        } else {
          taking = false;
          tell("head");
        }
      }),

    async settle() {
      if (build === null) return true;
      await copies.flush();
      if (writer.isBehind()) await writer.flush();
      if (sync.state().writing) await sync.save(false);
      // A file that the page cannot write now loses nothing: the store has what it lacks.
      return build === null || savingOf(build, sync.state(), fault, keptAt).kept !== "not";
    },
    hidden() {
      if (build === null || isReadOnly()) return;
      build = { ...build, openBy: null };
      void copies.flush();
      writer.touch();
      void writer.flush();
      if (sync.state().writing) void sync.save(false);
    },
    shown() {
      if (build === null || isReadOnly()) return;
      build = { ...build, openBy: session };
      writer.touch();
    },
    focused: () => void sync.look(),
    parting() {
      if (build === null || isReadOnly()) return;
      build = { ...build, openBy: null };
      writer.part();
    },
  };
}
