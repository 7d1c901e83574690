import { cite } from "../../explain/index.ts";
import type { CircuitFaults, EndFault, EndFaults, LeastFault } from "../../size/index.ts";
import type { Build, CircuitView, Subject } from "../build.ts";
import type { Needed } from "../finding.ts";
import { needed, type Report, type Said } from "../report.ts";
import { defineRule } from "../rule.ts";
import { wireNeeded } from "../wire-needed.ts";
import { bondOfFault, type BondOfFault } from "./bond-of-fault.ts";
import { judgeFaulted } from "./faulted-circuits.ts";
import { FIVE_SECONDS, opensIn } from "./opens-in-time.ts";
import { KIND_ASKED_THERE, possibleDevice } from "./possible-devices.ts";

const far = (metres: number, fuse: string): string =>
  `parts:\n  beacon: { kind: light, running: 0.1 A }\ncircuits:\n  W20: { path: BP → beacon, length: ${metres} m, wire: 2.5 mm², fuse: ${fuse} at BP }`;

export const faultTooSmallToClear = defineRule({
  id: "protection/fault-too-small-to-clear",
  title: "Fault too small to clear",
  severity: "must",
  danger: "a short at the far end just warms the cable until something else gives way",
  why: `At the far end of a long thin conductor, hot, with one battery alone, empty, cold and aged, and every joint on the way, a short still has to draw
    so much that a device opens: within 5 s, or within the time in which the conductor would reach the end of what its insulation bears. A device
    counts with the greatest time that its standard allows at that current. Where only shorts to hull, chassis or frame draw too little, the bond by which they come back is told of.`,
  silent: [
    "alternating-current circuits, which are not studied yet",
    "conductors that carry for good all that their sources together can give: IEC 60364-4-43 436 (memory)",
    "faults that only a source with a limit goes on feeding, which is what limits them",
    "currents above all that is published of when the devices on the way open: that is not known, and no fault",
    "conductors that no device guards: protection/unprotected-conductor",
    "the main cable of a starter, returns of the earthed pole, links between units of one string",
  ],
  sources: [
    { cite: cite("iec-60364-4-43", "434.5", "read"), sets: ["iec-cabin", "iec-caravan", "au-nz-vehicle"] },
    { cite: cite("trade-practice", "a short at the far end opens its device", "practice") },
  ],
  messages: {
    small:
      "{place}: a short at {end} draws as little as {measured} from {source}, and no device on its way has to open it in {limit}",
    bond: "{place}: a short of {wire} to {metal} comes back by it and draws as little as {measured} from {source}; no device on its way has to open it in {limit}",
  },
  cures: ["smaller-device", "next-size", "device-made-for-it"],
  examples: {
    good: [
      { says: "a short way", plan: far(10, "10 A blade") },
      { says: "a small fuse on a long way", plan: far(60, "2 A blade") },
    ],
    bad: [
      { says: "less than the rating of the fuse", plan: far(60, "15 A blade"), fails: "small", about: "circuits.W20" },
      {
        says: "a thin bond that is all that a short to the hull comes back by",
        plan: "parts:\n  HULL: { kind: structure, is: bonding, prepared: yes }\ncircuits:\n  W20: { path: BN → HULL, length: 40 m, wire: 1 mm² }",
        fails: "bond",
        about: "circuits.W20",
      },
      {
        says: "a wire that nobody has seen",
        plan: "parts:\n  beacon: { kind: light, running: 0.1 A }\ncircuits:\n  W20: { path: BP → beacon, length: 20 m, wire: unknown, fuse: 10 A blade at BP, as found: yes }",
        fails: "cannot tell",
        about: "circuits.W20",
      },
    ],
  },
  judge(build, report) {
    const byBonds: ByBond[] = [];
    judgeFaulted(build, report, (view, faults, study) => {
      byBonds.push(...judgeCircuit(build, study, view, faults, report));
    });
    const worst = new Map<string, ByBond>();
    for (const one of byBonds) {
      const { id } = one.bond.view;
      if (one.fault.amps.low < (worst.get(id)?.fault.amps.low ?? Infinity)) worst.set(id, one);
    }
    for (const { bond, wire, fault, seconds } of worst.values())
      report.fail(bond.view.subject, "bond", {
        ...drawn(build, fault),
        words: { ...wordsOf(fault, seconds), wire, metal: bond.metal },
      });
  },
});

/** A short to metal that is bonded, of which too little comes back. */
interface ByBond {
  readonly bond: BondOfFault;
  readonly wire: string;
  readonly fault: LeastFault;
  readonly seconds: number;
}

/** What a short that is too small draws, and the words for it. */
const drawn = (build: Build, fault: LeastFault): Said => ({
  measured: fault.amps.low,
  unit: "A",
  state: fault.state === "" ? null : fault.state,
  trust: build.settled.model.grid.stores.length > 0 ? "memory" : null,
});
const wordsOf = ({ sources }: LeastFault, seconds: number) => ({
  source: sources.join(" and "),
  limit: { value: seconds, unit: "s" as const },
});

