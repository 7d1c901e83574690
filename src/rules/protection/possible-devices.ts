import { deviceFamilies } from "../../device/index.ts";
import type { EndFaults, FaultDevice } from "../../size/index.ts";
import type { Build } from "../build.ts";
import type { Needed } from "../finding.ts";
import { needed } from "../report.ts";
import { studiedDevices, type StudiedDevice } from "./fault-of-device.ts";
import { knownDevice, type KnownDevice } from "./opens-in-time.ts";

/** What a device of the fault study can be. */
export interface PossibleDevice {
  /** One where the plan says what it is; of a fuse of no stated kind each that is on sale with its rating; none: nothing is known of it. */
  readonly kinds: readonly KnownDevice[];
  /** The fact that would tell; null: its kind is stated, or no better guess than the usual one. */
  readonly needs: Needed | null;
}

/** Of a fuse that many circuits share its kind is asked for once. */
export const KIND_ASKED_THERE = "the kind of a fuse ahead of it is not known: it is asked for there";

const known = new WeakMap<Build, PossibleDevice[]>();

/** What a device of the study's list can be. */
export function possibleDevice(build: Build, study: EndFaults, index: number): PossibleDevice {
  let list = known.get(build);
  if (list === undefined) {
    const studiedAt = new Map(studiedDevices(build).map((s) => [s.index, s]));
    list = study.devices.map((device, at) => whatItCanBe(device, studiedAt.get(at)));
    known.set(build, list);
  }
  return list[index] ?? NOTHING_KNOWN;
}

const NOTHING_KNOWN: PossibleDevice = { kinds: [], needs: null };

function whatItCanBe(device: FaultDevice, studied: StudiedDevice | undefined): PossibleDevice {
  const own = knownDevice(device);
  const kind = studied?.placed?.given?.kind ?? studied?.part?.part.device?.kind;
  const { rating } = device;
  if (studied === undefined || studied.isNamed || kind !== "fuse" || rating === null) {
    return { kinds: own === null ? [] : [own], needs: null };
  }
  const kinds = deviceFamilies
    .filter((f) => f.kind === "fuse" && f.supplies.includes("DC") && f.standardRatings.some((r) => r === rating))
    .map(({ id }) => ({ family: id, rating }));
  return { kinds, needs: needed("the kind of its fuse", studied.subject) };
}
