import { deviceFamily, deviceResistance, readDeviceFamily, type DeviceFamilyId } from "../device/index.ts";
import { chooseDevice, findPush, type DeviceNeed, type DevicePlace, type Push } from "../protect/index.ts";
import type { GivenDevice } from "../system/index.ts";
import { alternatingPlace, steadyShareOf } from "./alternating-place.ts";
import type { CircuitCurrents } from "./design-currents.ts";
import { settingOf } from "./device-setting.ts";
import { guardEnds, type OpenEnd } from "./guard-ends.ts";
import { guardReturns } from "./guard-returns.ts";
import type { CircuitModel, Model } from "./model.ts";
import type { MustBreak } from "./must-break.ts";
import {
  edgeOf,
  type CircuitDevices,
  type Devices,
  type Draft,
  type End,
  type NoDevice,
  type PlacedDevice,
} from "./placed-device.ts";

export type { CircuitDevices, Devices, NoDevice, PlacedDevice } from "./placed-device.ts";

const ENDS: readonly End[] = ["from", "to"];

/**
 * Proposes a device at each end of each live conductor from which a source can push into it, after `docs/method.md` section 5. Neither the order of the
 * circuits nor the way their paths are written changes the answer.
 *
 * Whether an end is guarded by what stands around it is asked of the least size that the current and strength alone would take, so that the
 * answer does not hang on sizes that are still to be chosen.
 *
 * @param currents of each circuit
 * @param ampacity of that least size, by circuit
 * @param breaks what a device at each end has to break; null: not known yet
 * @param standing devices that stay where they are and get no smaller; absent: none does
 */
