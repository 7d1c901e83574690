import assert from "node:assert/strict";
import { test } from "vitest";
import type { ProblemMover, ProblemSource, SwitchingProblem } from "./problem.ts";
import { stateAt } from "./state-at.ts";
import { studyProblem } from "./study-problem.ts";
import { build, inverterCharger, twoBreakers } from "../../test/fixtures/small-builds.ts";
import type { SwitchingStudy } from "./study.ts";

const steps = (study: SwitchingStudy, group: number): string[] =>
  (study.groups[group]?.steps ?? []).map((s) => `${s.mover} ${s.to}${s.by === "itself" ? " by itself" : ""}`);

/** Shore with its join ashore and an inverter with a join of its own, behind a transfer switch of one pole or two. */
function shoreAndInverter(poles: 1 | 2, breaksFirst: ProblemMover["breaksFirst"] | null = true): SwitchingProblem {
  const b = build();
  const plug = b.mover("plug", ["out", "in"], { by: "outside" });
  const inverter = b.mover("inverter", ["off", "on"]);
  const transfer = b.mover("transfer", ["off", "shore", "inverter"], breaksFirst === null ? {} : { breaksFirst });
  b.source("SHORE", "L shore", "N shore", { gives: { mover: plug, in: [1] }, joined: true });
  b.source("INV", "L inverter", "N inverter", {
    kind: "inverter",
    gives: { mover: inverter, in: [1] },
    joinStays: true,
  });
  b.close(transfer, [1], ["L shore", "L out"]);
  b.close(transfer, [2], ["L inverter", "L out"]);
  if (poles === 2) {
    b.close(transfer, [1], ["N shore", "N out"]);
    b.close(transfer, [2], ["N inverter", "N out"]);
  }
  b.taker("outlet", "L out", "N out");
  return b.done({
    metal:
      poles === 2
        ? []
        : [
            [b.n("N shore"), b.n("N out")],
            [b.n("N inverter"), b.n("N out")],
          ],
    joins: [
      {
        id: "INV join",
        name: "",
        part: "INV",
        neutral: b.n("N inverter"),
        earth: b.n("PE"),
        closed: { mover: inverter, in: [1] },
      },
    ],
  });
}

test("behind a transfer switch of two poles each source has one join, and the two never meet", () => {
  const study = studyProblem(shoreAndInverter(2));
  assert.equal(study.reach.reached, 12);
  assert.equal(
    study.groups.reduce((sum, g) => sum + g.count, 0),
    12,
  );
  for (const group of study.groups) {
    assert.deepEqual(group.parallel, []);
    assert.deepEqual(group.commonNeutral, []);
    for (const island of group.islands) assert.deepEqual([island.joinsLow, island.joinsHigh], [1, 1]);
    for (const taker of group.takers) if (taker.state === "fed") assert.equal(taker.earth, "joined");
  }
  assert.deepEqual(study.transients, []);
  const fed = study.groups.findIndex((g) => g.takers[0]?.sources.join() === "INV");
  assert.deepEqual(steps(study, fed).sort(), ["inverter on", "transfer inverter"]);
});

test("a transfer switch of one pole leaves the neutrals joined: two joins where both give", () => {
  const study = studyProblem(shoreAndInverter(1));
  const both = study.groups.filter((g) => g.gives.length === 2);
  assert.ok(both.length > 0);
  for (const group of both) {
    assert.deepEqual(
      group.islands.map((i) => [i.sources, i.joinsLow, i.joins.map((j) => j.where)]),
      [[["SHORE", "INV"], 2, ["aboard", "ashore"]]],
    );
    assert.deepEqual(group.commonNeutral, [{ sources: ["SHORE", "INV"] }]);
    assert.deepEqual(group.parallel, []);
  }
  // Off, it has cut the line and left the neutral.
  const cut = study.groups.find((g) => g.gives.length === 1 && g.takers[0]?.state === "dead");
  assert.equal(cut?.takers[0]?.neutralJoined, true);
});

