import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, resolve } from "node:path";

/** A piece of code that a reader is shown, and where it stands. */
export interface Snippet {
  readonly file: string;
  /** Line of the tag or fence, from 1. */
  readonly line: number;
  readonly code: string;
}

export const root = join(import.meta.dirname, "../..");

/** Files below a folder of the project by ending, as paths from its root, in one order on every machine. */
export function filesBelow(folder: string, ending: string): string[] {
  return readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith(ending))
    .map((entry) => join(entry.parentPath, entry.name).slice(root.length + 1))
    .sort();
}

/** Every `@example` of a file: the lines behind its tag, up to the next tag or the end of the comment. */
export function examplesIn(file: string, text = readFileSync(join(root, file), "utf8")): Snippet[] {
  const snippets: Snippet[] = [];
  for (const comment of text.matchAll(/\/\*\*[\s\S]*?\*\//g)) {
    const first = text.slice(0, comment.index).split("\n").length;
    const lines = comment[0].split("\n").map((line) =>
      line
        .replace(/^\s*(\/\*\*|\*(?!\/)) ?/, "")
        .replace(/\s*\*\/$/, "")
        .trimEnd(),
    );
    for (const [i, line] of lines.entries()) {
      if (!/^@example\b/.test(line)) continue;
      const rest = lines.slice(i + 1);
      const end = rest.findIndex((l) => /^@[a-z]+\b/.test(l));
      snippets.push({ file, line: first + i, code: rest.slice(0, end < 0 ? rest.length : end).join("\n") });
    }
  }
  return snippets;
}

/** The modules whose exports an example may use: its own, what it imports from the project, and the door of its folder. */
export function modulesInScope(file: string, text = readFileSync(join(root, file), "utf8")): string[] {
  const folder = dirname(join(root, file));
  const imported = [...text.matchAll(/^(?:import|export)\b[^;]*? from "(\.[^"]+)"/gm)].map((m) =>
    resolve(folder, m[1] ?? ""),
  );
  return [...new Set([join(root, file), ...imported, join(folder, "index.ts")])];
}

/** The fences of a page that carry a mark, such as `ts run` or `yaml plan`. */
export function fencesIn(file: string, mark: string, text = readFileSync(join(root, file), "utf8")): Snippet[] {
  const snippets: Snippet[] = [];
  const fence = new RegExp(`^\`\`\`${mark}\\n([\\s\\S]*?)^\`\`\`$`, "gm");
  for (const match of text.matchAll(fence)) {
    snippets.push({ file, line: text.slice(0, match.index).split("\n").length, code: match[1] ?? "" });
  }
  return snippets;
}
