import { exitCodes, type ExitCode } from "./exit-codes.ts";
import type { Terminal } from "./terminal.ts";

/** Says on standard error why a command was not carried out. */
export function complain({ err }: Terminal, problem: string, hint: string): ExitCode {
  err(`wireworthy: ${problem}\n${hint === "" ? "" : `hint: ${hint}\n`}`);
  return exitCodes.wrongUsage;
}
