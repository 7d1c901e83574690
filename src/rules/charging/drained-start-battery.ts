import { cite } from "../../explain/index.ts";
import type { Build, PartView } from "../build.ts";
import { above, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, saysFigure, saysYes } from "../stated.ts";
import { piecesIn } from "./alternators.ts";
import { joinedPieces, piecesOf } from "../battery/pieces.ts";
import { switchesOf } from "../battery/switches.ts";

/** At rest above this a lead battery is full: a converter that stops there drains nothing, V for every 12 V. */
const FULL = 12.7;

const start = `  B3: { kind: battery, chemistry: AGM, capacity: 75 Ah, cranking: 700 A }\n`;
const converter = (facts: string): string => `parts:
${start}  DCDC: { kind: DC-DC charger, output: 20 A, input: 25 A, ${facts} }
circuits:
  W21: { path: B3 → DCDC:in, length: 1 m }
  W22: { path: DCDC:out → BP, length: 1 m }
  W23: { path: B3:− → BN, length: 1 m }`;
const relay = (position: string): string => `parts:
${start}  B1: { kind: battery, chemistry: AGM, capacity: 200 Ah }
  REL: { kind: relay, rated: 100 A }
circuits:
  W21: { path: B3 → REL → BP, legs: [1 m, 1 m] }
  W23: { path: B3:− → BN, length: 1 m }
states:
  at anchor: { engine: off, on: [lamp], REL: ${position} }`;

export const drainedStartBattery = defineRule({
  id: "charging/drained-start-battery",
  title: "Drained start battery",
  severity: "should",
  danger: "the engine does not start",
  why: `What charges a house bank from the start battery stops when the engine does: by a line from the ignition, or below 12.7 V for every 12 V at its
    input. A relay between the two is open in every state with the engine off.`,
  silent: ["converters of which the plan says neither how they start nor when they stop"],
  sources: [{ cite: cite("trade-practice", "the start battery is kept for the starter", "practice") }],
  messages: {
    runs: "{place} goes on with the engine off: it has no ignition line, and no volts below which it stops",
    late: "{place} goes on with the engine off until {measured} at its input; {limit} is the least that keeps the start battery full",
    joined: "{place} joins the start battery {battery} to the others with the engine off ({state})",
  },
  cures: ["ignition-line"],
  examples: {
    good: [
      { says: "by a line from the ignition", plan: converter("ignition line: yes") },
      { says: "it stops early enough", plan: converter("ignition line: no, stops below: 12.8 V") },
      { says: "a relay that is open at anchor", plan: relay("off") },
    ],
    bad: [
      { says: "it never stops", plan: converter("ignition line: no"), fails: "runs", about: "parts.DCDC" },
      {
        says: "it stops too late",
        plan: converter("ignition line: no, stops below: 11.5 V"),
        fails: "late",
        about: "parts.DCDC",
      },
      { says: "a relay that stays closed", plan: relay("on"), fails: "joined", about: "parts.REL" },
      {
        says: "nobody knows of an ignition line",
        plan: converter("ignition line: unknown"),
        fails: "cannot tell",
        about: "parts.DCDC",
      },
    ],
  },
  judge(build, report) {
    const { grid } = build.settled.model;
    const pieces = joinedPieces(build.settled);
    const starts = grid.stores.filter((s) => s.element.unit.crankingAmps !== undefined);
    const others = grid.stores.filter((s) => s.element.unit.crankingAmps === undefined);
    for (const { element, in: input } of grid.converters) {
      const view = build.part(element.part);
      if (view === undefined || input === null || element.runsWith !== "engine") continue;
      const own = starts.find((s) => pieces[s.plus] === pieces[input.plus]);
      if (own === undefined) report.notApplicable(view.subject, "it takes nothing from a start battery");
      else judgeConverter(report, view, (FULL * own.element.nominalVolts) / 12);
    }
    if (starts.length === 0 || others.length === 0) return;
    for (const { view, contacts } of switchesOf(build)) {
      if (view.part.traits.coil !== true) continue;
      const parted = piecesOf(build.settled, (e) => !contacts.includes(e));
      const start = starts.find((s) =>
        others.some((o) => pieces[o.plus] === pieces[s.plus] && parted[o.plus] !== parted[s.plus]),
      );
      if (start === undefined) continue;
      const state = closedWhileOff(
        build,
        contacts,
        start.plus,
        others.map((o) => o.plus),
      );
      if (state === undefined) report.pass(view.subject);
      else report.fail(view.subject, "joined", { state, words: { battery: start.element.part } });
    }
  },
});

type Tell = Parameters<typeof drainedStartBattery.judge>[1];

function judgeConverter(report: Tell, view: PartView, limit: number): void {
  const { subject } = view;
  const facts = factsOf(view);
  const ignition = saysYes(facts, "ignition line");
  const stops = saysFigure(facts, "stops below");
  const said = (volts: number) => ({ measured: volts, limit, unit: "V", margin: above(volts, limit) }) as const;
  if (ignition === true) report.pass(subject);
  else if (typeof stops === "object" && stops.low >= limit) report.pass(subject, said(stops.low));
  else if (ignition === "unknown" || stops === "unknown")
    report.cannotTell(subject, [needed("how it stops with the engine off", subject)]);
  else if (ignition === undefined) report.notApplicable(subject, "how it starts and stops is not stated");
  else if (stops === undefined) report.fail(subject, "runs");
  else report.fail(subject, "late", said(stops.low));
}

/** A state with the engine off in which contacts join a battery to others. */
function closedWhileOff(
  build: Build,
  contacts: readonly number[],
  start: number,
  others: readonly number[],
): string | undefined {
  const off = new Set(build.system.states.filter((s) => !s.engine && !s.shore && !s.sun).map((s) => s.id));
  return build.settled.weigher.cases.find((one) => {
    if (one.kind !== "given" || !off.has(one.name) || contacts.every((e) => one.edgeOn[e] === 0)) return false;
    const pieces = piecesIn(build, one);
    return others.some((o) => pieces[o] === pieces[start]);
  })?.name;
}
