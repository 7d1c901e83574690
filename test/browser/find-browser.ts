import { existsSync } from "node:fs";
import { chromium, type Browser, type BrowserServer, type LaunchOptions } from "playwright-core";

const DEBIAN = "/usr/bin/chromium";

/**
 * The browser that the tests drive.
 *
 * @throws Error - there is none; the page must not go untested in silence
 */
export function findBrowser(): string {
  const told = process.env["WIREWORTHY_CHROMIUM"];
  const path = told ?? DEBIAN;
  if (existsSync(path)) return path;
  throw new Error(
    told === undefined
      ? `no browser at ${DEBIAN}: run \`apt-get install chromium\` as root, or name one by WIREWORTHY_CHROMIUM`
      : `WIREWORTHY_CHROMIUM names ${told}, and there is no such file`,
  );
}

export const launchOptions = (): LaunchOptions => ({
  executablePath: findBrowser(),
  // Text as wide on every machine as the font says, and pictures that do not depend on a screen.
  args: ["--font-render-hinting=none", "--force-color-profile=srgb", "--disable-lcd-text"],
});

export const launchServer = (): Promise<BrowserServer> => chromium.launchServer(launchOptions());
export const connect = (endpoint: string): Promise<Browser> => chromium.connect(endpoint);
