import { deviceFamilies, type DeviceFamily } from "../../device/index.ts";
import type { Edit } from "../../plan/text/index.ts";
import type { Case, Move, Proposal, Series } from "../case.ts";
import { devicesIn, deviceWords, type WrittenDevice } from "../written-devices.ts";
import { put, takeOff, textOf } from "../write.ts";

/** A device of another make: for the circuit's current and volts, reset by hand. */
export const deviceMadeForIt: Move = (at) => [
  // A device on the way of a path is found by its own name alone.
  ...(at.part?.part.traits.passes === true ? [marks(at, at.part.id, at.part.part.current)] : []),
  ...at.circuits.flatMap((c) =>
    devicesIn(at, c).flatMap((device) => [
      device.part === null ? [] : marks(at, device.part, c.circuit.current),
      otherFamilies(at, device),
    ]),
  ),
];

/** Other marks on a device that is a part: each that is written and could be in the way. */
function marks(at: Case, part: string, current: "DC" | "AC"): Series {
  const { document } = at;
  const should: readonly (readonly [string, string])[] = [
    ["for", current],
    ["reset", "manual"],
    ["polarised", "no"],
    ["made to", "UL 489"],
  ];
  return should.flatMap(([key, value]): Proposal[] => {
    const path = ["parts", part, key];
    const now = textOf(document, path);
    if (now === null || now === value) return [];
    return [{ edits: [put(document, path, value), ...(key === "for" ? anotherFor(at, part) : [])] }];
  });
}

/** Volts that devices are sold for. */
const VOLTS_ON_SALE = [32, 48, 60, 80, 125, 250, 500, 1000];

/** What was marked on the old one for the other current does not hold for the new one. */
function anotherFor({ document, circuits }: Case, part: string): readonly Edit[] {
  const isThere = (key: string): boolean => textOf(document, ["parts", part, key]) !== null;
  const volts = Math.max(0, ...circuits.map((c) => c.supply?.highestVolts ?? 0));
  const enough = VOLTS_ON_SALE.find((v) => v >= volts);
  return [
    ...["AC volts", "made to"].flatMap((key) => takeOff(document, ["parts", part, key])),
    ...(isThere("interrupt") ? [put(document, ["parts", part, "interrupt"], "unknown")] : []),
    ...(enough === undefined ? [] : [put(document, ["parts", part, "DC volts"], `${enough} V`)]),
  ];
}

/** The same rating, or the next, in a family that is made for the circuit. */
function otherFamilies({ document }: Case, device: WrittenDevice): Series {
  const { circuit, family, kind, path, part, end, ratingA, mostA, words } = device;
  if (family === null || ratingA === null || path === null) return [];
  const volts = circuit.supply?.highestVolts ?? 14.6;
  const fits = (f: DeviceFamily): boolean =>
    f.id !== family &&
    f.kind === kind &&
    f.reset !== "self" &&
    f.supplies.includes(circuit.circuit.current) &&
    (circuit.circuit.current === "AC" || (f.dcVolts ?? 0) >= volts);
  return deviceFamilies.filter(fits).flatMap((f): Proposal[] => {
    const amps = f.standardRatings.find((r) => r >= ratingA);
    if (amps === undefined || (amps > ratingA && mostA !== null && amps > mostA)) return [];
    if (part !== null) {
      const rating: readonly Edit[] = amps === ratingA ? [] : [put(document, path, `${amps} A`)];
      return [{ edits: [put(document, ["parts", part, "family"], f.name), ...rating] }];
    }
    if (words === null) return [];
    return [{ edits: [{ do: "set", path, value: deviceWords(amps, f.id, circuit.circuit[end].part) }] }];
  });
}
