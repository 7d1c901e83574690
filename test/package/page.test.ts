import { afterAll, beforeAll, test } from "vitest";
import assert from "node:assert/strict";
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { buildPage, CONTENT_POLICY, filesIn, weighFirstLoad, type BuiltPage } from "../../tools/build-page.ts";
import { readFont } from "../../tools/read-font.ts";
import { freshFolder, removeFolder, root } from "./built.ts";

/** What the build of the page writes. */

let folder = "";
let page: BuiltPage;
const textOf = (name: string): string => readFileSync(join(folder, name), "utf8");

beforeAll(async () => {
  folder = freshFolder();
  page = await buildPage(folder);
});
afterAll(() => {
  removeFolder(folder);
});

test("the first load is light", () => {
  const { files, gzip, brotli } = weighFirstLoad(folder, page.firstFiles);
  const kib = (bytes: number): string => `${(bytes / 1024).toFixed(1)} KiB`;
  const table = files.map(
    (file) => `${file.name}: ${kib(file.plain)}, gzip ${kib(file.gzip)}, brotli ${kib(file.brotli)}`,
  );
  for (const name of ["index.html", "page.css", "page.js", "worker.js"]) assert.ok(page.firstFiles.includes(name));
  // 400 KiB are a second and a half on a poor line of 2 Mbit/s.
  assert.ok(brotli <= 400 * 1024 && gzip <= 400 * 1024, table.join("\n"));
});

test("the same sources give the same bytes", async () => {
  const again = freshFolder();
  await buildPage(again);
  assert.deepEqual(filesIn(again), filesIn(folder));
  for (const name of filesIn(folder))
    assert.ok(readFileSync(join(again, name)).equals(readFileSync(join(folder, name))), name);
  removeFolder(again);
});

test("the document holds no script of its own, and names only files that are there", () => {
  const html = textOf("index.html");
  assert.ok(html.includes(`content="${CONTENT_POLICY}"`));
  assert.doesNotMatch(html, /<script(?![^>]*\ssrc=)|\son[a-z]+=|javascript:/i);
  const named = [...html.matchAll(/(?:href|src)="([^"]*)"/g)].map(([, name = ""]) => name);
  assert.ok(named.length >= 6);
  for (const name of named) assert.ok(existsSync(join(folder, name)), name);
  const css = textOf("page.css");
  for (const [, name = ""] of css.matchAll(/url\("?([^")]*)"?\)/g)) {
    if (!name.startsWith("data:")) assert.ok(existsSync(join(folder, name)), name);
  }
  const { icons } = JSON.parse(textOf("manifest.webmanifest")) as { icons: readonly { src: string }[] }; // our own file
  for (const { src } of icons) assert.ok(existsSync(join(folder, src)), src);
});

test("nothing in it evaluates text as code, or knows an address elsewhere", () => {
  for (const name of filesIn(folder).filter((file) => file.endsWith(".js"))) {
    const code = textOf(name);
    assert.doesNotMatch(code, /\beval\(|new Function\(|\bimportScripts\(/, name);
    // Names of forms of XML and texts that are printed are no requests; what asks for something is watched in a browser.
    assert.doesNotMatch(code, /\b(?:fetch|import|WebSocket|EventSource|sendBeacon)\(\s*["'`](?:https?|wss?):/, name);
  }
});

test("the licences of what is inside are there", () => {
  const notices = textOf("THIRD-PARTY.txt");
  for (const name of ["preact", "yaml", "@codemirror/state", "@codemirror/view", "@lezer/common"])
    assert.ok(notices.includes(`The package "${name}" is contained`), name);
  assert.match(textOf("fonts/OFL.txt"), /SIL OPEN FONT LICENSE/);
});

test("the examples are those of the project", () => {
  for (const name of ["sloop", "sloop-us", "sloop-audit", "van", "hut"])
    assert.equal(textOf(`examples/${name}.yaml`), readFileSync(join(root, "examples", `${name}.yaml`), "utf8"));
});

test("the light fonts hold what Latin plans need: every character of the ranges that the whole font has", () => {
  // The page believes the ranges: a character that is in them and not in the light font would be drawn in another font.
  const ranges = readFileSync(join(root, "fonts", "latin.txt"), "utf8")
    .split(",")
    .map((part) => part.trim().slice(2).split("-"));
  const whole = readFont(readFileSync(join(root, "fonts", "IBMPlexSans-Regular.ttf")));
  const inRanges = whole.characters.filter((code) =>
    ranges.some(
      ([first = "", last = first]) => code >= Number.parseInt(first, 16) && code <= Number.parseInt(last, 16),
    ),
  );
  for (const character of "AZaz09Ωµ²³°·–—…→≥≤×−½€äéñøčžőșΔ✓")
    assert.ok(inRanges.includes(character.codePointAt(0) ?? 0), character);
});
