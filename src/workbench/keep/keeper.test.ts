import { describe, test } from "vitest";
import assert from "node:assert/strict";
import { fakeClock, fakeTabs, settle, type FakeClock } from "./fake-browser.ts";
import { fakeDisk, type FakeDisk } from "./fake-files.ts";
import { openKeeper, type CurrentBuild, type Keeper, type KeeperChange } from "./keeper.ts";
import { namesOf, textOf } from "./log.ts";
import { memoryStore } from "./memory-store.ts";
import { savedLine } from "./saved-line.ts";
import type { Store, StoreFault } from "./store.ts";

const START = new Date(2026, 10, 25, 14, 0).getTime();

/** A store that can be made to refuse, and counts. */
interface TestStore extends Store {
  refuses: StoreFault | null;
  writes: number;
}

function testStore(): TestStore {
  const inner = memoryStore(null);
  const store: TestStore = {
    ...inner,
    refuses: null,
    writes: 0,
    write(build, parting) {
      if (store.refuses !== null) return Promise.resolve({ ok: false, why: store.refuses });
      store.writes++;
      return inner.write(build, parting);
    },
  };
  return store;
}

interface Browser {
  readonly clock: FakeClock;
  readonly store: TestStore;
  readonly disk: FakeDisk;
  readonly openTab: () => Tab;
}
interface Tab {
  readonly keeper: Keeper;
  readonly changes: KeeperChange[];
  /** The plan that is open. */
  readonly now: () => CurrentBuild;
  readonly says: () => string;
  /** Types at the end. */
  readonly type: (text: string, name?: string) => boolean;
}

function browser(lendsFiles = true): Browser {
  const [clock, store, tab] = [fakeClock(START), testStore(), fakeTabs()];
  const disk = fakeDisk(clock, lendsFiles);
  let ids = 0;
  return {
    clock,
    store,
    disk,
    openTab() {
      const keeper = openKeeper({ store, files: disk, pens: tab(), clock, newId: () => `id${++ids}` });
      const changes: KeeperChange[] = [];
      keeper.subscribe((change) => changes.push(change));
      const now = (): CurrentBuild => {
        const current = keeper.current();
        assert.ok(current !== null, "a plan is open");
        return current;
      };
      return {
        keeper,
        changes,
        now,
        says: () => savedLine(now().saving, clock.now()).says,
        type: (text, name = `typed ${text}`) => {
          const end = now().text.length;
          return keeper.record({ name, splices: [{ start: end, end, text }] });
        },
      };
    },
  };
}

/** What the store has of a plan. */
async function storedText(store: Store, id: string): Promise<string | null> {
  const loaded = await store.load(id);
  return loaded.ok && loaded.value !== null ? textOf(loaded.value.log) : null;
}

