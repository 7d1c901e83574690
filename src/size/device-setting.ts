import type { DevicePlace } from "../protect/index.ts";
import type { Store, SystemPart } from "../system/index.ts";
import { applianceLimits, type EndLimits } from "./appliance-limit.ts";
import type { CircuitModel, Model } from "./model.ts";
import type { ApplianceLimit, Draft, End, PlacedDevice, Way } from "./placed-device.ts";

/** What is the same however often devices are placed. */
export interface DeviceSetting {
  readonly places: readonly Places[];
  /** By edge: rating of a device that stands in the graph as a part of its own; Infinity: none does. */
  readonly contactRatings: Float64Array;
  readonly storesAt: ReadonlyMap<number, Store>;
  /** Nodes of the minus of stores, and of the plus of whatever else pushes. */
  readonly lower: ReadonlySet<number>;
  readonly pushing: ReadonlySet<number>;
  /** By circuit: what the makers of its loads allow at its ends. */
  readonly limits: readonly EndLimits[];
}

/** Where the ends of a circuit are, and what was made there last. */
type Places = Pick<Draft, "c" | "node" | "edge" | "way" | "part"> & { readonly made: Record<End, Made | null> };

/** A device, and all that it was chosen by. */
interface Made {
  readonly steady: number;
  readonly start: number;
  readonly seconds: number;
  readonly before: PlacedDevice | undefined;
  readonly place: DevicePlace;
  readonly device: PlacedDevice;
}

const known = new WeakMap<Model, DeviceSetting>();

/** Looked up once for a model. */
export function settingOf(model: Model): DeviceSetting {
  let setting = known.get(model);
  if (setting === undefined) {
    const { grid } = model;
    const parts = new Map(model.system.parts.map((p) => [p.id, p]));
    const places = model.circuits.map((c) => placeOf(model, c, parts));
    const contactRatings = guardContacts(model);
    const storesAt = new Map(grid.stores.map((s) => [s.plus, s.element]));
    const pushing = new Set([...grid.feeds, ...grid.converters.map((c) => c.out)].map((p) => p.plus));
    const sources = new Set([...storesAt.keys(), ...pushing]);
    setting = {
      places,
      contactRatings,
      storesAt,
      lower: new Set(grid.stores.map((s) => s.minus)),
      pushing,
      limits: applianceLimits(model, places, contactRatings, sources),
    };
    known.set(model, setting);
  }
  return setting;
}

/** What a device at an end of a circuit is held to by the maker of what it feeds; null: nothing is stated. */
export const applianceLimitAt = (model: Model, { position }: CircuitModel, end: End): ApplianceLimit | null =>
  settingOf(model).limits[position]?.[end] ?? null;

function placeOf(model: Model, c: CircuitModel, parts: ReadonlyMap<string, SystemPart>): Places {
  const { grid } = model;
  const live = c.edges.filter((e) => grid.edges[e]?.live === true);
  const edge = { from: live[0] ?? -1, to: live.at(-1) ?? -1 };
  const node = (end: End): number =>
    edge[end] < 0 ? -1 : grid.nodeOf(c.circuit.conductors[grid.edges[edge[end]]?.conductor ?? 0]?.[end] ?? "");
  const nodes = { from: node("from"), to: node("to") };
  const way = { from: wayAt(model, nodes.from), to: wayAt(model, nodes.to) };
  const part = { from: parts.get(c.circuit.from.part), to: parts.get(c.circuit.to.part) };
  return { c, node: nodes, edge, way, part, made: { from: null, to: null } };
}

/** The contact of a panel way whose wire side is this node. */
function wayAt(model: Model, node: number): Way | null {
  for (const e of model.grid.at[node] ?? []) {
    const contact = model.grid.edges[e]?.contact;
    if (contact?.way !== undefined && model.grid.nodeOf(contact.b) === node) return { edge: e, name: contact.way };
  }
  return null;
}

/** Ratings of devices that stand in the graph as parts of their own. */
function guardContacts(model: Model): Float64Array {
  const ratings = new Float64Array(model.grid.edges.length).fill(Infinity);
  const devices = new Map(
    model.system.parts.flatMap((p) => (p.device === undefined ? [] : [[p.id, p.device] as const])),
  );
  if (devices.size === 0) return ratings;
  model.grid.edges.forEach(({ contact }, e) => {
    const device = contact === null ? undefined : devices.get(contact.part);
    if (device !== undefined && device.rating !== "unknown") ratings[e] = device.rating.high;
  });
  return ratings;
}
