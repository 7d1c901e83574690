import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { Metafile } from "esbuild";

const root = join(import.meta.dirname, "..");

/** The licences of all packages that bundles contain, one after the other; the same bundles give the same text. */
export function noticesOf(metafiles: readonly Metafile[]): string {
  const inputs = metafiles.flatMap(({ outputs }) => Object.values(outputs).flatMap((o) => Object.keys(o.inputs)));
  const names = inputs.flatMap((path) => /^node_modules\/((?:@[^/]+\/)?[^/]+)\//.exec(path)?.[1] ?? []);
  const notices = [...new Set(names)].sort().map(noticeOf);
  // One text of terms for all packages whose own differs from it in line breaks and quotation marks alone; each keeps its own copyright lines.
  const seen = new Map<string, string>();
  return notices
    .map((notice) => {
      const at = notice.indexOf(TERMS);
      if (at < 0) return notice;
      const terms = notice.slice(at);
      const key = terms.replace(/\s+/g, " ").replace(/[“”]/g, '"').trim();
      const first = seen.get(key);
      if (first !== undefined)
        return `${notice.slice(0, at)}Its terms are word for word those that stand in full under "${first}".\n`;
      seen.set(key, /"(.+?)"/.exec(notice)?.[1] ?? "");
      return notice;
    })
    .join("\n");
}

/** How the terms of the MIT licence begin, after the copyright lines. */
const TERMS = "Permission is hereby granted, free of charge";

/** The licence of a package that the bundle contains; one that cannot be named stops the build. */
function noticeOf(name: string): string {
  const folder = join(root, "node_modules", name);
  const head = `The package "${name}" is contained in these files.`;
  const file = ["LICENSE", "LICENSE.md", "LICENSE.txt"].map((text) => join(folder, text)).find(existsSync);
  if (file !== undefined) return `${head}\n\n${readFileSync(file, "utf8").trim()}\n`;
  // What package.json says of itself.
  const { license, author } = JSON.parse(readFileSync(join(folder, "package.json"), "utf8")) as Partial<
    Record<"license" | "author", unknown>
  >;
  if (license !== "MIT" || typeof author !== "string") throw new Error(`the licence of ${name} is not known`);
  // The project's own licence is the same one, under another name.
  const terms = readFileSync(join(root, "LICENSE"), "utf8").replace(/^Copyright .*$/m, `Copyright (c) ${author}`);
  return `${head} It says that it is under the MIT licence and brings no text; this is the usual one.\n\n${terms.trim()}\n`;
}
