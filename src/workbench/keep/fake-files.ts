import type { FileHandle, FileLike, FileWriter, Filed, Files, FileFault, OpenedFile } from "./file.ts";
import { readBytes, writeBytes } from "./file-form.ts";
import type { Clock } from "./clock.ts";

/** For tests: a disk with files that a person chooses from. */
export interface FakeDisk extends Files {
  /** What stands in a file; null: there is none. */
  readonly text: (name: string) => string | null;
  /** Another program writes. */
  readonly put: (name: string, bytes: string | Uint8Array) => void;
  readonly remove: (name: string) => void;
  /** What the person chooses next. */
  choose: string;
  /** What comes of writing from now on. */
  failing: FileFault | null;
  permission: "granted" | "prompt" | "denied";
  /** How often was written. */
  writes: number;
}

/** @param lends whether the browser lends files at all, or only texts and downloads */
export function fakeDisk(clock: Clock, lends = true): FakeDisk {
  const files = new Map<string, { readonly bytes: Uint8Array; readonly modified: number }>();
  const put = (name: string, bytes: string | Uint8Array): void => {
    // A file's time differs with each writing.
    const modified = Math.max(clock.now(), (files.get(name)?.modified ?? 0) + 1);
    files.set(name, { bytes: typeof bytes === "string" ? new TextEncoder().encode(bytes) : bytes, modified });
  };
  const never = (): Promise<never> => Promise.reject(new Error("not in these tests"));
  /** A key is known by its name here; what it could do by itself is done by the disk. */
  const keyTo = (name: string): FileHandle => ({
    name,
    getFile: (): Promise<FileLike> => never(),
    createWritable: (): Promise<FileWriter> => never(),
    isSameEntry: never,
  });
  const soon = async <T>(call: () => Filed<T>): Promise<Filed<T>> => {
    await Promise.resolve();
    return call();
  };
  const read = (name: string, handle: FileHandle | null): Filed<OpenedFile> => {
    const file = files.get(name);
    if (file === undefined) return { ok: false, why: "gone" };
    return { ok: true, value: { ...readBytes(file.bytes), name, modified: file.modified, handle } };
  };
  const disk: FakeDisk = {
    choose: "",
    failing: null,
    permission: "granted",
    writes: 0,
    put,
    remove: (name) => files.delete(name),
    text: (name) => {
      const file = files.get(name);
      return file === undefined ? null : new TextDecoder("utf-8", { ignoreBOM: true }).decode(file.bytes);
    },
    open: () =>
      soon(() =>
        disk.choose === "" ? { ok: false, why: "cancelled" } : read(disk.choose, lends ? keyTo(disk.choose) : null),
      ),
    async saveAs(suggested, text, form) {
      const name = disk.choose === "" ? suggested : disk.choose;
      if (lends) return disk.write(keyTo(name), text, form);
      return soon(() => ({ ok: true, value: { name, modified: 0, handle: null } }));
    },
    read: (handle) => soon(() => read(handle.name, handle)),
    modified: (handle) =>
      soon(() => {
        const file = files.get(handle.name);
        return file === undefined ? { ok: false, why: "gone" } : { ok: true, value: file.modified };
      }),
    allow: (_, mayAsk) =>
      soon(() => {
        if (disk.permission === "prompt" && mayAsk) disk.permission = "granted";
        if (disk.permission === "granted") return { ok: true, value: null };
        return { ok: false, why: disk.permission === "prompt" ? "asks" : "denied" };
      }),
    write: (handle, text, form) =>
      soon(() => {
        if (disk.failing !== null) return { ok: false, why: disk.failing };
        disk.writes++;
        put(handle.name, writeBytes(text, form));
        return { ok: true, value: { name: handle.name, modified: files.get(handle.name)?.modified ?? 0, handle } };
      }),
    isSame: (one, other) => Promise.resolve(one.name === other.name),
  };
  return disk;
}
