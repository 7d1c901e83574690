import { readFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "vitest";
import assert from "node:assert/strict";
import { compile, type Compiled } from "../../compile.ts";
import { signsOf } from "../states/signs-of.ts";
import { readPlaces } from "../states/place.ts";
import { refusalWords, titleOf, writePlaces } from "../states/state-words.ts";
import { answerPositions as answer } from "./answer-positions.ts";
import { drawView } from "./draw-page.ts";
import type {
  PositionAsked,
  Positions,
  StateAtAnswer,
  StateDrawing,
  StateMovers,
  StatesAnswer,
} from "./position-answers.ts";

const example = (name: string) =>
  compile(readFileSync(join(import.meta.dirname, `../../../examples/${name}.yaml`), "utf8"));
const answerPositions = (of: Compiled, asked: PositionAsked) => answer(of, asked, drawView);
const sloop = example("sloop");
const at = (positions: Positions, move: readonly [string, string] | null = null, of = sloop): StateAtAnswer =>
  answerPositions(of, {
    of: "",
    ask: "state-at",
    positions,
    move: move === null ? null : { mover: move[0], to: move[1] },
    on: null,
  }) as StateAtAnswer; // its own kind of answer
const all = (of = sloop) => answerPositions(of, { of: "", ask: "all-states" }) as StatesAnswer; // its own kind of answer
const movers = (of = sloop) => answerPositions(of, { of: "", ask: "state-movers" }) as StateMovers; // its own kind of answer

const SHORE = { INL: "in", "CU:main": "on", "CU:3": "on", TS: "shore" };

test("answers are plain data; every state that differs is come back to by its positions", () => {
  for (const name of ["sloop", "sloop-us", "van", "hut"]) {
    const of = example(name);
    const states = all(of);
    assert.deepEqual(JSON.parse(JSON.stringify([states, movers(of)])), [states, movers(of)], name);
    assert.ok(states.groups.length > 2, name);
    assert.equal(new Set(states.groups.map(({ group }) => group)).size, states.groups.length, name);
    for (const { positions, group, number } of states.groups)
      assert.equal(at(positions, null, of).group, group, `${name} ${number}`);
  }
});

test("on shore the join is ashore and both sockets have 230 V less what the way takes; a move to the inverter kills them", () => {
  const { facts, volts } = at(SHORE);
  assert.deepEqual(
    facts.islands.map(({ sources, joins }) => [sources, joins.map(({ where }) => where)]),
    [[["INL"], ["ashore"]]],
  );
  const sockets = volts.loads.filter(({ about }) => about.startsWith("parts.sockets"));
  assert.equal(sockets.length, 2);
  for (const { volts: v } of sockets) assert.ok(v !== null && v > 215 && v < 230);
  const flipped = at(SHORE, ["TS", "inverter"]);
  assert.equal(flipped.positions["TS"], "inverter");
  assert.deepEqual(
    flipped.facts.takers.map(({ state }) => state),
    ["fed", "dead", "dead"],
  );
});

test("a way of a board that stands open cuts what is behind it, and no more", () => {
  const rows = movers().movers.filter(({ behind }) => behind !== null);
  assert.deepEqual(
    rows.map(({ board, name, start }) => [board, name, start]),
    [
      ["consumer unit", "consumer unit way 1", "on"],
      ["consumer unit", "consumer unit way 2", "on"],
    ],
  );
  const cut = at({ ...SHORE, "CU:1": "off" }).facts.takers.filter(({ cutBy }) => cutBy.length > 0);
  assert.deepEqual(
    cut.map(({ name, state }) => [name, state]),
    rows[0]?.behind?.map((name) => [name, "dead"]),
  );
});

test("what an interlock forbids is not done, and is said with the interlock", () => {
  const of = compile(
    `${readFileSync(join(import.meta.dirname, "../../../examples/sloop.yaml"), "utf8")}
interlocks:
  key: { never: [INL in, INV on] }
`,
  );
  const refused = at({ INL: "in" }, ["INV", "on"], of);
  assert.equal(refused.positions["INV"], "off");
  assert.deepEqual(refused.refusedBy, [{ name: "key", never: ["INL in", "INV on"] }]);
  assert.match(
    refusalWords({ name: "INV" }, "on", refused.refusedBy),
    /^INV stays: interlock key never lets INL in and INV on be at once/,
  );
});

test("a relay follows by itself, and a generator that floats has no join", () => {
  const hut = example("hut");
  const { follows } = at({ INV: "on" }, ["GEN", "running"], hut);
  assert.deepEqual(
    follows.map(({ mover, to, by }) => [mover, to, by]),
    [["INV relay", "passing", "itself"]],
  );
  // As far as the inverter/charger, which is off and leads on neither neutral nor lines to the join of the board.
  const { facts, rests } = at({}, ["GEN", "running"], hut);
  assert.equal(titleOf(facts), "GEN feeds INV");
  assert.deepEqual(
    signsOf(facts, rests).map(({ status, title }) => [status, title]),
    [["fail", "No join on GEN"]],
  );
});

test("positions written into the plan are a state that it reads", () => {
  const { written } = at(SHORE);
  const says = Object.fromEntries(written.entries);
  assert.deepEqual(says, { shore: "in", SW1: "off", TS: "shore", on: ["sockets to port", "sockets to starboard"] });
});

test("the drawing shows what is live, in the window of what alternates, with its join", () => {
  const drawn = answerPositions(sloop, {
    of: "",
    ask: "state-drawing",
    positions: { INV: "on", SW1: "on", TS: "inverter" },
    move: null,
    on: null,
  }) as StateDrawing; // its own kind of answer
  assert.match(drawn.svg, /^<svg/);
  assert.ok(drawn.window.y > 0 && drawn.window.y + drawn.window.height <= drawn.height + 1e-9);
  assert.equal(drawn.joins.length, 1);
});

test("places of an address come back, whatever names are in them", () => {
  const rows = movers().movers;
  const positions = { INL: "in", TS: "shore", "CU:1": "off", SW1: "off" };
  assert.deepEqual(readPlaces(writePlaces(rows, positions)), { INL: "in", TS: "shore", "CU:1": "off" });
  assert.deepEqual(readPlaces(["a=b=c", "=x", "nothing"]), { "a=b": "c" });
});