type Verdict = "in time" | "limited" | "not seen" | "unknown" | "kind" | "small";
const worstFirst: readonly Verdict[] = ["small", "kind", "unknown", "not seen", "limited", "in time"];

function judgeCircuit(
  build: Build,
  study: EndFaults,
  view: CircuitView,
  faults: CircuitFaults,
  report: Report<"small" | "bond">,
): ByBond[] {
  const { subject, circuit } = view;
  const unclear = faults.ends.find((e) => e.cannotTell !== null);
  if (unclear !== undefined) {
    const way = needed("the wire on the way to it", subject);
    const length = circuit.length.origin === "unknown" ? needed("its length", subject) : way;
    report.cannotTell(subject, [view.design.size === null ? wireNeeded(view) : length]);
    return [];
  }
  const ampacity = view.design.ampacityA ?? 0;
  const most = Math.max(0, ...faults.ends.map((e) => e.greatest?.amps.high ?? Infinity));
  if (most > 0 && most <= ampacity) {
    report.notApplicable(subject, "all its sources together give no more than it carries for good");
    return [];
  }
  const limits = new Map(faults.conductors.map((c) => [c.conductor, c.withstand.limit]));
  const all = faults.ends.flatMap((end) => {
    const bond = bondOfFault(build, study, end);
    return end.least.map((fault) => {
      const { low } = fault.amps;
      // A thick conductor stays below the end of what it bears for longer than 5 s.
      const bears = Math.min(limits.get(end.conductor) ?? 0, bond?.limit ?? Infinity);
      const seconds = Math.max(FIVE_SECONDS, bears / (low * low));
      return { end, fault, seconds, bond, ...verdictOf(build, study, fault, seconds, subject) };
    });
  });
  const byBonds = all.flatMap(({ end, fault, seconds, bond, verdict }): ByBond[] =>
    bond !== null && verdict === "small"
      ? [{ bond, fault, seconds, wire: circuit[end.end === "from" ? "fromText" : "toText"] }]
      : [],
  );
  const found = all.filter(({ bond, verdict }) => bond === null || verdict !== "small");
  const [worst] = found.sort(
    (a, b) => worstFirst.indexOf(a.verdict) - worstFirst.indexOf(b.verdict) || a.fault.amps.low - b.fault.amps.low,
  );
  tellWorst(build, view, worst, report);
  return byBonds;
}

interface Found {
  readonly end: EndFault;
  readonly fault: LeastFault;
  readonly seconds: number;
  readonly verdict: Verdict;
  readonly needs: Needed | null;
}

function tellWorst(
  build: Build,
  { subject, circuit }: CircuitView,
  worst: Found | undefined,
  report: Report<"small" | "bond">,
): void {
  switch (worst?.verdict) {
    case undefined:
      report.notApplicable(subject, "no short in it draws anything");
      return;
    case "in time":
      report.pass(subject, { measured: worst.fault.course.seconds.high ?? 0, limit: worst.seconds, unit: "s" });
      return;
    case "limited":
      report.notApplicable(subject, "limited by source: what goes on feeding it limits itself");
      return;
    case "not seen":
      report.notApplicable(subject, "no device guards it: protection/unprotected-conductor");
      return;
    case "unknown":
      report.notApplicable(subject, "nothing is published of when its devices open so much");
      return;
    case "kind":
      if (worst.needs?.about === subject.path) report.cannotTell(subject, [worst.needs]);
      else report.notApplicable(subject, KIND_ASKED_THERE);
      return;
    case "small": {
      const { fault, end, seconds } = worst;
      report.fail(subject, "small", {
        ...drawn(build, fault),
        words: { ...wordsOf(fault, seconds), end: end.end === "from" ? circuit.fromText : circuit.toText },
      });
    }
  }
}

function verdictOf(
  build: Build,
  study: EndFaults,
  { course, amps }: LeastFault,
  seconds: number,
  about: Subject,
): { verdict: Verdict; needs: Needed | null } {
  const plain = (verdict: Verdict) => ({ verdict, needs: null });
  const { outcome } = course;
  if (outcome === "limited" || outcome === "none") return plain("limited");
  const isNamed = course.sees.every(({ device }) => possibleDevice(build, study, device).needs === null);
  // The course takes a fuse of no stated kind for a usual one.
  if (isNamed && outcome === "cleared" && (course.seconds.high ?? Infinity) <= seconds) return plain("in time");
  if (outcome === "not seen" || course.sees.length === 0) return plain("not seen");
  let isUnknown = false;
  let needs: Needed | null = null;
  for (const { device, amps: seen } of course.sees) {
    const possible = possibleDevice(build, study, device);
    const through = Math.min(seen, amps.low);
    const answers = new Set(possible.kinds.map((kind) => opensIn(kind, through, seconds)));
    if (answers.size === 0) isUnknown = true;
    else if (answers.size > 1)
      needs = possible.needs?.about === about.path ? possible.needs : (needs ?? possible.needs);
    else if (answers.has("yes")) return plain("in time");
    else if (answers.has("unknown")) isUnknown = true;
  }
  if (needs !== null) return { verdict: "kind", needs };
  return plain(isUnknown ? "unknown" : "small");
}
