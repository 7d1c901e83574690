import { afterAll, beforeAll, test } from "vitest";
import assert from "node:assert/strict";
import { cpSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type * as pdf from "../../src/cli/make-pdf.ts";
import { bundle } from "../../tools/build.ts";
import { drawSymbolSheet } from "../peers/symbol-sheet.ts";
import { freshFolder, removeFolder, root } from "./built.ts";

let folder = "";
beforeAll(async () => {
  folder = freshFolder();
  for (const name of ["package.json", "fonts"]) cpSync(join(root, name), join(folder, name), { recursive: true });
  await bundle(join(folder, "dist"), { "make-pdf": "src/cli/make-pdf.ts" });
});
afterAll(() => {
  removeFolder(folder);
});

test("the built package writes PDF with nothing installed beside it, its own fonts within", async () => {
  const { makePdf } = (await import(pathToFileURL(join(folder, "dist", "make-pdf.js")).href)) as typeof pdf; // just built from it
  const about = { title: "Symbols", subject: "all", language: "en-GB", creator: "Wireworthy", date: null };
  const bytes = Buffer.from(await makePdf([drawSymbolSheet()], about));
  assert.ok(bytes.subarray(0, 5).equals(Buffer.from("%PDF-")) && bytes.subarray(-6).equals(Buffer.from("%%EOF\n")));
  assert.ok(bytes.includes("+IBMPlexSans"));
});

test("whoever wrote what is in the bundle is named", () => {
  const notices = readFileSync(join(folder, "dist", "THIRD-PARTY.txt"), "utf8");
  for (const name of ["yaml", "pdfkit", "fontkit", "@swc/helpers"])
    assert.ok(notices.includes(`The package "${name}"`), name);
  // Who has the words of another names it, and has copyright lines of its own; all others stand in full.
  const all = notices.split(/^(?=The package ")/m);
  const named = (notice: string): string | undefined => /stand in full under "(.+?)"/.exec(notice)?.[1];
  const inFull = all.filter((notice) => named(notice) === undefined);
  for (const notice of inFull) assert.ok(notice.length > 700, notice);
  const owners = inFull.map((notice) => /"(.+?)"/.exec(notice)?.[1]);
  for (const notice of all.filter((each) => !inFull.includes(each))) {
    assert.match(notice, /^Copyright/im);
    assert.ok(owners.includes(named(notice)), notice);
  }
});
