import { spawn } from "node:child_process";
import { once } from "node:events";
import type { Server } from "node:http";
import { basename } from "node:path";
import process from "node:process";
import { fileURLToPath } from "node:url";
import { complain } from "./complain.ts";
import type { Run } from "./command.ts";
import { exitCodes } from "./exit-codes.ts";
import { readPage, serveFiles } from "./page-server.ts";
import { readText, systemWords } from "./read-text.ts";
import { wrap } from "./text-width.ts";

/** Put in by the build, whose files lie one folder less deep. */
declare const WIREWORTHY_VERSION: string | undefined;
const pageFolder = fileURLToPath(
  new URL(typeof WIREWORTHY_VERSION === "string" ? "./page/" : "../../dist/page/", import.meta.url),
);

/** Always the same where it can be: what a browser keeps belongs to an address. */
const USUAL_PORT = 8412;

/** `page [PLAN]` */
export const runPage: Run = async ({ names: [file], options }, terminal) => {
  const asked = options["port"];
  const port = asked === undefined ? USUAL_PORT : portOf(asked);
  if (port === null) return complain(terminal, "`--port` takes a number from 1 to 65535", "write `--port 8412`");
  const plan = file === undefined ? undefined : await readText(file);
  if (plan?.ok === false) return complain(terminal, plan.problem, plan.hint);
  const files = await readPage(pageFolder, plan?.text);
  if (files === null) return complain(terminal, "the page is not built", "run `npm run build` in the project first");

  const server = serveFiles(files);
  const failure = (await listen(server, port)) ?? null;
  const isTaken = failure !== null && "code" in failure && failure.code === "EADDRINUSE";
  const again = isTaken && asked === undefined ? await listen(server, 0) : failure;
  if (again !== null)
    return complain(
      terminal,
      `port ${port} cannot be had: ${isTaken ? "it is taken" : systemWords(again)}`,
      "name another by `--port N`",
    );

  const address = addressOf(server, file);
  const lines = [
    `Wireworthy is at ${address}; stop with Ctrl C`,
    ...(isTaken
      ? wrap(
          `Port ${port} is taken. What the page keeps at this address is kept apart from what it keeps at that one.`,
          terminal.width,
        )
      : []),
    ...(file === undefined
      ? []
      : wrap(`The page shows a copy of ${file}; the file itself is only read. Save from the page.`, terminal.width)),
  ];
  terminal.out(`${lines.join("\n")}\n`);
  if (options["open"] === true && !(await openBrowser(address)))
    terminal.err("wireworthy: no browser could be opened; open the address yourself\n");

  await toldToStop();
  server.close();
  server.closeAllConnections();
  return exitCodes.clean;
};

function portOf(text: string | true): number | null {
  const port = typeof text === "string" && /^\d{1,5}$/.test(text) ? Number(text) : 0;
  return port >= 1 && port <= 65535 ? port : null;
}

/** Null: it listens. */
async function listen(server: Server, port: number): Promise<Error | null> {
  try {
    server.listen(port, "127.0.0.1");
    await once(server, "listening");
    return null;
  } catch (error) {
    return error instanceof Error ? error : new Error(String(error));
  }
}

function addressOf(server: Server, file: string | undefined): string {
  const bound = server.address();
  const port = typeof bound === "object" && bound !== null ? bound.port : 0;
  const name = file === undefined ? "" : `?plan=${encodeURIComponent(file === "-" ? "plan.yaml" : basename(file))}`;
  return `http://127.0.0.1:${port}/${name}`;
}

/** The program by which each system opens an address. */
const openers: Readonly<Partial<Record<NodeJS.Platform, readonly [string, ...string[]]>>> = {
  darwin: ["open"],
  win32: ["explorer"],
};

async function openBrowser(address: string): Promise<boolean> {
  const [program, ...before] = openers[process.platform] ?? ["xdg-open"];
  const child = spawn(program, [...before, address], { stdio: "ignore", detached: true });
  try {
    await once(child, "spawn");
    child.unref();
    return true;
  } catch {
    return false;
  }
}

/** Ctrl C, or the end of the session. */
async function toldToStop(): Promise<void> {
  await new Promise<void>((resolve) => {
    for (const signal of ["SIGINT", "SIGTERM"] as const) process.once(signal, resolve);
  });
}
