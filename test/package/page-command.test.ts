import { afterAll, beforeAll, test } from "vitest";
import assert from "node:assert/strict";
import { spawn, type ChildProcessByStdio } from "node:child_process";
import { once } from "node:events";
import { mkdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { request, type IncomingHttpHeaders } from "node:http";
import { createServer } from "node:net";
import { join } from "node:path";
import type { Readable } from "node:stream";
import { buildPackage, freshFolder, removeFolder, root, runner } from "./built.ts";

/** What `wireworthy page` hands out, to whom, and what it keeps to itself. */

let folder = "";
let temporary = "";
const SLOOP = join(root, "examples", "sloop.yaml");

beforeAll(async () => {
  folder = await buildPackage();
  temporary = freshFolder();
  const page = join(folder, "dist", "page");
  mkdirSync(join(page, "fonts"), { recursive: true });
  // A stand-in: the server looks at no file of the page.
  writeFileSync(join(page, "index.html"), "<!doctype html><title>stand-in</title>\n");
  writeFileSync(join(page, "part-ABCDEF23.js"), "export {};\n");
  writeFileSync(join(page, "worker.js"), "\n");
  writeFileSync(join(page, "page.css"), "\n");
  writeFileSync(join(page, "manifest.webmanifest"), "{}\n");
  writeFileSync(join(page, "fonts", "a.woff2"), "a\n");
});
afterAll(() => {
  removeFolder(folder);
  removeFolder(temporary);
});

interface Got {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly text: string;
}

/** By the bare client: none that would tidy the path or the name of the host. */
const get = (port: number, path: string, method = "GET", headers: Record<string, string> = {}): Promise<Got> =>
  new Promise((resolve, reject) => {
    const asking = request({ host: "127.0.0.1", port, path, method, headers }, (response) => {
      let text = "";
      response.setEncoding("utf8");
      response.on("data", (chunk: string) => (text += chunk));
      response.on("end", () => {
        resolve({ status: response.statusCode ?? 0, headers: response.headers, text });
      });
    });
    asking.on("error", reject);
    asking.end();
  });

interface Served {
  readonly port: number;
  readonly says: string;
  readonly stop: () => Promise<number | null>;
}

async function serve(...args: string[]): Promise<Served> {
  const bin = join(folder, "bin", "wireworthy.js");
  const child: ChildProcessByStdio<null, Readable, null> = spawn(process.execPath, [bin, "page", ...args], {
    cwd: temporary,
    stdio: ["ignore", "pipe", "inherit"],
  });
  child.stdout.setEncoding("utf8");
  const [says] = (await once(child.stdout, "data")) as [string]; // as text, by the line above
  const port = Number(/127\.0\.0\.1:(\d+)/.exec(says)?.[1]);
  return {
    port,
    says,
    stop: async () => {
      child.kill("SIGINT");
      const [code] = (await once(child, "exit")) as [number | null]; // what the event carries
      return code;
    },
  };
}

/** A port that nobody listens on just now. */
async function freePort(): Promise<number> {
  const server = createServer().listen(0, "127.0.0.1");
  await once(server, "listening");
  const bound = server.address();
  server.close();
  return typeof bound === "object" && bound !== null ? bound.port : 0;
}

test("the page is served with its types, and asked for again only when it changed", async () => {
  const { port, says, stop } = await serve("--port", String(await freePort()));
  assert.equal(says, `Wireworthy is at http://127.0.0.1:${port}/; stop with Ctrl C\n`);
  for (const [path, type, keep] of [
    ["/", "text/html; charset=utf-8", "no-cache"],
    ["/index.html", "text/html; charset=utf-8", "no-cache"],
    ["/worker.js", "text/javascript; charset=utf-8", "no-cache"],
    ["/part-ABCDEF23.js", "text/javascript; charset=utf-8", "max-age=31536000, immutable"],
    ["/page.css?v=2", "text/css; charset=utf-8", "no-cache"],
    ["/manifest.webmanifest", "application/manifest+json", "no-cache"],
    ["/fonts/a.woff2", "font/woff2", "no-cache"],
  ] as const) {
    const { status, headers, text } = await get(port, path);
    assert.deepEqual([status, headers["content-type"], headers["cache-control"]], [200, type, keep], path);
    assert.equal(headers["x-content-type-options"], "nosniff");
    const again = await get(port, path, "GET", { "If-None-Match": headers.etag ?? "" });
    assert.deepEqual([again.status, again.text], [304, ""]);
    const head = await get(port, path, "HEAD");
    assert.deepEqual([head.status, head.text, head.headers["content-length"]], [200, "", String(text.length)]);
  }
  assert.equal(await stop(), 0);
});

test("no address leads out of the folder, and nothing can be written", async () => {
  const { port, stop } = await serve("--port", String(await freePort()));
  const outside = [
    "/../cli.js",
    "/..%2fcli.js",
    "/%2e%2e/cli.js",
    "/fonts/../../cli.js",
    "/..\\cli.js",
    "//etc/passwd",
  ];
  for (const path of [...outside, "/fonts", "/fonts/", "/plan", "/none.js", "*"]) {
    const { status, text } = await get(port, path);
    assert.deepEqual([status, text], [404, "there is no such file; the page is at /\n"], path);
  }
  for (const method of ["POST", "PUT", "DELETE", "OPTIONS"]) {
    const { status, headers } = await get(port, "/", method);
    assert.deepEqual([status, headers.allow], [405, "GET, HEAD"], method);
  }
  await stop();
});

test("a plan is handed over as a copy, and to this machine's own names only", async () => {
  const before = readFileSync(SLOOP, "utf8");
  const { port, says, stop } = await serve(SLOOP, "--port", String(await freePort()));
  assert.match(says, new RegExp(`http://127.0.0.1:${port}/\\?plan=sloop\\.yaml; stop with Ctrl C\n`));
  assert.match(says, /shows a copy of .*; the\s+file itself is only read/);
  assert.equal((await get(port, "/plan", "GET", { Host: `localhost:${port}` })).text, before);
  const { headers, text } = await get(port, "/plan");
  assert.equal(text, before);
  // Not kept, and not for scripts of other sites.
  assert.deepEqual(
    [headers["cache-control"], headers["access-control-allow-origin"], headers["cross-origin-resource-policy"]],
    ["no-store", undefined, "same-origin"],
  );
  for (const Host of [
    "rebound.example",
    `rebound.example:${port}`,
    "127.0.0.1",
    "localhost",
    `127.0.0.1:${port + 1}`,
  ]) {
    const refused = await get(port, "/plan", "GET", { Host });
    assert.equal(refused.status, 421, Host);
    assert.ok(!refused.text.includes("sloop"));
  }
  assert.equal(await stop(), 0);
});

test("other machines do not reach it", async () => {
  const { port, stop } = await serve("--port", String(await freePort()));
  // Any other address of this machine stands for another machine: it is listened on, or it is not.
  await assert.rejects(
    new Promise((resolve, reject) => {
      request({ host: "127.0.0.2", port }, resolve).on("error", reject).end();
    }),
    /ECONNREFUSED/,
  );
  await stop();
});

test("the examples of its help run as they stand", async () => {
  const { out } = runner(folder)(["page", "--help"]);
  const shown = [...out.matchAll(/^ {2}wireworthy page ?(.*)$/gm)].map(([, args = ""]) => args);
  assert.deepEqual(shown, ["", "examples/sloop.yaml"]);
  symlinkSync(join(root, "examples"), join(temporary, "examples"));
  for (const args of shown) {
    const { port, stop } = await serve(...args.split(" ").filter((arg) => arg !== ""));
    assert.equal((await get(port, "/")).status, 200);
    assert.equal(await stop(), 0);
  }
});

test("what cannot be done is said, with exit code 3", async () => {
  const run = runner(folder);
  const { port, stop } = await serve("--port", String(await freePort()));
  const slips: [string[], RegExp][] = [
    [["--port", String(port)], /port \d+ cannot be had: it is taken\nhint: name another by `--port N`/],
    [["--port", "many"], /`--port` takes a number from 1 to 65535/],
    [["--port", "70000"], /`--port` takes a number/],
    [["none.yaml"], /`none\.yaml` cannot be read: there is no such file/],
    [["--prot", "1"], /did you mean `--port`\?/],
  ];
  for (const [args, says] of slips) {
    const { code, out, err } = run(["page", ...args]);
    assert.deepEqual([code, out], [3, ""], args.join(" "));
    assert.match(err, says);
  }
  await stop();
  rmSync(join(folder, "dist", "page"), { recursive: true });
  assert.match(run(["page"]).err, /the page is not built\nhint: run `npm run build`/);
});
