import { deviceFamily, deviceResistance, readDeviceFamily, type DeviceFamilyId } from "../device/index.ts";
import { amps, volts } from "../quantity/index.ts";
import { chooseDevice, findPush, type DeviceFound, type DevicePlace, type Push } from "../protect/index.ts";
import { deviceDistance, deviceLimit, exemptionFor } from "../ruleset/index.ts";
import type { GivenDevice } from "../system/index.ts";
import type { CircuitModel, Model } from "./model.ts";
import type { CircuitCurrents } from "./design-currents.ts";

/** A protective device in a circuit, proposed or given. */
export interface PlacedDevice {
  readonly end: "from" | "to";
  /** Part it stands at, and the way of a panel. */
  readonly part: string;
  readonly way?: string;
  readonly given: GivenDevice | null;
  /** Null: given with a rating that is not known, or nothing on sale is enough. */
  readonly rating: number | null;
  readonly family: DeviceFamilyId | null;
  readonly ohms: number;
  /** Least rating that the load asks for, before standard ratings. */
  readonly least: number;
  /** Metres along the conductor from its end. */
  readonly distance: number;
}

/** Why an end of a conductor that a source can feed has no device of its own. */
export type NoDevice =
  | { readonly why: "no source" }
  | { readonly why: "self-limited"; readonly amps: number }
  | { readonly why: "device within reach"; readonly metres: number; readonly limit: number }
  | { readonly why: "rated for the output"; readonly amps: number }
  | { readonly why: "guarded from behind"; readonly amps: number }
  | { readonly why: "link between units" }
  | { readonly why: "given so" };

export interface CircuitDevices {
  readonly devices: readonly PlacedDevice[];
  readonly from: NoDevice | null;
  readonly to: NoDevice | null;
  /** Amps that its size must answer for, being guarded by devices behind it; 0: it has its own. */
  readonly answersFor: number;
  /** Devices of unknown rating or presence. */
  readonly unknown: boolean;
}

/** Devices of a whole build, and what they do to the edges of the grid. */
export interface Devices {
  readonly circuits: readonly CircuitDevices[];
  readonly ohms: Float64Array;
  /** Devices set into each conductor, each with two joints; those in panel ways have none. */
  readonly count: Uint8Array;
}

/**
 * Proposes a device at each end of each live conductor from which a source can push into it, after `docs/method.md` section 5.
 *
 * Whether an end is guarded by what stands around it is asked of the least size that the current and strength alone would take, so that the
 * answer does not hang on sizes that are still to be chosen.
 *
 * @param currents of each circuit
 * @param ampacity of that least size, by circuit
 */
