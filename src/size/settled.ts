import type { Runs } from "../route/index.ts";
import type { EarthLead } from "../system/index.ts";
import type { Case } from "./cases.ts";
import type { Chosen } from "./chosen.ts";
import type { CircuitCurrents } from "./design-currents.ts";
import type { LeadAsk } from "./lead-asks.ts";
import type { Model } from "./model.ts";
import type { Devices } from "./placed-device.ts";
import type { Weigher } from "./weigher.ts";

/** A settled build: sizes, devices, currents that belong to each other, and the tools to ask more of it. */
export interface Settled {
  readonly model: Model;
  readonly cases: readonly Case[];
  readonly weigher: Weigher;
  readonly currents: readonly CircuitCurrents[];
  readonly devices: Devices;
  readonly chosen: Chosen;
  readonly rounds: number;
  /** Circuits that had not come to rest when the rounds were used up. */
  readonly unsettled: readonly string[];
  /** What is asked of bonds and earth conductors; absent: it was not looked at. */
  readonly leads?: readonly LeadAnswer[];
}

/** What is asked of a bond or earth conductor. */
export interface LeadAnswer {
  readonly lead: EarthLead;
  /** Of its circuit among those of its side. */
  readonly position: number;
  /** The greatest first; empty: its set asks for nothing. */
  readonly asks: readonly LeadAsk[];
  /** Circuits that it follows and whose size nobody knows. */
  readonly untold: readonly string[];
}

/** Both sides of a build; of alternating current null where nothing alternates. */
export interface Sides {
  readonly settled: Settled;
  readonly alternating: Settled | null;
}

/** Gives the bonds and earth conductors of a build their size, with a halt before each round of settling. */
export type SizeLeads = (runs: Runs, sides: Sides) => Generator<void, Sides>;

/** Printed areas are rounded. */
const EDGE = 1e-3;

/** Whether an area is what a lead is asked for, all its conductors together. */
export const isEnough = (ask: Pick<LeadAsk, "areaMm2">, areaMm2: number): boolean =>
  areaMm2 >= ask.areaMm2 * (1 - EDGE);
