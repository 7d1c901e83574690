import assert from "node:assert/strict";
import fc from "fast-check";
import { test } from "vitest";
import { isAllowed, judgeMoments } from "./judge-moment.ts";
import { layCore, type Core } from "./lay-core.ts";
import type { PositionSet, ProblemMover, SwitchingProblem } from "./problem.ts";
import { moved, settle } from "./settle.ts";
import type { SwitchingGroup, SwitchingStudy } from "./study.ts";
import { studyProblem } from "./study-problem.ts";

const NODES = 8;
const node = fc.nat(NODES - 1);
const someNode = fc.option(node, { nil: null });

/** Movers that stand anywhere between anything: far wilder than what is built. */
const problems = fc
  .array(fc.tuple(fc.integer({ min: 2, max: 3 }), fc.constantFrom("hand", "hand", "outside", "itself", "itself")), {
    minLength: 3,
    maxLength: 8,
  })
  .chain((shapes) => {
    const set = fc
      .nat(shapes.length - 1)
      .chain((mover) =>
        fc
          .subarray([...Array(shapes[mover]?.[0] ?? 2).keys()], { minLength: 1 })
          .map((inside): PositionSet => ({ mover, in: inside })),
      );
    const mover = (i: number) =>
      fc
        .record({
          rules: fc.array(
            fc.record({
              to: fc.nat((shapes[i]?.[0] ?? 2) - 1),
              live: fc.array(node, { maxLength: 1 }),
              when: fc.array(set, { maxLength: 1 }),
              after: fc.constantFrom(0, 0, 1, 5),
            }),
            { minLength: 1, maxLength: 3 },
          ),
          breaksFirst: fc.constantFrom(true, true, false, "unknown" as const),
        })
        .map(({ rules, breaksFirst }): ProblemMover => {
          const [count, by] = shapes[i] ?? [2, "hand"];
          return {
            id: `M${String(i)}`,
            name: `M${String(i)}`,
            part: `P${String(i)}`,
            by: by, // one of the constants above
            positions: Array.from({ length: count }, (_, p) => `p${String(p)}`),
            start: 0,
            rules: by === "itself" ? rules : [],
            breaksFirst,
          };
        });
    return fc.record({
      nodes: fc.tuple(
        ...Array.from({ length: NODES }, (_, n) =>
          fc.constantFrom("line", "line", "neutral", "any").map((does) => ({ name: `n${String(n)}`, does }) as const),
        ),
      ),
      metal: fc.array(fc.tuple(node, node), { maxLength: 2 }),
      movers: fc.tuple(...shapes.map((_, i) => mover(i))),
      contacts: fc.array(
        fc.record({
          id: fc.constant("C"),
          part: fc.constant(""),
          a: node,
          b: node,
          closed: fc.option(set, { nil: null, freq: 9 }),
        }),
        { minLength: 5, maxLength: 14 },
      ),
      sources: fc
        .array(
          fc.record({
            part: fc.constantFrom("P0", "P1", "Q"),
            kind: fc.constantFrom("shore", "generator", "inverter", "store"),
            lines: fc.array(fc.record({ node, angle: fc.constant(0) }), { minLength: 1, maxLength: 2 }),
            neutral: someNode,
            earth: someNode,
            fedBy: fc.oneof(
              { weight: 4, arbitrary: fc.constant([]) },
              { weight: 1, arbitrary: fc.array(node, { maxLength: 1 }) },
            ),
            gives: fc.option(set, { nil: null }),
            joined: fc.constantFrom(true, false, "unknown" as const),
            joinStays: fc.boolean(),
            addsToSupply: fc.constant(false),
            passes: fc.constant(false),
            direct: fc.constant(null),
          }),
          { minLength: 1, maxLength: 3 },
        )
        .map((list) => list.map((s, i) => ({ ...s, id: `S${String(i)}`, name: `S${String(i)}` }))),
      joins: fc
        .array(
          fc.record({ part: fc.constant(""), neutral: node, earth: node, closed: fc.option(set, { nil: null }) }),
          { maxLength: 2 },
        )
        .map((list) => list.map((j, i) => ({ ...j, id: `J${String(i)}`, name: "" }))),
      guards: fc.constant([
        { id: "G0", name: "", part: "", contacts: [0] },
        { id: "G1", name: "", part: "T0", contacts: [1, 2] },
      ]),
      takers: fc
        .array(
          fc.record({ lines: fc.array(node, { minLength: 1, maxLength: 2 }), neutral: someNode, earth: someNode }),
          { maxLength: 3 },
        )
        .map((list) =>
          list.map((t, i) => ({
            ...t,
            id: `T${String(i)}`,
            name: "",
            part: `T${String(i)}`,
            kind: "load" as const,
            takes: null,
            direct: null,
          })),
        ),
      pins: fc
        .array(fc.record({ lines: fc.array(node, { minLength: 1, maxLength: 2 }), plugged: set }), { maxLength: 1 })
        .map((list) => list.map((p, i) => ({ ...p, id: `PIN${String(i)}` }))),
      // Everything off is lawful but once in a while, since nothing is reached from where it is not.
      interlocks: fc
        .tuple(fc.array(fc.array(set, { minLength: 2, maxLength: 3 }), { maxLength: 3 }), fc.nat(9))
        .map(([list, odd]) =>
          list
            .map((never, i) => ({ id: `I${String(i)}`, name: "", never }))
            .filter((i) => odd === 0 || !i.never.every((s) => s.in.includes(0))),
        ),
    });
  });

