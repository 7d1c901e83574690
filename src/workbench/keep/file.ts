import { readBytes, writeBytes, type FileForm, type ReadBytes } from "./file-form.ts";

/** The browser's own key to a file, as far as it is used here. */
export interface FileHandle {
  readonly name: string;
  readonly getFile: () => Promise<FileLike>;
  readonly createWritable: () => Promise<FileWriter>;
  readonly isSameEntry: (other: FileHandle) => Promise<boolean>;
  /** Missing in browsers that ask by themselves. */
  readonly queryPermission?: (wish: { readonly mode: "readwrite" }) => Promise<PermissionState>;
  readonly requestPermission?: (wish: { readonly mode: "readwrite" }) => Promise<PermissionState>;
}

/** What is written stands beside the file until `close` puts it in its place. */
export interface FileWriter {
  readonly write: (bytes: Uint8Array<ArrayBuffer>) => Promise<void>;
  readonly close: () => Promise<void>;
  readonly abort: () => Promise<void>;
}

export interface FileLike {
  readonly name: string;
  readonly size: number;
  readonly lastModified: number;
  readonly arrayBuffer: () => Promise<ArrayBuffer>;
}

/** Why a file was not opened or written. `asks`: the browser wants a person's click first. */
export type FileFault = "cancelled" | "asks" | "denied" | "full" | "gone" | "too-large" | "broken";

export type Filed<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly why: FileFault };

export interface OpenedFile extends ReadBytes {
  readonly name: string;
  readonly modified: number;
  /** Null: the browser gave the text and nothing more. */
  readonly handle: FileHandle | null;
}

export interface WrittenFile {
  readonly name: string;
  readonly modified: number;
  readonly handle: FileHandle | null;
}

/** How the page reaches files; none of it throws. */
export interface Files {
  /** Lets a person choose a file; call it from a click. */
  readonly open: () => Promise<Filed<OpenedFile>>;
  /** Lets a person choose where to write; call it from a click. Where the browser lends no files, it becomes a download. */
  readonly saveAs: (name: string, text: string, form: FileForm) => Promise<Filed<WrittenFile>>;
  readonly read: (handle: FileHandle) => Promise<Filed<OpenedFile>>;
  /** When the file was changed last, ms. */
  readonly modified: (handle: FileHandle) => Promise<Filed<number>>;
  /**
   * Whether the page may write; the browser forgets it between visits.
   *
   * @param mayAsk called from a click, so that the browser may ask the person
   */
  readonly allow: (handle: FileHandle, mayAsk: boolean) => Promise<Filed<null>>;
  readonly write: (handle: FileHandle, text: string, form: FileForm) => Promise<Filed<WrittenFile>>;
  /** Whether two keys are to one file. */
  readonly isSame: (one: FileHandle, other: FileHandle) => Promise<boolean>;
}

/** No plan comes near this many bytes; a film would stop the page. */
export const LARGEST_FILE = 5_000_000;

/** What is said of a file with more. */
export const TOO_LARGE = `has more than ${LARGEST_FILE / 1e6} MB and is too large to be a plan`;

const KINDS = [{ description: "plan", accept: { "application/yaml": [".yaml", ".yml"] } }] as const;

interface Pickers {
  readonly showOpenFilePicker?: (options: object) => Promise<readonly FileHandle[]>;
  readonly showSaveFilePicker?: (options: object) => Promise<FileHandle>;
}

