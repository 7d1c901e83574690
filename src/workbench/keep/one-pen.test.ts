import { describe, test } from "vitest";
import assert from "node:assert/strict";
import { fakeClock, fakeTabs, settle } from "./fake-browser.ts";
import { isPenTaken, openPen, type Pen, type PenHost } from "./one-pen.ts";

describe.each([
  ["with locks", { locks: true, channels: true }],
  ["without locks", { locks: false, channels: true }],
])("%s", (_, has) => {
  const setUp = () => {
    const [tab, clock] = [fakeTabs(has), fakeClock()];
    const told: string[] = [];
    const open = async (name: string, flush = () => Promise.resolve(), host: PenHost = tab()): Promise<Pen> => {
      const opening = openPen({
        id: "sloop",
        host,
        clock,
        flush: async () => {
          await flush();
          told.push(`${name} stored`);
        },
        onLost: () => told.push(`${name} lost`),
        onWritten: () => told.push(`${name} sees writing`),
      });
      await clock.pass(300);
      return opening;
    };
    return { open, told, clock, tab };
  };

  test("the first tab writes, the second reads and sees what is written", async () => {
    const { open, told } = setUp();
    const first = await open("first");
    const second = await open("second");
    assert.deepEqual([first.state(), second.state()], ["here", "elsewhere"]);
    first.written();
    second.written(); // has nothing to say
    await settle();
    assert.deepEqual(told, ["second sees writing"]);
  });

  test("the pen moves after the other tab has stored what it had", async () => {
    const { open, told, clock } = setUp();
    const first = await open("first");
    const second = await open("second");
    const taking = second.take().then(() => told.push("second has it"));
    await clock.pass(100);
    await taking;
    assert.deepEqual(told, ["first stored", "first lost", "second has it"]);
    assert.deepEqual([first.state(), second.state()], ["elsewhere", "here"]);
    const back = first.take();
    await clock.pass(100);
    await back;
    assert.deepEqual([first.state(), second.state()], ["here", "elsewhere"]);
  });

  test("a tab that does not answer is waited for, but not for ever", async () => {
    const { open, clock } = setUp();
    const first = await open("first", () => new Promise(() => undefined));
    const second = await open("second");
    const taking = second.take();
    await clock.pass(1400);
    assert.equal(second.state(), "elsewhere");
    await clock.pass(200);
    await taking;
    assert.equal(second.state(), "here");
    // A tab whose lock was stolen knows; without locks only the store's turns tell it.
    if (has.locks) assert.equal(first.state(), "elsewhere");
  });

  test("a pen that was laid down can be taken up, and it is known whether somebody has it", async () => {
    const { open, clock, tab } = setUp();
    const isTaken = async (): Promise<boolean> => {
      const asked = isPenTaken("sloop", tab(), clock);
      await clock.pass(300);
      return asked;
    };
    assert.equal(await isTaken(), false);
    const first = await open("first");
    assert.equal(await isTaken(), true);
    first.close();
    await settle();
    assert.equal(await isTaken(), false);
    assert.equal((await open("second")).state(), "here");
  });
});

test("where a browser has neither locks nor channels every tab writes", async () => {
  const [tab, clock] = [fakeTabs({ locks: false, channels: false }), fakeClock()];
  const nothing = () => undefined;
  const options = { id: "sloop", clock, flush: () => Promise.resolve(), onLost: nothing, onWritten: nothing };
  const [first, second] = [await openPen({ ...options, host: tab() }), await openPen({ ...options, host: tab() })];
  assert.deepEqual([first.state(), second.state()], ["here", "here"]);
  assert.equal(await isPenTaken("sloop", tab(), clock), false);
});
