import { test } from "vitest";
import assert from "node:assert/strict";
import { openKeep } from "../bench/open-keep.ts";
import { fakeClock, fakeTabs } from "./fake-browser.ts";
import { fakeDisk } from "./fake-files.ts";
import { LARGEST_FILE, readDropped, type FileLike } from "./file.ts";
import { openKeeper } from "./keeper.ts";
import { memoryStore } from "./memory-store.ts";
import { savedLine } from "./saved-line.ts";

/** Says how long it is without being it. */
const file = (size: number): FileLike => ({
  name: "film.mp4",
  size,
  lastModified: 0,
  arrayBuffer: () => Promise.resolve(new ArrayBuffer(0)),
});

test("what is too large to be a plan is not read", async () => {
  const unread = { ...file(LARGEST_FILE + 1), arrayBuffer: () => Promise.reject(new Error("it was read")) };
  assert.deepEqual(await readDropped(unread), { ok: false, why: "too-large" });
  assert.equal((await readDropped(file(LARGEST_FILE))).ok, true);
});

test("wherever it is said, it is said by the same figure", async () => {
  const clock = fakeClock();
  const parts = { store: memoryStore(null), files: fakeDisk(clock), pens: fakeTabs()(), clock, newId: () => "id" };
  const film = new File([new Uint8Array(LARGEST_FILE + 1)], "film.mp4");
  const refused = await openKeep(openKeeper(parts), clock).openDropped(film);
  assert.ok(!refused.ok);
  assert.equal(refused.message, "the file has more than 5 MB and is too large to be a plan");
  const link = { name: "sloop.yaml", at: 0 };
  const { says } = savedLine({ kept: "browser", changes: 1, since: 0, file: link, why: "too-large" }, 0);
  assert.match(says, /sloop\.yaml has more than 5 MB and is too large to be a plan/);
});
