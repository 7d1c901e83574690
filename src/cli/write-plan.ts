import { randomBytes } from "node:crypto";
import { lstat, open, readFile, realpath, rename, rm, stat } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import { systemWords } from "./read-text.ts";

export type WrittenPlan =
  | { readonly ok: true; readonly path: string }
  | { readonly ok: false; readonly problem: string; readonly hint: string };

const no = (problem: string, hint: string): WrittenPlan => ({ ok: false, problem, hint });

/**
 * Writes a changed plan to a file of its own, which may not be there yet.
 *
 * @param plan the file that it was made from; `-` for standard input
 */
export async function writePlanBeside(path: string, text: string, plan: string): Promise<WrittenPlan> {
  // A link that leads nowhere stands in the way too.
  const there = await lstat(path).catch(() => null);
  if (there !== null) {
    const own = plan === "-" ? null : await realpath(plan).catch(() => null);
    return (await realpath(path).catch(() => null)) === own && own !== null
      ? no(`\`${path}\` is the plan itself`, "name another file, or write `--in-place` instead of `-o`")
      : no(`\`${path}\` is there already`, "name another file, or move it away first");
  }
  return write(path, text, null);
}

/**
 * Writes a changed plan in the place of the plan. It is written beside it first and then takes its name, so that it is whole or the old one; a
 * link is followed, and what others may do with the file stays as it was.
 *
 * @param before what was read; the file must still say this
 */
export async function writePlanInPlace(plan: string, text: string, before: string): Promise<WrittenPlan> {
  try {
    const path = await realpath(plan);
    if ((await readFile(path, "utf8")) !== before) {
      return no(`\`${plan}\` has changed since it was read`, "run the command again");
    }
    const { mode } = await stat(path);
    return await write(path, text, mode);
  } catch (error) {
    return no(`\`${plan}\` cannot be written: ${systemWords(error)}`, "write to another file with `-o FILE`");
  }
}

async function write(path: string, text: string, mode: number | null): Promise<WrittenPlan> {
  const beside = join(dirname(path), `.${basename(path)}.${randomBytes(6).toString("hex")}.tmp`);
  try {
    // `wx` makes the file or fails: it never follows a link that somebody put there.
    const file = await open(beside, "wx");
    try {
      if (mode !== null) await file.chmod(mode);
      await file.writeFile(text, "utf8");
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(beside, path);
    return { ok: true, path };
  } catch (error) {
    await rm(beside, { force: true }).catch(() => undefined);
    return no(`\`${path}\` cannot be written: ${systemWords(error)}`, "name a file that can be written");
  }
}
