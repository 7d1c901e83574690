import { weakestTrust } from "../explain/index.ts";
import { greatestOpeningTime } from "../device/index.ts";
import {
  besideLive,
  boatGround,
  byHeat,
  equipmentGround,
  protectiveK,
  type ProtectiveArea,
} from "../protect/earth-fault/protective-size.ts";
import { makeOf } from "./ladder.ts";
import { protectiveInsulation } from "./study-earth-faults-metal.ts";
import type { EarthFault, ProtectiveJudged } from "./study-earth-faults-shapes.ts";
import type { EarthStudying } from "./study-earth-faults-feeding.ts";

/** Printed areas are rounded. */
const EDGE = 1e-3;

/**
 * Judges the protective conductor of a circuit by its set's table, and where the set takes that instead, by the heat of its worst fault.
 *
 * Knows nothing of live conductors that were enlarged for volts behind a device: what ampacity alone would ask is not in the study.
 */
export function judgeProtective(
  studying: EarthStudying,
  index: number,
  faults: readonly EarthFault[],
): ProtectiveJudged {
  const { system, sizes, rules, finder } = studying;
  const circuit = system.circuits[index];
  const size = sizes[index] ?? null;
  const rule = rules[index]?.protective ?? null;
  const head = {
    liveMm2: size?.live.areaMm2 ?? null,
    areaMm2: size?.protective.areaMm2 ?? null,
    label: size?.protective.label ?? null,
    isTold: size?.isProtectiveTold ?? false,
  };
  const none = { ...head, byTable: null, byHeat: null } as const;
  if (circuit === undefined || rule === null || !circuit.conductors.some(({ role }) => role === "protective"))
    return { ...none, outcome: "not asked", missing: null };
  if (size === null) return { ...none, outcome: "cannot tell", missing: "size" };
  const live = size.live.areaMm2;
  const area = size.protective.areaMm2;
  const own = finder.inCircuit(index).flatMap((d) => finder.devices[d] ?? []);
  const rating =
    own.length === 0 || own.some((d) => d.rating === null) ? null : Math.max(...own.map((d) => d.rating ?? 0));
  const metal = makeOf(circuit).metal;
  const byTable: ProtectiveArea | null =
    rule.by === "live size"
      ? { ...besideLive(live), source: rule.source }
      : rating === null
        ? null
        : rule.by === "as live"
          ? boatGround(rating, live)
          : equipmentGround({ rating, metal, liveMm2: live, leastLiveMm2: null });
  const paper = (found: ProtectiveArea | null): ProtectiveJudged["byTable"] =>
    found === null ? null : { areaMm2: found.areaMm2, says: found.says, trust: found.trust, source: found.source };
  const suits = (need: ProtectiveArea | null): boolean => need !== null && area >= need.areaMm2 * (1 - EDGE);
  // As thick as the live conductors is enough in every set; heat is asked only of what the table does not allow.
  const isByTable = area >= live * (1 - EDGE) || suits(byTable);
  const heat = isByTable || rule.by !== "live size" ? null : heatOf(studying, index, faults);
  const answers = { ...head, byTable: paper(byTable), byHeat: paper(heat) } as const;
  if (isByTable || suits(heat)) return { ...answers, outcome: "enough", missing: null };
  if (byTable === null) return { ...answers, outcome: "cannot tell", missing: "device" };
  if (rule.by === "live size" && heat === null) return { ...answers, outcome: "cannot tell", missing: "fault" };
  return { ...answers, outcome: "too thin", missing: null };
}

/** Below this the energy of a device counts, which is less than this time of full current. */
const SHORTEST = 0.1;

/** What the heat of the worst fault asks; null: a fault or the time of its device is not known. */
function heatOf(
  { system, finder }: EarthStudying,
  index: number,
  faults: readonly EarthFault[],
): ProtectiveArea | null {
  const circuit = system.circuits[index];
  const closed = faults.filter((f) => f.loop === "closed");
  if (circuit === undefined || closed.length === 0) return null;
  const k = protectiveK(makeOf(circuit).metal, protectiveInsulation(circuit), "in cable");
  if (k === null) return null;
  let worst = 0;
  for (const { least, greatest, devices } of closed) {
    if (least === null || greatest === null) return null;
    const told = devices
      .flatMap((d) => finder.devices[d] ?? [])
      .filter((d) => d.rating !== null && d.families.length > 0);
    for (const amps of [least, greatest]) {
      const times = told.flatMap((d) => {
        const all = d.families.map((family) => greatestOpeningTime(family, d.rating ?? 0, amps));
        return all.some((t) => t === null) ? [] : [Math.max(...all.map((t) => t?.value ?? Infinity))];
      });
      if (times.length === 0) return null;
      worst = Math.max(worst, amps ** 2 * Math.max(SHORTEST, Math.min(...times)));
    }
  }
  return byHeat({ i2t: worst, k: k.value, trust: weakestTrust(k.trust, "derived") });
}
