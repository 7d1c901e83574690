import type { BuildHead, GoodCopy, Summary } from "./build.ts";
import type { Clock } from "./clock.ts";
import type { Files, OpenedFile } from "./file.ts";
import type { Comparison } from "./file-sync.ts";
import type { Log, NewStep } from "./log.ts";
import type { PenHost } from "./one-pen.ts";
import type { FileTrouble, Saving } from "./saved-line.ts";
import type { Store } from "./store.ts";

/** What a keeper stands on. */
export interface KeeperParts {
  readonly store: Store;
  readonly files: Files;
  readonly pens: PenHost;
  readonly clock: Clock;
  /** Another one each time. */
  readonly newId: () => string;
}

/** The plan that is open. */
export interface CurrentBuild {
  readonly id: string;
  readonly name: string;
  readonly log: Log;
  readonly text: string;
  /** Another tab has the pen. */
  readonly readOnly: boolean;
  readonly summary: Summary | null;
  readonly fileName: string | null;
  /** First line of the opened file whose bytes are no text; null: none. */
  readonly damagedLine: number | null;
  /** Plan and file were changed at the same lines: a person has to decide. */
  readonly comparison: Comparison | null;
  readonly saving: Saving;
  readonly changedAt: number;
}

/** A row of what is kept. */
export interface BuildRow extends BuildHead {
  /** Its tab went without a goodbye. */
  readonly crashed: boolean;
  readonly openElsewhere: boolean;
}

/** What has changed: another plan is open, its text changed by other means than `record`, or only what is said about it. */
export type KeeperChange = "opened" | "text" | "head";

/** Opens, changes, keeps and lists plans. Nothing of it throws; what could not be kept is said by `saving`. */
export interface Keeper {
  readonly current: () => CurrentBuild | null;
  readonly subscribe: (listener: (change: KeeperChange) => void) => () => void;
  /** Last changed first; null: the store does not answer. */
  readonly listBuilds: () => Promise<readonly BuildRow[] | null>;
  readonly newBuild: (text: string, name: string) => Promise<void>;
  /** False: there is no such build, or the store does not answer. */
  readonly openBuild: (id: string) => Promise<boolean>;
  /** Not the one that is open. */
  readonly removeBuild: (id: string) => Promise<void>;
  /** Lays the plan away. */
  readonly close: () => Promise<void>;

  /** Does one step; false: it was not done, as no plan is open yet, this tab only reads, or it changes nothing. */
  readonly record: (step: Omit<NewStep, "at">) => boolean;
  readonly undo: () => void;
  readonly redo: () => void;
  readonly undoTo: (done: number) => void;

  /** Lets a person choose a file; a file that a build is linked to opens that build. Null: it is open. */
  readonly openFile: () => Promise<FileTrouble | null>;
  /** The same with a file that was dropped on the page. */
  readonly openRead: (file: OpenedFile) => Promise<void>;
  readonly saveFile: () => Promise<FileTrouble | null>;
  readonly saveAs: () => Promise<FileTrouble | null>;
  readonly decide: (whose: "mine" | "theirs") => Promise<void>;

  /** The compiler found no error of the plan in a text. */
  readonly markGood: (text: string, summary: Summary) => void;
  /** Of the plan that is open, or of another one that is kept; newest first. */
  readonly goodCopies: (id?: string) => Promise<readonly GoodCopy[]>;
  /** Takes the pen from the tab that has it. What this tab could not store is laid aside as a build of its own. */
  readonly workHere: () => Promise<void>;

  // What happens to the page; see watch-page.ts and register-worker.ts.
  /** Stores what there is; false: some of it is kept nowhere but in this page. */
  readonly settle: () => Promise<boolean>;
  readonly hidden: () => void;
  readonly shown: () => void;
  readonly focused: () => void;
  readonly parting: () => void;
}
