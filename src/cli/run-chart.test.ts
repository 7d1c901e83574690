import { test } from "vitest";
import assert from "node:assert/strict";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { runChart } from "./run-chart.ts";
import { plain, type Terminal } from "./terminal.ts";

async function run(
  options: Readonly<Record<string, string | true>>,
): Promise<{ code: number; data: string; err: string }> {
  let [data, err] = ["", ""];
  const terminal: Terminal = { width: 120, out: () => undefined, err: (text) => void (err += text), data: (text) => void (data += text), paint: plain }; // prettier-ignore
  const code = await runChart({ names: [], options }, terminal);
  // Without the font, which is most of it.
  return { code, data: data.replace(/data:font[^&]+/g, ""), err };
}

test("paper decides what is drawn, and which side of a card", async () => {
  assert.match((await run({})).data, /width="420mm" height="297mm"/);
  assert.match((await run({ units: "us" })).data, /width="431\.8mm" height="279\.4mm"/);
  assert.match((await run({ paper: "a6" })).data, /width="105mm" height="148mm".*\n<title>.*front/);
  assert.match((await run({ paper: "A6", side: "back" })).data, /<title>.*back/);
});

test("a size is marked wherever it stands on the ladder", async () => {
  assert.match((await run({ mark: "35mm2" })).data, /not smaller than 35 mm²: 1 AWG, 42\.4 mm²/);
  assert.match((await run({ mark: "4/0" })).data, /not smaller than 4\/0 AWG: 120 mm²/);
});

test("what cannot be drawn is refused, with what can", async () => {
  for (const [options, says] of [
    [{ paper: "A5" }, /no paper `A5`\nhint: write one of A3, Tabloid, A6, Index/],
    [{ units: "imperial" }, /no units `imperial`/],
    [{ mark: "6 mm" }, /several ways/],
    [{ mark: "19/27 AWG" }, /no size of the ladder/],
    [{ side: "back" }, /only a card/],
    [{ out: "chart.png" }, /neither a PDF nor an SVG/],
  ] as const) {
    const { code, err } = await run(options);
    assert.equal(code, 3);
    assert.match(err, says);
  }
});

test("a PDF is the same each time, may be written again, and nothing of others is written over", async () => {
  const folder = await mkdtemp(join(tmpdir(), "chart-"));
  try {
    const [card, other] = [join(folder, "card.pdf"), join(folder, "other.pdf")];
    assert.deepEqual(await run({ paper: "A6", out: card }), { code: 0, data: "", err: "" });
    const first = await readFile(card, "latin1");
    assert.match(first, /^%PDF-/);
    // A6 is 105 × 148 mm, a point is 1/72 in; two sides.
    const pages = [...first.matchAll(/\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/g)].map(([, w, h]) => [
      Number(w),
      Number(h),
    ]);
    assert.equal(pages.length, 2);
    for (const [w = 0, h = 0] of pages) assert.ok(Math.abs(w - (105 * 72) / 25.4) < 0.01 && Math.abs(h - (148 * 72) / 25.4) < 0.01); // prettier-ignore
    assert.deepEqual(await run({ paper: "A6", out: card }), { code: 0, data: "", err: "" });
    assert.ok((await readFile(card, "latin1")) === first);
    await writeFile(other, "%PDF-1.4 of somebody else");
    assert.match((await run({ out: other })).err, /is no drawing of/);
  } finally {
    await rm(folder, { recursive: true });
  }
}, 30_000);
