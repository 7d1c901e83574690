import assert from "node:assert/strict";
import { test } from "vitest";
import type { ProblemMover, ProblemSource, ProblemTaker, SwitchingProblem } from "./problem.ts";
import { stateAt } from "./state-at.ts";
import { studyProblem } from "./study-problem.ts";
import type { SwitchingStudy } from "./study.ts";

/** Writes small builds: nodes by name (`N…` neutral, `PE…` earth, else a line), everything else by what it differs in. */
function build() {
  const nodes: SwitchingProblem["nodes"][number][] = [];
  const names = new Map<string, number>();
  const n = (name: string): number => {
    const known = names.get(name);
    if (known !== undefined) return known;
    names.set(name, nodes.length);
    nodes.push({ name, does: name.startsWith("PE") ? "earth" : name.startsWith("N") ? "neutral" : "line" });
    return nodes.length - 1;
  };
  const movers: ProblemMover[] = [];
  const contacts: SwitchingProblem["contacts"][number][] = [];
  const sources: ProblemSource[] = [];
  const takers: ProblemTaker[] = [];
  const mover = (id: string, positions: readonly string[], more: Partial<ProblemMover> = {}): number =>
    movers.push({ id, name: id, part: id, by: "hand", positions, start: 0, rules: [], ...more }) - 1;
  return {
    n,
    mover,
    close: (m: number, inside: readonly number[], ...pairs: readonly (readonly [string, string])[]): number[] =>
      pairs.map(
        ([a, b]) =>
          contacts.push({ id: `${a}–${b}`, part: "", a: n(a), b: n(b), closed: { mover: m, in: inside } }) - 1,
      ),
    source: (id: string, line: string, neutral: string | null, more: Partial<ProblemSource> = {}): void => {
      const lines = [{ node: n(line), angle: 0 }];
      const plain = { kind: "shore", earth: n("PE"), fedBy: [], gives: null, joined: false, joinStays: false } as const;
      const rest = { addsToSupply: false, passes: false, direct: null };
      sources.push({
        id,
        name: id,
        part: id,
        lines,
        neutral: neutral === null ? null : n(neutral),
        ...plain,
        ...rest,
        ...more,
      });
    },
    taker: (id: string, line: string, neutral: string, more: Partial<ProblemTaker> = {}): void => {
      const plain = { kind: "load", earth: n("PE"), takes: null, direct: null } as const;
      takers.push({ id, name: id, part: id, lines: [n(line)], neutral: n(neutral), ...plain, ...more });
    },
    done: (more: Partial<SwitchingProblem> = {}): SwitchingProblem => ({
      nodes,
      metal: [],
      movers,
      contacts,
      sources,
      takers,
      joins: [],
      guards: [],
      interlocks: [],
      ...more,
    }),
  };
}

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

/** Two breakers onto one bar. */
function twoBreakers(interlocked: boolean): SwitchingProblem {
  const b = build();
  const [one, two] = [b.mover("B1", ["off", "on"]), b.mover("B2", ["off", "on"])];
  const plug = b.mover("plug", ["out", "in"], { by: "outside" });
  const run = b.mover("generator", ["off", "running"]);
  b.source("SHORE", "L1", "N", { gives: { mover: plug, in: [1] }, joined: true });
  b.source("GEN", "L2", "N", { kind: "generator", gives: { mover: run, in: [1] } });
  b.close(one, [1], ["L1", "L bar"]);
  b.close(two, [1], ["L2", "L bar"]);
  b.taker("outlet", "L bar", "N");
  const never = [
    { mover: one, in: [1] },
    { mover: two, in: [1] },
  ];
  return b.done(interlocked ? { interlocks: [{ id: "slide", name: "", never }] } : {});
}

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

/** An inverter with charger: its relay leads shore on, else it makes current and joins neutral to earth. */
function inverterCharger(store: boolean, guarded = false): SwitchingProblem {
  const b = build();
  const plug = b.mover("plug", ["out", "in"], { by: "outside" });
  const knob = b.mover("INV", ["off", "on"]);
  const battery = b.mover("battery switch", ["off", "on"]);
  const relay = b.mover("relay", ["resting", "inverting", "passing"], {
    by: "itself",
    part: "INV",
    breaksFirst: true,
    rules: [
      { to: 2, live: [b.n("L in")], when: [{ mover: knob, in: [1] }], after: 5 },
      { to: 1, live: [b.n("+ in")], when: [{ mover: knob, in: [1] }], after: 0 },
      { to: 0, live: [], when: [], after: 0 },
    ],
  });
  b.source("SHORE", "L in", "N in", { gives: { mover: plug, in: [1] }, joined: true });
  if (store) b.source("BAT", "+ store", "N minus", { kind: "store" });
  b.close(battery, [1], ["+ store", "+ in"]);
  const direct = { plus: b.n("+ in"), minus: b.n("N minus") };
  const fedBy = [direct.plus, direct.minus];
  b.source("INV:out", "L out", "N out", {
    kind: "inverter",
    part: "INV",
    gives: { mover: relay, in: [1] },
    fedBy,
    direct,
    passes: true,
  });
  b.close(relay, [2], ["L in", "L out"], ["N in", "N out"]);
  const main = b.mover("main", ["off", "on"]);
  const poles = b.close(main, [1], ["L out", "L bar"], ["N out", "N bar"]);
  b.taker("outlet", "L bar", "N bar");
  b.taker("INV:charging", "L in", "N in", { kind: "charger", direct, takes: { mover: relay, in: [2] } });
  b.taker("charger on the bar", "L bar", "N bar", { kind: "charger", direct });
  return b.done({
    joins: [
      {
        id: "INV:join",
        name: "",
        part: "INV",
        neutral: b.n("N out"),
        earth: b.n("PE"),
        closed: { mover: relay, in: [1] },
      },
    ],
    guards: guarded ? [{ id: "RCD", name: "", part: "main", contacts: poles }] : [],
  });
}

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
