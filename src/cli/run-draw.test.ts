import { afterAll, test } from "vitest";
import assert from "node:assert/strict";
import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { runDraw } from "./run-draw.ts";
import { plain, type Terminal } from "./terminal.ts";

const plan = join(import.meta.dirname, "../../examples/sloop.yaml");
const folder = mkdtempSync(join(tmpdir(), "wireworthy-draw-"));
afterAll(() => {
  rmSync(folder, { recursive: true });
});

async function draw(options: Record<string, string | true>) {
  const said = { out: "", err: "", data: "" };
  const terminal: Terminal = {
    width: 100,
    out: (text) => void (said.out += text),
    err: (text) => void (said.err += text),
    data: (text) => void (said.data += text),
    paint: plain,
  };
  return { code: await runDraw({ names: [plan], options }, terminal), ...said };
}

test.each([
  ["the bench", {}],
  ["a strip", { circuit: "W13" }],
  ["curves", { curves: "W13" }],
  ["a sheet", { on: "A4" }],
  ["a circuit diagram", { "circuit-diagram": true }],
] as const)("%s is a PDF where the name says so, and carries its font where it is an SVG", async (name, options) => {
  const file = (end: string): string => join(folder, `${name}.${end}`);
  assert.match((await draw({ ...options, out: file("pdf") })).out, /^wrote /);
  assert.equal(readFileSync(file("pdf")).subarray(0, 5).toString(), "%PDF-");
  await draw({ ...options, out: file("svg") });
  const svg = readFileSync(file("svg"), "utf8");
  assert.match(svg, /^<svg /);
  assert.equal(svg.match(/@font-face[^}]*src:url\(&quot;data:font\/ttf;base64,[\w+/=]{1000,}&quot;\)/g)?.length, 2); // prettier-ignore
});

test("a form that is not written is refused with what is", async () => {
  const out = join(folder, "bench.png");
  const { err } = await draw({ out });
  assert.match(err, /cannot be written as `.*bench\.png`\nhint: name a file that ends in \.svg or \.pdf/);
  assert.equal(existsSync(out), false);
});