/**
 * All that is told of a group, but for the example, of which there may be several equally near, with the way to it and the lines that one hand more cannot
 * cut from there.
 */
const held = (group: SwitchingGroup): SwitchingGroup => ({
  ...group,
  number: 0,
  example: {},
  steps: [],
  undisconnected: [],
});

const toldOf = (study: SwitchingStudy) => ({
  groups: study.groups.map((g) => JSON.stringify(held(g))).sort(),
  reach: { ...study.reach, enclosed: study.reach.enclosed?.count },
  transients: study.transients.map((t) => JSON.stringify({ ...t, before: null, steps: null })),
});

const byDiagram = { combinations: 0 };

test("the decision diagram finds what looking at every combination finds", () => {
  fc.assert(
    fc.property(problems, (problem) => {
      const each = studyProblem(problem);
      const gathered = studyProblem(problem, byDiagram);
      assert.equal(each.how, "each combination");
      assert.equal(gathered.how, "decision diagram");
      assert.deepEqual(toldOf(gathered), toldOf(each));
      assert.deepEqual(
        gathered.groups.map((g) => g.example),
        each.groups.map((g) => g.example),
      );
    }),
    { numRuns: 60 },
  );
});

/** Breadth first in the plainest words: every state as text, every action, until nothing new comes. */
function walkPlainly(core: Core): Map<string, number> {
  const judge = judgeMoments(core);
  const found = new Map<string, number>();
  let layer: Uint8Array[] = [];
  const arrive = (values: Uint8Array, steps: number, into: Uint8Array[]): void => {
    const { path, rests } = settle(core, judge, values);
    const last = path.at(-1)?.values ?? values;
    const states = [values, ...path.map((p) => p.values)];
    const round = rests ? [last] : states.slice(states.findIndex((v) => v.join() === last.join()));
    for (const state of round) {
      if (found.has(state.join())) continue;
      found.set(state.join(), steps);
      into.push(state);
    }
  };
  const start = Uint8Array.from(core.movers, (m) => m.start);
  if (isAllowed(core, start)) arrive(start, 0, layer);
  for (let steps = 1; layer.length > 0; steps++) {
    const after: Uint8Array[] = [];
    for (const at of layer) {
      for (const [m, { itself, real }] of core.movers.entries()) {
        for (let to = 0; to < real && !itself; to++) {
          const acted = moved(at, [{ mover: m, to }]);
          if (to !== at[m] && isAllowed(core, acted)) arrive(acted, steps, after);
        }
      }
    }
    layer = after;
  }
  return found;
}

test("the shortest sequence is that of a plain breadth-first walk over the whole space, and leads there", () => {
  fc.assert(
    fc.property(problems, fc.boolean(), (problem, gathered) => {
      const study = studyProblem(problem, gathered ? byDiagram : {});
      const core = layCore(problem);
      const plain = walkPlainly(core);
      assert.equal(
        study.groups.reduce((sum, g) => sum + g.count, 0),
        plain.size,
      );
      for (const group of study.groups) {
        const at = core.movers.map(({ mover }) => {
          const of = problem.movers[mover];
          return of?.positions.indexOf(group.example[of.id] ?? "") ?? -1;
        });
        assert.equal(plain.get(at.join()), group.actions);
        const end = new Map(core.movers.map(({ mover }) => [problem.movers[mover]?.id, "p0"]));
        for (const step of group.steps) {
          assert.equal(end.get(step.mover), step.from);
          end.set(step.mover, step.to);
        }
        assert.deepEqual(Object.fromEntries(end), group.example);
        assert.equal(group.steps.filter((s) => s.by !== "itself").length, group.actions);
      }
    }),
    { numRuns: 60 },
  );
});

test("one interlock more never adds a combination", () => {
  fc.assert(
    fc.property(problems, (problem) => {
      // What moves by itself may be held by an interlock where it would have gone on, so only hands are bound here.
      const byHand = problem.interlocks.filter((i) => i.never.every((s) => problem.movers[s.mover]?.by !== "itself"));
      const counts = byHand.map(
        (_, i) => studyProblem({ ...problem, interlocks: byHand.slice(0, i + 1) }).reach.reached,
      );
      const none = studyProblem({ ...problem, interlocks: [] });
      const asked = new Set(studyProblem({ ...problem, interlocks: byHand }).movers);
      if (none.movers.length !== asked.size) return; // an interlock makes a leaf count, so the numbers are of other movers
      [none.reach.reached, ...counts].reduce((before, now) => (assert.ok(now <= before), now));
    }),
    { numRuns: 100 },
  );
});

