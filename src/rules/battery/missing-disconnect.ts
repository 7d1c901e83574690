import { cite } from "../../explain/index.ts";
import type { Value } from "../../system/index.ts";
import type { Build, CircuitView } from "../build.ts";
import type { Needed } from "../finding.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { banksOf, nameOf, type Bank } from "./banks.ts";
import { nameSome } from "./name-some.ts";
import { joinedPieces, piecesOf } from "./pieces.ts";
import { switchesOf } from "./switches.ts";

/** Above these the American set asks for a switch: 800 CCA [read, quoted], 100 Ah where no CCA is stated [article]. */
const E11 = { crankingAmps: 800, coulombs: 100 * 3600 } as const;

export const missingDisconnect = defineRule({
  id: "battery/missing-disconnect",
  title: "Missing disconnect",
  severity: {
    otherwise: "should",
    sets: { "us-small-craft": "must", "iso-small-craft": "must", "us-cabin": "must", "au-nz-vehicle": "must" },
  },
  danger: "there is no way to take from a fire what feeds it",
  why: `With every switch in the plus open, nothing may hang on a bank but what is always on (bilge pumps, blowers, alarms, memories: each with a
    device of its own) and what charges. us-small-craft asks it of banks of more than 800 cold cranking amps, or of more than 100 Ah where none are
    stated; the others of every bank. An inverter is always behind the switch.`,
  silent: [
    "banks on which nothing hangs but what may stay ahead of a switch",
    "us-small-craft: banks of no more than 800 cold cranking amps, or 100 Ah where none are stated",
  ],
  sources: [
    { cite: cite("abyc-e-11", "11.6.1.2.1", "read"), sets: ["us-small-craft"] },
    { cite: cite("iso-10133-2012", "6", "memory"), sets: ["iso-small-craft"] },
    { cite: cite("trade-practice", "a switch near each bank, ahead of it only what is always on", "practice") },
  ],
  messages: {
    none: "{place} has no switch in its plus that cuts off {others}",
    ahead: "{place} has a switch, yet ahead of it there is {others}, where only what is always on or charges may be",
    bare: "ahead of the switch of {place}, without a device of its own, there is {others}",
  },
  cures: ["behind-switch"],
  examples: {
    good: [
      { says: "everything behind one switch", plan: "" },
      {
        says: "a bilge pump ahead of the switch, with its own fuse",
        plan: "parts:\n  bilge pump: { kind: bilge pump, running: 4.5 A, always on: yes, critical: yes }\ncircuits:\n  W12: { path: SW1:in → bilge pump, length: 3 m }",
      },
      {
        says: "a charger ahead of the switch",
        plan: "parts:\n  ALT: { kind: alternator, rated: 60 A }\ncircuits:\n  W12: { path: ALT → SW1:in, length: 3 m }",
      },
    ],
    bad: [
      {
        says: "no switch at all",
        plan: "circuits:\n  W01: { path: B1 → BP, length: 0.8 m, sheathed: yes }\n  W02: { path: SW1:in → SW1:out, length: 0.4 m }",
        fails: "none",
        about: "parts.B1",
      },
      {
        says: "an inverter ahead of the switch",
        plan: "parts:\n  INV: { kind: inverter, rated: 1 kVA, surge: 1.5 kVA }\ncircuits:\n  W12: { path: SW1:in → INV:in, length: 1 m }",
        fails: "ahead",
        about: "parts.B1",
      },
      {
        says: "a bilge pump ahead of the switch, without a device",
        plan: "parts:\n  bilge pump: { kind: bilge pump, running: 4.5 A, always on: yes, critical: yes }\ncircuits:\n  W12: { path: SW1:in → bilge pump, length: 3 m, fuse: none }",
        fails: "bare",
        about: "parts.B1",
      },
    ],
  },
  judge(build, report) {
    const { grid } = build.settled.model;
    if (grid.stores.length === 0) return;
    const opened = new Set(switchesOf(build).flatMap((s) => s.contacts));
    grid.edges.forEach(({ contact }, e) => {
      // A breaker that is a part of its own opens by hand as well.
      if (contact?.closedIn !== undefined && build.part(contact.part)?.part.traits.guards === "breaker") opened.add(e);
    });
    const pieces = piecesOf(build.settled, (e) => !opened.has(e));
    const closed = joinedPieces(build.settled);
    const users = usersOf(build);
    for (const bank of banksOf(build).list) {
      const { subject } = bank.first;
      const plus = new Set(bank.top.map((i) => pieces[grid.stores[i]?.plus ?? 0]));
      const ahead = users.filter((u) => plus.has(pieces[u.plus]));
      const wrong = ahead.filter((u) => !u.mayStay);
      const bare = ahead.filter(
        (u) => u.mayStay && u.circuit?.design.devices.length === 0 && u.circuit.design.size !== null,
      );
      const hasSwitch = users.some((u) => closed[u.plus] === bank.plus && !plus.has(pieces[u.plus]));
      const names = (list: readonly User[]) => ({
        words: { place: nameOf(bank), others: nameSome(list.map((u) => u.part)) },
      });
      const asked = subject.set === "us-small-craft" ? isAsked(bank) : true;
      if (asked === false) report.notApplicable(subject, "no more than 800 cold cranking amps, or 100 Ah");
      else if (asked !== true) report.cannotTell(subject, asked);
      else if (wrong.length > 0) report.fail(subject, hasSwitch ? "ahead" : "none", names(wrong));
      else if (bare.length > 0) report.fail(subject, "bare", names(bare));
      else if (hasSwitch) report.pass(subject);
      else report.notApplicable(subject, "nothing hangs on it but what may stay ahead of a switch");
    }
  },
});

