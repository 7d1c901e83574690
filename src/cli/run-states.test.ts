import { join } from "node:path";
import { test } from "vitest";
import assert from "node:assert/strict";
import { runStates } from "./run-states.ts";
import { plain, type Terminal } from "./terminal.ts";

const plan = (name: string): string => join(import.meta.dirname, `../../examples/${name}.yaml`);

async function states(name: string, options: Record<string, string | true> = {}, width = 100) {
  const said = { out: "", err: "", data: "" };
  const terminal: Terminal = {
    width,
    out: (text) => void (said.out += text),
    err: (text) => void (said.err += text),
    data: (text) => void (said.data += text),
    paint: plain,
  };
  const code = await runStates({ names: [plan(name)], options }, terminal);
  return { ...said, code };
}

test("the table names each state, what it feeds and who decides", async () => {
  const { out, code } = await states("hut");
  assert.equal(code, 0);
  assert.match(out, /4 states differ, out of 12 positions of INV relay, INV, B management, GEN\./);
  assert.match(out, /licensed electrician and the\s+local code decide/);
  for (const line of out.split("\n")) assert.ok(line.length <= 100, line);
});

test("one position: the volts of shore power through the transfer switch", async () => {
  const { out } = await states("sloop", { set: "INL in, ts SHORE, CU main on, CU:3 on" });
  assert.match(out, /INL gives; the neutral of INL meets earth at INL, ashore\./);
  assert.match(out, /sockets to port +fed +INL/);
  // All that is not named is off, so its charger has no way to shore.
  const { out: dark } = await states("sloop", { set: "INL in" });
  assert.match(dark, /CHG +dead/);
});

test("an inverter that no battery reaches gives nothing, in the volts as in the state", async () => {
  const { data } = await states("sloop", { set: "INV on, TS inverter", json: true });
  const { position } = JSON.parse(data) as { position: { gives: string[]; loads: { volts: number | null }[] } }; // what `--json` prints
  assert.deepEqual(position.gives, []);
  assert.ok(position.loads.length > 0 && position.loads.every(({ volts }) => volts === null));
});

test("what is not there is answered with what is", async () => {
  const wrong = await states("sloop", { set: "TS sideways" });
  assert.equal(wrong.code, 3);
  assert.match(wrong.err, /`TS` has no position `sideways`\nhint: it has off, shore, inverter/);
  assert.match((await states("sloop", { set: "XX in" })).err, /`XX in` names nothing that moves/);
});

test("a drawing goes with neither JSON nor one position, and paper goes with a drawing", async () => {
  assert.match((await states("hut", { draw: "x.svg", json: true })).err, /a drawing shows every state/);
  assert.match((await states("hut", { paper: "A4" })).err, /only a drawing has paper/);
  assert.match((await states("hut", { draw: "x.svg", paper: "A5" })).err, /there is no paper `A5`/);
  assert.match(
    (await states("hut", { draw: "x.svg", sheet: "9" })).err,
    /there is no sheet `9`\nhint: the drawing has 1 sheet/,
  );
});

test("no state is lost on a page too narrow for the table", async () => {
  const { data } = await states("sloop", { json: true });
  const wanted = (JSON.parse(data) as { states: { number: number }[] }).states.map((s) => s.number); // what `--json` prints
  assert.ok(wanted.length > 5);
  for (const width of [60, 80, 100, 120]) {
    const { out } = await states("sloop", {}, width);
    const table = /\nStates\n([^]*?)\n(?:Dangers|No danger|Numbers in one row)/.exec(out)?.[1] ?? "";
    // At the start of a line of its row or block; numbers of many states go on in the next line of the cell.
    const told = [...table.matchAll(/^ *(\d+(?:, \d+)*)(?=,?$|:|,? {2,})/gm)].flatMap(([, list = ""]) =>
      list.split(", ").map(Number),
    );
    assert.deepEqual(
      [...new Set(told)].sort((a, b) => a - b),
      wanted,
      `${width} columns`,
    );
    for (const line of out.split("\n")) assert.ok(line.length <= width, line);
  }
});