/** The same problem with every list the other way round, every contact and way turned, and other names for nodes and movers. */
function turn(problem: SwitchingProblem): SwitchingProblem {
  const { nodes, movers, contacts } = problem;
  const node = (n: number): number => nodes.length - 1 - n;
  const end = (n: number | null): number | null => (n === null ? null : node(n));
  const flip = (s: PositionSet): PositionSet => ({ ...s, mover: movers.length - 1 - s.mover });
  const always = (s: PositionSet | null): PositionSet | null => (s === null ? null : flip(s));
  return {
    nodes: nodes.map((n) => ({ ...n, name: `other ${n.name}` })).reverse(),
    metal: problem.metal.map(([a, b]) => [node(b), node(a)] as const).reverse(),
    movers: movers
      .map((m): ProblemMover => {
        const rules = m.rules.map((r) => ({
          ...r,
          live: r.live.map(node).reverse(),
          when: r.when.map(flip).reverse(),
        }));
        return { ...m, name: "x", rules };
      })
      .reverse(),
    contacts: contacts.map((c) => ({ ...c, a: node(c.b), b: node(c.a), closed: always(c.closed) })).reverse(),
    guards: problem.guards.map((g) => ({ ...g, contacts: g.contacts.map((c) => contacts.length - 1 - c) })).reverse(),
    sources: problem.sources
      .map((s) => ({
        ...s,
        lines: s.lines.map((l) => ({ ...l, node: node(l.node) })).reverse(),
        neutral: end(s.neutral),
        earth: end(s.earth),
        fedBy: s.fedBy.map(node).reverse(),
        gives: always(s.gives),
      }))
      .reverse(),
    joins: problem.joins
      .map((j) => ({
        ...j,
        neutral: node(j.neutral),
        earth: node(j.earth),
        closed: j.closed === "unknown" ? j.closed : always(j.closed),
      }))
      .reverse(),
    takers: problem.takers
      .map((t) => ({ ...t, lines: t.lines.map(node).reverse(), neutral: end(t.neutral), earth: end(t.earth) }))
      .reverse(),
    pins: (problem.pins ?? []).map((p) => ({ ...p, lines: p.lines.map(node), plugged: flip(p.plugged) })),
    interlocks: problem.interlocks.map((i) => ({ ...i, never: i.never.map(flip).reverse() })).reverse(),
  };
}

/** Lists in an order of their own, whatever came first. */
const inOrder = (value: unknown): unknown =>
  Array.isArray(value)
    ? value.map(inOrder).sort((a, b) => (JSON.stringify(a) < JSON.stringify(b) ? -1 : 1))
    : value !== null && typeof value === "object"
      ? Object.fromEntries(Object.entries(value).map(([key, of]) => [key, inOrder(of)]))
      : value;

test("names and the order of nodes, movers, contacts, sources and all else change nothing", () => {
  fc.assert(
    fc.property(problems, (problem) => {
      // Metal with nothing on it is that of the example, and so is what only a battery ends on: its switch makes no group of its own.
      const used = new Set<number | null>([
        ...problem.sources.flatMap((s) =>
          s.kind === "store" ? [] : [...s.lines.map((l) => l.node), s.neutral, s.earth],
        ),
        ...problem.takers.flatMap((t) => [...t.lines, t.neutral, t.earth]),
        ...problem.joins.flatMap((j) => [j.neutral, j.earth]),
      ]);
      const all = (study: SwitchingStudy, node: (n: number) => number) => {
        const named = (nodes: readonly number[]): number[] => nodes.map(node);
        const ofUsed = (nodes: readonly number[]): number[] => named(nodes).filter((n) => used.has(n));
        const groups = study.groups.map((group) => {
          const islands = group.islands.map((i) => ({ ...i, lineNodes: ofUsed(i.lineNodes), neutralNodes: ofUsed(i.neutralNodes), earthNodes: ofUsed(i.earthNodes) })); // prettier-ignore
          return { ...held(group), islands };
        });
        return inOrder({
          ...study,
          groups,
          leaves: study.leaves.map((l) => ({ ...l, nodes: named(l.nodes) })),
          transients: study.transients.map((t) => ({ ...t, before: null, steps: null })),
          reach: { ...study.reach, enclosed: study.reach.enclosed?.count },
        });
      };
      const straight = all(studyProblem(problem), (n) => n);
      assert.deepEqual(
        all(studyProblem(turn(problem)), (n) => problem.nodes.length - 1 - n),
        straight,
      );
    }),
    { numRuns: 100 },
  );
});
