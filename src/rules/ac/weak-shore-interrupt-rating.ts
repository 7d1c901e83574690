import { cite } from "../../explain/index.ts";
import { shoreInterrupt } from "../../protect/earth-fault/shore-interrupt.ts";
import { breaks, type AlternatingDevice } from "../../size/study-earth-faults-devices.ts";
import type { EarthFaultStudy } from "../../size/study-earth-faults-shapes.ts";
import type { SystemPart } from "../../system/index.ts";
import type { Build, Subject } from "../build.ts";
import { above, needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { earthFaultsOf } from "./as-designed.ts";
import { inletsOf, type Inlet } from "./inlets.ts";

const ashore = (inlet: string, interrupt: string, set = "iso-small-craft 2020+A1:2022"): string =>
  `rules: { DC: iso-small-craft 2020+A1:2022, AC: ${set} }\nsystems:\n  AC: { kind: AC, nominal: ${set.startsWith("us") ? "120 V" : "230 V"}, cores: [L, N, PE] }\nparts:\n  INL: { kind: shore inlet, rated: 30 A, breaker: 30 A 2-pole${inlet} }\n  CU: { kind: panel, main: { residual device: 30 mA, poles: 2 }, ways: { 1: breaker 10 A 2-pole }, interrupt: ${interrupt} }\n  kettle: { kind: load, rated: 1 kW }\ncircuits:\n  W20: { path: INL → CU:in, length: 0.2 m, wire: 10 mm² }\n  W21: { path: CU:1 → kettle, length: 3 m }`;

export const weakShoreInterruptRating = defineRule({
  id: "ac/weak-shore-interrupt-rating",
  title: "Weak interrupt rating on shore power",
  severity: "must",
  danger: "a short on a stiff supply bursts the breaker that should break it",
  why: `Each breaker and fuse of the alternating side breaks the greatest current that a short from line to neutral drives where it stands: from the prospective current of the supply and the cold conductors
    up to there; its loop impedance leads through earth and bounds nothing here. On American boats, where the plan states no prospective current, the least ratings of the standard hold: 3 kA for the main of a 120 V supply. An inverter or a generator never drives more than a breaker bears.`,
  silent: ["devices that no supply from outside reaches", "plans without a shore inlet"],
  sources: [
    { cite: cite("abyc-e-11", "Table IV-B, an older numbering", "read"), sets: ["us-small-craft"] },
    { cite: cite("nfpa-70-2023", "110.9", "read"), sets: ["us-cabin", "us-rv"] },
    { cite: cite("trade-practice", "a device breaks the prospective current where it stands", "practice") },
  ],
  messages: {
    weak: "{place}: its device at {at} breaks {measured}, and {limit} may flow there",
  },
  cures: [],
  examples: {
    good: [
      { says: "3 kA at the inlet and 6 kA", plan: ashore(", prospective current: 1…3 kA", "6 kA") },
      {
        says: "3 kA on an American boat, of which nothing is stated",
        plan: ashore("", "3 kA", "us-small-craft ABYC E-11"),
      },
    ],
    bad: [
      {
        says: "6 kA at the inlet and 3 kA",
        plan: ashore(", prospective current: 1…6 kA", "3 kA"),
        fails: "weak",
        about: "circuits.W21",
      },
      {
        says: "2 kA on an American boat",
        plan: ashore("", "2 kA", "us-small-craft ABYC E-11"),
        fails: "weak",
        about: "circuits.W21",
      },
      {
        says: "a main of 3 kA on its own mark",
        plan: ashore(", prospective current: 1…6 kA", "10 kA").replace("poles: 2 }", "poles: 2, interrupt: 3 kA }"),
        fails: "weak",
        about: "parts.CU",
      },
      {
        says: "an American inlet of which nobody states the rating",
        plan: ashore("", "3 kA", "us-small-craft ABYC E-11").replace("rated: 30 A,", "rated: unknown,"),
        fails: "cannot tell",
        about: "parts.INL",
      },
      {
        says: "nobody states the rating of the inverter that feeds it too",
        plan: ashore(", prospective current: 1…3 kA", "6 kA")
          .replace(
            "  CU:",
            "  INV: { kind: inverter, neutral–earth join: never }\n  TS: { kind: transfer switch }\n  CU:",
          )
          .replace(
            "INL → CU:in, length: 0.2 m, wire: 10 mm² }",
            "INL → TS:1, length: 0.2 m, wire: 10 mm² }\n  W30: { path: BP → INV:in, length: 1 m }\n  W31: { path: INV:out → TS:2, length: 0.2 m, wire: 10 mm² }\n  W32: { path: TS:out → CU:in, length: 0.2 m, wire: 10 mm² }",
          ),
        fails: "cannot tell",
        about: "parts.INV",
      },
      {
        says: "nobody states what the supply drives",
        plan: ashore("", "6 kA"),
        fails: "cannot tell",
        about: "parts.INL",
      },
    ],
  },
  judge(build, report) {
    const inlets = inletsOf(build);
    if (inlets.length === 0) return;
    const study = earthFaultsOf(build);
    const parts = new Map(build.system.parts.map((p) => [p.id, p]));
    study.breaking.forEach(({ device, outcome, prospective, breaks: able, reachedBy }) => {
      const found = study.devices[device];
      if (found === undefined) return;
      const subject = subjectOf(build, found.circuit, found.at);
      if (subject === undefined) return;
      const said = { measured: able ?? 0, limit: prospective ?? 0, unit: "A", margin: above(able ?? 0, prospective ?? 0) } as const; // prettier-ignore
      if (outcome === "bears it") report.pass(subject, said);
      else if (outcome === "too weak") report.fail(subject, "weak", { ...said, words: { at: found.at } });
      else if (able === null) report.cannotTell(subject, [needed("what its device breaks", subject)]);
      else {
        const reaching = inlets.filter(({ view }) => reachedBy.some((i) => study.sources[i]?.part === view.id));
        if (subject.set === "us-small-craft") judgeByTable(subject, found, reaching, able, parts, report);
        else
          for (const { view } of reaching.filter((inlet) => !isDeclared(study, inlet))) tellOpen(view.subject, report);
        for (const i of reachedBy) {
          const source = study.sources[i];
          const unrated = source?.limit?.high === null ? build.part(source.part)?.subject : undefined;
          if (unrated !== undefined) report.cannotTell(unrated, [needed("its rating", unrated)]);
        }
        for (const i of reaching.length > 0 ? [] : reachedBy) {
          const behind = build.part(study.sources[i]?.part ?? "");
          if (behind?.elements.some((e) => e.is === "source" && e.from === "transformer") === true)
            tellOpen(behind.subject, report);
        }
      }
    });
  },
});

const isDeclared = ({ sources }: EarthFaultStudy, { view }: Inlet): boolean =>
  sources.some((s) => s.part === view.id && s.isDeclared);

const tellOpen = (about: Subject, report: Report<"weak">): void => {
  report.cannotTell(about, [needed("the prospective current of its supply", about)]);
};

/** By the least ratings of the standard, for the inlet that asks most; one of which nobody says the rating may ask more. */
function judgeByTable(
  subject: Subject,
  device: AlternatingDevice,
  inlets: readonly Inlet[],
  able: number,
  parts: ReadonlyMap<string, SystemPart>,
  report: Report<"weak">,
): void {
  const place = device.at.endsWith(":main") ? "main" : "branch";
  let own = able;
  let most: ReturnType<typeof shoreInterrupt> = null;
  const open: Inlet[] = [];
  for (const inlet of inlets) {
    const { volts, terminals } = inlet.source;
    const service = terminals.L2 !== undefined ? "120/240" : volts > 150 ? "240" : "120";
    const least = inlet.amps === null ? null : shoreInterrupt(service, inlet.amps, place);
    own = Math.min(own, breaks(device, volts, parts) ?? able);
    if (least === null) open.push(inlet);
    else if (most === null || least.amps > most.amps) most = least;
  }
  if (most !== null && own < most.amps) {
    const asked = { measured: own, limit: most.amps, unit: "A", margin: above(own, most.amps), trust: most.trust } as const; // prettier-ignore
    report.fail(subject, "weak", { ...asked, words: { at: device.at } });
  } else if (open.length > 0) for (const { view } of open) tellOpen(view.subject, report);
  else if (most !== null)
    report.pass(subject, {
      measured: own,
      limit: most.amps,
      unit: "A",
      margin: above(own, most.amps),
    });
}

/** The circuit that it stands in; of a main its board. */
const subjectOf = (build: Build, circuit: string | null, at: string): Subject | undefined =>
  circuit === null ? build.part(at.replace(/:[^:]*$/, ""))?.subject : build.circuit(circuit)?.subject;
