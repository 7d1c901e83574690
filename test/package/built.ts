import { spawn, spawnSync } from "node:child_process";
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { bundle } from "../../tools/build.ts";
import { buildPage } from "../../tools/build-page.ts";
import type { RunRequest } from "./serve-runs.ts";

export const root = fileURLToPath(new URL("../..", import.meta.url));

/** A folder of its own for a test file. */
export const freshFolder = (): string => mkdtempSync(join(tmpdir(), "wireworthy-test-"));
export const removeFolder = (folder: string): void => {
  rmSync(folder, { recursive: true, force: true });
};

/** The package as it is published, but for the types and, unless it is asked for, the page, in a folder of its own. */
export async function buildPackage({ page = false } = {}): Promise<string> {
  const folder = freshFolder();
  await buildPackageInto(folder);
  if (page) await buildPage(join(folder, "dist", "page"));
  return folder;
}

async function buildPackageInto(folder: string): Promise<void> {
  for (const name of ["package.json", "README.md", "LICENSE", "bin", "schema", "examples", "fonts"]) {
    cpSync(join(root, name), join(folder, name), { recursive: true });
  }
  await bundle(join(folder, "dist"));
}

let shared: Promise<string> | null = null;

/** The same for all test files of this process, for those that only run its commands; nobody writes into it. The process of `warmRunner` removes it. */
export const sharedPackage = (): Promise<string> =>
  (shared ??= (async () => {
    const folder = join(root, "out", "test", `package-${process.pid}`);
    removeFolder(folder);
    mkdirSync(folder, { recursive: true });
    await buildPackageInto(folder);
    await build({
      entryPoints: [join(import.meta.dirname, "serve-runs.ts")],
      outfile: join(folder, "serve-runs.mjs"),
      platform: "node",
      format: "esm",
      logLevel: "error",
    });
    return folder;
  })());

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

export type Run = (args: readonly string[], more?: RunMore) => Ran;

/** Runs the command line of a built package as a child process, as a script would. */
export function runner(folder: string): Run {
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

/** The longest that one run may take, ms. */
const PATIENCE = 100_000;
let warm: Run | null = null;

/**
 * Runs the command line of the shared package in one process that stays, each time as if it were the first: starting a process and compiling its
 * code takes many times what most commands do. What only a process of its own can show (streams, the end of it) is for `runner`.
 */
export async function warmRunner(): Promise<Run> {
  if (warm !== null) return warm;
  const folder = await sharedPackage();
  const exchange = join(folder, "runs");
  mkdirSync(exchange);
  const server = spawn(process.execPath, [join(folder, "serve-runs.mjs"), folder], {
    stdio: ["pipe", "ignore", "inherit"],
  });
  server.unref();
  const halt = new Int32Array(new SharedArrayBuffer(4));
  const [request, answer] = [join(exchange, "request.json"), join(exchange, "answer.json")];
  warm = (args, { input = "", cwd = root, env = {} } = {}) => {
    const asked: RunRequest = {
      args,
      cwd,
      env: { PATH: process.env["PATH"], ...env },
      input: Buffer.from(input).toString("base64"),
    };
    writeFileSync(`${request}.part`, JSON.stringify(asked));
    renameSync(`${request}.part`, request);
    for (const until = performance.now() + PATIENCE; !existsSync(answer);) {
      if (performance.now() > until) throw new Error(`no answer to: wireworthy ${args.join(" ")}`);
      Atomics.wait(halt, 0, 0, 1);
    }
    const ran = JSON.parse(readFileSync(answer, "utf8")) as Ran; // written by the server
    rmSync(answer);
    return ran;
  };
  return warm;
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
