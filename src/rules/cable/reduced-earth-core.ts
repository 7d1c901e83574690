import { cite, type Citation } from "../../explain/index.ts";
import { nec250_122 } from "../../reference/nec-250-122.ts";
import type { WrittenCable } from "../../plan/index.ts";
import { awgSize, kcmilSize, stockedSizes } from "../../wire/index.ts";
import { groundSize } from "../../wire/geometry/ground-size.ts";
import type { CircuitView } from "../build.ts";
import { namedSet } from "../named-set.ts";
import { above, needed } from "../report.ts";
import type { RuleSetId } from "../rule-set-id.ts";
import { defineRule } from "../rule.ts";
import { circuitsInCable, speaksForCable } from "./in-cable.ts";

const IEC = cite("iec-60364-5-54", "Table 54.2", "read");
const NEC = cite("nfpa-70-2023", "Table 250.122", "read");
const E11 = cite("abyc-e-11", "earth conductor beside its supply", "memory");

/** How a set sizes the earth of a cable: by its live cores, by the device ahead, or equal up to 30 A. */
const BY: Readonly<Partial<Record<RuleSetId, "live" | "device" | "boat">>> = {
  "us-small-craft": "boat",
  "us-cabin": "device",
  "us-rv": "device",
  "iso-small-craft": "live",
  "iec-cabin": "live",
  "iec-caravan": "live",
  "au-nz-vehicle": "live",
};

export const reducedEarthCore = defineRule({
  id: "cable/reduced-earth-core",
  title: "Reduced earth core",
  severity: {
    otherwise: "must",
    sets: { "us-small-craft": "should", "iso-small-craft": "should", "vehicle-practice": "should" },
  },
  danger: "a thin earth burns before the breaker trips, and the case behind it stays live",
  why: `Many cables have an earth that is thinner than their live cores. By the international tables it is as thick as these up to 16 mm², 16 mm² up to
    35 mm², and half of them beyond; one that is thinner is still right where it bears the fault until the device opens, which needs the fault current
    and the device. By the American code the device decides, and an earth as thick as its live cores always does. On American boats it is as thick up to 30 A,
    and one size less above.`,
  silent: [
    "cables without an earth, and circuits that need none",
    "vehicles without a rule set for their mains",
    "cables whose label does not tell their sizes",
  ],
  sources: [
    { cite: IEC, sets: ["iec-cabin", "iec-caravan", "au-nz-vehicle", "iso-small-craft"] },
    { cite: NEC, sets: ["us-cabin", "us-rv"] },
    { cite: E11, sets: ["us-small-craft"] },
  ],
  messages: {
    thin: "{place} has an earth of {measured} in its cable; {limit} is asked for {case}",
  },
  cures: ["more-cores"],
  examples: {
    good: [
      { says: "three equal cores", plan: mains("cable: 3G2.5 H07RN-F", "iso-small-craft 2020+A1:2022") },
      {
        says: "10 AWG for 30 A beside 8 AWG",
        plan: mains("cable: 8/2 w/G NM-B, breaker: 30 A at INL", "us-cabin"),
      },
    ],
    bad: [
      {
        says: "10 AWG for 100 A",
        plan: mains("cable: 6/2 w/G NM-B, breaker: 100 A at INL", "us-cabin"),
        fails: "thin",
        about: "circuits.W50",
      },
      {
        says: "thinner than the live cores, and the fault not known",
        plan: mains("cable: 2.5 mm² T&E", "iso-small-craft 2020+A1:2022"),
        fails: "cannot tell",
        about: "circuits.W50",
      },
    ],
  },
  judge(build, report) {
    for (const c of build.circuits) {
      const { subject, circuit } = c;
      const label = circuit.cable?.label;
      const set = namedSet(c);
      const by = set === null ? undefined : BY[set];
      if (circuit.cable === undefined) report.notApplicable(subject, "the plan names no cable");
      else if (!speaksForCable(c)) report.notApplicable(subject, "it is judged with the first circuit of its cable");
      else if (!circuitsInCable(build, c).some((v) => v.circuit.conductors.some((one) => one.fn === "PE")))
        report.notApplicable(subject, "it needs no earth");
      else if (label == null || label.make.size === null || label.cores.ground === "none")
        report.notApplicable(subject, "its label tells of no earth, or of no size");
      else if (by === undefined) report.notApplicable(subject, "no rule set tells how thick its earth has to be");
      else {
        const live = label.make.size.areaMm2;
        const earth = earthOf(label);
        const need = needOf(by, c, live);
        const said = { measured: earth.areaMm2, unit: "mm²", trust: earth.isStated ? null : "memory" } as const;
        if (earth.areaMm2 >= live * (1 - EDGE))
          report.pass(subject, {
            measured: earth.areaMm2,
            limit: live,
            unit: "mm²",
            margin: above(earth.areaMm2, live),
          });
        else if (need === null) report.cannotTell(subject, [needed("the rating of its device", subject)]);
        else if (earth.areaMm2 >= need.areaMm2 * (1 - EDGE))
          report.pass(subject, {
            measured: earth.areaMm2,
            limit: need.areaMm2,
            unit: "mm²",
            margin: above(earth.areaMm2, need.areaMm2),
          });
        else if (by === "live")
          report.cannotTell(subject, [
            needed(
              "what flows in a fault, and how soon its device opens: its earth is thinner than the tables ask,",
              subject,
            ),
          ]);
        else
          report.fail(subject, "thin", {
            ...said,
            limit: need.areaMm2,
            margin: above(earth.areaMm2, need.areaMm2),
            source: need.source,
            words: { case: need.says },
          });
      }
    }
  },
});

