import { cite } from "../../explain/index.ts";
import type { GivenDevice } from "../../system/index.ts";
import type { Build, CircuitView, Subject } from "../build.ts";
import { needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, saysCount } from "../stated.ts";
import { guardsOf } from "./guards.ts";

const back = (device: string, system = "earthed at: BN"): string =>
  `systems:\n  DC: { kind: DC, nominal: 12 V, return: BN, ${system} }\nparts:\n  CB1: { kind: breaker, rated: 250 A, reset: manual, poles: 2 }\ncircuits:\n  W03: { path: B1:− → BN, length: 0.6 m, ${device} }`;

export const fusedEarthedConductor = defineRule({
  id: "protection/fused-earthed-conductor",
  title: "Fused earthed conductor",
  severity: "must",
  danger: "with the fuse out everything stays live to earth, and looks dead",
  why: `A fuse or a breaker of one pole belongs in the live conductor. In the pole that is joined to earth, hull or chassis it stops the load and
    leaves its live side joined to the battery, and current finds another way home. It may stand there only as a pole that opens together with that
    of the live conductor.`,
  silent: [
    "alternating current, which is not studied yet",
    "returns without a device, which is how they should be",
    "supplies of which no pole is joined to earth",
    "switches",
  ],
  sources: [
    { cite: cite("46-cfr-183", "183.380(b)", "read"), sets: ["us-small-craft"] },
    { cite: cite("iso-13297-2020", "13.1.2", "read"), sets: ["iso-small-craft"] },
    { cite: cite("nfpa-70-2023", "240.22", "memory"), sets: ["us-cabin", "us-rv"] },
    { cite: cite("trade-practice", "devices in the live pole", "practice") },
  ],
  messages: {
    line: "{place} is a return that is joined to earth, and has a {device}",
    part: "{place} stands in a return that is joined to earth",
  },
  cures: ["out-of-the-return"],
  examples: {
    good: [
      { says: "a return without any", plan: back("fuse: none") },
      { says: "two poles that open together", plan: back("breaker: CB1") },
      { says: "no pole is joined to earth", plan: back("fuse: 250 A class T at B1", "earthed at: none") },
    ],
    bad: [
      {
        says: "a fuse in the lead of the negative",
        plan: back("fuse: 250 A class T at B1"),
        fails: "line",
        about: "circuits.W03",
      },
      {
        says: "a fuse that is a part of its own",
        plan: "systems:\n  DC: { kind: DC, nominal: 12 V, return: BN, earthed at: BN }\nparts:\n  F1: { kind: fuse, family: class T, rated: 250 A }\ncircuits:\n  W03: { path: B1:− → F1 → BN, legs: [0.2 m, 0.4 m] }",
        fails: "part",
        about: "parts.F1",
      },
      {
        says: "nobody knows whether it is joined to earth",
        plan: back("fuse: 250 A class T at B1", "earthed at: unknown"),
        fails: "cannot tell",
        about: "circuits.W03",
      },
    ],
  },
  judge(build, report) {
    const guards = guardsOf(build);
    for (const view of build.circuits) {
      if (view.model === null) report.notApplicable(view.subject, "alternating current is not studied yet");
      else if (guards.of(view) !== null) {
        report.notApplicable(view.subject, "its devices stand in its live conductor");
      } else judgeReturn(build, view, report);
    }
    judgeParts(build, report);
  },
});

function judgeReturn(build: Build, view: CircuitView, report: Report<"line" | "part">): void {
  const { subject, circuit, supply } = view;
  const devices = typeof circuit.devices === "string" ? [] : circuit.devices;
  const alone = devices.find((d) => polesOf(build, d) < 2);
  if (alone !== undefined) tell(subject, supply?.earthed, report, "line", alone.kind);
  else if (circuit.devices === "unknown") report.cannotTell(subject, [needed("its fuse", subject)]);
  else report.pass(subject);
}

/** How many poles it opens together; one, where nobody says it. */
function polesOf(build: Build, { kind, poles, part }: GivenDevice): number {
  if (kind === "fuse") return 1;
  const view = part === undefined ? undefined : build.part(part);
  const own = view === undefined ? undefined : saysCount(factsOf(view), "poles");
  return poles ?? (typeof own === "number" ? own : 1);
}

/** Devices that are parts on the way of a return. */
function judgeParts(build: Build, report: Report<"line" | "part">): void {
  const { grid } = guardsOf(build);
  const told = new Set<string>();
  grid.edges.forEach(({ contact, a, b }) => {
    const view = contact === null ? undefined : build.part(contact.part);
    const device = view?.part.device;
    if (view === undefined || device === undefined || told.has(view.id)) return;
    const beside = [...(grid.at[a] ?? []), ...(grid.at[b] ?? [])].map((e) => grid.edges[e]);
    const conductors = beside.filter((e) => e !== undefined && e.contact === null);
    if (conductors.length === 0 || conductors.some((e) => e?.live === true)) return;
    told.add(view.id);
    const poles = saysCount(factsOf(view), "poles");
    if (device.kind === "breaker" && typeof poles === "number" && poles > 1) report.pass(view.subject);
    else tell(view.subject, view.supply?.earthed, report, "part", device.kind);
  });
}

function tell(
  subject: Subject,
  earthed: boolean | "unknown" | undefined,
  report: Report<"line" | "part">,
  message: "line" | "part",
  device: string,
): void {
  if (earthed === true) report.fail(subject, message, { words: { device } });
  else if (earthed === false) report.notApplicable(subject, "no pole of its supply is joined to earth");
  else report.cannotTell(subject, [needed("whether its return is joined to earth", subject)]);
}
