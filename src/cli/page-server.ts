import { createHash } from "node:crypto";
import { readdir, readFile } from "node:fs/promises";
import { createServer, type IncomingMessage, type Server, type ServerResponse } from "node:http";
import { extname, join, relative, sep } from "node:path";

/** A file as it is sent. */
interface Sent {
  readonly bytes: Buffer;
  readonly type: string;
  readonly tag: string;
  /** Its name changes with its bytes. */
  readonly isHashed: boolean;
}

/** Files of the page by the path of their address. */
export type PageFiles = ReadonlyMap<string, Sent>;

const types: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".woff2": "font/woff2",
  ".webmanifest": "application/manifest+json",
  ".txt": "text/plain; charset=utf-8",
  // Shown and not offered for saving where somebody opens one by its address.
  ".yaml": "text/plain; charset=utf-8",
};

/** What every answer says: nothing is guessed, framed, or told to others. The page says itself what may run in it. */
const guards = {
  "X-Content-Type-Options": "nosniff",
  "X-Frame-Options": "DENY",
  "Referrer-Policy": "no-referrer",
  "Cross-Origin-Opener-Policy": "same-origin",
  "Cross-Origin-Resource-Policy": "same-origin",
};

const sent = (bytes: Buffer, name: string): Sent => ({
  bytes,
  type: types[extname(name)] ?? "application/octet-stream",
  tag: `"${createHash("sha256").update(bytes).digest("hex").slice(0, 24)}"`,
  isHashed: /^part-[A-Z0-9]{8}\.js$/.test(name),
});

/**
 * Reads the page into memory.
 *
 * Only what was found here is ever sent, so that no address leads out of the folder.
 *
 * @param plan opened by the page at `/plan`; absent: none
 * @returns null where the page was not built
 */
export async function readPage(folder: string, plan?: string): Promise<PageFiles | null> {
  try {
    const entries = await readdir(folder, { recursive: true, withFileTypes: true });
    const names = entries.filter((e) => e.isFile()).map((e) => relative(folder, join(e.parentPath, e.name)));
    const files = await Promise.all(
      names.map(
        async (name) => [`/${name.split(sep).join("/")}`, sent(await readFile(join(folder, name)), name)] as const,
      ),
    );
    const all = new Map(files);
    const index = all.get("/index.html");
    if (index === undefined) return null;
    all.set("/", index);
    if (plan !== undefined) all.set("/plan", sent(Buffer.from(plan), "plan.yaml"));
    return all;
  } catch {
    return null;
  }
}

/**
 * A server for this machine alone.
 *
 * Answers only to its own names: another site that has its name point here (DNS rebinding) is turned away, and so cannot read a plan.
 */
export function serveFiles(files: PageFiles): Server {
  return createServer((request, response) => {
    answer(files, request, response);
  });
}

function answer(
  files: PageFiles,
  { method, url = "", headers, socket }: IncomingMessage,
  response: ServerResponse,
): void {
  const port = socket.localPort ?? 0;
  const [path = ""] = url.split("?", 1);
  const file = files.get(path);
  if (headers.host !== `127.0.0.1:${port}` && headers.host !== `localhost:${port}`) {
    refuse(response, 421, `this is Wireworthy at http://127.0.0.1:${port}, and it answers to no other name`);
  } else if (method !== "GET" && method !== "HEAD") {
    refuse(response, 405, "files are read here, and nothing else", { Allow: "GET, HEAD" });
  } else if (file === undefined) {
    refuse(response, 404, "there is no such file; the page is at /");
  } else {
    const { bytes, type, tag, isHashed } = file;
    // A hashed name never means other bytes; of the rest the browser asks each time, and is told when nothing changed.
    const keep = path === "/plan" ? "no-store" : isHashed ? "max-age=31536000, immutable" : "no-cache";
    const head = { ...guards, ETag: tag, "Cache-Control": keep };
    if (headers["if-none-match"] === tag) {
      response.writeHead(304, head).end();
    } else {
      // Node leaves out the body of an answer to HEAD by itself.
      response.writeHead(200, { ...head, "Content-Type": type, "Content-Length": bytes.length }).end(bytes);
    }
  }
}

function refuse(response: ServerResponse, status: number, text: string, more: Readonly<Record<string, string>> = {}) {
  const bytes = Buffer.from(`${text}\n`);
  const head = { ...guards, "Content-Type": types[".txt"], "Content-Length": bytes.length, ...more };
  response.writeHead(status, head).end(bytes);
}