/** Files as this browser lends them. */
export function browserFiles(page: Window & Pickers = window): Files {
  const { showOpenFilePicker, showSaveFilePicker } = page;
  const files: Files = {
    open: () =>
      attempt(async () => {
        if (showOpenFilePicker === undefined) return readFile(await chooseFile(page.document), null);
        const [handle] = await showOpenFilePicker.call(page, { types: KINDS });
        return handle === undefined ? fault("cancelled") : readFile(await handle.getFile(), handle);
      }),

    saveAs: (name, text, form) =>
      attempt(async () => {
        if (showSaveFilePicker === undefined) {
          download(page.document, name, writeBytes(text, form));
          return filed({ name, modified: 0, handle: null });
        }
        const handle = await showSaveFilePicker.call(page, { suggestedName: name, types: KINDS });
        return files.write(handle, text, form);
      }),

    read: (handle) => attempt(async () => readFile(await handle.getFile(), handle)),

    modified: (handle) => attempt(async () => filed((await handle.getFile()).lastModified)),

    allow: (handle, mayAsk) =>
      attempt(async () => {
        const wish = { mode: "readwrite" } as const;
        let permission = (await handle.queryPermission?.(wish)) ?? "granted";
        if (permission === "prompt" && mayAsk) permission = (await handle.requestPermission?.(wish)) ?? "granted";
        return permission === "granted" ? filed(null) : fault(permission === "prompt" ? "asks" : "denied");
      }),

    write: (handle, text, form) =>
      attempt(async () => {
        const writer = await handle.createWritable();
        try {
          await writer.write(writeBytes(text, form));
          await writer.close();
        } catch (error) {
          await writer.abort().catch(() => undefined); // nothing to give up: it has failed as a whole
          throw error;
        }
        const { name, lastModified } = await handle.getFile();
        return filed({ name, modified: lastModified, handle });
      }),

    isSame: (one, other) => one.isSameEntry(other).catch(() => false),
  };
  return files;
}

const filed = <T>(value: T): Filed<T> => ({ ok: true, value });
const fault = (why: FileFault): Filed<never> => ({ ok: false, why });

async function readFile(file: FileLike | null, handle: FileHandle | null): Promise<Filed<OpenedFile>> {
  if (file === null) return fault("cancelled");
  if (file.size > LARGEST_FILE) return fault("too-large");
  const read = readBytes(new Uint8Array(await file.arrayBuffer()));
  return filed({ ...read, name: file.name, modified: file.lastModified, handle });
}

/** A file that was dropped on the page or pasted, read as if it had been chosen. */
export const readDropped = (file: FileLike): Promise<Filed<OpenedFile>> => attempt(() => readFile(file, null));

async function attempt<T>(call: () => Promise<Filed<T>>): Promise<Filed<T>> {
  try {
    return await call();
  } catch (error) {
    return fault(faultOf(error));
  }
}

function faultOf(error: unknown): FileFault {
  switch (error instanceof Error ? error.name : "") {
    case "AbortError":
      return "cancelled";
    case "NotFoundError":
      return "gone";
    case "QuotaExceededError":
      return "full";
    case "NotAllowedError":
    case "SecurityError":
    case "NoModificationAllowedError":
      return "denied";
    default:
      return "broken";
  }
}

function chooseFile(page: Document): Promise<FileLike | null> {
  return new Promise((resolve) => {
    const input = page.createElement("input");
    input.type = "file";
    input.accept = ".yaml,.yml,text/yaml,application/yaml,text/plain";
    input.hidden = true;
    const end = (file: FileLike | null): void => {
      input.remove();
      resolve(file);
    };
    input.addEventListener("change", () => {
      end(input.files?.[0] ?? null);
    });
    input.addEventListener("cancel", () => {
      end(null);
    });
    // Some browsers tell nothing about an input that stands nowhere.
    page.body.append(input);
    input.click();
  });
}

function download(page: Document, name: string, bytes: Uint8Array<ArrayBuffer>): void {
  const address = URL.createObjectURL(new Blob([bytes], { type: "application/yaml" }));
  const link = page.createElement("a");
  link.href = address;
  link.download = name;
  page.body.append(link);
  link.click();
  link.remove();
  // The browser has taken the bytes long before; some look at the address only after the click.
  setTimeout(() => {
    URL.revokeObjectURL(address);
  }, 60_000);
}

/**
 * A name that a plan's file may have on any system, from what a person called the plan.
 *
 * @example
 * fileNameOf("Coastal sloop: port/starboard") //=> "Coastal sloop port starboard.yaml"
 */
export function fileNameOf(name: string): string {
  const plain = name
    .replace(/[\p{C}<>:"/\\|?*]+/gu, " ")
    .replace(/\s+/g, " ")
    .replace(/^[ .]+|[ .]+$/g, "")
    .slice(0, 80);
  if (/\.ya?ml$/i.test(plain)) return plain;
  return `${plain === "" ? "plan" : plain}.yaml`;
}
