import { randomBytes } from "node:crypto";
import { mkdir, open, rename, rm } from "node:fs/promises";
import { join } from "node:path";
import { systemWords } from "./read-text.ts";

/** A file to be written. */
export interface OutFile {
  /** Plain file name, no path. */
  readonly name: string;
  readonly text: string;
}

export type Written =
  { readonly ok: true; readonly paths: readonly string[] } | { readonly ok: false; readonly problem: string };

/**
 * Writes files into a folder, which is made where it is missing.
 *
 * Each is written beside its place first, and only when all are on the disk do they take their names: what was there before is whole or
 * replaced, never half. A link in the way is replaced, not followed.
 *
 * @throws RangeError - a name that would lead out of the folder: our own defect, since names are ours
 */
export async function writeFiles(folder: string, files: readonly OutFile[]): Promise<Written> {
  for (const { name } of files) {
    if (!/^[a-z0-9][a-z0-9.-]*$/.test(name)) throw new RangeError(`${name} is not a plain file name`);
  }
  const mark = randomBytes(6).toString("hex");
  const beside = (name: string): string => join(folder, `.${name}.${mark}.tmp`);
  try {
    await mkdir(folder, { recursive: true });
    for (const { name, text } of files) {
      // `wx` makes the file or fails: it never follows a link that somebody put there.
      const file = await open(beside(name), "wx");
      try {
        await file.writeFile(text, "utf8");
        await file.sync();
      } finally {
        await file.close();
      }
    }
    for (const { name } of files) await rename(beside(name), join(folder, name));
  } catch (error) {
    await Promise.all(files.map(({ name }) => rm(beside(name), { force: true }).catch(() => undefined)));
    return { ok: false, problem: `\`${folder}\` cannot be written: ${systemWords(error)}` };
  }
  return { ok: true, paths: files.map(({ name }) => join(folder, name)) };
}
