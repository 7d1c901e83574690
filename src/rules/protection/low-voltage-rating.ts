import { deviceFamily, greatestVolts, type DeviceFamilyId } from "../../device/index.ts";
import { cite, type Trust } from "../../explain/index.ts";
import type { Build } from "../build.ts";
import type { Needed } from "../finding.ts";
import { above, needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { solarVolts } from "../solar-volts.ts";
import { markedParts, tellUnmarked, voltsOfKind, type Marked } from "./device-marks.ts";
import type { Span } from "./guards.ts";

export const lowVoltageRating = defineRule({
  id: "protection/low-voltage-rating",
  title: "Low voltage rating",
  severity: "must",
  danger: "an arc that finds enough volts never goes out",
  why: `A device or a switch is made for at least the greatest volts that can stand across it when it opens: the highest charging voltage of its
    supply, or what the solar modules of its circuit give in the cold. What stands on the part wins; else the usual grade of its family counts.
    The American law asks only for the nominal volts.`,
  silent: [
    "alternating current, which is not studied yet",
    "switches whose maker states no volts",
    "circuits without a device of their own",
  ],
  sources: [
    { cite: cite("33-cfr-183", "183.455(d)", "read"), sets: ["us-small-craft"] },
    { cite: cite("trade-practice", "volts of a device", "practice") },
  ],
  messages: {
    low: "{place}: the {device} is for {measured}, and {limit} can stand across it",
  },
  cures: ["larger-part", "device-made-for-it"],
  examples: {
    good: [
      {
        says: "a blade fuse on 12 V",
        plan: "circuits:\n  W10: { path: BP → lamp, length: 4 m, fuse: 5 A blade at BP }",
      },
      {
        says: "a class T fuse on 48 V",
        plan: "systems:\n  DC: { kind: DC, nominal: 48 V, return: BN }\nparts:\n  B1: { kind: battery, chemistry: LFP, nominal: 51.2 V, capacity: 100 Ah, short-circuit: 3 kA }\ncircuits:\n  W01: { path: B1 → SW1, length: 0.8 m, sheathed: yes, fuse: 100 A class T at B1 }\n  W10: { path: BP → lamp, length: 4 m, fuse: 6 A class T at BP }",
      },
    ],
    bad: [
      {
        says: "a blade fuse for 32 V on 48 V",
        plan: "systems:\n  DC: { kind: DC, nominal: 48 V, return: BN }\nparts:\n  B1: { kind: battery, chemistry: LFP, nominal: 51.2 V, capacity: 100 Ah, short-circuit: 3 kA }\n  lamp: { kind: light, running: 2 A }\ncircuits:\n  W10: { path: BP → lamp, length: 4 m, fuse: 5 A blade at BP }",
        fails: "low",
        about: "circuits.W10",
      },
      {
        says: "a switch for 12 V on 24 V",
        plan: "systems:\n  DC: { kind: DC, nominal: 24 V, return: BN }\nparts:\n  B1: { kind: battery, chemistry: LFP, nominal: 25.6 V, capacity: 100 Ah, short-circuit: 3 kA }\n  SW1: { kind: switch, rated: 300 A, DC volts: 16 V }",
        fails: "low",
        about: "parts.SW1",
      },
    ],
  },
  judge(build, report) {
    const most = rememberVolts();
    for (const marked of markedParts(build)) judgeOne(build, marked, most, report);
    tellUnmarked(build, report);
  },
});

/** The greatest volts that a family opens at a rating, looked up once for each of the few that a build holds. */
function rememberVolts(): typeof mostVolts {
  const byFamily = new Map<DeviceFamilyId, Map<number | null, number | null>>();
  return (family, rating) => {
    let known = byFamily.get(family);
    if (known === undefined) byFamily.set(family, (known = new Map<number | null, number | null>()));
    let most = known.get(rating);
    if (most === undefined) known.set(rating, (most = mostVolts(family, rating)));
    return most;
  };
}

const mostVolts = (family: DeviceFamilyId, rating: number | null): number | null =>
  greatestVolts(family, rating === null ? {} : { rating });

function judgeOne(build: Build, marked: Marked, most: typeof mostVolts, report: Report<"low">): void {
  const { subject } = marked;
  const asked = voltsAcross(build, marked);
  const made = voltsOf(marked, most);
  if (made === null) {
    report.notApplicable(subject, "its maker states no volts");
    return;
  }
  if (made === "unknown") {
    report.cannotTell(subject, [
      needed(`the volts that its ${marked.name} can open`, marked.part === null ? subject : `parts.${marked.part.id}`),
    ]);
    return;
  }
  const { volts, trust } = made;
  const limit = asked.volts.high;
  if (volts.low >= limit)
    report.pass(subject, { measured: volts.low, limit, unit: "V", margin: above(volts.low, limit) });
  else if (volts.high < asked.volts.low) {
    report.fail(subject, "low", {
      measured: volts.high,
      limit: asked.volts.low,
      unit: "V",
      margin: above(volts.high, asked.volts.low),
      trust,
      words: { device: marked.name },
    });
  } else {
    const family = needed(`the volts that its ${marked.name} can open`, subject);
    report.cannotTell(subject, [...(volts.low < volts.high ? [family] : []), ...asked.needs]);
  }
}

/** What a device is made for: its own marks, its family's usual grade, or whatever is on sale of its kind. */
function voltsOf(
  { part, family, rating, kind }: Marked,
  mostOf: typeof mostVolts,
): { volts: Span; trust: Trust | null } | "unknown" | null {
  const own = part?.marks?.dcVolts;
  if (own === "unknown") return "unknown";
  if (own !== undefined) return { volts: own, trust: null };
  if (kind === null) return null;
  if (family === null) return { volts: voltsOfKind(kind, rating), trust: "practice" };
  const most = mostOf(family, rating?.high ?? null) ?? mostOf(family, null);
  // Whether it is for direct current at all is another rule's question.
  if (most === null) return null;
  const { dcVoltsTrust: trust, standardRatings } = deviceFamily(family);
  if (rating === null || mostOf(family, rating.high) !== null) return { volts: { low: most, high: most }, trust };
  // A rating that nobody lists has the volts of its family, at least those of the weakest of it.
  return { volts: { low: Math.min(...standardRatings.map((r) => mostOf(family, r) ?? most)), high: most }, trust };
}

/** The greatest volts across an open device. */
function voltsAcross(build: Build, marked: Marked): { volts: Span; needs: readonly Needed[] } {
  const view = marked.circuit;
  const supplyId = view?.circuit.supply ?? marked.part?.supply;
  const supply = build.system.supplies.find((s) => s.id === supplyId);
  const highest = supply?.highestVolts ?? 14.6;
  const solar = view === null ? null : solarVolts(build, view);
  if (solar === null) return { volts: { low: highest, high: highest }, needs: [] };
  return {
    volts: { low: Math.max(highest, solar.volts.low), high: Math.max(highest, solar.volts.high) },
    needs: solar.needs,
  };
}
