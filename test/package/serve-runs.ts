import { existsSync, readFileSync, renameSync, rmSync, watch, writeFileSync } from "node:fs";
import process from "node:process";
import { Readable } from "node:stream";
import { pathToFileURL } from "node:url";

/**
 * Runs the command line of a built package again and again in one process, which by then is warm: each request is a run with its words, its
 * folder, its environment and its input; each answer is what came out of it and its code. Both are files, so that who asks can wait at a halt.
 *
 * Usage: node serve-runs.mjs <folder of the package>, where `runs/` takes request.json and answer.json; when its own input ends it removes the folder
 * and ends.
 */
export interface RunRequest {
  readonly args: readonly string[];
  readonly cwd: string;
  readonly env: Readonly<Record<string, string | undefined>>;
  /** In base 64. */
  readonly input: string;
}

const [, , built = ""] = process.argv;
const folder = `${built}/runs`;
const [request, answer] = [`${folder}/request.json`, `${folder}/answer.json`];
// Whoever asked may be ended without a chance to tidy up; the package was built for this process to run.
process.stdin
  .on("end", () => {
    rmSync(built, { recursive: true, force: true });
    process.exit();
  })
  .resume();

// What the built file exports.
const { main } = (await import(pathToFileURL(`${built}/dist/cli.js`).href)) as {
  readonly main: (args: readonly string[]) => Promise<number>;
};

/** Takes what is written to a stream instead of passing it on. */
function collect(stream: NodeJS.WriteStream): () => string {
  const chunks: Buffer[] = [];
  const write = (chunk: string | Uint8Array): boolean => {
    chunks.push(Buffer.from(chunk));
    return true;
  };
  // Of the ways to write the program uses only the plain one.
  stream.write = write;
  // Each run puts its own listener on.
  stream.removeAllListeners("error");
  return () => Buffer.concat(chunks).toString("utf8");
}

async function serve(): Promise<void> {
  const { args, cwd, env, input } = JSON.parse(readFileSync(request, "utf8")) as RunRequest; // written by the runner
  rmSync(request);
  process.chdir(cwd);
  process.env = { ...env };
  process.exitCode = undefined;
  Object.defineProperty(process, "stdin", { value: Readable.from([Buffer.from(input, "base64")]), configurable: true });
  const [out, err] = [collect(process.stdout), collect(process.stderr)];
  const code = await main(args);
  writeFileSync(`${answer}.part`, JSON.stringify({ code, out: out(), err: err() }));
  renameSync(`${answer}.part`, answer);
}

let isBusy = false;
async function look(): Promise<void> {
  if (isBusy) return;
  isBusy = true;
  while (existsSync(request)) await serve();
  isBusy = false;
}
watch(folder, () => void look());
await look();
