import type { Splice } from "../../plan/text/splice.ts";
import type { JudgementTally } from "../../rules/index.ts";
import type { KeptLine, Outcome } from "../contract.ts";

/** What was opened, or changed from elsewhere: by undo, by another tab, by a file that changed outside. */
export type KeepChange =
  | { readonly is: "opened"; readonly text: string }
  | { readonly is: "text"; readonly text: string }
  | { readonly is: "head" }
  /** No plan is open any more. */
  | { readonly is: "closed" };

/** The plan that is open, and where it is kept. */
export interface Keep {
  /** False: the step was not taken, and the text stays as it was. */
  readonly record: (step: {
    readonly name: string;
    readonly splices: readonly Splice[];
    readonly typed: boolean;
  }) => boolean;
  readonly undo: () => void;
  readonly redo: () => void;
  readonly undoTo: (done: number) => void;
  readonly steps: () => { readonly names: readonly string[]; readonly done: number };
  readonly head: () => {
    readonly kept: KeptLine;
    readonly readOnly: boolean;
    readonly fileName: string | null;
    readonly buildId: string | null;
  };
  readonly subscribe: (listener: (change: KeepChange) => void) => void;
  /** A text that was compiled: without errors it is a good copy. */
  readonly compiled: (summary: {
    readonly text: string;
    readonly name: string;
    readonly revision: string;
    readonly errors: number;
    readonly tally: JudgementTally;
  }) => void;
  readonly newBuild: (text: string, name: string) => Promise<void>;
  /** False: it is not there any more, or the store does not answer. */
  readonly openBuild: (id: string) => Promise<boolean>;
  readonly openFile: () => Promise<Outcome>;
  readonly openDropped: (file: File) => Promise<Outcome>;
  readonly saveFile: () => Promise<Outcome>;
  readonly saveAs: () => Promise<Outcome>;
  readonly takePen: () => Promise<void>;
}
