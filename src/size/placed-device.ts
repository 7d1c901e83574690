import type { DeviceFamilyId } from "../device/index.ts";
import type { GivenDevice, SystemPart } from "../system/index.ts";
import type { CircuitModel } from "./model.ts";

/** The largest device that the maker of a load allows ahead of it. */
export interface ApplianceLimit {
  readonly part: string;
  readonly amps: number;
}

/** Which end of a circuit's path. */
export type End = "from" | "to";

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
  /** The load whose maker allows no larger one, where it would be larger without. */
  readonly heldTo?: ApplianceLimit;
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
  /** Of a return that is a circuit of its own: devices ahead of what it brings back, which its size must suit as well. */
  readonly guards: readonly PlacedDevice[];
  /** Of such a return: the circuits that they, or those that it answers for, stand in. */
  readonly guardedBy: readonly string[];
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

/** The contact of a panel way. */
export interface Way {
  readonly edge: number;
  readonly name: string;
}

/** A circuit while its devices are placed. */
export interface Draft {
  readonly c: CircuitModel;
  /** By end: its node, and the edge that leads from there into the circuit; −1 where it has no live conductor. */
  readonly node: Readonly<Record<End, number>>;
  readonly edge: Readonly<Record<End, number>>;
  readonly way: Readonly<Record<End, Way | null>>;
  readonly part: Readonly<Record<End, SystemPart | undefined>>;
  devices: PlacedDevice[];
  from: NoDevice | null;
  to: NoDevice | null;
  answersFor: number;
  unknown: boolean;
}

/** The edge that a device stands in: of a panel way its contact. */
export const edgeOf = ({ edge, way }: Draft, { end, way: inWay }: PlacedDevice): number =>
  inWay === undefined ? edge[end] : (way[end]?.edge ?? edge[end]);
