import {
  deviceFamilies,
  deviceFamily,
  greatestVolts,
  readDeviceFamily,
  type DeviceFamilyId,
  type DeviceKind,
} from "../../device/index.ts";
import type { SystemPart } from "../../system/index.ts";
import type { Build, CircuitView, Subject } from "../build.ts";
import type { Report } from "../report.ts";
import type { Guard, Span } from "./guards.ts";
import { guardsOf } from "./guards.ts";

/** A protective device or a switch of the direct-current side, with what is known of where it may be used. */
export interface Marked {
  /** The circuit that it is written in, or the part that it is. */
  readonly subject: Subject;
  readonly circuit: CircuitView | null;
  readonly part: SystemPart | null;
  /** Null: a switch. */
  readonly kind: DeviceKind | null;
  /** Null: not stated. */
  readonly family: DeviceFamilyId | null;
  /** Null: not known, or a switch. */
  readonly rating: Span | null;
  /** In words: `blade fuse`, `fuse`, `switch`. */
  readonly name: string;
  /** As it stands in its circuit; null: a part that no circuit names. */
  readonly guard: Guard | null;
}

/** Every device in a line, every device and switch that is a part of its own. Those named in a line are judged there. */
export function markedParts(build: Build): readonly Marked[] {
  let list = known.get(build);
  if (list === undefined) known.set(build, (list = findMarked(build)));
  return list;
}

const known = new WeakMap<Build, readonly Marked[]>();

function findMarked(build: Build): readonly Marked[] {
  const guards = guardsOf(build);
  const named = new Set<string>();
  const marked: Marked[] = [];
  for (const view of build.circuits) {
    for (const g of guards.of(view)?.guards ?? []) {
      if (g.placed === null || (g.placed.given === null && g.rating === null)) continue;
      if (g.part !== null) named.add(g.part);
      marked.push(ofGuard(build, view, g));
    }
  }
  const parts = build.parts.flatMap(({ subject, part, elements, plan }): Marked[] => {
    const isPassed = elements.some((e) => e.is === "contact") && part.supply !== undefined;
    if (part.traits.passes !== true || part.current !== "DC" || !isPassed || named.has(part.id) || plan === undefined)
      return [];
    const { device } = part;
    const family = device?.family === undefined ? null : readDeviceFamily(device.family);
    return [
      {
        subject,
        circuit: null,
        part,
        kind: device?.kind ?? null,
        family,
        rating: device === undefined || device.rating === "unknown" ? null : device.rating,
        name: family === null ? part.kind : deviceFamily(family).name,
        guard: null,
      },
    ];
  });
  return [...marked, ...parts];
}

function ofGuard(build: Build, view: CircuitView, guard: Guard): Marked {
  const { placed, family, rating } = guard;
  const kind = placed?.given?.kind ?? (family === null ? null : deviceFamily(family).kind) ?? "fuse";
  return {
    subject: view.subject,
    circuit: view,
    part: guard.part === null ? null : (build.part(guard.part)?.part ?? null),
    kind,
    family,
    rating,
    name: family === null ? kind : deviceFamily(family).name,
    guard,
  };
}

/** Tells of circuits in which no device is known that it does not apply. */
export function tellUnmarked(build: Build, report: Report<never>): void {
  const guards = guardsOf(build);
  for (const view of build.circuits) {
    const c = guards.of(view);
    const isMarked = c?.guards.some((g) => g.placed !== null && (g.placed.given !== null || g.rating !== null));
    if (view.model === null) report.notApplicable(view.subject, "alternating current is not studied yet");
    else if (c?.untold === true) report.notApplicable(view.subject, "whether it has a device is not known");
    else if (isMarked !== true) report.notApplicable(view.subject, "it has no device of its own");
  }
}

/**
 * Direct volts that a device can open of which only the kind is known: at least those of the least family on sale at its rating; there may be
 * better ones.
 */
export function voltsOfKind(kind: DeviceKind, rating: Span | null): Span {
  let low = Infinity;
  for (const f of deviceFamilies) {
    const isOnSale = rating === null || f.standardRatings.some((r) => r >= rating.low && r <= rating.high);
    if (f.kind !== kind || !f.supplies.includes("DC") || !isOnSale) continue;
    low = Math.min(low, greatestVolts(f.id, rating === null ? {} : { rating: rating.high }) ?? Infinity);
  }
  return { low: Number.isFinite(low) ? low : 0, high: Infinity };
}
