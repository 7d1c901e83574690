import { ambientShare, deviceFamily, type DeviceFamilyId } from "../../device/index.ts";
import { cite } from "../../explain/index.ts";
import { known } from "../../plan/index.ts";
import { airAt } from "../battery/air-at.ts";
import type { Build, CircuitView, PartView } from "../build.ts";
import { figure } from "../figure.ts";
import { below, needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import type { Guard } from "./guards.ts";
import { whyNotAsked } from "./not-asked.ts";

/** °C: in no more than this a device carries what its label says; the most at which breakers are set. */
const COOL = 40;

const hot = (family: string, rated: number, air: string): string =>
  `parts:\n  F1: { kind: fuse, family: ${family}, rated: ${rated} A, ambient: ${air} }\n  heater: { kind: load, running: 30 A }\ncircuits:\n  W20: { path: BP → heater, length: 2 m, wire: 16 mm², fuse: F1 }`;

export const heatSappedDevice = defineRule({
  id: "protection/heat-sapped-device",
  title: "Heat-sapped device",
  severity: "should",
  danger: "a device that heat has weakened opens on hot days only, and nobody finds out why",
  why: `Fuses and thermal breakers open by heat, so in hot air they open at less. Where the air around a device is above 40 °C the current that flows for
    long in it is held against its rating times the share that its family keeps there. The air is that of the device, of the part that it stands at,
    or of the zones of a run that lies in hot air from end to end.`,
  silent: [
    "devices in air of 40 °C or less",
    "breakers that open by a magnet alone, which heat does not weaken",
    "alternating-current circuits, which are not studied yet; circuits without a device of their own; the main cable of a starter",
  ],
  alternating: true,
  sources: [
    { cite: cite("46-cfr-183", "183.380(d)", "read"), sets: ["us-small-craft"] },
    { cite: cite("data-sheets", "derating of fuses by ambient", "article") },
  ],
  messages: {
    sapped:
      "{place} carries {measured} for long ({state}); in air of {air} its {device} of {rating} keeps {share} of that, {limit}",
  },
  cures: ["larger-device", "cooler-place", "device-made-for-it"],
  examples: {
    good: [
      { says: "cool air", plan: hot("large blade fuse", 40, "30 °C") },
      { says: "enough is left of it", plan: hot("large blade fuse", 50, "60 °C") },
    ],
    bad: [
      {
        says: "a fuse beside the exhaust",
        plan: hot("large blade fuse", 40, "85 °C").replace("running: 30 A", "running: 31 A"),
        fails: "sapped",
        about: "circuits.W20",
      },
      {
        says: "no curve is published of its kind",
        plan: hot("class T", 50, "60 °C"),
        fails: "cannot tell",
        about: "circuits.W20",
      },
    ],
  },
  judge(build, report) {
    for (const view of build.circuits) {
      const c = whyNotAsked(build, view);
      if (typeof c === "string") report.notApplicable(view.subject, c);
      else if (c.untold) report.notApplicable(view.subject, "whether it has a device is not known");
      else if (c.guards.length === 0) report.notApplicable(view.subject, "it has no device of its own");
      else for (const guard of c.guards) judgeDevice(build, view, guard, report);
    }
  },
});

function judgeDevice(build: Build, view: CircuitView, guard: Guard, report: Report<"sapped">): void {
  const { subject, design } = view;
  const air = airAround(build, view, guard);
  if (air === "unknown" || air.high <= COOL) {
    if (air === "unknown") report.cannotTell(subject, [needed("the air around its device", subject)]);
    else report.notApplicable(subject, "the air around its device is no hotter than 40 °C");
    return;
  }
  const family = guard.placed?.family ?? guard.family;
  if (family !== null && opensByMagnet(family)) {
    report.notApplicable(subject, "it opens by a magnet, which heat does not weaken");
    return;
  }
  const share = family === null ? null : ambientShare(family, air.high);
  const steady = design.steadyA;
  // Whatever its curve, nothing is left to carry, or nothing flows.
  if (steady === 0) report.pass(subject);
  else if (share === null || steady === null || guard.rating === null) {
    report.cannotTell(subject, [
      share === null
        ? needed(`what its ${family === null ? "device" : deviceFamily(family).name} keeps in hot air`, subject)
        : needed(steady === null ? "its current" : "the rating of its device", subject),
    ]);
  } else {
    const limit = guard.rating.low * share.value;
    const said = { measured: steady, limit, unit: "A", margin: below(steady, limit), state: design.steadyIn } as const;
    if (steady <= limit) report.pass(subject, said);
    else
      report.fail(subject, "sapped", {
        ...said,
        trust: share.trust,
        words: {
          air: figure(air.high, "°C"),
          device: family === null ? "device" : deviceFamily(family).name,
          rating: figure(guard.rating.low, "A"),
          share: figure(share.value, "share"),
        },
      });
  }
}

const opensByMagnet = (family: DeviceFamilyId): boolean => family === "hydraulic_breaker";

/** The hottest air around a device. */
function airAround(
  build: Build,
  { circuit, run }: CircuitView,
  { part, end, metres }: Guard,
): { high: number } | "unknown" {
  const own = part === null ? undefined : build.part(part);
  const told = own === undefined ? undefined : airOf(build, own);
  if (told !== undefined) return told;
  const beside = metres.high === 0 ? build.part(circuit[end].part) : undefined;
  const there = beside === undefined ? undefined : airOf(build, beside);
  if (there !== undefined) return there;
  const zones = run.stretches.map(({ zone }) => build.system.zones.find((z) => z.id === zone)?.ambient?.high);
  const coolest = Math.min(...zones.map((high) => high ?? build.system.ambient.high));
  return { high: Number.isFinite(coolest) ? coolest : build.system.ambient.high };
}

/** The air where a part sits, where the plan says anything of it. */
function airOf(build: Build, view: PartView): { high: number } | "unknown" | undefined {
  const { plan } = view;
  if (plan?.facts.ambient?.value === "unknown") return "unknown";
  const air = airAt(build, view);
  return plan?.facts.ambient === undefined && air.zone === null && known(plan?.facts.in) === undefined
    ? undefined
    : { high: air.highest };
}
