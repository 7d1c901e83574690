import { cite } from "../../explain/index.ts";
import type { CircuitView } from "../build.ts";
import { below, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { metalOf } from "./metal.ts";
import { strayCurrentsOf } from "./stray-currents.ts";

/** Less than this is leakage and measuring error, A [practice]. */
const MOST = 0.05;

const bonded = (second: string): string =>
  `parts:\n  hull: { kind: structure }\n  B2: { kind: battery, chemistry: AGM, capacity: 80 Ah, cranking: 500 A }\n  pump: { kind: load, running: 20 A }\ncircuits:\n  W20: { path: B2:− → BN, length: 2 m, wire: 16 mm² }\n  W21: { path: B2 → pump, length: 2 m, wire: 6 mm², fuse: 30 A at B2, return: BN }\n  W22: { path: BN → hull, length: 1 m, cores: [PE], wire: 10 mm² }${second}`;

export const bondingCarriesLoadCurrent = defineRule({
  id: "return/bonding-carries-load-current",
  title: "Bonding that carries load current",
  severity: { otherwise: "should", sets: { "us-small-craft": "must", "iso-small-craft": "must" } },
  danger:
    "bonding corrodes from the current that it should never carry, and burns when the negative beside it gives way",
  why: `Returns, bonds and protective conductors are solved together as one metal, in every state, with each load alone and each source at its rating. More than 50 mA of direct
    current in a bond means that it lies beside a negative: the minus is joined to the bonding twice.`,
  silent: ["bonds that lie in no ring: they cannot carry anything", "a ring that a galvanic isolator stands in"],
  sources: [{ cite: cite("trade-practice", "no load current in bonding", "practice") }],
  messages: {
    carries: "{place} carries {measured} of the loads' current ({state}): bonding should carry none",
  },
  cures: ["open-loop"],
  examples: {
    good: [
      { says: "joined at one point", plan: bonded("") },
      { says: "no bonding at all", plan: "" },
    ],
    bad: [
      {
        says: "a second join at the start battery",
        plan: bonded("\n  W23: { path: B2:− → BN, length: 1 m, cores: [PE], wire: 10 mm² }"),
        fails: "carries",
        about: "circuits.W23",
      },
    ],
  },
  judge(build, report) {
    const { edges } = metalOf(build);
    if (!edges.some((e) => e.is === "bond")) return;
    const worst = new Map<string, { view: CircuitView; edge: number }>();
    const { most, inRing } = strayCurrentsOf(build);
    edges.forEach(({ is, view }, e) => {
      if (is !== "bond" || view === undefined) return;
      const old = worst.get(view.id);
      if (old === undefined || (most[0][e]?.amps ?? 0) > (most[0][old.edge]?.amps ?? 0))
        worst.set(view.id, { view, edge: e });
    });
    for (const { view, edge } of worst.values()) {
      const { subject } = view;
      if (inRing[edge] !== 1) {
        report.notApplicable(subject, "it lies in no ring");
        continue;
      }
      const [thin, thick] = most.map((list) => list[edge] ?? { amps: 0, state: "" });
      const [least, greatest] = (thin?.amps ?? 0) <= (thick?.amps ?? 0) ? [thin, thick] : [thick, thin];
      const said = {
        measured: least?.amps ?? 0,
        limit: MOST,
        unit: "A",
        margin: below(least?.amps ?? 0, MOST),
        state: least?.state ?? null,
      } as const;
      if (said.measured > MOST) report.fail(subject, "carries", said);
      else if ((greatest?.amps ?? 0) > MOST) report.cannotTell(subject, [needed("its size", subject)]);
      else report.pass(subject, said);
    }
  },
});
