import type { Edit, EditValue } from "../../plan/text/index.ts";
import { chooseDevice, type DevicePlace } from "../../protect/index.ts";
import type { CircuitView } from "../../rules/index.ts";
import type { Case, Move, Proposal } from "../case.ts";
import { devicesIn, deviceWords, makerAllows, ratingsFor } from "../written-devices.ts";
import { put, textsOf } from "../write.ts";

/** So many ratings are tried at each end. */
const RATINGS = 3;
/** So many circuits are looked at beside the case's own. */
const OTHERS = 6;

/** A device at the end of a conductor that a source feeds: of the circuit itself first, then of those that bring the current to it. */
export const deviceAtSource: Move = (at) => {
  const own = at.circuits.flatMap((c) => {
    const ends = at.end === null ? (["from", "to"] as const) : [at.end];
    const each = ends.map((end) => deviceAt(at, c, [end]));
    return at.end === null ? [...each, deviceAt(at, c, ["from", "to"])] : each;
  });
  const others = sourceLeads(at).map(({ circuit, end }) => deviceAt(at, circuit, [end]));
  return [...own, ...others].filter((series) => series.length > 0);
};

/** A fuse at some ends of a circuit, beside the devices that it has. */
function deviceAt(at: Case, c: CircuitView, ends: readonly ("from" | "to")[]): readonly Proposal[] {
  const { circuit, design } = c;
  const there = devicesIn(at, c);
  const free = ends.filter((end) => !there.some((d) => d.end === end));
  if (c.model === null || circuit.devices === "unknown" || free.length < ends.length) return [];
  const path = ["circuits", c.id, "fuse"];
  const kept =
    circuit.devices === "propose"
      ? there.map((d) => deviceWords(d.ratingA ?? 0, d.family, circuit[d.end].part))
      : textsOf(at.document, path).filter((words) => !/^(?:none|no|fuse)$/i.test(words.trim()));
  const steady = design.steadyA ?? 0;
  const maker = makerAllows(at.build, c, ends[0] ?? "from");
  const found = chooseDevice(placeOf(at, circuit[ends[0] ?? "from"].part), {
    steadyAmps: steady,
    start: null,
    volts: c.supply?.highestVolts ?? 14.6,
    ...(maker === null ? {} : { atMost: maker }),
  });
  if (found === null) return [];
  const family = { family: found.family, kind: "fuse", named: true } as const;
  const most = Math.min(design.ampacityA ?? Infinity, maker ?? Infinity);
  const ratings = ratingsFor(family).filter((amps) => amps >= found.rating);
  const within = ratings.filter((amps) => amps <= most);
  return (within.length > 0 ? within : ratings).slice(0, RATINGS).map((amps): Proposal => {
    const words = [...kept, ...ends.map((end) => deviceWords(amps, found.family, circuit[end].part))];
    const value: EditValue = words.length === 1 ? (words[0] ?? "") : words;
    const edit: Edit = put(at.document, path, value);
    return { edits: [edit] };
  });
}

function placeOf({ build }: Case, id: string): DevicePlace {
  const part = build.part(id);
  const store = part?.elements.find((e) => e.is === "store");
  return part?.part.traits.store === true
    ? { at: "store", faultAmps: store?.is === "store" ? store.shortCircuitAmps.high : 0 }
    : { at: "elsewhere" };
}

/** Ends at sources, without a device, of the circuits around those of a case. */
function sourceLeads({ build, circuits }: Case): readonly { circuit: CircuitView; end: "from" | "to" }[] {
  const seen = new Set(circuits);
  let parts = new Set(circuits.flatMap(({ circuit: c }) => [c.from.part, c.to.part]));
  const found: { circuit: CircuitView; end: "from" | "to" }[] = [];
  while (parts.size > 0 && found.length < OTHERS) {
    const next = new Set<string>();
    for (const c of build.circuits) {
      const { from, to } = c.circuit;
      if (seen.has(c) || c.model === null || !(parts.has(from.part) || parts.has(to.part))) continue;
      seen.add(c);
      for (const [end, part] of [
        ["from", from.part],
        ["to", to.part],
      ] as const) {
        next.add(part);
        const traits = build.part(part)?.part.traits;
        const isSource = traits?.store === true || traits?.charges === true;
        if (isSource && c.devices?.devices.some((d) => d.end === end) !== true) found.push({ circuit: c, end });
      }
    }
    parts = next;
  }
  return found.slice(0, OTHERS);
}