test("a transfer that makes before it breaks joins two sources for a moment; whether it does may be unknown", () => {
  const of = (breaksFirst: boolean | "unknown" | null) => studyProblem(shoreAndInverter(2, breaksFirst)).transients;
  assert.deepEqual(
    of(false).map((t) => [t.from, t.to, t.sources, t.by, t.certain, t.actions]),
    [
      ["inverter", "shore", ["SHORE", "INV"], "hand", true, 4],
      ["shore", "inverter", ["SHORE", "INV"], "hand", true, 4],
    ],
  );
  assert.deepEqual(
    of("unknown").map((t) => t.certain),
    [false, false],
  );
  assert.equal(of(null).length, 2);
});

test("two sources that can meet are told with the fewest actions that bring them together", () => {
  const study = studyProblem(twoBreakers(false));
  const met = study.groups.findIndex((g) => g.parallel.length > 0);
  assert.deepEqual(study.groups[met]?.parallel, [{ sources: ["SHORE", "GEN"], lawful: false }]);
  assert.equal(study.groups[met]?.actions, 4);
  assert.deepEqual(steps(study, met).sort(), ["B1 on", "B2 on", "generator running", "plug in"]);
});

test("pins of a source that does not give are live where another reaches them", () => {
  const study = studyProblem(twoBreakers(false));
  const back = study.groups.filter((g) => g.livePins.length > 0);
  assert.deepEqual(back.map((g) => g.livePins[0]?.source).sort(), ["GEN", "SHORE"]);
  for (const group of back) {
    assert.equal(group.actions, 3);
    assert.deepEqual(group.livePins[0]?.from, group.gives);
  }
});

test("an interlock of breakers keeps the sources apart, and is named for every combination that it forbids", () => {
  const study = studyProblem(twoBreakers(true));
  assert.ok(study.groups.every((g) => g.parallel.length === 0 && g.livePins.length === 0));
  assert.deepEqual(study.reach, {
    combinations: 16,
    reached: 12,
    forbidden: [{ interlock: "slide", count: 4 }],
    enclosed: null,
    never: [],
  });
  assert.deepEqual(stateAt(twoBreakers(true), { B1: "on", B2: "on" }).forbiddenBy, ["slide"]);
});

test("what interlocks shut in is never come to, and they are named", () => {
  const b = build();
  const s = b.mover("S", ["off", "mid", "on"]);
  const t = b.mover("T", ["off", "on"]);
  b.source("SHORE", "L", "N", { gives: { mover: s, in: [2] } });
  const problem = b.done({
    interlocks: [
      // S may be on with T on alone, T may be on with S on alone: neither can be first.
      {
        id: "S waits for T",
        name: "",
        never: [
          { mover: s, in: [1, 2] },
          { mover: t, in: [0] },
        ],
      },
      {
        id: "T waits for S",
        name: "",
        never: [
          { mover: s, in: [0] },
          { mover: t, in: [1] },
        ],
      },
    ],
  });
  const { reach, groups } = studyProblem(problem);
  assert.equal(groups.length, 1);
  assert.equal(reach.reached, 1);
  assert.deepEqual(reach.enclosed, {
    count: 2,
    example: { S: "mid", T: "on" },
    interlocks: ["T waits for S", "S waits for T"],
  });
  assert.deepEqual(studyProblem(problem, { combinations: 0 }).reach, reach);
});

test("a floating generator has no join, and an unknown one has none or one", () => {
  const of = (joined: ProblemSource["joined"]) => {
    const b = build();
    const run = b.mover("generator", ["off", "running"]);
    b.source("GEN", "L", "N", { kind: "generator", gives: { mover: run, in: [1] }, joined, joinStays: true });
    b.taker("outlet", "L", "N");
    const group = studyProblem(b.done()).groups.at(-1);
    return [group?.islands[0]?.joinsLow, group?.islands[0]?.joinsHigh, group?.takers[0]?.earth];
  };
  assert.deepEqual(of(false), [0, 0, "no join"]);
  assert.deepEqual(of("unknown"), [0, 1, "unknown"]);
  assert.deepEqual(of(true), [1, 1, "joined"]);
});

