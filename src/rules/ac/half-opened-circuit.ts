import { cite } from "../../explain/index.ts";
import type { Contact } from "../../system/index.ts";
import type { Build, CircuitView } from "../build.ts";
import type { Report } from "../report.ts";
import type { RuleSetId } from "../rule-set-id.ts";
import { defineRule } from "../rule.ts";
import { oneSource } from "./example-plans.ts";

/** Sets in which a device opens neutral with the lines, since plugs and supplies may exchange them. */
const ALL_LIVE: ReadonlySet<RuleSetId> = new Set<RuleSetId>(["iec-caravan", "au-nz-vehicle"]);

const split = (poles: string): string =>
  oneSource({
    set: "us-cabin NEC 2023",
    system: "kind: AC, nominal: 240 V, phases: split, cores: [L1, L2, N, PE]",
    parts: {
      GEN: "kind: generator, rated: 6 kVA, neutral: joined to earth",
      CU: `kind: load centre, ways: { 1: breaker 20 A ${poles} }`,
      sockets: null,
      pump: "kind: load, running: 8 A",
    },
    circuits: {
      W20: "path: GEN → CU:in, length: 1 m",
      W21: "path: CU:1 → pump, length: 4 m, cores: [L1, L2, PE]",
      W23: null,
    },
  });

const caravan = (poles: string): string =>
  oneSource({
    set: "iec-caravan",
    parts: {
      GEN: "kind: generator, rated: 2 kVA, neutral: joined to earth",
      CU: `kind: panel, ways: { 1: breaker 10 A 30 mA ${poles} }`,
      sockets: null,
      heater: "kind: load, running: 4 A",
    },
    circuits: { W20: "path: GEN → CU:in, length: 1 m", W21: "path: CU:1 → heater, length: 4 m", W23: null },
  });

const bySwitch = oneSource({
  parts: {
    GEN: "kind: generator, rated: 2 kVA, neutral: joined to earth",
    CU: "kind: panel, ways: { 1: breaker 10 A }",
    sockets: null,
    SL: "kind: switch, rated: 16 A",
    porch: "kind: light, running: 1 A",
  },
  circuits: {
    W20: "path: GEN → CU:in, length: 1 m",
    W21: "path: CU:1 → SL → porch, length: 4 m",
    W23: null,
  },
});

export const halfOpenedCircuit = defineRule({
  id: "ac/half-opened-circuit",
  title: "Half-opened circuit",
  severity: "must",
  danger: "what is switched off stays live, and the line that is not opened has no guard",
  why: `A breaker of a circuit between two lines opens both of them together: each line is guarded, and nothing behind it stays live. In caravans and vehicles it opens neutral with them, for plugs and
    supplies exchange line and neutral.`,
  silent: [
    "circuits without a breaker of their own",
    "neutral outside caravans and vehicles, where it stays whole: ac/missing-polarity-guard asks whether line and neutral can be exchanged",
  ],
  sources: [
    { cite: cite("nfpa-70-2023", "210.4(B), 240.15(B)", "memory"), sets: ["us-cabin", "us-rv"] },
    { cite: cite("iec-60364-7-721", "721", "article"), sets: ["iec-caravan"] },
    { cite: cite("as-nzs-3001-2-2022", "switching in all poles", "article"), sets: ["au-nz-vehicle"] },
    { cite: cite("trade-practice", "every line of a circuit opened together", "practice") },
  ],
  messages: {
    lines: "{place}: its breaker opens {opened} of its {lines} lines; the rest stays live behind it and has no guard",
    neutral:
      "{place}: its breaker leaves neutral whole, and on a supply with line and neutral exchanged neutral is live",
  },
  cures: ["both-poles"],
  examples: {
    good: [
      { says: "both lines", plan: split("2-pole") },
      { says: "line and neutral in a caravan", plan: caravan("2-pole") },
      { says: "one line by way of a switch", plan: bySwitch },
    ],
    bad: [
      { says: "one of two lines", plan: split("1-pole"), fails: "lines", about: "circuits.W21" },
      { says: "neutral whole in a caravan", plan: caravan("1-pole"), fails: "neutral", about: "circuits.W21" },
    ],
  },
  judge(build, report) {
    const breakers = contactsAt(build);
    for (const view of build.circuits) if (view.circuit.current === "AC") judgeOne(view, breakers, report);
  },
});

/** Contacts that a hand opens in a way or in a line, by the terminals between which they stand. */
function contactsAt({ system }: Build): ReadonlyMap<string, Contact> {
  const found = new Map<string, Contact>();
  for (const e of system.elements) {
    if (e.is !== "contact" || e.closedIn?.includes("on") !== true) continue;
    if (e.way !== undefined || e.mover?.includes(":breaker") === true) found.set(e.b, e);
  }
  return found;
}

function judgeOne(
  { circuit, subject, supply }: CircuitView,
  breakers: ReadonlyMap<string, Contact>,
  report: Report<"lines" | "neutral">,
): void {
  const opens = (terminal: string): boolean => breakers.has(terminal);
  const isOpened = ({ from, to }: (typeof circuit.conductors)[number]): boolean => opens(from) || opens(to);
  // A path by way of a switch has a conductor for each leg: a line is opened where one of its legs is.
  const names = [...new Set(circuit.conductors.map((c) => c.fn))];
  const isWhole = (fn: string): boolean => !circuit.conductors.some((c) => c.fn === fn && isOpened(c));
  const lines = names.filter((fn) => fn.startsWith("L"));
  const opened = lines.filter((fn) => !isWhole(fn)).length;
  if (opened === 0)
    report.notApplicable(subject, supply === undefined ? "it belongs to no system" : "it has no breaker of its own");
  else if (opened < lines.length)
    report.fail(subject, "lines", { words: { opened: String(opened), lines: String(lines.length) } });
  else if (subject.set !== null && ALL_LIVE.has(subject.set) && names.includes("N") && isWhole("N"))
    report.fail(subject, "neutral");
  else report.pass(subject);
}
