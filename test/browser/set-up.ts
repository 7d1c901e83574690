import { once } from "node:events";
import { rmSync } from "node:fs";
import type { Server } from "node:http";
import { join } from "node:path";
import type { TestProject } from "vitest/node";
import { readPage, serveFiles } from "../../src/cli/page-server.ts";
import { buildPage } from "../../tools/build-page.ts";
import { connect, launchServer } from "./find-browser.ts";

declare module "vitest" {
  // What test files are handed.
  interface ProvidedContext {
    readonly browserEndpoint: string;
    readonly pageFolder: string;
    readonly pageAddress: string;
  }
}

const root = join(import.meta.dirname, "../..");

/** Once a run: builds the page, serves it as the product does, and starts one browser. */
export async function setup(project: TestProject): Promise<() => Promise<void>> {
  const folder = join(root, "out", "test", `page-${process.pid}`);
  await buildPage(folder);
  const server = await serveFolder(folder);
  const browser = await launchServer();
  const seen = await connect(browser.wsEndpoint());
  console.log(`page tests: Chromium ${seen.version()}`);
  await seen.close();
  project.provide("browserEndpoint", browser.wsEndpoint());
  project.provide("pageFolder", folder);
  project.provide("pageAddress", addressOf(server));
  return async () => {
    await browser.close();
    server.closeAllConnections();
    server.close();
    rmSync(folder, { recursive: true, force: true });
  };
}

/** Serves a folder by the product's own server. */
export async function serveFolder(folder: string, plan?: string, port = 0): Promise<Server> {
  const files = await readPage(folder, plan);
  if (files === null) throw new Error(`${folder} holds no page`);
  const server = serveFiles(files).listen(port, "127.0.0.1");
  await once(server, "listening");
  return server;
}

export function addressOf(server: Server): string {
  const bound = server.address();
  if (typeof bound !== "object" || bound === null) throw new Error("the server does not listen");
  return `http://127.0.0.1:${bound.port}/`;
}
