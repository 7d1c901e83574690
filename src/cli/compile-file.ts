import { compile, createMemory, type Compiled } from "../compile.ts";
import { exitCodes, type ExitCode } from "./exit-codes.ts";
import type { ReadText } from "./read-text.ts";
import { readText } from "./read-text.ts";

/** A plan out of a file, compiled; or why it cannot be had. */
export type CompiledFile = { readonly ok: true; readonly compiled: Compiled } | Extract<ReadText, { ok: false }>;

/** Reads a plan and compiles it. */
export async function compileFile(name: string): Promise<CompiledFile> {
  const read = await readText(name);
  return read.ok ? { ok: true, compiled: compile(read.text, createMemory(), { today: today() }) } : read;
}

/** The day here, as waivers write it. */
export function today(): string {
  const now = new Date();
  const two = (n: number): string => String(n).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** What a plan leaves for scripts where its rules are asked: a fail that should be mended, or a must that cannot be told. */
export const judgedCodeOf = (compiled: Compiled): ExitCode => {
  const { must, should, cannotTellMust } = compiled.judgement.tally;
  const code = codeOf(compiled);
  return code === exitCodes.clean && must + should + cannotTellMust > 0 ? exitCodes.findings : code;
};

/** What a compiled plan leaves for scripts where only results are asked. */
export const codeOf = ({ diagnostics }: Compiled): ExitCode =>
  diagnostics.some((d) => d.level === "error") ? exitCodes.planHasErrors : exitCodes.clean;
