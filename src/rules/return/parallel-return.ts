import { ampacity } from "../../ampacity/index.ts";
import { cite } from "../../explain/index.ts";
import { celsius } from "../../quantity/index.ts";
import type { Build, CircuitView } from "../build.ts";
import { below, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { makeOfBond, sizeOf } from "./bond-ohms.ts";
import { metalOf, type MetalEdge } from "./metal.ts";
import { strayCurrentsOf } from "./stray-currents.ts";

const windlass = (data: string): string =>
  `parts:\n  windlass: { kind: load, motor: DC, running: 80 A }\n  plotter: { kind: load, running: 1 A }\ncircuits:\n  W20: { path: BP → windlass, length: 3 m, wire: 35 mm², fuse: 100 A class T at BP }\n  W21: { path: PNL:3 → plotter, length: 2 m, wire: 2.5 mm², fuse: 5 A at PNL }${data}`;

export const parallelReturn = defineRule({
  id: "return/parallel-return",
  title: "Parallel return",
  severity: "must",
  danger: "when the heavy negative corrodes away its whole current comes home through a data lead, and nothing opens",
  why: `Of every ring of returns and bonds each negative is opened in turn, as corrosion opens it one day. What then flows in the others, in every state, may not exceed what each of them carries: no
    device in the plus sees it.`,
  silent: ["returns that lie in no ring", "returns with a device of their own in them"],
  sources: [{ cite: cite("trade-practice", "each negative opened in turn", "practice") }],
  messages: {
    burns:
      "{place} would carry {measured} ({state}) with {other} open; it may carry {limit}, and no device stands in it",
  },
  cures: ["open-loop", "next-size"],
  examples: {
    good: [
      { says: "one way home for each load", plan: windlass("") },
      {
        says: "a second way that is as thick",
        plan: windlass("\n  W22: { path: windlass:− → BN, length: 3 m, wire: 35 mm², fuse: none }"),
      },
      {
        says: "a small second way with a fuse in it",
        plan: windlass(
          "\n  W22: { path: windlass:− → plotter:−, length: 3 m, wire: 1.5 mm², fuse: 3 A at plotter }\n  W21: { path: PNL:3 → plotter, length: 2 m, wire: 35 mm², fuse: 5 A at PNL }",
        ),
      },
    ],
    bad: [
      {
        says: "a thin second way",
        plan: windlass("\n  W22: { path: windlass:− → BN, length: 3 m, wire: 1.5 mm², fuse: none }"),
        fails: "burns",
        about: "circuits.W22",
      },
    ],
  },
  judge(build, report) {
    const { edges } = metalOf(build);
    const { inRing, diverted, most } = strayCurrentsOf(build);
    if (!inRing.includes(1)) return;
    const worst = new Map<string, { view: CircuitView; edge: number; amps: number }>();
    const all = diverted();
    edges.forEach((edge, e) => {
      if (inRing[e] !== 1 || edge.view === undefined || edge.is === "contact") return;
      const amps = all[e]?.amps ?? 0;
      const old = worst.get(edge.view.id);
      if (old === undefined || amps > old.amps) worst.set(edge.view.id, { view: edge.view, edge: e, amps });
    });
    for (const { view, edge, amps } of worst.values()) {
      const { subject } = view;
      const found = all[edge];
      const own = edges[edge];
      // What it carries anyway is for overloaded-conductor to judge.
      const usual = Math.max(...most.map((list) => list[edge]?.amps ?? 0));
      if (found === null || found === undefined || own === undefined || amps <= usual * 1.01 + LITTLE / 10) {
        report.notApplicable(subject, "no return beside it carries anything that it would have to take over");
        continue;
      }
      if (hasOwnDevice(view)) {
        report.notApplicable(subject, "a device of its own stands in it");
        continue;
      }
      const limit = ampsOf(build, own);
      if (limit !== null && usual > limit) {
        report.notApplicable(subject, "it is overloaded as it is: overloaded-conductor judges it");
        continue;
      }
      const said = {
        measured: amps,
        limit: limit ?? undefined,
        unit: "A",
        margin: limit === null ? undefined : below(amps, limit),
        state: found.state,
      } as const;
      if (limit === null) {
        if (amps > LITTLE) report.cannotTell(subject, [needed("its size", subject)]);
        else report.pass(subject, { measured: amps, unit: "A", state: found.state });
      } else if (amps > limit * (1 + 1e-9)) {
        const other = edges[found.opened];
        report.fail(subject, "burns", {
          ...said,
          words: { other: other?.view?.subject.name ?? other?.id ?? "another return" },
        });
      } else report.pass(subject, said);
    }
  },
});

/** Even the thinnest wire carries this, A. */
const LITTLE = 1;

/** A return that is a circuit by itself may have a device in it. */
function hasOwnDevice({ circuit }: CircuitView): boolean {
  if (circuit.conductors.some((c) => c.role === "live")) return false;
  return circuit.devices !== "propose" && circuit.devices !== "unknown" && circuit.devices.length > 0;
}

/** What a path may carry for long; null: its size is not known. */
function ampsOf(build: Build, { view }: MetalEdge): number | null {
  if (view === undefined) return null;
  if (view.design.ampacityA !== null) return view.design.ampacityA;
  const make = makeOfBond(view, sizeOf(view));
  const ruleSet = view.ruleSet ?? build.circuits.find((c) => c.ruleSet !== null)?.ruleSet ?? null;
  if (make === null || ruleSet === null) return null;
  const stretches = view.run.stretches.map((s) => ({ ...s, ambientC: celsius(s.ambientC) }));
  const insulationC = celsius(view.circuit.insulationC.low);
  const { amps } = ampacity({ ruleSet, make, insulationC, installed: view.run.installed, stretches });
  return amps === null ? null : amps * view.circuit.parallel;
}
