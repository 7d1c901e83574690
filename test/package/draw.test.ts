import { afterAll, beforeAll, test } from "vitest";
import assert from "node:assert/strict";
import { mkdirSync, readFileSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { compile } from "../../src/compile.ts";
import { drawBench } from "../../src/draw/bench/index.ts";
import { drawStrip } from "../../src/draw/strip/index.ts";
import { writeSvg } from "../../src/draw/write-svg.ts";
import { freshFolder, removeFolder, root, warmRunner, type Ran } from "./built.ts";

const SLOOP = "examples/sloop.yaml";
let temporary = "";
let run: (args: readonly string[]) => Ran = () => ({ code: null, out: "", err: "" });

beforeAll(async () => {
  temporary = freshFolder();
  run = await warmRunner();
}, 120_000);
afterAll(() => {
  removeFolder(temporary);
});

const build = () => {
  const compiled = compile(readFileSync(join(root, SLOOP), "utf8"), undefined, { today: new Date().toISOString().slice(0, 10) }); // prettier-ignore
  return { ...compiled, findings: compiled.judgement.findings };
};

test("a drawing for the bench and a strip have the very bytes that the page has", () => {
  const options = { variant: "iec", state: "at anchor" } as const;
  const { code, out, err } = run(["draw", SLOOP, "--state", "At Anchor", "--handles"]);
  assert.deepEqual([code, err], [0, ""]);
  assert.equal(out, writeSvg(drawBench(build(), { ...options, handles: true }).scene));
  assert.equal(run(["draw", SLOOP, "--circuit", "w13", "--state", "at anchor"]).out, writeSvg(drawStrip(build(), "W13", options))); // prettier-ignore
});

test("a sheet of paper carries its font, and has no more sheets than it has", () => {
  const { code, out } = run(["draw", SLOOP, "--on", "a4"]);
  assert.equal(code, 0);
  assert.match(out, /^<svg [^>]*width="210mm" height="297mm"/);
  assert.match(out, /@font-face/);
  assert.match(run(["draw", SLOOP, "--on", "A4", "--sheet", "9"]).err, /there is no sheet `9`/);
});

test.each([
  [["--on", "A9"], /there is no paper `A9`/],
  [["--state", "on the moon"], /the plan has no state `on the moon`[^]*`at anchor`/],
  [["--circuit", "W99"], /the plan has no circuit `W99`/],
  [["--on", "A4", "--state", "at anchor"], /on paper contacts stand at rest/],
  [["--circuit", "W13", "--handles"], /a strip has neither paper nor handles/],
  [["--sheet", "2"], /the bench has one sheet/],
])("%j is told with exit code 3", (args, says) => {
  const { code, out, err } = run(["draw", SLOOP, ...args]);
  assert.deepEqual([code, out], [3, ""]);
  assert.match(err, says);
});

test("a file is written whole, again over itself, and never over the plan or what is no drawing of ours", () => {
  const file = join(temporary, "sloop.svg");
  const first = run(["draw", SLOOP, "-o", file]);
  assert.equal(first.code, 0);
  assert.match(first.out, /^wrote .*sloop\.svg/);
  const svg = readFileSync(file, "utf8");
  assert.equal(run(["draw", SLOOP, "-o", file]).code, 0);
  assert.equal(readFileSync(file, "utf8"), svg);

  const plan = join(temporary, "plan.yaml");
  writeFileSync(plan, readFileSync(join(root, SLOOP)));
  assert.match(run(["draw", plan, "-o", plan]).err, /is the plan itself/);
  const mine = join(temporary, "mine.svg");
  writeFileSync(mine, "<svg>mine</svg>");
  assert.match(run(["draw", SLOOP, "-o", mine]).err, /is no drawing of/);
  assert.equal(readFileSync(mine, "utf8"), "<svg>mine</svg>");
  const link = join(temporary, "link.svg");
  symlinkSync(mine, link);
  assert.equal(run(["draw", SLOOP, "-o", link]).code, 3);
  mkdirSync(join(temporary, "folder.svg"));
  assert.match(run(["draw", SLOOP, "-o", join(temporary, "folder.svg")]).err, /is a folder/);
});
