import { deviceFamily, greatestVolts } from "../../device/index.ts";
import { cite, takeCell } from "../../explain/index.ts";
import { interruptMinimumByCca } from "../../reference/interrupt-minimum-by-cca.ts";
import { studyEnds } from "../../size/index.ts";
import type { Build, PartView } from "../build.ts";
import { figure } from "../figure.ts";
import { below, needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, saysFigure, type Stated } from "../stated.ts";
import { studiedDevices, toBreak, type StudiedDevice } from "./fault-of-device.ts";
import { guardsOf, type Span } from "./guards.ts";

const bank = (device: string, more = ""): string =>
  `parts:\n  B1: { kind: battery, chemistry: LFP, nominal: 12.8 V, capacity: 200 Ah, short-circuit: 4 kA, vents: { to: outside }, held down: yes, posts covered: yes }\n${more}circuits:\n  W01: { path: B1 → SW1, length: 0.8 m, wire: 50 mm², sheathed: yes, fuse: ${device} }`;

/** A, and the direct volts that it is stated at: what E-11 accepts where nobody declares what a battery gives. */
const STRONG = { amps: 20_000, volts: 125 };

/** No charger, alternator or converter of boats, vans and cabins gives more into a fault, A: common practice. */
const LARGEST = 500;

export const weakInterruptRating = defineRule({
  id: "protection/weak-interrupt-rating",
  title: "Weak interrupt rating",
  severity: { otherwise: "must", sets: { "vehicle-practice": "should" } },
  danger: "a fuse that cannot break what comes explodes, or stays closed and burns on",
  why: `A device breaks, at the volts that can stand across it, the greatest current that a short right behind it draws: cold conductors, full and warm
    batteries, everything that can push at once, and every metre and device before it counted. Batteries in parallel add, batteries in series do not.
    What is marked on the part wins; else the usual grade of its family counts. Of devices in the ways of a board that nobody named that grade can pass, and where
    it is too little the board has to say what they break. On American boats a breaker may follow the table by cranking amperes
    behind flooded batteries, and 20 kA at 125 V is enough for batteries that declare nothing.`,
  silent: [
    "alternating current, which is not studied yet",
    "devices that no battery and no charger reaches",
    "devices for alternating current alone: protection/ac-only-device-on-dc",
    "a breaker with which its maker has tested the device ahead of it: that one breaks what it cannot",
  ],
  sources: [
    { cite: cite("abyc-e-11", "Table V.A, 11.10.1.3", "article"), sets: ["us-small-craft"] },
    { cite: cite("nfpa-70-2023", "110.9", "memory"), sets: ["us-cabin", "us-rv"] },
    { cite: cite("iec-60364-4-43", "434.5.1", "read") },
  ],
  messages: {
    weak: "{place}: a short behind its {device} draws {measured}, and it breaks {limit} at {volts}",
    noVolts: "{place}: a short behind its {device} draws {measured}, and no such device breaks anything at {volts}",
  },
  cures: ["device-made-for-it", "higher-interrupt"],
  examples: {
    good: [
      { says: "class T at a stiff bank", plan: bank("150 A class T at B1") },
      {
        says: "a marking that says more than is usual",
        plan: bank("F1", "  F1: { kind: fuse, family: strip fuse, rated: 150 A, interrupt: 10 kA }\n"),
      },
      {
        says: "a blade fuse behind metres of thin wire",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 2.5 mm², breaker: 10 A at PNL, fuse: 5 A blade at lamp }",
      },
    ],
    bad: [
      {
        says: "a strip fuse at a stiff bank",
        plan: bank("150 A strip fuse at B1"),
        fails: "weak",
        about: "circuits.W01",
      },
      {
        says: "a blade fuse at 48 V",
        plan: "systems:\n  DC: { kind: DC, nominal: 48 V, return: BN }\nparts:\n  B1: { kind: battery, chemistry: LFP, nominal: 51.2 V, capacity: 100 Ah, short-circuit: 3 kA }\n  lamp: { kind: light, running: 2 A }\ncircuits:\n  W01: { path: B1 → SW1, length: 0.8 m, sheathed: yes, fuse: 100 A class T at B1 }\n  W04: { path: BP → PNL, length: 1.5 m, fuse: 40 A class T at BP }\n  W10: { path: BP → lamp, length: 4 m, fuse: 5 A blade at BP }\n  W11: { path: BP → fridge, length: 4 m, fuse: 10 A class T at BP }",
        fails: "noVolts",
        about: "circuits.W10",
      },
      {
        says: "nobody can read the marking",
        plan: bank("F1", "  F1: { kind: fuse, family: strip fuse, rated: 150 A, interrupt: unknown }\n"),
        fails: "cannot tell",
        about: "circuits.W01",
      },
    ],
  },
  judge(build, report) {
    for (const view of build.circuits)
      if (view.model === null) report.notApplicable(view.subject, "alternating current is not studied yet");
    for (const studied of studiedDevices(build)) judgeOne(build, studied, report);
  },
});