describe("in the browser's store", () => {
  test("each change is written within 100 ms, and changes that follow fast are one writing", async () => {
    const { clock, store, openTab } = browser();
    const { keeper, now, type } = openTab();
    await keeper.newBuild("a", "sloop");
    const before = store.writes;
    for (const key of "bcdef") {
      type(key);
      await clock.pass(10);
    }
    await clock.pass(50); // the first key is 100 ms old
    assert.equal(await storedText(store, now().id), "abcdef");
    assert.equal(store.writes - before, 1);
  });

  test("the plan, its undo list and what was undone are there in the next visit", async () => {
    const { clock, openTab } = browser();
    const first = openTab();
    await first.keeper.newBuild("a", "sloop");
    first.type("b");
    first.type("c");
    first.keeper.undo();
    const { id } = first.now();
    await clock.pass(100);

    const { keeper, now } = openTab();
    first.keeper.parting();
    await first.keeper.close();
    assert.equal(await keeper.openBuild(id), true);
    assert.equal(now().text, "ab");
    keeper.redo();
    assert.equal(now().text, "abc");
    keeper.undoTo(0);
    assert.equal(now().text, "a");
    assert.deepEqual(namesOf(now().log), ["typed b", "typed c"]);
    assert.equal(await keeper.openBuild("nobody"), false);
    assert.equal(now().id, id);
  });

  test("a disk that is full is said, nothing is lost, and it is tried again", async () => {
    const { clock, store, openTab } = browser();
    const { keeper, now, type, says } = openTab();
    await keeper.newBuild("a", "sloop");
    await clock.pass(2 * 60_000);
    type("b");
    await clock.pass(100);
    assert.equal(says(), "Kept in this browser only");
    store.refuses = "full";
    await clock.pass(60_000);
    type("c");
    await clock.pass(100);
    assert.equal(says(), "Not saved since 14:02: the disk is full. Everything is still here. Save elsewhere.");
    assert.equal(now().text, "abc");
    store.refuses = null;
    await clock.pass(5000);
    assert.equal(await storedText(store, now().id), "abc");
    assert.equal(says(), "Kept in this browser only");
  });

  test("a plan that the store did not take is still there after another one was opened", async () => {
    const { clock, store, openTab } = browser();
    const { keeper, now, type } = openTab();
    await keeper.newBuild("a", "sloop");
    const { id } = now();
    store.refuses = "full";
    type("b");
    await keeper.newBuild("x", "van");
    assert.deepEqual((await keeper.listBuilds())?.map(({ name }) => name).sort(), ["sloop", "van"]);
    await keeper.openBuild(id);
    assert.equal(now().text, "ab");
    await keeper.openBuild("id3");
    store.refuses = null;
    type("y");
    await clock.pass(100);
    assert.equal(await storedText(store, id), "ab", "kept as soon as the store takes something again");
  });

  test("a page that is about to be replaced stores what it has, and says whether all of it is kept", async () => {
    const { store, openTab } = browser();
    const { keeper, now, type } = openTab();
    assert.equal(await keeper.settle(), true, "nothing is open");
    await keeper.newBuild("a", "sloop");
    type("b");
    assert.equal(await keeper.settle(), true);
    assert.equal(await storedText(store, now().id), "ab");
    type("c");
    store.refuses = "full";
    assert.equal(await keeper.settle(), false);
  });

  test("a browser that lends no store keeps nothing, and says so", async () => {
    const clock = fakeClock(START);
    const store = memoryStore("denied");
    let ids = 0;
    const newId = () => `id${++ids}`;
    const keeper = openKeeper({ store, files: fakeDisk(clock), pens: fakeTabs()(), clock, newId });
    await keeper.newBuild("a", "sloop");
    keeper.record({ name: "b", splices: [{ start: 1, end: 1, text: "b" }] });
    await clock.pass(100);
    const current = keeper.current();
    assert.ok(current !== null);
    assert.deepEqual(savedLine(current.saving, clock.now()), {
      says: "Not saved since 14:00: this browser lends no store. Everything is still here. Save to a file.",
      level: "fail",
    });
    await keeper.saveAs();
    assert.equal(keeper.current()?.saving.kept, "file");
  });

  test("a tab that went without a goodbye is told from one that is open and one that was closed", async () => {
    const { clock, store, disk, openTab } = browser();
    const [closed, open] = [openTab(), openTab()];
    let ids = 0;
    // Its lock is one that nobody sees: it went with the tab, and nothing more was written.
    const gone = openKeeper({ store, files: disk, pens: fakeTabs()(), clock, newId: () => `gone${++ids}` });
    for (const [keeper, name] of [
      [gone, "gone"],
      [closed.keeper, "closed"],
      [open.keeper, "open"],
    ] as const) {
      await keeper.newBuild("", name);
      keeper.record({ name: "x", splices: [{ start: 0, end: 0, text: "x" }] });
      await clock.pass(100);
    }
    closed.keeper.parting();
    await settle();
    const rows = (await openTab().keeper.listBuilds()) ?? [];
    assert.deepEqual(
      rows.map(({ name, crashed, openElsewhere, unsaved }) => ({ name, crashed, openElsewhere, unsaved })),
      [
        { name: "open", crashed: false, openElsewhere: true, unsaved: 1 },
        { name: "closed", crashed: false, openElsewhere: false, unsaved: 1 },
        { name: "gone", crashed: true, openElsewhere: false, unsaved: 1 },
      ],
    );
  });
});