/** Printed areas are rounded. */
const EDGE = 1e-3;

/** The earth of a cable: as its label says, else as is usual for its kind. */
function earthOf({ make, cores }: WrittenCable): { areaMm2: number; isStated: boolean } {
  if (cores.groundSize !== null) return { areaMm2: cores.groundSize.areaMm2, isStated: true };
  if (make.size === null) return { areaMm2: 0, isStated: false };
  if (cores.ground === "insulated" || cores.ground === "not stated")
    return { areaMm2: cores.others[0]?.size.areaMm2 ?? make.size.areaMm2, isStated: true };
  return { areaMm2: groundSize(make, make.size, []).areaMm2, isStated: false };
}

interface Need {
  readonly areaMm2: number;
  readonly says: string;
  readonly source: Citation;
}

/** What a set asks of an earth beside its live cores; null: that needs a device whose rating nobody says. */
function needOf(by: "live" | "device" | "boat", { circuit }: CircuitView, live: number): Need | null {
  if (by === "live") {
    const areaMm2 = live <= 16 ? live : live <= 35 ? 16 : live / 2;
    return { areaMm2, says: `beside live cores of ${Math.round(live * 100) / 100} mm²`, source: IEC };
  }
  const rating = ratingOf(circuit);
  if (rating === null) return null;
  const says = `behind ${rating} A`;
  if (by === "boat") {
    const thinner = stockedSizes("AWG").findLast((size) => size.areaMm2 < live * (1 - EDGE));
    return { areaMm2: rating <= 30 ? live : (thinner?.areaMm2 ?? live), says, source: E11 };
  }
  const row = nec250_122.rows.find((r) => r.ocpdAmps >= rating);
  const name = row?.cuEgcSizeAwgOrKcmil;
  if (name === undefined) return null;
  const size = /^\d{3}$/.test(name) ? kcmilSize(Number(name)) : awgSize(name);
  // It need not be thicker than the live cores.
  return size === null ? null : { areaMm2: Math.min(live, size.areaMm2), says, source: NEC };
}

/** The largest device that the plan puts ahead of a circuit; null: not known. */
function ratingOf({ devices }: CircuitView["circuit"]): number | null {
  if (typeof devices === "string") return null;
  const ratings = devices.flatMap(({ rating }) => (rating === "unknown" ? [] : [rating.high]));
  return ratings.length === 0 || ratings.length < devices.length ? null : Math.max(...ratings);
}

/** A kettle on mains under a rule set. */
function mains(more: string, set: string): string {
  return `rules: { DC: iso-small-craft 2020+A1:2022, AC: ${set} }\nsystems:\n  AC: { kind: AC, nominal: 230 V, cores: [L, N, PE] }\nparts:\n  INL: { kind: shore inlet, rated: 16 A }\n  kettle: { kind: load, rated: 900 W }\ncircuits:\n  W50: { path: INL → kettle, length: 2 m, ${more} }`;
}
