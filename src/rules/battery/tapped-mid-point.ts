import { cite } from "../../explain/index.ts";
import type { Value } from "../../system/index.ts";
import type { Build } from "../build.ts";
import { below } from "../report.ts";
import { defineRule } from "../rule.ts";
import { banksOf, nameOf, type Bank } from "./banks.ts";
import { nameSome } from "./name-some.ts";

const string = (more: string): string => `systems:
  DC: { kind: DC, nominal: 24 V, return: BN }
  DC12: { kind: DC, nominal: 12 V, return: BN }
rules: { DC: iso-small-craft 2020+A1:2022, DC12: iso-small-craft 2020+A1:2022 }
parts:
  B1: { kind: battery, chemistry: AGM, nominal: 12 V, capacity: 100 Ah }
  B2: { kind: battery, chemistry: AGM, nominal: 12 V, capacity: 100 Ah }
  PNL12: { kind: panel, ways: 4, negative bar: yes, system: DC12 }
  fridge: { kind: load, running: 4 A }
${more}`;
const strung = `circuits:
  W03: { path: B2:− → BN, length: 0.6 m }
  W05: { path: B1:− → B2:+, length: 0.2 m }`;
const tap = `  W20: { path: B2:+ → PNL12, length: 2 m, fuse: 20 A }
  W21: { path: PNL12:− → BN, length: 2 m }
  W22: { path: PNL12:1 → radio, length: 3 m }`;

export const tappedMidPoint = defineRule({
  id: "battery/tapped-mid-point",
  title: "Tapped mid-point",
  severity: "must",
  danger: "the tapped half is drained while the other is charged too far: a few days, and both are dead",
  why: `Nothing may draw from or push into the point where units of a string meet, unless an equaliser, a converter that works both ways between the
    whole string and that point, is rated for at least as much current.`,
  silent: ["banks without units in series"],
  sources: [{ cite: cite("trade-practice", "a string is loaded and charged at its ends", "practice") }],
  messages: {
    tapped: "{others} {hang} on the middle of {place}, with {measured} in all and no equaliser",
    weak: "{others} {hang} on the middle of {place}, with {measured} in all; its equaliser is rated {limit}",
  },
  cures: [],
  examples: {
    good: [
      { says: "a string loaded at its ends", plan: string(strung) },
      {
        says: "an equaliser that is strong enough",
        plan: string(
          `  EQ: { kind: DC-DC converter, nominal: 12 V, output: 20 A, both ways: yes }\n  radio: { kind: electronics, running: 5 A }\n${strung}\n${tap}\n  W23: { path: BP → EQ:in, length: 1 m }\n  W24: { path: EQ:out → B2:+, length: 1 m }`,
        ),
      },
    ],
    bad: [
      {
        says: "a 12 V radio on half of 24 V",
        plan: string(`  radio: { kind: electronics, running: 1 A }\n${strung}\n${tap}`),
        fails: "tapped",
        about: "parts.B1",
      },
      {
        says: "an equaliser that is too weak",
        plan: string(
          `  EQ: { kind: DC-DC converter, nominal: 12 V, output: 2 A, both ways: yes }\n  radio: { kind: electronics, running: 5 A }\n${strung}\n${tap}\n  W23: { path: BP → EQ:in, length: 1 m }\n  W24: { path: EQ:out → B2:+, length: 1 m }`,
        ),
        fails: "weak",
        about: "parts.B1",
      },
    ],
  },
  judge(build, report) {
    for (const bank of banksOf(build).list) {
      const { subject } = bank.first;
      if (bank.inner.size === 0) {
        report.notApplicable(subject, "its units are not in series");
        continue;
      }
      const { taps, equaliser } = tapsOf(build, bank);
      const amps = Math.max(total(taps.filter((t) => !t.pushes)), total(taps.filter((t) => t.pushes)));
      const names = taps.map((t) => t.part);
      const said = {
        measured: amps,
        unit: "A",
        at: [...names.flatMap((n) => build.part(n)?.subject.at ?? []), ...subject.at],
        words: { place: nameOf(bank), others: nameSome(names), hang: new Set(names).size === 1 ? "hangs" : "hang" },
      } as const;
      if (taps.length === 0) report.pass(subject);
      else if (equaliser === null) report.fail(subject, "tapped", { ...said, margin: -1 });
      else {
        const measured = {
          measured: amps,
          limit: equaliser.low,
          unit: "A",
          margin: below(amps, equaliser.low),
        } as const;
        if (amps <= equaliser.low) report.pass(subject, measured);
        else report.fail(subject, "weak", { ...said, ...measured });
      }
    }
  },
});

interface Tap {
  readonly part: string;
  readonly amps: number;
  readonly pushes: boolean;
}

const total = (taps: readonly Tap[]): number => taps.reduce((sum, t) => sum + t.amps, 0);

/** What hangs on the inner nodes of a bank's strings, and the equaliser that spans them. */
function tapsOf(build: Build, bank: Bank): { taps: readonly Tap[]; equaliser: Value | null } {
  const { grid } = build.settled.model;
  type Port = { readonly plus: number; readonly minus: number };
  const at = (node: number): number => bank.pieces[node] ?? -1;
  const isTap = (p: Port): boolean => bank.inner.has(at(p.plus)) || bank.inner.has(at(p.minus));
  const spans = (p: Port | null): boolean => p !== null && at(p.plus) === bank.plus && at(p.minus) === bank.minus;
  const equalisers = grid.converters.filter(
    ({ element, in: input, out }) =>
      element.bothWays && input !== null && ((spans(input) && isTap(out)) || (spans(out) && isTap(input))),
  );
  const taps = [
    ...grid.draws.flatMap((d): Tap[] =>
      isTap(d) ? [{ part: d.element.part, amps: d.element.levels[0]?.amps.high ?? 0, pushes: false }] : [],
    ),
    ...grid.feeds.flatMap((f): Tap[] =>
      isTap(f) ? [{ part: f.element.part, amps: f.element.amps.high, pushes: true }] : [],
    ),
    ...grid.converters.flatMap((c): Tap[] => {
      if (equalisers.includes(c)) return [];
      const { part, amps, inputAmps } = c.element;
      return [
        ...(c.in !== null && isTap(c.in) ? [{ part, amps: (inputAmps ?? amps).high, pushes: false }] : []),
        ...(isTap(c.out) ? [{ part, amps: amps.high, pushes: true }] : []),
      ];
    }),
  ];
  return { taps, equaliser: equalisers[0]?.element.amps ?? null };
}
