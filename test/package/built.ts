import { spawnSync } from "node:child_process";
import { cpSync, mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { bundle } from "../../tools/build.ts";
import { buildPage } from "../../tools/build-page.ts";

export const root = fileURLToPath(new URL("../..", import.meta.url));

/** A folder of its own for a test file. */
export const freshFolder = (): string => mkdtempSync(join(tmpdir(), "wireworthy-test-"));
export const removeFolder = (folder: string): void => {
  rmSync(folder, { recursive: true, force: true });
};

/** The package as it is published, but for the types, in a folder of its own. */
export async function buildPackage(): Promise<string> {
  const folder = freshFolder();
  for (const name of ["package.json", "README.md", "LICENSE", "bin", "schema", "examples", "fonts"]) {
    cpSync(join(root, name), join(folder, name), { recursive: true });
  }
  await bundle(join(folder, "dist"));
  await buildPage(join(folder, "dist", "page"));
  return folder;
}

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs the command line of a built package as a child process, as a script would. */
export function runner(folder: string): (args: readonly string[], more?: RunMore) => Ran {
  return (args, { input = "", cwd = root, env = {} } = {}) => {
    const { status, stdout, stderr } = spawnSync(process.execPath, [join(folder, "bin", "wireworthy.js"), ...args], {
      cwd,
      input,
      encoding: "utf8",
      maxBuffer: 1e8,
      env: { PATH: process.env["PATH"], ...env },
    });
    return { code: status, out: stdout, err: stderr };
  };
}

export interface RunMore {
  readonly input?: string | Buffer;
  readonly cwd?: string;
  readonly env?: Readonly<Record<string, string>>;
}

/** Plans that a reader can open. */
export const examples = readdirSync(join(root, "examples"))
  .filter((name) => name.endsWith(".yaml"))
  .map((name) => `examples/${name}`);
