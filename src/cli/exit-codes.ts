/** What the command line leaves behind for scripts. */
export const exitCodes = {
  /** Nothing to do. */
  clean: 0,
  /** A rule fails that must or should be kept, or cannot be told where it must be: `check` and `build` only. Of `cure`: there is none. Of `read`: a label means several things. */
  findings: 1,
  /** The plan has an error; the results are printed all the same. Of `read`: a label means nothing. */
  planHasErrors: 2,
  /** The command was not understood, or a file could not be read or written. */
  wrongUsage: 3,
  /** The program itself is at fault; the number is the one that mail systems use for it. */
  defect: 70,
} as const;

export type ExitCode = (typeof exitCodes)[keyof typeof exitCodes];