export function placeDevices(model: Model, currents: readonly CircuitCurrents[], ampacity: Float64Array): Devices {
  const { grid, circuits } = model;
  const ohms = new Float64Array(grid.edges.length);
  const count = new Uint8Array(grid.edges.length);
  const ratingIn = new Map<number, number>();
  const storesAt = new Map(grid.stores.map((s) => [s.plus, s.element]));
  const lower = new Set(grid.stores.map((s) => s.minus));
  const parts = new Map(model.system.parts.map((p) => [p.id, p]));
  const guards = guardContacts(model);
  for (const [edge, rating] of guards) ratingIn.set(edge, rating);
  const deviceIn = (edge: number): number | undefined => ratingIn.get(edge);

  const drafts = circuits.map((c, i): Draft => {
    const live = c.edges.filter((e) => grid.edges[e]?.live === true);
    const first = live[0];
    const last = live.at(-1);
    const fromNode =
      first === undefined ? -1 : grid.nodeOf(c.circuit.conductors[grid.edges[first]?.conductor ?? 0]?.from ?? "");
    const toNode =
      last === undefined ? -1 : grid.nodeOf(c.circuit.conductors[grid.edges[last]?.conductor ?? 0]?.to ?? "");
    return { c, i, first, last, fromNode, toNode, devices: [], from: null, to: null, answersFor: 0, unknown: false };
  });

  const volt = (c: CircuitModel): number => c.supply?.highestVolts ?? 14.6;
  const put = (d: Draft, device: PlacedDevice, edge: number, inWay: boolean): void => {
    d.devices.push(device);
    ohms[edge] = (ohms[edge] ?? 0) + device.ohms;
    if (!inWay) count[edge] = (count[edge] ?? 0) + 1;
    if (device.rating !== null) ratingIn.set(edge, Math.min(ratingIn.get(edge) ?? Infinity, device.rating));
  };
  const needOf = (d: Draft) => {
    const now = currents[d.i];
    return {
      steadyAmps: now?.steady ?? 0,
      start: now !== undefined && now.start > now.steady ? { amps: now.start, seconds: now.startSeconds } : null,
      volts: volt(d.c),
    };
  };
  const propose = (d: Draft, end: "from" | "to", place: DevicePlace, edge: number, way?: string): void => {
    const need = needOf(d);
    const found: DeviceFound | null = chooseDevice(place, need);
    put(
      d,
      {
        end,
        part: end === "from" ? d.c.circuit.from.part : d.c.circuit.to.part,
        ...(way === undefined ? {} : { way }),
        given: null,
        rating: found?.rating ?? null,
        family: found?.family ?? null,
        ohms: found?.ohms ?? 0,
        least: Math.max(need.steadyAmps / 0.8, found?.leastForStart ?? 0),
        distance: 0,
      },
      edge,
      way !== undefined,
    );
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
  const isLink = (d: Draft): boolean => {
    const ends = [d.fromNode, d.toNode];
    return ends.every((n) => storesAt.has(n) || lower.has(n)) && ends.some((n) => lower.has(n));
  };

  // What is given, and what stands in the ways of panels, comes first.
  for (const d of drafts) {
    const { circuit } = d.c;
    if (d.first === undefined || d.last === undefined) continue;
    const way = wayAt(model, d.fromNode);
    if (circuit.devices === "unknown") {
      d.unknown = true;
      continue;
    }
    if (circuit.devices !== "propose") {
      d.from = d.to = { why: "given so" };
      for (const given of circuit.devices) {
        const rating = given.rating === "unknown" ? null : given.rating.high;
        const family =
          given.family === undefined ? familyOfGiven(given, way !== null, rating) : readDeviceFamily(given.family);
        if (rating === null) d.unknown = true;
        const inWay = way !== null && given.end === "from";
        const edge = inWay ? way.edge : given.end === "from" ? d.first : d.last;
        put(
          d,
          {
            end: given.end,
            part: given.end === "from" ? circuit.from.part : circuit.to.part,
            ...(inWay ? { way: way.name } : {}),
            given,
            rating,
            family,
            ohms: rating === null || family === null ? 0 : deviceResistance(family, rating).hot,
            least: needOf(d).steadyAmps / 0.8,
            distance: given.distance.high,
          },
          edge,
          inWay,
        );
      }
      continue;
    }
    if (way !== null) {
      const kind = parts.get(circuit.from.part)?.wayDevice ?? "breaker";
      propose(d, "from", { at: "way", device: kind }, way.edge, way.name);
    }
  }

  // Then the ends that stand on a source or where current divides.
  for (const d of drafts) {
    if (!isOpen(d)) continue;
    if (isLink(d)) {
      d.from = d.to = { why: "link between units" };
      continue;
    }
    const inWay = d.devices.some((x) => x.way !== undefined);
    for (const end of ["from", "to"] as const) {
      if (end === "from" && inWay) continue;
      const node = end === "from" ? d.fromNode : d.toNode;
      const edge = (end === "from" ? d.first : d.last) ?? -1;
      const part = parts.get(end === "from" ? d.c.circuit.from.part : d.c.circuit.to.part);
      if (storesAt.has(node)) propose(d, end, storePlace(node), edge);
      else if (end === "from" && part?.traits.distributes === true) {
        const push = bare(node, edge);
        if (push.amps > (ampacity[d.i] ?? 0)) propose(d, end, { at: "elsewhere" }, edge);
        else d.from = unguarded(push);
      }
    }
  }

  // A return on its own carries back what a fault sends through it until the device of the battery opens.
  for (const d of drafts) {
    if (d.first !== undefined) continue;
    for (const e of d.c.edges) {
      const edge = grid.edges[e];
      if (edge === undefined) continue;
      for (const s of grid.stores) {
        if (s.minus !== edge.a && s.minus !== edge.b) continue;
        for (const live of grid.at[s.plus] ?? []) d.answersFor = Math.max(d.answersFor, ratingIn.get(live) ?? 0);
      }
    }
  }

  // Last the ends that are guarded by what now stands around them, or not.
  const memo = new Map<number, Push>();
  for (const d of drafts) {
    if (!isOpen(d)) continue;
    for (const end of ["from", "to"] as const) {
      if (d[end] !== null || d.devices.some((x) => x.end === end)) continue;
      const node = end === "from" ? d.fromNode : d.toNode;
      const edge = (end === "from" ? d.first : d.last) ?? -1;
      const leaf = model.trees.isTree[edge] === 1;
      if (leaf && end === "to") {
        d.to = { why: "no source" };
        continue;
      }
      let push = leaf ? memo.get(node) : undefined;
      if (push === undefined) {
        push = findPush(grid, model.trees, node, edge, deviceIn);
        if (leaf) memo.set(node, push);
      }
      settleEnd(d, end, node, edge, push);
    }
  }

  function settleEnd(d: Draft, end: "from" | "to", node: number, edge: number, push: Push): void {
    const iz = ampacity[d.i] ?? 0;
    const part = parts.get(end === "from" ? d.c.circuit.from.part : d.c.circuit.to.part);
    // Behind a switch a conductor goes on; at its end on one it arrives. Neither is where current divides: its size answers for what comes.
    const goesOn = end === "from" ? standsAlone(model, node, edge) : part?.traits.distributes !== true;
    const charging = push.sources.every((s) => push.unsure.includes(s) || push.limited.includes(s));
    if (push.amps === 0) d[end] = { why: "no source" };
    else if (push.sources.every((s) => push.limited.includes(s)) && push.amps <= iz) {
      d[end] = { why: "self-limited", amps: push.amps };
    } else if (Number.isFinite(push.amps) && (goesOn || push.amps <= iz)) {
      d[end] = { why: "guarded from behind", amps: push.amps };
      d.answersFor = Math.max(d.answersFor, push.amps);
    } else {
      const spared = push.unsure.length > 0 && charging ? spare(d, end, iz, push) : null;
      if (spared !== null) d[end] = spared;
      else propose(d, end, { at: "elsewhere" }, edge);
    }
  }

  /** A charging source need not have a device at its own end where the rule set lets another do. */
  function spare(d: Draft, end: "from" | "to", iz: number, push: Push): NoDevice | null {
    const { ruleSet, circuit } = d.c;
    if (ruleSet === null) return null;
    const sheathed = circuit.sheathed === true;
    const limit =
      deviceDistance(ruleSet.deviceDistance, { from: "charging source", current: "DC", sheathed })?.limit ?? null;
    const other = d.devices.find((x) => x.end !== end);
    const metres = circuit.length.high;
    if (other !== undefined && limit !== null && metres <= limit) return { why: "device within reach", metres, limit };
    const output = grid.feeds.reduce(
      (sum, f) => (push.sources.includes(f.element.part) ? sum + f.element.amps.high : sum),
      0,
    );
    if (exemptionFor(ruleSet.deviceDistance, "rated for the output") !== null && output <= iz) {
      return { why: "rated for the output", amps: output };
    }
    return null;
  }

  return {
    circuits: drafts.map(({ devices, from, to, answersFor, unknown }) => ({ devices, from, to, answersFor, unknown })),
    ohms,
    count,
  };
}

interface Draft {
  readonly c: CircuitModel;
  readonly i: number;
  readonly first: number | undefined;
  readonly last: number | undefined;
  readonly fromNode: number;
  readonly toNode: number;
  readonly devices: PlacedDevice[];
  from: NoDevice | null;
  to: NoDevice | null;
  answersFor: number;
  unknown: boolean;
}

const isOpen = (d: Draft): boolean => d.first !== undefined && d.c.circuit.devices === "propose" && d.c.rungs !== null;

function unguarded(push: Push): NoDevice {
  if (push.amps === 0) return { why: "no source" };
  return push.sources.every((s) => push.limited.includes(s))
    ? { why: "self-limited", amps: push.amps }
    : { why: "guarded from behind", amps: push.amps };
}

/** The contact of a panel way whose wire side is this node. */
function wayAt(model: Model, node: number): { edge: number; name: string } | null {
  for (const e of model.grid.at[node] ?? []) {
    const contact = model.grid.edges[e]?.contact;
    if (contact?.way !== undefined && model.grid.nodeOf(contact.b) === node) return { edge: e, name: contact.way };
  }
  return null;
}

/** Ratings of devices that stand in the graph as parts of their own. */
function guardContacts(model: Model): Map<number, number> {
  const ratings = new Map<number, number>();
  const devices = new Map(
    model.system.parts.flatMap((p) => (p.device === undefined ? [] : [[p.id, p.device] as const])),
  );
  if (devices.size === 0) return ratings;
  model.grid.edges.forEach(({ contact }, e) => {
    const device = contact === null ? undefined : devices.get(contact.part);
    if (device !== undefined && device.rating !== "unknown") ratings.set(e, device.rating.high);
  });
  return ratings;
}

/** Whether a conductor is the only one on its terminal: it then goes on what comes through the part. */
function standsAlone(model: Model, node: number, edge: number): boolean {
  return (model.grid.at[node] ?? []).every((e) => e === edge || model.grid.edges[e]?.contact !== null);
}

function familyOfGiven(given: GivenDevice, inWay: boolean, rating: number | null): DeviceFamilyId {
  if (given.kind === "breaker") return "thermal_breaker";
  if (inWay || rating === null) return "blade_type_C";
  const most = deviceFamily("blade_type_C").standardRatings.at(-1) ?? 0;
  if (rating <= most) return "blade_type_C";
  return rating <= (deviceFamily("strip_SF30").standardRatings.at(-1) ?? 0) ? "strip_SF30" : "strip_SF51";
}

/** The most that a circuit's rule set lets its devices be at an ampacity; what a device of a family may be rated. */
export function mostAllowed(c: CircuitModel, ampacity: number, family: DeviceFamilyId | null): number {
  if (c.ruleSet === null) return Infinity;
  return deviceLimit(c.ruleSet.deviceSize, {
    ampacity: amps(ampacity),
    current: "DC",
    nominal: volts(c.supply?.nominal ?? 12),
    ratings: family === null ? [] : deviceFamily(family).standardRatings,
  }).upTo;
}

/** Whether the devices of a circuit suit an ampacity. */
export function devicesAllow(c: CircuitModel, devices: CircuitDevices, ampacity: number): boolean {
  if (devices.answersFor > ampacity + 1e-9) return false;
  // No rule set asks for less than the ampacity itself.
  return devices.devices.every(
    ({ rating, family }) => rating === null || rating <= ampacity || rating <= mostAllowed(c, ampacity, family) + 1e-9,
  );
}
