import assert from "node:assert/strict";
import { test } from "vitest";
import { build, inverterCharger, twoBreakers } from "../../test/fixtures/small-builds.ts";
import { studyProblem } from "./study-problem.ts";

test("a residual guard behind all sources stands on every way, with every join ahead of it", () => {
  const fed = studyProblem(inverterCharger(true, true)).groups.filter((g) => g.takers[0]?.state === "fed");
  assert.ok(fed.length >= 2);
  for (const group of fed) {
    assert.deepEqual(group.takers[0]?.guards, [{ guard: "RCD", joinAhead: true, neutralThrough: true }]);
  }
});

test("neutrals that meet behind two guards are told; guards in series do not meet", () => {
  const of = (borrowed: boolean, series: boolean) => {
    const b = build();
    const [one, two] = [b.mover("R1", ["off", "on"]), b.mover("R2", ["off", "on"])];
    b.source("SHORE", "L", "N", { joined: true });
    const first = b.close(one, [1], ["L", "L a"], ["N", "N a"]);
    const second = series
      ? b.close(two, [1], ["L a", "L b"], ["N a", "N b"])
      : b.close(two, [1], ["L", "L b"], ["N", "N b"]);
    b.taker("A", "L a", "N a");
    b.taker("B", "L b", borrowed ? "N a" : "N b");
    const guards = [
      { id: "G1", name: "", part: "R1", contacts: first },
      { id: "G2", name: "", part: "R2", contacts: second },
    ];
    const metal = borrowed ? [[b.n("N a"), b.n("N b")] as const] : [];
    const study = studyProblem(b.done({ guards, metal }));
    return { meet: study.groups.flatMap((g) => g.neutralsMeet), leaves: study.leaves.map((l) => l.mover) };
  };
  assert.deepEqual(of(false, false), { meet: [], leaves: ["R1", "R2"] });
  assert.deepEqual(of(false, true), { meet: [], leaves: ["R1", "R2"] });
  const { meet, leaves } = of(true, false);
  assert.deepEqual(leaves, []);
  assert.deepEqual(meet, [{ guards: ["G1", "G2"] }]);
});

test("what chases its own feed never rests, and is told as a group of its own", () => {
  const b = build();
  const run = b.mover("switch", ["off", "on"]);
  const relay = b.mover("relay", ["closed", "open"], {
    by: "itself",
    rules: [
      { to: 1, live: [b.n("L coil")], when: [], after: 1 },
      { to: 0, live: [], when: [], after: 1 },
    ],
  });
  b.source("SHORE", "L", null, { gives: { mover: run, in: [1] } });
  b.close(relay, [0], ["L", "L coil"]);
  const { groups } = studyProblem(b.done());
  assert.deepEqual(
    groups.map((g) => [g.rests, g.count, g.actions]),
    [
      [true, 1, 0],
      [false, 2, 1],
    ],
  );
});

test("a live line that no hand can cut is told, and whether pulling the plug does", () => {
  const b = build();
  const plug = b.mover("plug", ["out", "in"], { by: "outside" });
  const main = b.mover("main", ["off", "on"]);
  b.source("SHORE", "L inlet", "N", { gives: { mover: plug, in: [1] } });
  b.source("GEN", "L gen", "N gen", { kind: "generator" });
  b.close(main, [1], ["L inlet", "L bar"]);
  b.taker("outlet", "L bar", "N");
  b.taker("heater", "L gen", "N gen");
  const problem = b.done();
  const on = studyProblem(problem).groups.at(-1);
  assert.deepEqual(
    on?.undisconnected.map(({ node, outside }) => [problem.nodes[node]?.name, outside]),
    [
      ["L inlet", true],
      ["L gen", false],
    ],
  );
});