/** What a device breaks: amps; nothing at these volts; or not known. */
type Breaks = { readonly amps: Span; readonly upTo: number } | "nothing" | "unknown";

function judgeOne(build: Build, studied: StudiedDevice, report: Report<"weak" | "noVolts">): void {
  const { subject, device, part, index, name } = studied;
  const study = studyEnds(build.settled);
  const amps = toBreak(study, index);
  const unknown = study.deviceFaults[index]?.unknown ?? [];
  const unbounded = unknown.map((id) => needed(`how much ${id} gives into a short`, `parts.${id}`));
  // A battery of which nothing is known has no bound; a charger or an alternator has that of its kind.
  const isStore = (id: string): boolean => study.stores.some((s) => s.part === id);
  const spare = unknown.reduce((sum, id) => sum + (isStore(id) ? Infinity : LARGEST), 0);
  if (amps === null) {
    if (unbounded.length > 0) report.cannotTell(subject, unbounded);
    else report.notApplicable(subject, "no short behind it draws anything");
    return;
  }
  const facts = part === undefined ? {} : factsOf(part);
  if (facts["backed up by"] !== undefined) {
    report.notApplicable(subject, "its maker has tested it with the device ahead, which breaks what it cannot");
    return;
  }
  if (
    device.family !== null &&
    !deviceFamily(device.family).supplies.includes("DC") &&
    facts["interrupt"] === undefined
  ) {
    report.notApplicable(subject, "it is made for alternating current: protection/ac-only-device-on-dc");
    return;
  }
  const breaks = breaking(build, studied);
  // A device that is marked need not say what family it is of.
  const isSaid = studied.isNamed || markedOn(build, studied) !== undefined;
  const needs = [
    ...(breaks === "unknown" || !isSaid || (typeof breaks === "object" && breaks.amps.low < breaks.amps.high)
      ? [needed(`what its ${name} breaks at ${Number(device.volts.toFixed(1))} V`, part?.subject ?? subject)]
      : []),
  ];
  const board = unstatedBoard(build, studied);
  const trust = device.interrupt?.trust ?? null;
  const volts = figure(device.volts, "V");
  const said = (limit: number, measured = amps.high) =>
    ({ measured, limit, unit: "A", margin: below(measured, limit), trust }) as const;
  const limit = typeof breaks === "object" ? breaks.amps : { low: 0, high: breaks === "nothing" ? 0 : Infinity };
  const accepted = acceptedOnBoats(build, studied, breaks);
  if (amps.high + spare <= limit.low) {
    report.pass(subject, said(limit.low));
    return;
  }
  if (accepted !== null) {
    report.pass(subject, { measured: limit.low, limit: accepted, unit: "A", margin: limit.low / accepted - 1 });
    return;
  }
  if (breaks === "nothing" && isSaid && amps.low > 0) {
    report.fail(subject, "noVolts", { measured: amps.low, unit: "A", trust, words: { device: name, volts } });
  } else if (amps.low > limit.high && board !== null) {
    // Its grade is what is usual, and no person's figure: the board may well hold others.
    const fact = `what its ${board.part.wayDevice ?? "breaker"}s break at ${Number(device.volts.toFixed(1))} V (\`interrupt\`)`;
    report.cannotTell(subject, [needed(fact, board.subject)]);
  } else if (amps.low > limit.high && isSaid) {
    report.fail(subject, "weak", { ...said(limit.high, amps.low), words: { device: name, volts } });
  } else {
    const declares = study.stores.filter((s) => s.best.amps.low < s.best.amps.high && !unknown.includes(s.part));
    const doubts = declares.map((s) => needed(`the short-circuit current of ${s.part}`, `parts.${s.part}`));
    const isUnsure = amps.low < amps.high && amps.low <= limit.high && amps.high > limit.low;
    report.cannotTell(subject, [...unbounded, ...(isUnsure && needs.length === 0 ? doubts : needs)]);
  }
}

