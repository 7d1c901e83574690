import { compile, type Compiled } from "../compile.ts";
import { exitCodes, type ExitCode } from "./exit-codes.ts";
import type { ReadText } from "./read-text.ts";
import { readText } from "./read-text.ts";

/** A plan out of a file, compiled; or why it cannot be had. */
export type CompiledFile = { readonly ok: true; readonly compiled: Compiled } | Extract<ReadText, { ok: false }>;

/** Reads a plan and compiles it. */
export async function compileFile(name: string): Promise<CompiledFile> {
  const read = await readText(name);
  return read.ok ? { ok: true, compiled: compile(read.text) } : read;
}

/** What a compiled plan leaves for scripts. */
export const codeOf = ({ diagnostics }: Compiled): ExitCode =>
  diagnostics.some((d) => d.level === "error") ? exitCodes.planHasErrors : exitCodes.clean;