describe("in a file", () => {
  const opened = async (text = "a\n") => {
    const here = browser();
    here.disk.put("sloop.yaml", text);
    here.disk.choose = "sloop.yaml";
    const tab = here.openTab();
    assert.equal(await tab.keeper.openFile(), null);
    return { ...here, ...tab };
  };

  test("it is written 2 s after the last key, in the form that it had", async () => {
    const { clock, disk, type, says } = await opened("\uFEFFa\r\nb\r\n");
    assert.equal(says(), "Saved in sloop.yaml, 14:00");
    type("c\n");
    await clock.pass(1900);
    type("d\n");
    await clock.pass(1900);
    assert.equal(disk.writes, 0);
    assert.equal(says(), "Saving in sloop.yaml");
    await clock.pass(60_000);
    assert.equal(disk.writes, 1);
    assert.equal(disk.text("sloop.yaml"), "\uFEFFa\r\nb\r\nc\r\nd\r\n");
    assert.equal(says(), "Saved in sloop.yaml, 14:00");
  });

  test("what another program changed is one undo step, and both changes go into the file", async () => {
    const { clock, disk, keeper, now, changes } = await opened("a\nb\nc\nd\n");
    keeper.record({ name: "d", splices: [{ start: 6, end: 7, text: "D" }] });
    disk.put("sloop.yaml", "A\nb\nc\nd\n");
    keeper.focused();
    await settle();
    assert.equal(now().text, "A\nb\nc\nD\n");
    assert.deepEqual(namesOf(now().log), ["d", "sloop.yaml changed outside"]);
    assert.equal(changes.at(-2), "text");
    await clock.pass(2000);
    assert.equal(disk.text("sloop.yaml"), "A\nb\nc\nD\n");
    keeper.undo();
    assert.equal(now().text, "a\nb\nc\nD\n");
  });

  test("changes at the same lines are not merged and not written over; a person decides", async () => {
    for (const whose of ["mine", "theirs"] as const) {
      const { clock, disk, keeper, now, says, type } = await opened("a\n");
      type("mine\n");
      disk.put("sloop.yaml", "a\ntheirs\n");
      await clock.pass(3000);
      assert.deepEqual(now().comparison, { fileName: "sloop.yaml", base: "a\n", theirs: "a\ntheirs\n" });
      assert.equal(disk.text("sloop.yaml"), "a\ntheirs\n");
      assert.match(says(), /^Kept in this browser only: sloop\.yaml was changed outside/);
      type("more\n");
      await clock.pass(3000);
      assert.equal(disk.text("sloop.yaml"), "a\ntheirs\n");
      await keeper.decide(whose);
      const text = whose === "mine" ? "a\nmine\nmore\n" : "a\ntheirs\n";
      assert.deepEqual([now().text, disk.text("sloop.yaml"), now().comparison], [text, text, null]);
      assert.match(says(), /^Saved in sloop\.yaml/);
      keeper.undo();
      const other = whose === "mine" ? "a\ntheirs\n" : "a\nmine\nmore\n";
      assert.equal(now().text, other, "one undo gives the other");
      await clock.pass(3000);
      assert.equal(disk.text("sloop.yaml"), other);
      keeper.redo();
      assert.equal(now().text, text);
    }
  });

  test("what was decided goes by its name in the list of steps", async () => {
    const { clock, disk, keeper, now, type } = await opened("a\n");
    type("mine\n");
    disk.put("sloop.yaml", "a\ntheirs\n");
    await clock.pass(3000);
    await keeper.decide("mine");
    assert.deepEqual(namesOf(now().log), ["typed mine\n", "sloop.yaml changed outside", "mine instead of sloop.yaml"]);
  });

  test("a file that was only touched makes no step", async () => {
    const { disk, keeper, now, says } = await opened();
    disk.put("sloop.yaml", "a\n");
    keeper.focused();
    await settle();
    assert.deepEqual(namesOf(now().log), []);
    assert.equal(says(), "Saved in sloop.yaml, 14:00");
  });

  test("a browser that wants to be asked again is asked by the next click on save, not before", async () => {
    const { clock, disk, keeper, says, type } = await opened();
    disk.permission = "prompt";
    type("b\n");
    await clock.pass(3000);
    assert.match(says(), /the browser asks again before it writes into sloop\.yaml/);
    assert.equal(disk.text("sloop.yaml"), "a\n");
    assert.equal(await keeper.saveFile(), null);
    assert.equal(disk.text("sloop.yaml"), "a\nb\n");
    assert.equal(says(), "Saved in sloop.yaml, 14:00");
  });

  test("a full disk is said and the work stays in the browser", async () => {
    const { clock, disk, says, type, store, now } = await opened();
    disk.failing = "full";
    type("b\n");
    await clock.pass(3000);
    assert.equal(says(), "Kept in this browser only: no room on the disk for sloop.yaml. Save elsewhere.");
    assert.equal(await storedText(store, now().id), "a\nb\n");
    disk.failing = null;
    type("c\n");
    await clock.pass(3000);
    assert.equal(disk.text("sloop.yaml"), "a\nb\nc\n");
  });

  test("a file that is gone is asked for again", async () => {
    const { clock, disk, keeper, type } = await opened();
    disk.remove("sloop.yaml");
    type("b\n");
    await clock.pass(3000);
    disk.choose = "sloop 2.yaml";
    assert.equal(await keeper.saveFile(), null);
    assert.equal(disk.text("sloop 2.yaml"), "a\nb\n");
  });

  test("a damaged file is opened and never written over by itself", async () => {
    const here = browser();
    const bytes = new Uint8Array([0x61, 0x0a, 0xff, 0x0a]);
    here.disk.put("sloop.yaml", bytes);
    here.disk.choose = "sloop.yaml";
    const { keeper, now, type, says } = here.openTab();
    await keeper.openFile();
    assert.deepEqual([now().text, now().damagedLine], ["a\n\uFFFD\n", 2]);
    type("b\n");
    await here.clock.pass(5000);
    assert.equal(here.disk.writes, 0);
    assert.match(says(), /sloop\.yaml holds bytes that are no text, and stays as it is/);
    here.disk.choose = "mended.yaml";
    assert.equal(await keeper.saveFile(), null);
    assert.equal(says(), "Saved in mended.yaml, 14:00");
  });

  test("the same file opens the same plan, with what was not yet in the file", async () => {
    const { clock, disk, keeper, now, type } = await opened();
    disk.permission = "denied";
    type("b\n");
    await clock.pass(3000);
    const { id } = now();
    await keeper.newBuild("x", "van");
    disk.choose = "sloop.yaml";
    await keeper.openFile();
    assert.deepEqual([now().id, now().text], [id, "a\nb\n"]);
    assert.equal((await keeper.listBuilds())?.length, 2);
  });

  test("nothing chosen changes nothing", async () => {
    const { disk, keeper, now } = await opened();
    const { id } = now();
    disk.choose = "";
    assert.equal(await keeper.openFile(), "cancelled");
    assert.equal(now().id, id);
  });

  test("where the browser lends no files, saving is a download, and changes after it are counted", async () => {
    const here = browser(false);
    const { keeper, says, type } = here.openTab();
    await keeper.newBuild("a", "Coastal sloop");
    assert.equal(await keeper.saveFile(), null);
    assert.equal(says(), "Downloaded as Coastal sloop.yaml, 14:00");
    type("b");
    await here.clock.pass(3000);
    assert.equal(says(), "1 change kept in this browser only, not yet in Coastal sloop.yaml");
    keeper.undo();
    assert.equal(says(), "Downloaded as Coastal sloop.yaml, 14:00");
  });
});