export function placeDevices(
  model: Model,
  currents: readonly CircuitCurrents[],
  ampacity: Float64Array,
  standing?: Devices,
  breaks: MustBreak | null = null,
): Devices {
  const { grid } = model;
  const { places, contactRatings, storesAt, lower, pushing, limits } = settingOf(model);
  /** What stands in each edge lets through; Infinity: nothing stands there. */
  const ratingIn = contactRatings.slice();
  const drafts = places.map(({ c, node, edge, way, part }): Draft => ({
    c,
    node,
    edge,
    way,
    part,
    devices: [],
    from: null,
    to: null,
    answersFor: 0,
    unknown: false,
  }));

  const needOf = (c: CircuitModel): DeviceNeed => {
    const now = currents[c.position];
    return {
      steadyAmps: now?.steady ?? 0,
      // Rounding is no start.
      start:
        now !== undefined && now.start > now.steady * (1 + 1e-9)
          ? { amps: now.start, seconds: now.startSeconds }
          : null,
      volts: c.supply?.highestVolts ?? 14.6,
    };
  };
  const stood = (d: Draft, end: End): PlacedDevice | undefined =>
    standing?.circuits[d.c.position]?.devices.find((x) => x.end === end && x.given === null);
  const make = (d: Draft, end: End, at: DevicePlace): PlacedDevice => {
    const place = breaking(at, breaks?.[end][d.c.position] ?? 0);
    const now = currents[d.c.position];
    const before = stood(d, end);
    const made = places[d.c.position]?.made;
    const last = made?.[end];
    // Most needs are what they were in the round before.
    if (
      last !== undefined &&
      last !== null &&
      now !== undefined &&
      last.steady === now.steady &&
      last.start === now.start &&
      last.seconds === now.startSeconds &&
      last.before === before &&
      isSamePlace(last.place, place)
    ) {
      return last.device;
    }
    const need = needOf(d.c);
    const limit = limits[d.c.position]?.[end] ?? null;
    const found = chooseDevice(place, limit === null ? need : { ...need, atMost: limit.amps });
    const way = place.at === "way" || place.at === "alternating" ? d.way[end]?.name : undefined;
    // One that stays must be no smaller, and of a kind that breaks as much.
    const keep = before?.rating != null && before.rating > (found?.rating ?? 0) ? before : null;
    const heldTo = keep === null ? (found?.isHeldDown === true ? limit : null) : keep.heldTo;
    const device: PlacedDevice = {
      end,
      part: d.c.circuit[end].part,
      ...(way === undefined ? {} : { way }),
      given: null,
      rating: keep?.rating ?? found?.rating ?? null,
      family: keep?.family ?? found?.family ?? null,
      ohms: keep?.ohms ?? found?.ohms ?? 0,
      least: Math.max(need.steadyAmps / steadyShareOf(d.c), found?.leastForStart ?? 0),
      ...(heldTo == null ? {} : { heldTo }),
      distance: 0,
    };
    if (made !== undefined && now !== undefined) {
      made[end] = { steady: now.steady, start: now.start, seconds: now.startSeconds, before, place, device };
    }
    return device;
  };
  const put = (d: Draft, device: PlacedDevice): void => {
    d.devices.push(device);
    const edge = edgeOf(d, device);
    if (device.rating !== null && edge >= 0) ratingIn[edge] = Math.min(ratingIn[edge] ?? Infinity, device.rating);
  };

  /** What comes to a node when no device stands anywhere; a branch of a tree changes nothing of it. */
  const bareAt = new Map<number, Push>();
  const bare = (node: number, edge: number): Push => {
    if (model.trees.isTree[edge] === 0) return findPush(grid, model.trees, node, edge, () => undefined);
    // A tree holds no source: what comes to a node of it is what comes to its foot.
    const foot = model.trees.foot[node] ?? node;
    let push = bareAt.get(foot);
    if (push === undefined) bareAt.set(foot, (push = findPush(grid, model.trees, foot, edge, () => undefined)));
    return push;
  };
  const storePlace = (node: number): DevicePlace => {
    const own = storesAt.get(node);
    const others = findPush(grid, model.trees, node, -1, () => undefined).sources.filter((s) => s !== own?.part);
    const behind = grid.stores.reduce(
      (sum, s) => (others.includes(s.element.part) ? sum + s.element.shortCircuitAmps.high : sum),
      0,
    );
    return { at: "store", faultAmps: Math.max(own?.shortCircuitAmps.high ?? 0, behind) };
  };
  const isLink = ({ node }: Draft): boolean =>
    ENDS.every((end) => storesAt.has(node[end]) || lower.has(node[end])) && ENDS.some((end) => lower.has(node[end]));

  // What is given, and what stands in the ways of panels, comes first.
  for (const d of drafts) {
    const { circuit } = d.c;
    if (d.edge.from < 0) continue;
    if (circuit.devices === "unknown") d.unknown = true;
    else if (circuit.devices === "propose") {
      for (const end of ENDS) {
        if (d.way[end] === null) continue;
        put(d, make(d, end, alternatingPlace(d.c) ?? IN_WAYS[d.part[end]?.wayDevice ?? "breaker"]));
      }
    } else {
      d.from = d.to = { why: "given so" };
      for (const given of circuit.devices) {
        const device = givenDevice(d, given, needOf(d.c).steadyAmps);
        if (device.rating === null) d.unknown = true;
        put(d, device);
      }
    }
  }

  // Then the ends that stand on a source or where current divides.
  for (const d of drafts) {
    if (!isOpen(d)) continue;
    if (isLink(d)) {
      d.from = d.to = { why: "link between units" };
      continue;
    }
    for (const end of ENDS) {
      if (d.way[end] !== null) continue;
      const node = d.node[end];
      const other = d.node[end === "from" ? "to" : "from"];
      const divides = d.part[end]?.traits.distributes === true;
      // A circuit that a source stands at the other end of does not start here; the bar is where it arrives.
      const starts = d.c.startsAt[end] && (d.c.radial || !(storesAt.has(other) || pushing.has(other)));
      if (storesAt.has(node)) put(d, make(d, end, storePlace(node)));
      else if (starts && divides) {
        const push = bare(node, d.edge[end]);
        if (push.amps > (ampacity[d.c.position] ?? 0) || stood(d, end) !== undefined) {
          put(d, make(d, end, alternatingPlace(d.c) ?? ELSEWHERE));
        } else d[end] = unguarded(push);
      }
    }
  }

  // Last the ends that are guarded by what then stands around them, or not.
  const open: OpenEnd[] = [];
  for (const d of drafts) {
    if (!isOpen(d)) continue;
    for (const end of ENDS) {
      if (d[end] !== null || d.devices.some((x) => x.end === end)) continue;
      if (model.trees.isTree[d.edge[end]] === 1 && !d.c.startsAt[end]) d[end] = { why: "no source" };
      else {
        open.push({
          d,
          end,
          divides: d.part[end]?.traits.distributes === true,
          device: () => make(d, end, alternatingPlace(d.c) ?? ELSEWHERE),
          stands: stood(d, end) !== undefined,
        });
      }
    }
  }
  guardEnds(model, open, ratingIn, ampacity);
  const returns = guardReturns(model, drafts);

  const ohms = new Float64Array(grid.edges.length);
  const count = new Uint8Array(grid.edges.length);
  for (const d of drafts) {
    for (const device of d.devices) {
      const edge = edgeOf(d, device);
      ohms[edge] = (ohms[edge] ?? 0) + device.ohms;
      if (device.way === undefined) count[edge] = (count[edge] ?? 0) + 1;
    }
  }
  return {
    circuits: drafts.map(({ devices, from, to, answersFor, unknown }, i): CircuitDevices => ({
      devices,
      from,
      to,
      answersFor,
      unknown,
      guards: [],
      guardedBy: [],
      ...returns[i],
    })),
    ohms,
    count,
  };
}

