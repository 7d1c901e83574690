import { cite } from "../../explain/index.ts";
import { isUnknown } from "../../plan/index.ts";
import type { Build, CircuitView } from "../build.ts";
import { needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { zonesOfPlace } from "../zone-kinds.ts";
import { oneSource } from "./example-plans.ts";
import { alternates } from "./tell-states.ts";

/** Kinds of zones that are no rooms to live in. */
const NO_ROOM: ReadonlySet<string> = new Set(["bath", "outside", "sun", "on roof", "engine", "bilge", "buried", "wet"]);
/** Above this an American circuit of outlets is none of those that are asked, A. */
const LARGEST = 20;
/** Volts to earth of the circuits that the American code speaks of, with what a nominal 120 V may be called. */
const AMERICAN = [100, 130] as const;

const room = (circuit: string, { set = "us-cabin NEC 2023", volts = "120 V", zone = "dry" } = {}): string =>
  oneSource({
    set,
    system: `kind: AC, nominal: ${volts}, cores: [L, N, PE]`,
    parts: {
      GEN: "kind: generator, rated: 2 kVA, neutral: joined to earth",
      CU: "kind: panel, main: breaker 20 A, ways: { 1: breaker 15 A }",
      sockets: "kind: outlet, running: 3 A, residual device: 5 mA",
    },
    circuits: {
      W20: "path: GEN → CU:in, length: 1 m",
      W23: `path: CU:1 → sockets, length: 3 m${zone === "" ? "" : ", zone: room"}${circuit}`,
    },
    more: zone === "" ? "" : `zones:\n  room: { kind: ${zone} }`,
  });

export const missingArcFaultGuard = defineRule({
  id: "ac/missing-arc-fault-guard",
  title: "Missing arc-fault guard",
  severity: { otherwise: "note", sets: { "us-cabin": "should" } },
  danger:
    "a nicked cable or a loose joint arcs inside a wall at less current than any breaker opens on, until the wood is alight",
  why: `In rooms to live in, American circuits of 120 V and up to 20 A that end at outlets are behind a device that opens on arcs. Elsewhere IEC 60364-4-42 recommends it for rooms to sleep in and for buildings of wood. The plan says
    it on the circuit: \`arc fault: yes\`. Where the maker of an inverter forbids such devices behind its waveform, it says \`arc fault: excluded\`.`,
  silent: [
    "boats, vehicles and caravans",
    "outlets in baths, out of doors and in wet places",
    "lights and what is wired fast",
    "us-cabin: circuits above 20 A or of other volts",
    "iec-cabin: circuits of which the plan says nothing, for it is no more than recommended",
    "circuits whose maker of the source forbids it",
  ],
  sources: [
    { cite: cite("nfpa-70-2023", "210.12", "memory"), sets: ["us-cabin"] },
    { cite: cite("iec-60364-4-42", "421.7", "memory"), sets: ["iec-cabin"] },
  ],
  messages: {
    none: "{place} leads to outlets in a room to live in, and nothing that opens on arcs lies ahead of it",
  },
  cures: ["arc-fault-guard"],
  examples: {
    good: [
      { says: "one that opens on arcs", plan: room(", arc fault: yes") },
      { says: "its maker forbids it behind the waveform", plan: room(", arc fault: excluded") },
      { says: "out of doors", plan: room("", { zone: "outside" }) },
      { says: "a cabin of 230 V that says nothing", plan: room("", { set: "iec-cabin 2009", volts: "230 V" }) },
      { says: "a boat", plan: room("", { set: "us-small-craft" }) },
    ],
    bad: [
      { says: "an outlet in a room", plan: room(""), fails: "none", about: "circuits.W23" },
      { says: "nobody knows", plan: room(", arc fault: unknown"), fails: "cannot tell", about: "circuits.W23" },
      { says: "nobody says where it is", plan: room("", { zone: "" }), fails: "cannot tell", about: "circuits.W23" },
      {
        says: "stated to be without, where it is recommended",
        plan: room(", arc fault: no", { set: "iec-cabin 2009", volts: "230 V" }),
        fails: "none",
        about: "circuits.W23",
      },
    ],
  },
  judge(build, report) {
    if (!alternates(build, report)) return;
    for (const view of build.circuits) {
      const outlets = outletsOn(build, view);
      if (view.circuit.current === "AC" && outlets.length > 0) judgeCircuit(build, view, outlets, report);
    }
  },
});

/** Outlets that a circuit ends at or is looped on to. */
const outletsOn = (build: Build, { circuit }: CircuitView): readonly string[] => {
  const parts = new Set([circuit.to.part, circuit.from.part, ...circuit.draws]);
  return [...parts].filter((id) => build.part(id)?.part.traits.outlet === true);
};

function judgeCircuit(build: Build, view: CircuitView, outlets: readonly string[], report: Report<"none">): void {
  const { subject, circuit, supply, design } = view;
  const { set } = subject;
  const fact = view.plan?.facts["arc fault"];
  const ratings = design.devices.flatMap((d) => d.ratingA ?? []);
  // Of a split supply each line is half of it to neutral; without a neutral all of it lies between them.
  const toNeutral = supply === undefined ? 0 : supply.cores.includes("L2") ? supply.nominal / 2 : supply.nominal;
  const isAmerican =
    circuit.conductors.some((c) => c.fn === "N") && toNeutral >= AMERICAN[0] && toNeutral <= AMERICAN[1];
  if (set !== "us-cabin" && set !== "iec-cabin") report.notApplicable(subject, "its rule set does not ask for it");
  else if (fact?.value === true) report.pass(subject);
  else if (fact?.value === "excluded") report.notApplicable(subject, "the maker of what feeds it forbids it");
  else if (set === "us-cabin" && (!isAmerican || ratings.some((a) => a > LARGEST)))
    report.notApplicable(subject, "it is no circuit of 120 V and at most 20 A");
  else if (set === "iec-cabin" && fact === undefined)
    report.notApplicable(subject, "it is recommended, and the plan says nothing of it");
  else {
    const places = outlets.map((id) => kindsAt(build, view, id));
    if (places.every((kinds) => kinds?.some((k) => NO_ROOM.has(k)) === true))
      report.notApplicable(subject, "its outlets are in no room to live in");
    else if (isUnknown(fact)) report.cannotTell(subject, [needed("whether its breaker opens on arcs", subject)]);
    else if (places.some((kinds) => kinds?.some((k) => NO_ROOM.has(k)) === false)) report.fail(subject, "none");
    else report.cannotTell(subject, [needed("in what kind of zone its outlets are", subject)]);
  }
}

/** Kinds of the zones of an outlet's place, else of the zone in which its circuit ends; null: the plan names neither. */
function kindsAt(build: Build, { run }: CircuitView, outlet: string): readonly string[] | null {
  const own = zonesOfPlace(build, build.part(outlet)?.plan);
  if (own.length > 0) return own.flatMap((z) => z.kinds);
  const last = run.stretches.at(-1)?.zone;
  return build.system.zones.find((z) => z.id === last)?.kinds ?? null;
}
