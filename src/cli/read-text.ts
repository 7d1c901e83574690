import { open } from "node:fs/promises";
import process from "node:process";

/** The text of a file, or why it cannot be had. */
export type ReadText =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly problem: string; readonly hint: string };

/** More than the longest plan that the reader takes, at four bytes a character. */
const MOST_BYTES = 8_000_000;

const no = (problem: string, hint: string): ReadText => ({ ok: false, problem, hint });

/** What a text is expected to hold, for the words of a refusal. */
interface Wanted {
  readonly noun: string;
  /** A command that goes on where nothing is piped in. */
  readonly example: string;
}

const aPlan: Wanted = { noun: "plan", example: "wireworthy check - < plan.yaml" };

/**
 * Reads a text file, or standard input for `-`.
 *
 * Takes in no more than it could use: an endless device, a photo or a disk image is refused with a plain word.
 */
export async function readText(name: string, wanted: Wanted = aPlan): Promise<ReadText> {
  if (name === "-") {
    if (process.stdin.isTTY)
      return no("standard input is read, and nothing is piped in", `write \`${wanted.example}\``);
    return decode(await gather(process.stdin), "standard input", wanted);
  }
  try {
    const file = await open(name, "r");
    try {
      if ((await file.stat()).isDirectory()) return no(`\`${name}\` is a folder`, `name a ${wanted.noun} inside it`);
      return decode(await gather(file.createReadStream({ autoClose: false })), `\`${name}\``, wanted);
    } finally {
      await file.close();
    }
  } catch (error) {
    return no(`\`${name}\` cannot be read: ${systemWords(error)}`, "check the name and where you are");
  }
}

/** Bytes of a stream up to the most; null when there are more. */
async function gather(stream: AsyncIterable<unknown>): Promise<Buffer | null> {
  const chunks: Buffer[] = [];
  let bytes = 0;
  for await (const chunk of stream) {
    if (!Buffer.isBuffer(chunk)) continue;
    bytes += chunk.length;
    if (bytes > MOST_BYTES) return null;
    chunks.push(chunk);
  }
  return Buffer.concat(chunks);
}

function decode(bytes: Buffer | null, name: string, { noun }: Wanted): ReadText {
  if (bytes === null) {
    return no(`${name} is larger than ${MOST_BYTES / 1e6} MB; no ${noun} is`, `check that it is a ${noun}`);
  }
  const [a, b] = bytes;
  if ((a === 0xff && b === 0xfe) || (a === 0xfe && b === 0xff)) {
    return no(`${name} is written in UTF-16`, "save it as UTF-8");
  }
  if (bytes.includes(0)) return no(`${name} is not a text file`, `name a ${noun}`);
  try {
    return { ok: true, text: new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes) };
  } catch {
    return no(`${name} is not written in UTF-8`, "save it as UTF-8");
  }
}

const words: Readonly<Record<string, string>> = {
  ENOENT: "there is no such file",
  EACCES: "access is denied",
  EPERM: "access is denied",
  ENOTDIR: "part of the path is not a folder",
  EISDIR: "it is a folder",
  EEXIST: "it is there already and is not a folder",
  ENOSPC: "the disk is full",
  EROFS: "the disk cannot be written to",
  ELOOP: "its links lead in a circle",
  ENAMETOOLONG: "the name is too long",
  EINVAL: "the name is not lawful here",
};

/** What the system says of a file, in plain words. */
export function systemWords(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  const code = "code" in error && typeof error.code === "string" ? error.code : "";
  return words[code] ?? error.message;
}