describe("while another plan is being opened", () => {
  /**
   * Opens something and presses one key at a certain turn of all that get theirs meanwhile; whether it was taken, null once nothing was
   * left to wait for. A key that is taken goes into the plan that is shown.
   */
  const pressAt = async ({ keeper, type }: Tab, turn: number, opening: () => Promise<unknown>) => {
    const idOf = () => keeper.current()?.id ?? null;
    let shown = idOf();
    keeper.subscribe((change) => {
      if (change !== "head") shown = idOf();
    });
    let through = false;
    const opened = opening().then(() => {
      through = true;
    });
    for (let i = 0; i < turn; i++) await Promise.resolve();
    if (through) return null;
    const taken = keeper.current() !== null && type(".");
    if (taken) assert.equal(idOf(), shown, `turn ${turn}`);
    await opened;
    return taken;
  };

  test.each(["new", "kept", "file"] as const)(
    "a key goes into the plan that is shown, or is not taken: %s",
    async (what) => {
      const seen = new Set<string | null>();
      for (let turn = 0; ; turn++) {
        const here = browser();
        const tab = here.openTab();
        const { keeper, now } = tab;
        await keeper.newBuild("kept", "van");
        const { id } = now();
        await keeper.newBuild("a", "sloop");
        here.disk.put("hut.yaml", "a");
        here.disk.choose = "hut.yaml";
        const openings = {
          new: () => keeper.newBuild("b", "hut"),
          kept: () => keeper.openBuild(id),
          file: () => keeper.openFile(),
        };
        const before = now().id;
        const taken = await pressAt(tab, turn, openings[what]);
        if (taken === null) break;
        await here.clock.pass(100);
        const texts = await Promise.all([before, now().id].map((one) => storedText(here.store, one)));
        assert.equal(texts.filter((text) => text?.endsWith(".")).length, taken ? 1 : 0, "what is taken is kept");
        seen.add(!taken ? null : texts[0]?.endsWith(".") === true ? "before" : "after");
      }
      assert.deepEqual(seen, new Set(["before", null, "after"]));
    },
  );

  test("a tab that takes the pen reads until it shows what the other one has written", async () => {
    const here = browser();
    const [first, second] = [here.openTab(), here.openTab()];
    await first.keeper.newBuild("a", "sloop");
    const { id } = first.now();
    await second.keeper.openBuild(id);
    first.type("b");
    let told = false;
    second.keeper.subscribe((change) => {
      if (change === "text") told = true;
    });
    const taking = second.keeper.workHere();
    for (let i = 0; !told && i < 1000; i++) {
      assert.equal(second.type("lost"), false);
      await Promise.resolve();
    }
    await taking;
    assert.equal(second.now().text, "ab");
    assert.equal(second.type("c"), true);
  });

  test("a step that changes nothing is not taken", async () => {
    const { keeper } = browser().openTab();
    assert.equal(keeper.record({ name: "nothing open", splices: [] }), false);
    await keeper.newBuild("a", "sloop");
    assert.equal(keeper.record({ name: "the same", splices: [{ start: 0, end: 1, text: "a" }] }), false);
    assert.equal(keeper.record({ name: "another", splices: [{ start: 0, end: 1, text: "b" }] }), true);
  });
});

