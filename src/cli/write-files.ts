import { randomBytes } from "node:crypto";
import { mkdir, open, readdir, readFile, realpath, rename, rm, stat } from "node:fs/promises";
import { dirname, join } from "node:path";
import { systemWords } from "./read-text.ts";

/** A file to be written. */
export interface OutFile {
  /** Plain file name, no path. */
  readonly name: string;
  readonly text: string | Uint8Array;
}

export type Written =
  | { readonly ok: true; readonly paths: readonly string[] }
  | { readonly ok: false; readonly problem: string; readonly hint: string };

/** What the first file of a folder that was written here before begins with. */
const OURS = /^\{\s*"format": "wireworthy-/;

/**
 * Writes files into a folder, which is made where it is missing.
 *
 * Each is written beside its place first, and only when all are on the disk do they take their names: what was there before is whole or
 * replaced, never half. A link in the way is replaced, not followed. Nothing is replaced that was not written here before.
 *
 * @param source the file that all was made from, which is never written over; null: there is none
 * @param sign the file by which a folder is known as one that was written here before
 * @throws RangeError - a name that would lead out of the folder: our own defect, since names are ours
 */
export async function writeFiles(
  folder: string,
  files: readonly OutFile[],
  source: string | null,
  sign: string,
): Promise<Written> {
  for (const { name } of files) {
    if (!/^[a-z0-9][a-z0-9.-]*$/.test(name)) throw new RangeError(`${name} is not a plain file name`);
  }
  const inTheWay = await findInTheWay(folder, files, source, sign);
  if (inTheWay !== null) return { ok: false, ...inTheWay };
  const mark = randomBytes(6).toString("hex");
  const beside = (name: string): string => join(folder, `.${name}.${mark}.tmp`);
  try {
    await makeFolder(folder);
    for (const { name, text } of files) {
      // `wx` makes the file or fails: it never follows a link that somebody put there.
      const file = await open(beside(name), "wx");
      try {
        await file.writeFile(text);
        await file.sync();
      } finally {
        await file.close();
      }
    }
    for (const { name } of files) await rename(beside(name), join(folder, name));
    await removeStale(folder, files);
  } catch (error) {
    await Promise.all(files.map(({ name }) => rm(beside(name), { force: true }).catch(() => undefined)));
    return {
      ok: false,
      problem: `\`${folder}\` cannot be written: ${systemWords(error)}`,
      hint: "name a folder that can be written to",
    };
  }
  return { ok: true, paths: files.map(({ name }) => join(folder, name)) };
}

/** What stands where a file is to go and must not be lost; looked for before anything is written. */
async function findInTheWay(
  folder: string,
  files: readonly OutFile[],
  source: string | null,
  sign: string,
): Promise<{ problem: string; hint: string } | null> {
  const plan = source === null ? null : await realpath(source).catch(() => null);
  const ours = OURS.test(await readFile(join(folder, sign), "utf8").catch(() => ""));
  const hint = "name another folder, or move it away first";
  for (const { name } of files) {
    const path = join(folder, name);
    const there = await stat(path).catch(() => null);
    if (there === null) continue;
    if (there.isDirectory())
      return { problem: `\`${path}\` is a folder, and a file of that name is to be written`, hint };
    if (plan !== null && (await realpath(path).catch(() => null)) === plan) {
      return { problem: `\`${path}\` is the plan itself, which is never written over`, hint: "name another folder" };
    }
    if (!ours) return { problem: `\`${path}\` is there already and was not written by \`wireworthy build\``, hint };
  }
  return null;
}

/** Makes a folder and those above it that are missing; one step at a time, since asked for all at once some places never answer. */
async function makeFolder(folder: string): Promise<void> {
  const there = await stat(folder).catch(() => null);
  if (there?.isDirectory() === true) return;
  const above = dirname(folder);
  if (there === null && above !== folder) await makeFolder(above);
  await mkdir(folder);
}

/** A sheet that an earlier build had and this one has not would be taken for a part of it. */
async function removeStale(folder: string, files: readonly OutFile[]): Promise<void> {
  const written = new Set(files.map(({ name }) => name));
  const old = (await readdir(folder)).filter(
    (name) => /^(?:one-line|circuit-diagram|states|directory)-\d+\.svg$/.test(name) && !written.has(name),
  );
  await Promise.all(old.map((name) => rm(join(folder, name), { force: true })));
}
