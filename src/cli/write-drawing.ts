import { randomBytes } from "node:crypto";
import { lstat, open, readFile, realpath, rename, rm } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import { systemWords } from "./read-text.ts";

export type WrittenDrawing =
  | { readonly ok: true; readonly path: string }
  | { readonly ok: false; readonly problem: string; readonly hint: string };

/** What every SVG of ours begins with. */
const OURS = '<svg xmlns="http://www.w3.org/2000/svg" class="wireworthy"';

/** The object of every PDF of ours that says who made it. */
const CREATOR = /\d obj\s+\(Wireworthy\)\s+endobj/;

/** Whether a file is a drawing that was made here. */
const isOurs = (before: string): boolean =>
  before.startsWith(OURS) || (before.startsWith("%PDF-") && CREATOR.test(before));

/**
 * Writes a drawing, SVG or PDF, to a file: a new one, or over an earlier drawing of ours. It is written beside its place first and then takes its name, so that it
 * is never half; a link in the way is replaced, not followed.
 *
 * @param plan the file that it was made from, which is never written over; `-` for standard input
 */
export async function writeDrawing(path: string, drawing: string | Uint8Array, plan: string): Promise<WrittenDrawing> {
  const hint = "name another file, or move it away first";
  const there = await lstat(path).catch(() => null);
  if (there !== null) {
    if (there.isDirectory()) return { ok: false, problem: `\`${path}\` is a folder`, hint: "name a file in it" };
    const own = plan === "-" ? null : await realpath(plan).catch(() => null);
    if (own !== null && (await realpath(path).catch(() => null)) === own)
      return { ok: false, problem: `\`${path}\` is the plan itself, which is never written over`, hint };
    const before = await readFile(path, "latin1").catch(() => "");
    if (!isOurs(before))
      return { ok: false, problem: `\`${path}\` is there already and is no drawing of \`wireworthy\``, hint };
  }
  const beside = join(dirname(path), `.${basename(path)}.${randomBytes(6).toString("hex")}.tmp`);
  try {
    // `wx` makes the file or fails: it never follows a link that somebody put there.
    const file = await open(beside, "wx");
    try {
      await file.writeFile(drawing);
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(beside, path);
    return { ok: true, path };
  } catch (error) {
    await rm(beside, { force: true }).catch(() => undefined);
    return {
      ok: false,
      problem: `\`${path}\` cannot be written: ${systemWords(error)}`,
      hint: "name a file that can be written",
    };
  }
}
