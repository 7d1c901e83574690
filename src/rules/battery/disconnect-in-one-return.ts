import { cite } from "../../explain/index.ts";
import type { Build } from "../build.ts";
import { defineRule } from "../rule.ts";
import { nameSome } from "./name-some.ts";
import { joinedPieces, piecesOf } from "./pieces.ts";
import { switchesOf } from "./switches.ts";

const inMinus = (more: string): string =>
  `parts:\n  SW2: { kind: switch, name: minus switch, rated: 300 A }\ncircuits:\n  W03: { path: B1:− → SW2 → BN, legs: [0.3 m, 0.3 m] }${more}`;
const tapped = `systems:
  DC: { kind: DC, nominal: 24 V, return: BN }
  DC12: { kind: DC, nominal: 12 V, return: BN }
rules: { DC: iso-small-craft 2020+A1:2022, DC12: iso-small-craft 2020+A1:2022 }
parts:
  B1: { kind: battery, chemistry: AGM, nominal: 12 V, capacity: 100 Ah }
  B2: { kind: battery, chemistry: AGM, nominal: 12 V, capacity: 100 Ah }
  SW2: { kind: switch, name: minus switch, rated: 300 A }
  radio: { kind: load, running: 1 A, system: DC12 }
circuits:
  W03: { path: B2:− → SW2 → BN, legs: [0.3 m, 0.3 m] }
  W05: { path: B1:− → B2:+, length: 0.2 m }
  W20: { path: B2:+ → radio, length: 2 m, fuse: 5 A }
  W21: { path: radio:− → BN, length: 2 m }`;

export const disconnectInOneReturn = defineRule({
  id: "battery/disconnect-in-one-return",
  title: "Disconnect in one return",
  severity: { otherwise: "should", sets: { "us-small-craft": "must", "iso-small-craft": "must" } },
  danger:
    "with the minus opened, gear for 12 V is fed backwards through other gear at 24 V, or through a shield or a sense wire",
  why: `A switch in a minus cuts off nothing while another way back is left, and what it does cut off floats: what hangs on two voltages of the batteries
    then feeds one through the other. With the switch open the two sides of it have no metal in common, and no more than one plus of the batteries
    leads to what is cut off.`,
  silent: ["switches in the plus"],
  sources: [{ cite: cite("trade-practice", "a main switch opens the plus, or both poles", "practice") }],
  messages: {
    around: "{place} opens the minus, and there is another way around it",
    backwards:
      "{place} opens the minus of {others} together, which hang on different volts of the batteries: one is then fed backwards through the other",
  },
  cures: [],
  examples: {
    good: [
      { says: "a switch in the plus", plan: "" },
      { says: "everything behind one switch in the minus", plan: inMinus("") },
    ],
    bad: [
      {
        says: "a second way back",
        plan: inMinus("\n  W21: { path: B1:− → BN, length: 2 m, fuse: none }"),
        fails: "around",
        about: "parts.SW2",
      },
      { says: "a radio on the middle of a string", plan: tapped, fails: "backwards", about: "parts.SW2" },
    ],
  },
  judge(build, report) {
    const { edges, stores } = build.settled.model.grid;
    const closed = joinedPieces(build.settled);
    const bottoms = new Set(stores.map((s) => closed[s.minus]));
    const tops = new Set(stores.map((s) => closed[s.plus]));
    for (const { view, contacts } of switchesOf(build)) {
      const inReturn = contacts.filter((e) => {
        const piece = closed[edges[e]?.a ?? -1];
        return bottoms.has(piece) && !tops.has(piece);
      });
      if (inReturn.length === 0) {
        report.notApplicable(view.subject, "it opens no minus");
        continue;
      }
      const opened = piecesOf(build.settled, (e) => !contacts.includes(e));
      const isAround = inReturn.some((e) => opened[edges[e]?.a ?? -1] === opened[edges[e]?.b ?? -1]);
      const fed = inReturn.map((e) => fedBackwards(build, e, opened)).find((parts) => parts.length > 0);
      if (isAround) report.fail(view.subject, "around");
      else if (fed !== undefined) report.fail(view.subject, "backwards", { words: { others: nameSome(fed) } });
      else report.pass(view.subject);
    }
  },
});

/** Of what a contact in a minus cuts off, the parts that hang on different voltages of the batteries; none where all hang on one. */
function fedBackwards(build: Build, contact: number, opened: Int32Array): readonly string[] {
  const { grid } = build.settled.model;
  const edge = grid.edges[contact];
  if (edge === undefined) return [];
  const withStore = new Set(grid.stores.map((s) => opened[s.minus]));
  const [a, b] = [opened[edge.a], opened[edge.b]];
  const cut = withStore.has(a) ? b : a;
  if (withStore.has(cut)) return [];
  const live = new Set(grid.stores.map((s) => opened[s.plus]));
  const users = [
    ...grid.draws.map((d) => ({ part: d.element.part, plus: d.plus, minus: d.minus })),
    ...grid.converters.flatMap((c) => (c.in === null ? [] : [{ part: c.element.part, ...c.in }])),
  ].filter((u) => opened[u.minus] === cut && live.has(opened[u.plus]));
  return new Set(users.map((u) => opened[u.plus])).size < 2 ? [] : users.map((u) => u.part);
}