test("a switch with only takers behind it is no state, and says which poles it leaves", () => {
  const b = build();
  const branch = b.mover("branch", ["off", "on"]);
  const idle = b.mover("lamp of the dinghy", ["off", "on"]);
  b.source("SHORE", "L", "N", {});
  b.close(branch, [1], ["L", "L a"]);
  b.close(idle, [1], ["L x", "L y"]);
  b.taker("kettle", "L a", "N");
  const study = studyProblem(b.done());
  assert.deepEqual(study.leaves, [
    {
      mover: "branch",
      takers: ["kettle"],
      nodes: [b.n("L a")],
      leaves: [{ taker: "kettle", linesCut: 1, linesLeft: 0, neutral: "left" }],
    },
  ]);
  assert.deepEqual(study.idle, ["lamp of the dinghy"]);
  assert.equal(study.groups.length, 1);
});

test("a switch is a leaf whichever way round its contacts are written", () => {
  const of = (...contacts: readonly (readonly [string, string])[]) => {
    const b = build();
    const branch = b.mover("branch", ["off", "on"]);
    b.source("SHORE", "L", "N", {});
    b.taker("kettle", "L a", "N");
    b.taker("lamp", "L b", "N b");
    b.close(branch, [1], ...contacts);
    const { leaves, idle } = studyProblem(b.done());
    return [leaves.map((l) => [...l.nodes.map((n) => b.done().nodes[n]?.name)].sort().join(", ")), idle];
  };
  // One pole on from the shore, the next on from there.
  assert.deepEqual(of(["L", "L a"], ["L a", "L b"]), [["L a, L b"], []]);
  assert.deepEqual(of(["L b", "L a"], ["L a", "L"]), [["L a, L b"], []]);
  // Nothing gives on either side of the second: both are behind.
  assert.deepEqual(of(["L", "L a"], ["L b", "N b"]), [["L a, L b, N b"], []]);
  assert.deepEqual(of(["L", "L a"], ["N b", "L b"]), [["L a, L b, N b"], []]);
  // Two ways to one piece of metal are more than on and off.
  assert.deepEqual(of(["L", "L a"], ["L", "L a"]), [[], []]);
  assert.deepEqual(of(["L", "L a"], ["L a", "L b"], ["L b", "L"]), [[], []]);
  // From a node to itself it switches nothing.
  assert.deepEqual(of(["L a", "L a"]), [[], ["branch"]]);
});

test("a battery ties no neutral to earth", () => {
  const b = build();
  b.source("SHORE", "L", "N", {});
  b.source("BAT", "+", "N", { kind: "store", joined: true });
  b.taker("kettle", "L", "N");
  assert.deepEqual(
    studyProblem(b.done()).groups[0]?.islands.map((i) => i.joins),
    [[]],
  );
});

test("dead metal that a switch lays on earth is a state of its own", () => {
  const b = build();
  const earthing = b.mover("earthing switch", ["open", "closed"]);
  const main = b.mover("main", ["off", "on"]);
  b.source("SHORE", "L in", "N", {});
  b.close(main, [1], ["L in", "L"]);
  b.close(earthing, [1], ["L", "PE"]);
  b.taker("kettle", "L", "N");
  const { groups } = studyProblem(b.done());
  assert.deepEqual(
    groups.map((g) => [g.example["main"], g.example["earthing switch"], g.count]),
    [
      ["off", "open", 1],
      ["on", "open", 1],
      ["off", "closed", 1],
      ["on", "closed", 1],
    ],
  );
});

test("what is too large is told with its number", () => {
  const problem = twoBreakers(false);
  assert.deepEqual(studyProblem(problem, { groups: 3 }).tooLarge?.tooLarge, "groups");
  assert.deepEqual(studyProblem(problem, { combinations: 0, diagramNodes: 10 }).tooLarge, {
    tooLarge: "diagram nodes",
    limit: 10,
    count: 11,
  });
  assert.deepEqual(studyProblem(problem, { groups: 3 }).groups, []);
});

test("everything off may itself be forbidden", () => {
  const problem = twoBreakers(false);
  const interlocks = [
    {
      id: "one is on",
      name: "",
      never: [
        { mover: 0, in: [0] },
        { mover: 1, in: [0] },
      ],
    },
  ];
  const study = studyProblem({ ...problem, interlocks });
  assert.deepEqual(study.startForbiddenBy, ["one is on"]);
  assert.deepEqual(study.groups, []);
});
