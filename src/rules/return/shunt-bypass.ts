import { cite } from "../../explain/index.ts";
import { nameSome } from "../battery/name-some.ts";
import type { Build } from "../build.ts";
import { below } from "../report.ts";
import { defineRule } from "../rule.ts";
import { metalOf, metalPieces } from "./metal.ts";

/** A monitor and its sense leads may be counted or not, A [practice]. */
const LITTLE = 0.1;

const counted = (more: string): string =>
  `parts:\n  SH: { kind: shunt, rated: 500 A }\n  heater: { kind: load, running: 10 A }\ncircuits:\n  W03: { path: B1:− → SH → BN, legs: [0.3 m, 0.3 m] }\n  W20: { path: BP → heater, length: 2 m, fuse: 15 A at BP${more} }`;

export const shuntBypass = defineRule({
  id: "return/shunt-bypass",
  title: "Shunt bypass",
  severity: "should",
  danger: "the meter counts too little, and one night the battery is empty while it reads half full",
  why: `All that a bank gives and takes passes the shunt in its minus: with the shunt taken out, no metal joins its two sides, and no load or charger has its minus on the side of the battery. A monitor of less
    than 0.1 A is let pass.`,
  silent: ["plans without a shunt", "shunts in a plus"],
  sources: [{ cite: cite("trade-practice", "one way from the bank's minus, through the shunt", "practice") }],
  messages: {
    around: "{place}: there is another way around it, so it counts only a part of what flows",
    before: "{place}: {others} land on the battery's side of it, so it does not count {measured}",
  },
  cures: ["behind-shunt", "open-loop"],
  examples: {
    good: [
      { says: "everything behind the shunt", plan: counted("") },
      { says: "no shunt", plan: "" },
    ],
    bad: [
      {
        says: "a heater whose minus is at the battery",
        plan: counted(", return: B1"),
        fails: "before",
        about: "parts.SH",
      },
      {
        says: "a second lead beside it",
        plan: `${counted("")}\n  W21: { path: B1:− → BN, length: 1 m, fuse: none }`,
        fails: "around",
        about: "parts.SH",
      },
    ],
  },
  judge(build, report) {
    for (const { id, part, subject } of build.parts) {
      if (part.traits.counts !== true) continue;
      const metal = metalOf(build);
      const own = metal.edges.find((e) => e.part === id && e.is === "contact");
      if (own === undefined) {
        report.notApplicable(subject, "it stands in no minus");
        continue;
      }
      const pieces = metalPieces(metal, (e) => e.part !== id && (e.is === "return" || e.is === "contact"));
      if (pieces[own.a] === pieces[own.b]) {
        report.fail(subject, "around");
        continue;
      }
      const sides = [own.a, own.b].map((n) => usersOn(build, pieces, pieces[n] ?? -1));
      const [a, b] = sides;
      if (a === undefined || b === undefined || a.stores + b.stores === 0) {
        report.notApplicable(subject, "no battery stands beside it");
        continue;
      }
      // Where batteries stand on both sides, those that are counted are on the one with fewer users.
      const bank = a.stores > 0 && (b.stores === 0 || a.parts.length <= b.parts.length) ? a : b;
      const amps = bank.amps;
      const said = { measured: amps, limit: LITTLE, unit: "A", margin: below(amps, LITTLE) } as const;
      if (amps > LITTLE) report.fail(subject, "before", { ...said, words: { others: nameSome(bank.parts) } });
      else report.pass(subject, said);
    }
  },
});

interface Side {
  readonly stores: number;
  readonly parts: readonly string[];
  /** Greatest that any of them takes or gives. */
  readonly amps: number;
}

/** Batteries, and loads and chargers, whose minus is on a piece of the returns. */
function usersOn(build: Build, pieces: Int32Array, piece: number): Side {
  const { grid } = build.settled.model;
  const metal = metalOf(build);
  const isOn = (minus: number): boolean => pieces[metal.standsFor(minus)] === piece;
  const users = [
    ...grid.draws.map((d) => ({ part: d.element.part, minus: d.minus, amps: d.element.levels[0]?.amps.high ?? 0 })),
    ...grid.feeds.map((f) => ({ part: f.element.part, minus: f.minus, amps: f.element.amps.high })),
    ...grid.converters.flatMap((c) => [
      ...(c.in === null
        ? []
        : [{ part: c.element.part, minus: c.in.minus, amps: c.element.inputAmps?.high ?? c.element.amps.high }]),
      { part: c.element.part, minus: c.out.minus, amps: c.element.amps.high },
    ]),
  ].filter((u) => isOn(u.minus));
  return {
    stores: grid.stores.filter((s) => isOn(s.minus)).length,
    parts: [...new Set(users.filter((u) => u.amps > LITTLE).map((u) => u.part))],
    amps: users.reduce((most, u) => Math.max(most, u.amps), 0),
  };
}
