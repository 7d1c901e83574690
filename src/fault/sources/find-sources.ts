import type { Converter, Feed } from "../../system/element.ts";
import type { Grid } from "../../system/grid.ts";
import type { System } from "../../system/system.ts";
import type { FaultPorts } from "../fault-metal.ts";
import { converterSource, feedSource, inputSource, type LimitedSource } from "./limited-source.ts";
import { storeSource, type StoreSource } from "./store-source.ts";

/** A source with the place of its element in the grid. */
export type GridLimited = LimitedSource & {
  readonly kind: "feed" | "converter" | "input";
  readonly index: number;
};

/** A source of which nobody knows how much it gives at most, and the node of its plus. */
export interface UnknownSource {
  readonly part: string;
  readonly plus: number;
}

/** All that can push direct current into a fault of a build, and where. */
export interface FaultSources {
  readonly stores: readonly StoreSource[];
  readonly limited: readonly GridLimited[];
  readonly ports: FaultPorts;
  /** Batteries among them of which nobody knows how large they are, and limited sources that are left out, since nobody knows their limit. */
  readonly unknown: readonly UnknownSource[];
}

/**
 * Collects the sources of a grid; those that can push nothing are left out.
 *
 * @param chargedTo volts that the system of a node is charged to; null: nobody knows
 */
export function findSources(grid: Grid, chargedTo: (node: number) => number | null): FaultSources {
  const limited: GridLimited[] = [];
  const ports: { plus: number; minus: number }[] = [];
  const unknown: UnknownSource[] = [];
  const add = (source: GridLimited, { plus, minus }: { plus: number; minus: number }): void => {
    if (!(source.amps.high > 0) || !(source.volts > 0) || plus === minus) return;
    limited.push(source);
    ports.push({ plus, minus });
  };
  grid.feeds.forEach((f, index) => {
    const { element, plus } = f;
    if (isUnknown(element)) unknown.push({ part: element.part, plus });
    else add({ ...feedSource(element), kind: "feed", index }, f);
  });
  grid.converters.forEach(({ element, in: input, out }, index) => {
    if (isUnknown(element)) unknown.push({ part: element.part, plus: out.plus });
    else add({ ...converterSource(element), kind: "converter", index }, out);
    if (input === null || !element.bothWays) return;
    const volts = chargedTo(input.plus);
    if (volts === null || (isUnknown(element) && element.inputAmps === undefined))
      unknown.push({ part: element.part, plus: input.plus });
    else add({ ...inputSource(element, volts), kind: "input", index }, input);
  });
  const stores = grid.stores.map((s) => storeSource(s.element));
  grid.stores.forEach(({ element, plus }, s) => {
    if (stores[s]?.trust === "missing") unknown.push({ part: element.part, plus });
  });
  return {
    stores,
    limited,
    ports: { stores: grid.stores.map(({ plus, minus }) => ({ plus, minus })), limited: ports },
    unknown,
  };
}

const isUnknown = ({ amps }: Feed | Converter): boolean => amps.origin === "unknown";

/** What a study of the direct-current side leaves out of a build, in words. */
export function notStudied(system: System): string[] {
  const says: string[] = [];
  if (system.circuits.some((c) => c.current === "AC")) says.push("alternating current: see `why PLAN W12.loop`");
  if (system.elements.some((e) => e.is === "converter" && e.inCurrent === "DC" && e.outCurrent === "AC"))
    says.push(
      "capacitors at the input of an inverter add a peak of milliseconds to a fault near it: it is not counted",
    );
  if (system.parts.some((p) => p.traits.motor === true))
    says.push("a turning motor feeds a fault for milliseconds: it is not counted");
  return says;
}
