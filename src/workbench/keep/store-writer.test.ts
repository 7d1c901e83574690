import assert from "node:assert/strict";
import { test } from "vitest";
import { newBuild } from "./build.ts";
import { fakeClock, settle } from "./fake-browser.ts";
import { memoryStore } from "./memory-store.ts";
import { storeWriter } from "./store-writer.ts";

test("what is changed after a flush that found nothing to write is written", async () => {
  const [clock, store] = [fakeClock(), memoryStore(null)];
  let build = newBuild("a", "sloop", "", 0);
  const writer = storeWriter(
    store,
    clock,
    () => build,
    () => undefined,
  );
  await writer.flush();
  assert.equal(writer.isBehind(), false);
  writer.touch();
  await clock.pass(1000);
  assert.equal((await store.load("a")).ok, true);
  // Also where the flush came while the last change was still on its way.
  writer.touch();
  const flushes = [writer.flush(), writer.flush()];
  await settle();
  await Promise.all(flushes);
  build = newBuild("b", "van", "", 0);
  writer.touch();
  await writer.flush();
  const listed = await store.list();
  assert.deepEqual(listed.ok && listed.value.map(({ name }) => name).sort(), ["sloop", "van"]);
});
