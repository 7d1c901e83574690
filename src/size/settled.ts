import type { Case } from "./cases.ts";
import type { Chosen } from "./chosen.ts";
import type { CircuitCurrents } from "./design-currents.ts";
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
}
