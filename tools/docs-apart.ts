import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("..", import.meta.url));
const FOLDERS = ["src/plan/grammar", "src/system/kinds"];
const DOC = /\bdoc:\s*("(?:[^"\\]|\\.)*")/g;

/** Where the number of each key's words begins, by file, and all of them in order. */
function gather(): { readonly first: ReadonlyMap<string, number>; readonly texts: readonly string[] } {
  const first = new Map<string, number>();
  const texts: string[] = [];
  for (const folder of FOLDERS) {
    for (const name of readdirSync(join(root, folder)).sort()) {
      const path = join(root, folder, name);
      first.set(path, texts.length);
      for (const [, text = ""] of readFileSync(path, "utf8").matchAll(DOC)) texts.push(text);
    }
  }
  return { first, texts };
}

const { first, texts } = gather();

/**
 * What the keys of a plan mean, in words, is read by whoever points at one, and by nobody before: in a bundle each text stands as its number, and the texts come
 * with the piece that shows them.
 *
 * @returns the text of the file as it goes into the bundle
 */
export function docsApart(path: string, text: string): string {
  if (path === join(root, "src/plan/assist/doc-text.ts"))
    return `const texts = [${texts.join(",")}];\nexport const docText = (doc) => texts[Number(doc)] ?? doc;\n`;
  const from = first.get(path);
  if (from === undefined) return text;
  let number = from;
  return text.replace(DOC, () => `doc: "${number++}"`);
}
