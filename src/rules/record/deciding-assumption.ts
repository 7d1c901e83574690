import { defineRule } from "../rule.ts";

export const decidingAssumption = defineRule({
  id: "record/deciding-assumption",
  title: "Deciding assumption",
  severity: "should",
  danger: "a guess chose the wire or the fuse, or called something safe that is not",
  why: `Where a plan leaves a fact out, a listed default stands in. Each default is moved to the ends of the range that it stands for, or to its
    other choice, and everything is computed again: where a chosen wire, a proposed device or the outcome of a must comes out otherwise, the default
    decides and should be pinned to what is true. Since that takes many computations it is looked for when asked, not with every judgement.`,
  silent: [
    "defaults that nothing hangs on: every size, device and must stays as it is over their whole range",
    "defaults without a range, such as the metres between chained loads: they are named as not varied",
    "facts that are said to be unknown, which record/unknown-fact lists",
  ],
  sources: [],
  messages: {
    decides: "“{assumption}” is assumed, and decides: {flips}; pin it with `{pin}`",
  },
  cures: [],
  examples: {
    good: [
      {
        says: "the charge at its lowest is said",
        plan: "parts:\n  B1: { kind: battery, chemistry: LFP, capacity: 100 Ah, short-circuit: 1.5 kA, lowest charge: 20 % }",
      },
    ],
    bad: [
      {
        says: "a pump that starts close to what is left",
        plan: "parts:\n  pump: { kind: load, motor: DC, running: 6 A, starting: 30 A }\ncircuits:\n  W10: { path: BP → pump, length: 9 m, breaker: 40 A at BP }",
        fails: "decides",
        about: "assumptions.motor-start-volts-12",
      },
    ],
  },
  // Every judgement is of one computation; this needs many. See `src/cure/deciding-assumptions.ts`.
  judge: () => undefined,
});
