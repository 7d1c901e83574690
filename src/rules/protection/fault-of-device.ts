import { deviceFamily, deviceResistance, readDeviceFamily, type DeviceFamilyId } from "../../device/index.ts";
import { studyEnds, type FaultDevice, type EndFaults, type PlacedDevice } from "../../size/index.ts";
import type { Build, CircuitView, PartView, Subject } from "../build.ts";
import type { Span } from "./guards.ts";

/** A device of the fault study with what the plan says of it. */
export interface StudiedDevice {
  /** Its place in the study's list. */
  readonly index: number;
  readonly device: FaultDevice;
  /** The circuit that it stands in, or the part that it is. */
  readonly subject: Subject;
  readonly circuit: CircuitView | null;
  /** Null: a part by itself. */
  readonly placed: PlacedDevice | null;
  /** The part that says more of it. */
  readonly part: PartView | undefined;
  /** The plan says what it is, or it is proposed; else a usual one of its kind is taken. */
  readonly isNamed: boolean;
  /** In words: `blade fuse`, `fuse`. */
  readonly name: string;
}

const known = new WeakMap<Build, readonly StudiedDevice[]>();

/** The devices of a build as the fault study lists them. */
export function studiedDevices(build: Build): readonly StudiedDevice[] {
  let list = known.get(build);
  if (list === undefined) known.set(build, (list = findDevices(build)));
  return list;
}

function findDevices(build: Build): readonly StudiedDevice[] {
  return studyEnds(build.settled).devices.flatMap((device, index): StudiedDevice[] => {
    const circuit = device.circuit === null ? null : (build.circuit(device.circuit) ?? null);
    const placed =
      circuit?.devices?.devices.find(
        (d) => d.end === device.end && d.way === device.way && d.rating === device.rating,
      ) ?? null;
    const partId = circuit === null ? device.part : placed?.given?.part;
    const part = partId === undefined ? undefined : build.part(partId);
    const subject = circuit?.subject ?? part?.subject;
    if (subject === undefined) return [];
    const said = circuit === null ? part?.part.device?.family : placed?.given?.family;
    const isNamed = placed?.given === null || (said !== undefined && readDeviceFamily(said) !== null);
    const kind = placed?.given?.kind ?? part?.part.device?.kind ?? "fuse";
    const name = isNamed && device.family !== null ? deviceFamily(device.family).name : kind;
    return [{ index, device, subject, circuit, placed, part, isNamed, name }];
  });
}

/**
 * The current that a device may have to break, A: that of a fault at its terminals as it comes through the device, which itself is taken as a plain link;
 * over what its sources may give at best. Null: none flows.
 */
export function toBreak(study: EndFaults, index: number): Span | null {
  const fault = study.deviceFaults[index];
  const device = study.devices[index];
  if (fault === undefined || device === undefined || !(fault.prospective > 0)) return null;
  const { greatest, prospective } = fault;
  if (greatest === null) return { low: prospective, high: prospective };
  // A fault on both sides is fed from either; each side comes through it alone.
  const volts = device.volts;
  const own = ownOhms(device.family, device.rating);
  const without = volts / Math.max(volts / greatest.amps.high - own, 1e-6);
  const high = Math.min(prospective, without);
  return { low: (high * greatest.amps.low) / greatest.amps.high, high };
}

const ownOhms = (family: DeviceFamilyId | null, rating: number | null): number =>
  family === null || rating === null ? 0 : (deviceResistance(family, rating).cold ?? 0);