/** What stands on the part; else the usual grade of its family. */
export function breaking(build: Build, studied: StudiedDevice): Breaks {
  const { device, part } = studied;
  const facts = part === undefined ? {} : factsOf(part);
  const marked = markedOn(build, studied);
  const volts = saysFigure(facts, "DC volts");
  if (marked === "unknown") return "unknown";
  if (marked !== undefined) return { amps: marked, upTo: device.volts };
  const { interrupt } = device;
  if (interrupt === null || interrupt.state === "not known") return "unknown";
  if (interrupt.state === "too many volts") {
    // A part that is made for more than is usual of its family says so; what it breaks there it does not.
    return typeof volts === "object" && volts.high >= device.volts ? "unknown" : "nothing";
  }
  const amps = interrupt.current ?? 0;
  return { amps: { low: amps, high: amps }, upTo: interrupt.upToVolts ?? device.volts };
}

/** What is marked on a device; on a board that counts for each device in its ways that says nothing of itself. */
function markedOn(build: Build, { device, part }: StudiedDevice): Stated<Span> {
  const board = device.way === undefined ? undefined : build.part(device.part);
  const own = part === undefined ? undefined : saysFigure(factsOf(part), "interrupt");
  return own ?? (board === undefined ? undefined : saysFigure(factsOf(board), "interrupt"));
}

/** The board in whose way a device stands that no person named, where neither says what it breaks. */
function unstatedBoard(build: Build, studied: StudiedDevice): PartView | null {
  const { device, placed } = studied;
  if (device.way === undefined || placed?.given !== null || markedOn(build, studied) !== undefined) return null;
  return build.part(device.part) ?? null;
}

/** What American boats ask of a device in place of the true current, A; null: nothing else, or it does not break that. */
function acceptedOnBoats(build: Build, studied: StudiedDevice, breaks: Breaks): number | null {
  const { device, subject, placed, part } = studied;
  if (subject.set !== "us-small-craft" || typeof breaks !== "object") return null;
  const { stores } = build.settled.model.grid;
  const units = stores.map(({ element }) => element);
  const { family, rating } = device;
  const upTo = family === null ? 0 : (greatestVolts(family, rating === null ? {} : { rating }) ?? 0);
  const isStrong = breaks.amps.low >= STRONG.amps && Math.max(breaks.upTo, upTo) >= STRONG.volts;
  if (isStrong && units.some((s) => s.shortCircuitAmps.origin !== "given" && s.unit.chemistry !== "flooded")) {
    return STRONG.amps;
  }
  const kind = placed?.given?.kind ?? part?.part.device?.kind;
  if (kind !== "breaker" || !units.every((s) => s.unit.chemistry === "flooded")) return null;
  let cranking = 0;
  let hours = 0;
  for (const { unit, strings } of units) {
    if (typeof unit.crankingAmps !== "object") return null;
    cranking += unit.crankingAmps.high * strings;
    hours += typeof unit.capacityCoulombs === "object" ? (unit.capacityCoulombs.high * strings) / 3600 : Infinity;
  }
  if (cranking > 2200 && hours > 500) return null;
  const place = isFirst(build, studied) ? "main" : "branch";
  const nominal = studied.circuit?.supply?.nominal ?? 12;
  const row = interruptMinimumByCca.rows.find(
    (r) => r.place === place && r.systemMaxV >= nominal && cranking <= (r.ccaMax ?? Infinity),
  );
  const asked = row === undefined ? null : takeCell(interruptMinimumByCca, row, "interruptMinA");
  return asked !== null && breaks.amps.low >= asked.value ? asked.value : null;
}

/** Whether no device stands between it and a battery. */
function isFirst(build: Build, { device }: StudiedDevice): boolean {
  const guards = guardsOf(build);
  const edge = guards.grid.edges[device.edge];
  if (edge === undefined) return true;
  const stores = new Set(guards.grid.stores.map((s) => s.element.part));
  return [edge.a, edge.b].some((node) =>
    guards.unguardedSources(node, device.edge).some((source) => stores.has(source)),
  );
}
