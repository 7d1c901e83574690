import { deviceFamily } from "../device/index.ts";
import type { BareEnd, DeviceDesign } from "./design.ts";
import { mostAllowedAt } from "./devices-allow.ts";
import type { CircuitModel } from "./model.ts";
import type { NoDevice, PlacedDevice } from "./place-devices.ts";
import { guardedReturn } from "./return-in-words.ts";
import type { Settled } from "./settled.ts";

/** The devices of a circuit as the design lists them, and the ends that have none, each with its reason. */
export function printDevices(
  settled: Settled,
  c: CircuitModel,
  i: number,
): { devices: DeviceDesign[]; bareEnds: BareEnd[] } {
  const own = settled.devices.circuits[i];
  if (own === undefined) return { devices: [], bareEnds: [] };
  const { rungs } = c;
  const devices = own.devices.map((d: PlacedDevice): DeviceDesign => {
    const family = d.family === null ? null : deviceFamily(d.family);
    return {
      end: d.end,
      at: d.way === undefined ? d.part : `${d.part}:${d.way}`,
      by: d.given === null ? "proposed" : "given",
      kind: family?.kind ?? d.given?.kind ?? "fuse",
      ratingA: d.rating,
      family: d.family,
      familyName: family?.name ?? null,
      leastA: d.least,
      mostA: rungs === null ? null : mostAllowedAt(c, rungs, settled.chosen.rungs[i] ?? 0, d.family),
      distanceM: d.distance,
    };
  });
  const bareEnds = (["from", "to"] as const).flatMap((end): BareEnd[] => {
    const why = own[end];
    return why === null || why.why === "no source" || why.why === "given so" ? [] : [{ end, why: inWords(why) }];
  });
  const back = guardedReturn(settled, c, i);
  return { devices, bareEnds: back === null ? bareEnds : [...bareEnds, { end: "from", why: back }] };
}

function inWords(why: NoDevice): string {
  const a = (amps: number): string => `${Number(amps.toPrecision(3))} A`;
  switch (why.why) {
    case "self-limited":
      return `only self-limited sources reach it, ${a(why.amps)} together`;
    case "device within reach":
      return `the device at its other end stands within ${Number(why.limit.toPrecision(3))} m of the source`;
    case "rated for the output":
      return `it carries the whole rated output, ${a(why.amps)}`;
    case "guarded from behind":
      return `guarded by what is behind it, ${a(why.amps)} together`;
    case "link between units":
      return "a link between units of one string";
    case "no source":
      return "no source reaches it";
    case "given so":
      return "as the plan gives it";
  }
}