const ELSEWHERE: DevicePlace = { at: "elsewhere" };
const IN_WAYS: Readonly<Record<"fuse" | "breaker", DevicePlace>> = {
  fuse: { at: "way", device: "fuse" },
  breaker: { at: "way", device: "breaker" },
};

/** With what a device there has to break. */
function breaking(place: DevicePlace, amps: number): DevicePlace {
  const most = Math.max(amps, place.faultAmps ?? 0);
  return most === (place.faultAmps ?? 0) ? place : { ...place, faultAmps: most };
}

/** At one end of a circuit only what it has to break can change. */
const isSamePlace = (a: DevicePlace, b: DevicePlace): boolean =>
  a === b || (a.at === b.at && a.faultAmps === b.faultAmps);

function givenDevice(d: Draft, given: GivenDevice, steadyAmps: number): PlacedDevice {
  const { end } = given;
  const way = d.way[end];
  const rating = given.rating === "unknown" ? null : given.rating.high;
  const family =
    given.family === undefined
      ? (alternatingFamily(d.c, given) ?? familyOfGiven(given, way !== null, rating))
      : readDeviceFamily(given.family);
  return {
    end,
    part: d.c.circuit[end].part,
    ...(way === null ? {} : { way: way.name }),
    given,
    rating,
    family,
    ohms: rating === null || family === null ? 0 : deviceResistance(family, rating).hot,
    least: steadyAmps / steadyShareOf(d.c),
    distance: given.distance.high,
  };
}

/** A breaker of alternating current that says no more is of the usual curve. */
function alternatingFamily(c: CircuitModel, given: GivenDevice): DeviceFamilyId | null {
  const place = given.kind === "breaker" ? alternatingPlace(c) : null;
  return place?.at !== "alternating" ? null : place.by === "UL" ? "branch_breaker" : "mcb_C";
}

const isOpen = (d: Draft): boolean => d.edge.from >= 0 && d.c.circuit.devices === "propose" && d.c.rungs !== null;

function unguarded(push: Push): NoDevice {
  if (push.amps === 0) return { why: "no source" };
  return push.sources.every((s) => push.limited.includes(s))
    ? { why: "self-limited", amps: push.amps }
    : { why: "guarded from behind", amps: push.amps };
}

function familyOfGiven(given: GivenDevice, inWay: boolean, rating: number | null): DeviceFamilyId {
  if (given.kind === "breaker") return "thermal_breaker";
  if (inWay || rating === null) return "blade_type_C";
  const most = deviceFamily("blade_type_C").standardRatings.at(-1) ?? 0;
  if (rating <= most) return "blade_type_C";
  return rating <= (deviceFamily("strip_SF30").standardRatings.at(-1) ?? 0) ? "strip_SF30" : "strip_SF51";
}