describe("in two tabs", () => {
  const two = async () => {
    const here = browser();
    const [first, second] = [here.openTab(), here.openTab()];
    await first.keeper.newBuild("a", "sloop");
    await second.keeper.openBuild(first.now().id);
    return { ...here, first, second };
  };

  test("the second reads only, and sees what the first writes", async () => {
    const { clock, first, second } = await two();
    assert.deepEqual([first.now().readOnly, second.now().readOnly], [false, true]);
    assert.equal(second.type("x"), false);
    second.keeper.undo();
    assert.equal(second.now().text, "a");
    first.type("b");
    await clock.pass(500);
    assert.equal(second.now().text, "ab");
    assert.equal(second.changes.at(-1), "text");
  });

  test("the pen moves, with what the first had not yet written, and back", async () => {
    const { clock, first, second } = await two();
    first.type("b");
    await second.keeper.workHere();
    assert.deepEqual([first.now().readOnly, second.now().readOnly], [true, false]);
    assert.equal(second.now().text, "ab");
    assert.equal(second.type("c"), true);
    await clock.pass(500);
    assert.equal(first.now().text, "abc");
    await first.keeper.workHere();
    first.type("d");
    await clock.pass(500);
    assert.equal(second.now().text, "abcd");
    assert.deepEqual([first.now().readOnly, second.now().readOnly], [false, true]);
  });

  test("without locks and channels the store keeps the tabs apart, and nothing of either is lost", async () => {
    const [clock, store, tab] = [fakeClock(START), testStore(), fakeTabs({ locks: false, channels: false })];
    let ids = 0;
    const open = () => openKeeper({ store, files: fakeDisk(clock), pens: tab(), clock, newId: () => `id${++ids}` });
    const put = (text: string) => ({ name: text, splices: [{ start: 1, end: 1, text }] });
    const [first, second] = [open(), open()];
    await first.newBuild("a", "sloop");
    const id = first.current()?.id ?? "";
    await second.openBuild(id);
    second.record(put("second"));
    await clock.pass(100);
    first.record(put("first"));
    await clock.pass(100);
    assert.equal(first.current()?.readOnly, true);
    assert.deepEqual(first.current()?.saving, { kept: "not", since: START, why: "elsewhere" });
    assert.equal(first.current()?.text, "afirst");
    assert.equal(await storedText(store, id), "asecond");
    await first.workHere();
    assert.equal(first.current()?.text, "asecond");
    const aside = (await first.listBuilds())?.find(({ name }) => name === "sloop, laid aside");
    assert.equal(await storedText(store, aside?.id ?? ""), "afirst");
  });

  test.each([
    ["after the store refused it", 100],
    ["before the store was asked", 0],
  ])("what another tab's turn refused is laid aside when another plan is opened %s", async (_, ms) => {
    const [clock, store, tab] = [fakeClock(START), testStore(), fakeTabs({ locks: false, channels: false })];
    let ids = 0;
    const open = () => openKeeper({ store, files: fakeDisk(clock), pens: tab(), clock, newId: () => `id${++ids}` });
    const [first, second] = [open(), open()];
    await first.newBuild("a", "sloop");
    const id = first.current()?.id ?? "";
    await second.openBuild(id);
    await clock.pass(100);
    first.record({ name: "mine", splices: [{ start: 1, end: 1, text: "first" }] });
    await clock.pass(ms);
    await first.newBuild("x", "van");
    const rows = (await first.listBuilds()) ?? [];
    assert.deepEqual(rows.map(({ name }) => name).sort(), ["sloop", "sloop, laid aside", "van"]);
    const aside = rows.find(({ name }) => name === "sloop, laid aside");
    assert.equal(await storedText(store, aside?.id ?? ""), "afirst");
    assert.equal(await storedText(store, id), "a");
    assert.equal(first.current()?.readOnly, false);
  });

  test("what a tab had typed when its pen was stolen is laid aside as well", async () => {
    const { clock, store, first, second } = await two();
    // A tab that does not answer in time: its pen is taken without a word.
    const { id } = first.now();
    await store.takeTurn(id);
    first.type("b");
    await first.keeper.newBuild("x", "van");
    await clock.pass(100);
    const aside = (await second.keeper.listBuilds())?.find(({ name }) => name === "sloop, laid aside");
    assert.equal(await storedText(store, aside?.id ?? ""), "ab");
  });
});

