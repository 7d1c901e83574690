import { cite } from "../../explain/index.ts";
import { shoreInterrupt } from "../../protect/earth-fault/shore-interrupt.ts";
import { breaks } from "../../size/study-earth-faults-devices.ts";
import type { Build, PartView, Subject } from "../build.ts";
import { above, needed } from "../report.ts";
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
        says: "nobody states what the supply drives",
        plan: ashore("", "6 kA"),
        fails: "cannot tell",
        about: "parts.INL",
      },
    ],
  },
  judge(build, report) {
    const inlets = inletsOf(build);
    const [inlet] = inlets;
    if (inlet === undefined) return;
    const study = earthFaultsOf(build);
    const parts = new Map(build.system.parts.map((p) => [p.id, p]));
    const open = openEnd(build, inlets) ?? inlet.view.subject;
    study.breaking.forEach(({ device, outcome, prospective, breaks: able }) => {
      const found = study.devices[device];
      if (found === undefined) return;
      const subject = subjectOf(build, found.circuit, found.at);
      if (subject === undefined) return;
      const said = { measured: able ?? 0, limit: prospective ?? 0, unit: "A", margin: above(able ?? 0, prospective ?? 0) } as const; // prettier-ignore
      if (outcome === "bears it") report.pass(subject, said);
      else if (outcome === "too weak") report.fail(subject, "weak", { ...said, words: { at: found.at } });
      else if (able === null) report.cannotTell(subject, [needed("what its device breaks", subject)]);
      else if (subject.set === "us-small-craft") {
        const volts = inlet.source.volts;
        const isSplit = inlet.source.terminals.L2 !== undefined;
        const place = found.at.endsWith(":main") ? "main" : "branch";
        const least = shoreInterrupt(isSplit ? "120/240" : volts > 150 ? "240" : "120", inlet.amps ?? 30, place);
        const own = breaks(found, volts, parts) ?? able;
        if (least === null) report.cannotTell(open, [needed("the prospective current of its supply", open)]);
        else {
          const asked = { measured: own, limit: least.amps, unit: "A", margin: above(own, least.amps), trust: least.trust } as const; // prettier-ignore
          if (own < least.amps) report.fail(subject, "weak", { ...asked, words: { at: found.at } });
          else report.pass(subject, asked);
        }
      } else report.cannotTell(open, [needed("the prospective current of its supply", open)]);
    });
  },
});

/** What drives nobody knows how much into a short: the first inlet that does not say it; where all do, what stands between. */
function openEnd(build: Build, inlets: readonly Inlet[]): Subject | undefined {
  const isTold = ({ source: { loopOhms, prospectiveAmps } }: Inlet): boolean =>
    [loopOhms, prospectiveAmps].some((fact) => fact !== undefined && fact !== "unknown");
  const isBetween = (view: PartView): boolean =>
    view.elements.some((e) => e.is === "source" && e.from === "transformer");
  return (inlets.find((one) => !isTold(one))?.view ?? build.parts.find(isBetween))?.subject;
}

/** The circuit that it stands in; of a main its board. */
const subjectOf = (build: Build, circuit: string | null, at: string): Subject | undefined =>
  circuit === null ? build.part(at.replace(/:[^:]*$/, ""))?.subject : build.circuit(circuit)?.subject;