test("an inverter with charger has one join in each state, its own or that ashore", () => {
  const study = studyProblem(inverterCharger(true));
  for (const group of study.groups) {
    assert.ok(group.rests);
    assert.deepEqual(group.parallel, []);
    assert.deepEqual(group.livePins, []);
    for (const island of group.islands) assert.equal(island.joinsLow, 1);
  }
  assert.deepEqual(
    new Set(study.groups.flatMap((g) => g.islands.map((i) => i.joins.map((j) => j.id).join()))),
    new Set(["SHORE", "INV:join"]),
  );
  const inverting = study.groups.findIndex((g) => g.gives.join() === "INV:out" && g.takers[0]?.state === "fed");
  assert.equal(study.groups[inverting]?.actions, 2);
  assert.deepEqual(steps(study, inverting).sort(), ["INV on", "battery switch on", "relay inverting by itself"]);
  const passing = study.groups.find((g) => g.takers[1]?.takes === true);
  assert.deepEqual(
    passing?.steps.filter((s) => s.by === "itself").map((s) => [s.to, s.after]),
    [["passing", 5]],
  );
});

test("a charger behind an inverter on its own store is told, in the states in which the inverter feeds it", () => {
  for (const group of studyProblem(inverterCharger(true)).groups) {
    const turns =
      group.gives.includes("INV:out") &&
      group.takers[2]?.state === "fed" &&
      group.takers[2].sources.includes("INV:out");
    assert.deepEqual(group.ownCharge, turns ? [{ charger: "charger on the bar", inverter: "INV:out" }] : []);
  }
});

test("an inverter without a store, or behind an open battery switch, is dead", () => {
  assert.ok(studyProblem(inverterCharger(false)).groups.every((g) => !g.gives.includes("INV:out")));
  assert.deepEqual(stateAt(inverterCharger(true), { INV: "on" }).gives, []);
  assert.deepEqual(stateAt(inverterCharger(true), { INV: "on", "battery switch": "on" }).gives, ["INV:out"]);
});

test("with its battery off an inverter that solar may keep up is told as one that may give, never as surely dead", () => {
  const b = build();
  const bank = b.mover("bank switch", ["off", "on"]);
  const knob = b.mover("INV", ["off", "on"]);
  const breaker = b.mover("solar breaker", ["off", "on"]);
  b.source("BAT", "+ bank", "N minus", { kind: "store", earth: null });
  b.close(bank, [1], ["+ bank", "+ bus"]);
  b.close(breaker, [1], ["+ solar", "+ bus"]);
  const direct = { plus: b.n("+ bus"), minus: b.n("N minus") };
  b.source("INV", "L", "N", { kind: "inverter", fedBy: [b.n("+ bus"), b.n("N minus")], gives: { mover: knob, in: [1] }, direct }); // prettier-ignore
  b.taker("kettle", "L", "N");
  const base = b.done();
  const [battery] = base.sources;
  assert.ok(battery);
  const solar = { ...battery, id: "MPPT:direct", part: "MPPT", lines: [{ node: b.n("+ solar"), angle: null }] };
  const problem = { ...base, aside: [solar] };
  // The groups stay those of the battery: what may be is asked position by position.
  assert.equal(studyProblem(problem).groups.length, studyProblem(base).groups.length);
  const may = (positions: Record<string, string>) => stateAt(problem, positions).mayGive;
  assert.deepEqual(may({ INV: "on" }), [{ source: "INV", by: ["MPPT"], takers: ["kettle"] }]);
  assert.deepEqual(may({ INV: "on", "bank switch": "on" }), []);
  assert.deepEqual(may({}), []);
  assert.deepEqual(stateAt(base, { INV: "on" }).mayGive, []);
  // A charger whose supply is dead keeps up nothing, nor does an inverter keep itself up.
  const charger = { ...solar, id: "kettle:direct", part: "CHG" };
  const own = { ...solar, part: "INV" };
  for (const one of [charger, own]) assert.deepEqual(stateAt({ ...base, aside: [one] }, { INV: "on" }).mayGive, []);
});
