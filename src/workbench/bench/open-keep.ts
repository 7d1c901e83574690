import type { Clock } from "../keep/clock.ts";
import { readDropped, TOO_LARGE } from "../keep/file.ts";
import type { Keeper } from "../keep/keeper.ts";
import { namesOf } from "../keep/log.ts";
import { savedLine, type FileTrouble } from "../keep/saved-line.ts";
import type { Outcome } from "../contract.ts";
import type { Keep } from "./keep.ts";

/** The keeper as the bench speaks to it: words for what became of a file, and one step at a time. */
export function openKeep(keeper: Keeper, clock: Clock): Keep {
  const outcome = (trouble: FileTrouble | null): Outcome => {
    if (trouble === null || trouble === "cancelled") return { ok: true };
    const saving = keeper.current()?.saving;
    return {
      ok: false,
      message: troubleWords[trouble],
      hint: saving === undefined ? "" : savedLine(saving, clock.now()).says,
    };
  };
  return {
    record: keeper.record,
    undo: keeper.undo,
    redo: keeper.redo,
    undoTo: keeper.undoTo,
    steps() {
      const log = keeper.current()?.log;
      return log === undefined ? { names: [], done: 0 } : { names: namesOf(log), done: log.done };
    },
    head() {
      const now = keeper.current();
      if (now === null) return { kept: { says: "", level: "calm" }, readOnly: false, fileName: null, buildId: null };
      const { says, level } = savedLine(now.saving, clock.now());
      return { kept: { says, level }, readOnly: now.readOnly, fileName: now.fileName, buildId: now.id };
    },
    subscribe(listener) {
      keeper.subscribe((change) => {
        const now = keeper.current();
        if (change === "head") listener({ is: "head" });
        else if (now === null) listener({ is: "closed" });
        else listener({ is: change, text: now.text });
      });
    },
    compiled({ text, name, revision, errors, tally }) {
      if (errors === 0) keeper.markGood(text, { name, revision, tally: { ...tally } });
    },
    newBuild: keeper.newBuild,
    openBuild: keeper.openBuild,
    async openDropped(file) {
      const read = await readDropped(file);
      if (!read.ok) return outcome(read.why);
      await keeper.openRead(read.value);
      return { ok: true };
    },
    openFile: async () => outcome(await keeper.openFile()),
    saveFile: async () => outcome(await keeper.saveFile()),
    saveAs: async () => outcome(await keeper.saveAs()),
    takePen: keeper.workHere,
  };
}

const troubleWords: Readonly<Record<FileTrouble, string>> = {
  cancelled: "no file was chosen",
  asks: "the browser asks first before it lets the page write",
  denied: "the browser may not write there",
  full: "the disk is full",
  gone: "the file is no longer where it was",
  "too-large": `the file ${TOO_LARGE}`,
  broken: "the file could not be read or written",
  "changed-outside": "the file was changed outside at the same lines",
  damaged: "the file holds bytes that are no text, and stays as it is",
};
