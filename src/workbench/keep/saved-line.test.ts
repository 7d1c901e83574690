import { test } from "vitest";
import assert from "node:assert/strict";
import { newBuild } from "./build.ts";
import { plainForm } from "./file-form.ts";
import { rowLine, savedLine, timeOf, type Saving } from "./saved-line.ts";

const at = (day: number, hour: number, minute: number): number => new Date(2026, 10, day, hour, minute).getTime();
const NOW = at(25, 15, 0);
const DAY = 24 * 60 * 60 * 1000;
const kept: Saving = { kept: "browser", changes: 3, since: NOW, file: null, why: null };
const file = { name: "sloop.yaml", at: at(25, 14, 2) };

test.each<[Saving, string, string]>([
  [
    { kept: "file", file: "sloop.yaml", at: at(25, 14, 2), writing: false, download: false },
    "calm",
    "Saved in sloop.yaml, 14:02",
  ],
  [
    { kept: "file", file: "sloop.yaml", at: at(25, 14, 2), writing: true, download: false },
    "calm",
    "Saving in sloop.yaml",
  ],
  [
    { kept: "file", file: "sloop.yaml", at: at(3, 14, 2), writing: false, download: true },
    "calm",
    "Downloaded as sloop.yaml, 3 November",
  ],
  [kept, "calm", "Kept in this browser only"],
  [{ ...kept, changes: 9 }, "calm", "Kept in this browser only"],
  [{ ...kept, changes: 10 }, "warn", "10 changes are kept in this browser only. Save to a file you own."],
  [{ ...kept, changes: 1, since: NOW - DAY }, "warn", "1 change is kept in this browser only. Save to a file you own."],
  [{ ...kept, changes: 0, since: NOW - 9 * DAY }, "calm", "Kept in this browser only"],
  [{ ...kept, file }, "calm", "3 changes kept in this browser only, not yet in sloop.yaml"],
  [
    { ...kept, file, why: "asks" },
    "warn",
    "Kept in this browser only: the browser asks again before it writes into sloop.yaml. Save to let it.",
  ],
  [
    { kept: "not", since: at(25, 14, 2), why: "full" },
    "fail",
    "Not saved since 14:02: the disk is full. Everything is still here. Save elsewhere.",
  ],
  [
    { kept: "not", since: at(24, 22, 41), why: "elsewhere" },
    "fail",
    "Not saved since yesterday 22:41: another tab has written since. Everything is still here. Save it under another name.",
  ],
])("%j is %s: %s", (saving, level, says) => {
  assert.deepEqual(savedLine(saving, NOW), { says, level });
});

test("a row of the list says what is in no file, and what a crash left", () => {
  const build = newBuild("1", "van", "", NOW);
  const link = { ...file, text: "", form: plainForm, modified: 0, savedAt: at(24, 9, 5), how: "linked" as const };
  assert.equal(rowLine(build, true, NOW), "kept in this browser only");
  assert.equal(rowLine({ ...build, unsaved: 7 }, true, NOW), "7 changes not yet in a file, found after a crash");
  assert.equal(rowLine({ ...build, file: link, unsaved: 1 }, false, NOW), "1 change not yet in sloop.yaml");
  assert.equal(rowLine({ ...build, file: link }, true, NOW), "in sloop.yaml, saved yesterday 09:05");
});

test("a moment is said as far as it matters", () => {
  assert.equal(timeOf(at(25, 0, 0), NOW), "00:00");
  assert.equal(timeOf(at(24, 23, 59), NOW), "yesterday 23:59");
  assert.equal(timeOf(at(3, 9, 0), NOW), "3 November");
  assert.equal(timeOf(new Date(2024, 4, 3).getTime(), NOW), "3 May 2024");
  assert.equal(timeOf(new Date(2025, 11, 31, 8, 5).getTime(), new Date(2026, 0, 1, 0, 1).getTime()), "yesterday 08:05");
});
