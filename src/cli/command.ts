import type { ExitCode } from "./exit-codes.ts";
import type { Terminal } from "./terminal.ts";

/** One option of a command. */
export interface Option {
  /** Without the dashes. */
  readonly name: string;
  readonly short?: string;
  /** What stands behind it, as help prints it; absent: it stands alone. */
  readonly value?: string;
  readonly says: string;
}

/** A command of the command line, without what it does: that is loaded when it is called. */
export interface CommandHead {
  readonly name: string;
  readonly summary: string;
  /** What stands behind the name, as help prints it. */
  readonly usage: string;
  /** How many names it takes. */
  readonly takes: readonly [least: number, most: number];
  /** What it takes, in words. */
  readonly taking: string;
  readonly about: readonly string[];
  readonly options: readonly Option[];
  /** Each runs as it stands in the folder of the project. */
  readonly examples: readonly (readonly [command: string, says: string])[];
}

/** What a person typed behind a command. */
export interface Given {
  readonly names: readonly string[];
  /** Values by option; an option that stands alone has `true`. */
  readonly options: Readonly<Record<string, string | true>>;
}

/** Does what a command is for. */
export type Run = (given: Given, terminal: Terminal) => Promise<ExitCode>;

export interface Command extends CommandHead {
  /** What it does is read from disk only when it is called, so that help and a slip of the finger are answered at once. */
  readonly load: () => Promise<Run>;
}
