import { ampacity } from "../../ampacity/index.ts";
import { cite, type Trust } from "../../explain/index.ts";
import { isUnknown, known, type Fact, type WrittenCable } from "../../plan/index.ts";
import { celsius } from "../../quantity/index.ts";
import { bs7671Drum } from "../../reference/bs7671-drum.ts";
import { findRuleSet, type RuleSet } from "../../ruleset/index.ts";
import type { ConductorMake } from "../../wire/index.ts";
import type { Build, CircuitView, PartView, Subject } from "../build.ts";
import { figure } from "../figure.ts";
import { below, needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { drawnMake } from "./bought-of.ts";

export const coiledLead = defineRule({
  id: "conductor/coiled-lead",
  title: "Coiled lead",
  severity: {
    otherwise: "should",
    sets: { "iec-caravan": "must", "au-nz-vehicle": "must" },
  },
  danger: "a hook-up lead that stays on its drum melts itself",
  why: `What lies on a drum heats its own neighbours: with one layer 85 % is left of what the lead carries, with two 65 %, with three 45 %, with four 35 %. The
    current is what flows for long; of mains the rating of the device or of the inlet, since whatever is plugged in may take it. The factors are
    those of the British tables for flexible cable, and serve other sets for want of their own.`,
  silent: ["leads of which the plan says nothing of a drum"],
  sources: [{ cite: cite("bs-7671-2018", "Tables 4F1A and 4F2A, note", "read") }],
  messages: {
    coiled:
      "{place} carries {measured} in {layers} on its drum; {limit} is what it may carry so, and {drawn} when it is drawn off",
  },
  cures: ["drawn-off", "next-size"],
  examples: {
    good: [
      {
        says: "drawn off",
        plan: "parts:\n  lamp: { kind: light, running: 12 A, runs above: 9 V }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 2 m, wire: 1.5 mm², on drum: 0 }",
      },
      {
        says: "thick enough for two layers",
        plan: "parts:\n  lamp: { kind: light, running: 12 A, runs above: 9 V }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 2 m, wire: 6 mm², on drum: 2 }",
      },
    ],
    bad: [
      {
        says: "three layers",
        plan: "parts:\n  lamp: { kind: light, running: 12 A, runs above: 9 V }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 2 m, wire: 1.5 mm², on drum: 3 }",
        fails: "coiled",
        about: "circuits.W10",
      },
      {
        says: "the lead of an inlet on its drum",
        plan: "systems:\n  AC: { kind: AC, nominal: 230 V, cores: [L, N, PE] }\nrules: { DC: iso-small-craft 2020+A1:2022, AC: iso-small-craft 2020+A1:2022 }\nparts:\n  INL: { kind: shore inlet, rated: 16 A, lead cable: 3G2.5 H07RN-F, lead layers: 4 }\n  kettle: { kind: load, rated: 900 W }\ncircuits:\n  W50: { path: INL → kettle, length: 2 m }",
        fails: "coiled",
        about: "parts.INL",
      },
      {
        says: "nobody knows how much stays on the drum",
        plan: "parts:\n  lamp: { kind: light, running: 12 A, runs above: 9 V }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 2 m, wire: 1.5 mm², on drum: unknown }",
        fails: "cannot tell",
        about: "circuits.W10",
      },
    ],
  },
  judge(build, report) {
    for (const c of build.circuits) {
      const layers = c.plan?.facts["on drum"];
      if (layers === undefined) report.notApplicable(c.subject, "the plan says nothing of a drum");
      else judgeLead(c.subject, layers, () => leadOfCircuit(build, c), report);
    }
    for (const p of build.parts) {
      const layers = p.plan?.kindFacts["lead layers"] as Fact<number> | undefined; // read by the rules of the inlet
      if (layers !== undefined) judgeLead(p.subject, layers, () => leadOfInlet(build, p), report);
    }
  },
});

/** A lead with what flows in it and what it carries drawn off; words: what is not known. */
interface Lead {
  readonly amps: number | string;
  readonly carries: { readonly amps: number; readonly trust: Trust | null } | string;
}

/** Layers beyond the table: no more is left than with the most that it has. */
const [MOST] = [...bs7671Drum.rows].sort((a, b) => b.layers - a.layers);

function judgeLead(subject: Subject, layers: Fact<number>, of: () => Lead, report: Report<"coiled">): void {
  const count = known(layers);
  if (count === 0) {
    report.pass(subject);
    return;
  }
  const { amps, carries } = of();
  if (typeof amps === "string" || typeof carries === "string") {
    report.cannotTell(
      subject,
      [amps, carries].flatMap((fact) => (typeof fact === "string" ? [needed(fact, subject)] : [])),
    );
    return;
  }
  const row = bs7671Drum.rows.find((r) => r.layers === count) ?? MOST;
  if (isUnknown(layers) || count === undefined) {
    report.cannotTell(subject, [needed("how much of it lies on its drum", subject)]);
    return;
  }
  const limit = carries.amps * (row?.factor ?? 0);
  const said = { measured: amps, limit, unit: "A", margin: below(amps, limit) } as const;
  if (amps > limit + 1e-9)
    report.fail(subject, "coiled", {
      ...said,
      trust: carries.trust,
      words: { layers: count === 1 ? "one layer" : `${count} layers`, drawn: figure(carries.amps, "A") },
    });
  else if (count > (MOST?.layers ?? 0))
    report.cannotTell(subject, [needed(`what ${count} layers on a drum leave of its rating,`, subject)]);
  else report.pass(subject, said);
}

/** What flows in a circuit, and what it carries. */
function leadOfCircuit(build: Build, c: CircuitView): Lead {
  const { design, circuit, ruleSet, run } = c;
  if (c.model !== null)
    return {
      amps: design.steadyA ?? "its current",
      carries: design.ampacityA === null ? "what it carries" : { amps: design.ampacityA, trust: design.ampacityTrust },
    };
  const ratings =
    typeof circuit.devices === "string"
      ? []
      : circuit.devices.flatMap(({ rating }) => (rating === "unknown" ? [] : [rating.high]));
  const enters = [circuit.from.part, circuit.to.part].flatMap((id) => entering(build.part(id)) ?? []);
  const bounds = [...ratings, ...enters];
  const make = drawnMake(build, c);
  return {
    amps: bounds.length === 0 ? "the rating of its device" : Math.min(...bounds),
    carries:
      make === null
        ? "its size"
        : carried(
            ruleSet,
            make,
            circuit.insulationC.low,
            run.stretches.map((s) => ({ ...s, ambientC: celsius(s.ambientC) })),
          ),
  };
}

/** What an inlet lets in. */
function entering(view: PartView | undefined): number | null {
  const gives = view?.part.gives;
  return gives === undefined || gives === "unknown" || gives.unit !== "A" ? null : gives.value.high;
}

/** The lead of an inlet: its label, in the air of the plan. */
function leadOfInlet({ system }: Build, view: PartView): Lead {
  const label = known(view.plan?.kindFacts["lead cable"]) as WrittenCable | undefined; // read by the rules of the inlet
  const { supply } = view;
  const named = supply?.rules === undefined ? null : findRuleSet(supply.rules);
  const set = named?.found === true ? named.set : null;
  const size = label?.size ?? null;
  const make: ConductorMake | null =
    size === null ? null : { size, metal: "copper", plating: "plain", strands: "class 5" };
  const ambientC = celsius(system.ambient.high);
  return {
    amps: entering(view) ?? "its rating",
    carries:
      make === null || label === undefined
        ? "the cable of its lead"
        : carried(set, make, label.make.temperatureC ?? POOREST_C, [
            { engineSpace: false, ambientC, ambientStated: system.ambientStated, bundle: 2 },
          ]),
  };
}

/** Insulation of a lead whose label names none: rubber and PVC bear at least this, °C. */
const POOREST_C = 60;

function carried(
  ruleSet: RuleSet | null,
  make: ConductorMake,
  insulationC: number,
  stretches: Parameters<typeof ampacity>[0]["stretches"],
): Lead["carries"] {
  if (ruleSet === null) return "what its rule set lets it carry";
  const { amps, trust } = ampacity({ ruleSet, make, insulationC: celsius(insulationC), stretches });
  return amps === null ? "what its rule set lets it carry" : { amps, trust };
}