/** Whether the American set asks a switch of a bank; what is missing where that cannot be told. */
function isAsked({ top, parts, units, first }: Bank): boolean | readonly Needed[] {
  const own = top.flatMap((i) => parts[units.indexOf(i)]?.elements.find((e) => e.is === "store") ?? []);
  const sum = (of: (typeof own)[number]["unit"]["crankingAmps"][]): Value | null =>
    of.reduce<Value | null>(
      (all, one, i) =>
        all === null || one === undefined || one === "unknown"
          ? null
          : {
              low: all.low + one.low * (own[i]?.strings ?? 1),
              high: all.high + one.high * (own[i]?.strings ?? 1),
              origin: "derived",
            },
      { low: 0, high: 0, origin: "derived" },
    );
  const cranking = sum(own.map((s) => s.unit.crankingAmps));
  const capacity = sum(own.map((s) => s.unit.capacityCoulombs));
  const [figure, limit] = cranking === null ? [capacity, E11.coulombs] : [cranking, E11.crankingAmps];
  if (figure !== null && figure.low > limit) return true;
  if (figure !== null && figure.high <= limit) return false;
  return [
    needed(cranking === null ? "its cold cranking amps or its capacity" : "its cold cranking amps", first.subject),
  ];
}

/** Something with its plus on a piece of metal, and whether it may be ahead of a switch. */
interface User {
  readonly part: string;
  readonly plus: number;
  readonly mayStay: boolean;
  /** Of a load that may stay ahead: what feeds it. */
  readonly circuit: CircuitView | undefined;
}

function usersOf(build: Build): readonly User[] {
  const { grid } = build.settled.model;
  const toLoad = new Map<string, CircuitView>();
  for (const c of build.circuits)
    for (const id of [c.circuit.to.part, ...c.circuit.draws]) if (!toLoad.has(id)) toLoad.set(id, c);
  const isCharger = (part: string): boolean => build.part(part)?.part.traits.charges === true;
  return [
    ...grid.draws.map(({ element, inverter, plus }): User => {
      const use = build.part(element.part)?.part.traits.dropUse;
      const mayStay = inverter === null && (element.alwaysOn || use === "bilge pump" || use === "bilge blower");
      return { part: element.part, plus, mayStay, circuit: mayStay ? toLoad.get(element.part) : undefined };
    }),
    ...grid.feeds.map(({ element, plus }): User => ({ part: element.part, plus, mayStay: true, circuit: undefined })),
    ...grid.converters.flatMap(({ element, in: input, out }): User[] =>
      [...(input === null ? [] : [input.plus]), out.plus].map((plus) => ({
        part: element.part,
        plus,
        mayStay: isCharger(element.part) || plus === out.plus,
        circuit: undefined,
      })),
    ),
  ];
}
