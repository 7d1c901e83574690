import { cite } from "../../explain/index.ts";
import { foldName, isUnknown, known, type Plan } from "../../plan/index.ts";
import type { Build, CircuitView } from "../build.ts";
import type { Severity } from "../finding.ts";
import { namedSet } from "../named-set.ts";
import { needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { circuitsInCable, factOfCable, speaksForCable } from "./in-cable.ts";
import { circuitsByWay } from "./ways.ts";

const NEC = cite("nfpa-70-2023", "300.3(C)(1)", "article");
const NEC_SOLAR = cite("nfpa-70-2023", "690.31(B)", "article");

type Message = "cable" | "way" | "solar";

export const mixedAcAndDcCable = defineRule<Message>({
  id: "cable/mixed-ac-and-dc-cable",
  title: "Mixed AC and DC cable",
  severity: { otherwise: "should", sets: { "iso-small-craft": "must", "us-cabin": "must" } },
  danger: "a joint that chafes puts mains on the wires that everybody touches",
  why: `Direct and alternating current do not share a cable, unless an earthed screen lies around the cores. In a conduit or a trunking they lie together
    only where each is sheathed by itself, or where a wall in it keeps them apart. In buildings under the American code they may share both, if all
    insulation bears the highest volts among them, which is judged as insulation-voltage-too-low; solar circuits stay apart there too.`,
  silent: [
    "cables and conduits with one kind of current",
    "looms and open runs, which are no enclosure",
    "runs of which the plan names no way",
  ],
  sources: [
    { cite: cite("trade-practice", "mains and low voltage in cables of their own", "practice") },
    { cite: cite("iso-10133-2012", "7.8", "read"), sets: ["iso-small-craft"] },
    { cite: cite("abyc-e-11", "11.14.6", "article"), sets: ["us-small-craft"] },
    { cite: NEC, sets: ["us-cabin", "us-rv"] },
  ],
  messages: {
    cable: "{place} lies in one cable with {other}: direct and alternating current, and no earthed screen is stated",
    way: "{place} lies in {way} with {other}: direct and alternating current, and it has no sheath of its own",
    solar: "{place} lies in {way} with {other}, which is alternating current: solar circuits stay apart from it",
  },
  cures: ["own-cable", "sheathe"],
  examples: {
    good: [
      {
        says: "a cable each, both sheathed, in one conduit",
        plan: `ways:\n  riser: { kind: conduit }\n${inOneWay("sheathed: yes", "cable: 3G1.5 H07RN-F")}`,
      },
      {
        says: "an earthed screen",
        plan: `${alternating("in cable: C1")}\n  W10: { path: PNL:1 → lamp, length: 2 m, cable: 5G1.5 H07RN-F, in cable: C1, screened: yes }`,
      },
      {
        says: "a trunking with a wall in it",
        plan: `ways:\n  riser: { kind: raceway, divided: yes }\n${inOneWay("sheathed: no", "sheathed: no")}`,
      },
    ],
    bad: [
      {
        says: "mains and a lamp in one cable",
        plan: `${alternating("in cable: C1")}\n  W10: { path: PNL:1 → lamp, length: 2 m, cable: 5G1.5 H07RN-F, in cable: C1 }`,
        fails: "cable",
        about: "circuits.W10",
      },
      {
        says: "single wires of a lamp beside mains in a conduit",
        plan: `ways:\n  riser: { kind: conduit }\n${inOneWay("sheathed: no", "cable: 3G1.5 H07RN-F")}`,
        fails: "way",
        about: "circuits.W10",
      },
      {
        says: "nobody knows whether there is a screen",
        plan: `${alternating("in cable: C1")}\n  W10: { path: PNL:1 → lamp, length: 2 m, cable: 5G1.5 H07RN-F, in cable: C1, screened: unknown }`,
        fails: "cannot tell",
        about: "circuits.W10",
      },
    ],
  },
  judge(build, report) {
    const ways = circuitsByWay(build);
    const enclosures = new Map(enclosing(build.plan).map((name) => [name, ways.get(name) ?? []]));
    const waysOf = new Map<string, string[]>();
    for (const [way, views] of enclosures) {
      for (const { id } of views) {
        const there = waysOf.get(id);
        if (there === undefined) waysOf.set(id, [way]);
        else there.push(way);
      }
    }
    for (const c of build.circuits) {
      const own = waysOf.get(c.id) ?? [];
      const shares = c.circuit.cable !== undefined && c.circuit.cable.circuits.length > 1;
      if (!shares && own.length === 0)
        report.notApplicable(c.subject, "the plan names neither a cable nor a conduit that it shares");
      else {
        if (shares) judgeCable(build, c, report);
        for (const way of own) judgeWay(c, way, enclosures.get(way) ?? [], report);
      }
    }
  },
});

/** Names of the ways that enclose what lies in them, without a wall. */
const enclosing = ({ ways }: Plan): readonly string[] =>
  ways
    .filter(({ facts }) => {
      const kind = known(facts.kind);
      return (kind === "conduit" || kind === "raceway") && known(facts.divided) !== true;
    })
    .map(({ key }) => foldName(key));

const gravest = (views: readonly CircuitView[]): Severity =>
  views.some((v) => namedSet(v) === "iso-small-craft" || namedSet(v) === "us-cabin") ? "must" : "should";

const isAllowed = (views: readonly CircuitView[]): boolean => views.every((v) => namedSet(v) === "us-cabin");

/** Whether a circuit starts at solar modules. */
const isSolar = (build: Build, { circuit }: CircuitView): boolean =>
  build.part(circuit.from.part)?.part.traits.solar === true;

const isOther =
  (c: CircuitView) =>
  (o: CircuitView): boolean =>
    o.circuit.current !== c.circuit.current;

function judgeCable(build: Build, c: CircuitView, report: Report<Message>): void {
  const { subject } = c;
  const together = circuitsInCable(build, c);
  const other = together.find(isOther(c));
  if (!speaksForCable(c)) report.notApplicable(subject, "it is judged with the first circuit of its cable");
  else if (other === undefined) report.pass(subject);
  else {
    const severity = gravest(together);
    const screen = factOfCable(together, "screened");
    const solar = together.find((v) => isSolar(build, v));
    if (solar !== undefined && isAllowed(together))
      report.fail(subject, "solar", {
        source: NEC_SOLAR,
        severity,
        words: { way: "one cable", other: (solar === c ? other : c).id },
      });
    else if (known(screen) === true || isAllowed(together)) report.pass(subject);
    else if (isUnknown(screen))
      report.cannotTell(subject, [needed("whether an earthed screen lies around its cores", subject)], { severity });
    else report.fail(subject, "cable", { severity, words: { other: other.id } });
  }
}

function judgeWay(c: CircuitView, way: string, views: readonly CircuitView[], report: Report<Message>): void {
  const { subject, circuit } = c;
  const other = views.find(isOther(c));
  const both = other === undefined ? [c] : [c, other];
  if (other === undefined || isAllowed(both)) report.pass(subject);
  else if (circuit.sheathed === true || circuit.cable !== undefined) report.pass(subject);
  else if (circuit.sheathed === "unknown")
    report.cannotTell(subject, [needed("whether it has a sheath", subject)], { severity: gravest(both) });
  else report.fail(subject, "way", { severity: gravest(both), words: { way: `\`${way}\``, other: other.id } });
}

/** Parts of the examples: a kettle on mains, and a lamp. */
function alternating(more: string): string {
  return `systems:\n  AC: { kind: AC, nominal: 230 V, cores: [L, N, PE] }\nparts:\n  INL: { kind: shore inlet, rated: 16 A }\n  kettle: { kind: load, rated: 900 W }\ncircuits:\n  W50: { path: INL → kettle, length: 2 m, ${more} }`;
}
function inOneWay(direct: string, mains: string): string {
  return `${alternating(`ways: riser, ${mains}`)}\n  W10: { path: PNL:1 → lamp, length: 2 m, ways: riser, ${direct} }`;
}