describe("good copies", () => {
  const tally = {
    must: 0,
    should: 0,
    note: 0,
    waived: 0,
    cannotTellMust: 0,
    cannotTell: 0,
    pass: 1,
    thin: 0,
    notApplicable: 0,
  };

  test("the last good text is kept; those of five minutes take one place, thirty places are kept", async () => {
    const { clock, openTab } = browser();
    const { keeper, now, type } = openTab();
    await keeper.newBuild("0", "sloop");
    const good = () => {
      keeper.markGood(now().text, { name: "Coastal sloop", revision: "B", tally });
    };
    good();
    await clock.pass(3000);
    for (let minute = 1; minute <= 4; minute++) {
      type(String(minute));
      good();
      await clock.pass(60_000);
    }
    assert.deepEqual(
      (await keeper.goodCopies()).map(({ text }) => text),
      ["01234"],
    );
    type("broken");
    await clock.pass(5 * 60_000);
    for (let i = 0; i < 40; i++) {
      type(".");
      good();
      await clock.pass(6 * 60_000);
    }
    const copies = await keeper.goodCopies();
    assert.equal(copies.length, 30);
    assert.equal(copies[0]?.text, now().text);
    assert.equal(copies[29]?.text, now().text.slice(0, -29));
    const { id } = now();
    assert.equal(now().name, "Coastal sloop");
    await keeper.newBuild("x", "van");
    assert.deepEqual(await keeper.goodCopies(), []);
    assert.deepEqual(await keeper.goodCopies(id), copies, "also while another plan is open");
    assert.equal((await keeper.listBuilds())?.find((row) => row.id === id)?.summary?.revision, "B");
  });

  test("a verdict on a text that is no longer there is left", async () => {
    const { clock, openTab } = browser();
    const { keeper, type } = openTab();
    await keeper.newBuild("a", "sloop");
    type("b");
    keeper.markGood("a", { name: "", revision: "", tally });
    await clock.pass(3000);
    assert.deepEqual(await keeper.goodCopies(), []);
  });
});

test("the open plan cannot be removed, another can", async () => {
  const { openTab } = browser();
  const { keeper, now } = openTab();
  await keeper.newBuild("a", "sloop");
  const { id } = now();
  await keeper.removeBuild(id);
  assert.equal((await keeper.listBuilds())?.length, 1);
  await keeper.newBuild("b", "van");
  await keeper.removeBuild(id);
  assert.deepEqual(
    (await keeper.listBuilds())?.map(({ name }) => name),
    ["van"],
  );
});
