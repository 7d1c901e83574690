import { gatesOf, type DeviceFamilyId } from "../../device/index.ts";
import { cite, type Trust } from "../../explain/index.ts";
import { lineK } from "../../protect/earth-fault/line-withstand.ts";
import { makeOf } from "../../size/ladder.ts";
import { protectiveInsulation } from "../../size/study-earth-faults-metal.ts";
import type { CircuitShort, EarthFaultStudy } from "../../size/study-earth-faults-shapes.ts";
import type { CircuitView } from "../build.ts";
import { figure, printFigure } from "../figure.ts";
import type { Needed } from "../finding.ts";
import { FIVE_SECONDS, opensIn, worstThrough, type KnownDevice } from "../protection/opens-in-time.ts";
import { below, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { wireNeeded } from "../wire-needed.ts";
import { earthFaultsAt, earthFaultsOf } from "./as-designed.ts";
import { oneSource } from "./example-plans.ts";

const behind = (way: string, wire: string, prospective = ", prospective current: 0.5…0.7 kA"): string =>
  oneSource({
    set: "iec-cabin 2009",
    parts: {
      INL: `kind: shore inlet, rated: 32 A${prospective}`,
      CU: `kind: consumer unit, main: { residual device: 30 mA, poles: 2, rated: 40 A }, ways: { 1: breaker ${way} 2-pole }`,
    },
    circuits: {
      W20: "path: INL → CU:in, length: 1 m, wire: 10 mm²",
      W23: `path: CU:1 → sockets, length: 3 m, wire: ${wire}`,
    },
  });

export const wireBurntByAShort = defineRule({
  id: "ac/wire-burnt-by-a-short",
  title: "Wire burnt by a short",
  severity: { otherwise: "should", sets: { "iec-cabin": "must", "iec-caravan": "must" } },
  danger: "the wire is ruined by the very short that its breaker clears, and may set fire to what lies beside it",
  why: `What a short from line to neutral lets through until its device has opened, I²t, stays within what the conductor bears, k²S², with the k of the published table for its metal and insulation. A device that guards the wire
    against overload (its rating no more than the wire may carry) guards it against small shorts too (IEC 60364-4-43 435.1), so that the greatest decides: at what the supply drives into its near end. Above the current at which
    a breaker opens at once its standard promises 0.1 s and no less: where that is too long, one that limits the current, as miniature breakers and gG fuses do, and breaks what the supply drives is taken to be quick enough by the same
    clause; of others the energy that they let through has to be known. A device above what the wire may carry is judged at every current from the least short to the greatest.`,
  silent: [
    "circuits behind devices of which nothing is published that could tell, as American branch breakers",
    "circuits with no known device ahead, and without a line",
    "shorts between two lines",
  ],
  sources: [{ cite: cite("iec-60364-4-43", "434.5.2, 435.1", "read") }],
  messages: {
    burnt: "{place}: {device} may let a short of {amps} flow for {measured}, and {size} bears it for {limit}",
  },
  cures: ["next-size", "smaller-device"],
  examples: {
    good: [
      { says: "700 A for 0.1 s, which 2.5 mm² bears", plan: behind("16 A", "2.5 mm²") },
      {
        says: "3 kA behind a miniature breaker that guards against overload and breaks it",
        plan: behind("10 A", "1.5 mm²", ", prospective current: 3 kA"),
      },
      {
        says: "an American branch breaker, of which no times are published",
        plan: oneSource({
          set: "us-cabin NEC 2023",
          parts: { INL: "kind: shore inlet, rated: 30 A, prospective current: 5 kA" },
        }),
      },
    ],
    bad: [
      {
        says: "20 m of 1 mm² behind 40 A",
        plan: behind("40 A", "1 mm²").replace("3 m", "20 m"),
        fails: "burnt",
        about: "circuits.W23",
      },
      {
        says: "1.5 mm² behind 40 A, which opens at once and lets through nobody knows what",
        plan: behind("40 A", "1.5 mm²", ", prospective current: 2…3 kA"),
        fails: "cannot tell",
        about: "circuits.W23",
      },
      {
        says: "nobody knows what the supply drives",
        plan: behind("10 A", "1.5 mm²", ""),
        fails: "cannot tell",
        about: "parts.INL",
      },
    ],
  },
  judge(build, report) {
    const study = earthFaultsOf(build);
    for (const view of build.circuits) {
      const { subject, circuit, design } = view;
      if (circuit.current !== "AC") continue;
      const shorts = earthFaultsAt(build, view.id)?.shorts ?? [];
      const area = design.size?.areaMm2 ?? null;
      if (shorts.length === 0)
        report.notApplicable(subject, "no source drives a short from line to neutral through it");
      else if (subject.set === null) report.notApplicable(subject, "no rule set is named for it");
      else if (area === null) report.cannotTell(subject, [wireNeeded(view)]);
      else {
        const k = lineK(makeOf(circuit).metal, protectiveInsulation(circuit), area);
        if (k === null) {
          report.notApplicable(subject, "no k is published for its metal and size");
          continue;
        }
        const limit = (k.value * area) ** 2;
        const all = shorts.map((s) => ({ short: s, ...judgeShort(view, s, study, limit) }));
        const burnt = all.flatMap((b) => (b.is === "burnt" ? [b] : [])).sort((a, b) => b.share - a.share)[0];
        const open = all.flatMap((b) => (b.is === "open" ? [b] : []));
        const proven = all.flatMap((b) => (b.is === "borne" ? [b] : []));
        const [none] = all.flatMap((b) => (b.is === "not proven" ? [b] : []));
        if (burnt !== undefined) {
          const { amps, seconds, device } = burnt;
          const bears = limit / amps ** 2;
          report.fail(subject, "burnt", {
            measured: seconds,
            limit: bears,
            unit: "s",
            margin: below(seconds, bears),
            trust: k.trust,
            words: { device, amps: figure(amps, "A"), size: design.size?.label ?? "its wire" },
          });
        } else if (open.length > 0)
          for (const { needs, short } of open) {
            const supply = needs === null ? build.part(study.sources[short.source]?.part ?? "")?.subject : undefined;
            if (needs !== null) report.cannotTell(subject, [needs]);
            else if (supply !== undefined)
              report.cannotTell(supply, [needed("the prospective current of its supply", supply)], asOf(view));
          }
        else if (none !== undefined || proven.length === 0) report.notApplicable(subject, none?.why ?? UNTOLD);
        else {
          const share = Math.max(...proven.map((p) => p.share));
          report.pass(subject, share > 0 ? { margin: 1 - share } : {});
        }
      }
    }
  },
});

/** The severity of the circuit's own set: the supply may follow another. */
const asOf = ({ subject }: CircuitView): { readonly severity: "must" | "should" } => ({
  severity: subject.set === "iec-cabin" || subject.set === "iec-caravan" ? "must" : "should",
});

const UNTOLD = "nothing is published of when its devices have opened";

type Judged =
  | { readonly is: "borne"; readonly share: number; readonly trust?: Trust }
  | {
      readonly is: "burnt";
      readonly share: number;
      readonly amps: number;
      readonly seconds: number;
      readonly device: string;
    }
  /** Null: what the supply drives. */
  | { readonly is: "open"; readonly needs: Needed | null }
  | { readonly is: "not proven"; readonly why: string };

/** Within this a breaker opens at once, by its standard, s. */
const AT_ONCE = 0.1;

function judgeShort(
  { design, subject }: CircuitView,
  { most, isMostTold, least, devices }: CircuitShort,
  study: EarthFaultStudy,
  limit: number,
): Judged {
  const told = devices.flatMap((index) => {
    const d = study.devices[index];
    return d === undefined || d.rating === null || d.families.length === 0 ? [] : [{ ...d, index, rating: d.rating }];
  });
  const smallest = told.reduce((a, b) => Math.min(a, b.rating), Infinity);
  const own = told.findLast((d) => d.rating === smallest);
  if (own === undefined) return { is: "not proven", why: "no device ahead of it is known" };
  const device = `${own.at} (${printFigure(figure(smallest, "A"))})`;
  const variants = Array.from({ length: Math.max(...told.map((d) => d.families.length)) }, (_, i): KnownDevice[] =>
    told.flatMap(({ families, rating }) => {
      const family: DeviceFamilyId | undefined = families[Math.min(i, families.length - 1)];
      return family === undefined ? [] : [{ family, rating }];
    }),
  );
  if (variants.some((v) => v.every((d) => !Number.isFinite(atOnce(d))))) return { is: "not proven", why: UNTOLD };
  const ampacity = design.ampacityA ?? 0;
  if (smallest <= ampacity * (1 + EDGE)) {
    if (most === null) return { is: "open", needs: null };
    const share = most <= ampacity ? 0 : Math.max(...variants.map((v) => shareOf(v, most, limit)));
    if (share <= 1) return { is: "borne", share };
    if (!isMostTold) return { is: "open", needs: null };
    const breaks = study.breaking.find((b) => b.device === own.index)?.breaks ?? null;
    if (breaks !== null && breaks < most * (1 - EDGE)) return { is: "not proven", why: WEAK };
    // What guards against overload, limits the current and breaks it guards against shorts as well.
    if (breaks !== null && own.families.every((f) => LIMITING.has(f))) return { is: "borne", share: 0 };
    return { is: "open", needs: needed(`what ${own.at} lets through of ${printFigure(figure(most, "A"))},`, subject) };
  }
  if (most === null || !isMostTold) return { is: "open", needs: null };
  if (least <= 0) return { is: "open", needs: null };
  const late = variants.map((v) => {
    const amps = Math.min(most, ...v.map(atOnce).map((a) => a * (1 - EDGE)));
    return { amps, share: amps >= least && amps > smallest ? (amps ** 2 * FIVE_SECONDS) / limit : 0 };
  });
  const [first] = [...late].sort((a, b) => a.share - b.share);
  if (first !== undefined && first.share > 1) return { is: "burnt", ...first, seconds: FIVE_SECONDS, device };
  const share = Math.max(...variants.map((v) => shareOf(v, most, limit)));
  return share <= 1 && late.every((l) => l.share <= 1)
    ? { is: "borne", share }
    : { is: "open", needs: needed(`what ${own.at} lets through, and of which kind it is,`, subject) };
}

/** Of what the wire bears, the share that devices may let through of a short that begins at their end; 0 where it is so small that they end it as an overload. */
const shareOf = (devices: readonly KnownDevice[], amps: number, limit: number): number =>
  devices.every((d) => opensIn(d, amps, FIVE_SECONDS) === "no")
    ? 0
    : (worstThrough(devices, { low: amps, high: amps }).atMost ?? Infinity) / limit;

/** Printed figures are rounded. */
const EDGE = 1e-3;
const WEAK = "its device may not break so much: ac/weak-shore-interrupt-rating tells";
/** Kinds that limit what flows before they have opened: miniature breakers of IEC 60898, as sold, and gG fuses. Common practice. */
const LIMITING: ReadonlySet<DeviceFamilyId> = new Set<DeviceFamilyId>(["mcb_B", "mcb_C", "mcb_D", "iec_gG"]);

/** The least current at which a device has to open at once; Infinity: none is promised. */
function atOnce({ family, rating }: KnownDevice): number {
  const gate = gatesOf(family, rating).find(({ maxS }) => maxS !== null && maxS <= AT_ONCE);
  return gate === undefined ? Infinity : gate.multiple * rating;
}
