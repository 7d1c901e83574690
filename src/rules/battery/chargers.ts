import type { Converter, Value } from "../../system/index.ts";
import type { Build, PartView } from "../build.ts";
import type { Bank } from "./banks.ts";
import { joinedPieces } from "./pieces.ts";

/** A source that charges a bank. */
export interface Charger {
  readonly view: PartView;
  /** Node of the grid at its plus. */
  readonly plus: number;
  readonly minus: number;
  readonly volts: Value;
  readonly amps: Value;
  /** Of one on direct current, where it is stated. */
  readonly inputAmps?: Value;
  readonly runsWith: Converter["runsWith"];
}

const found = new WeakMap<Build, readonly Charger[]>();

/** Everything that charges: alternators, chargers, converters made for charging, controllers. Solar modules do so through theirs. */
export function chargersOf(build: Build): readonly Charger[] {
  let chargers = found.get(build);
  if (chargers === undefined) {
    const { feeds, converters } = build.settled.model.grid;
    chargers = [
      ...feeds.flatMap((f) => (f.element.runsWith === "sun" ? [] : [{ ...f, of: f.element }])),
      ...converters.flatMap((c) => (c.element.runsWith === "load" ? [] : [{ ...c.out, of: c.element }])),
    ].flatMap(({ of, plus, minus }): Charger[] => {
      const view = build.part(of.part);
      return view === undefined
        ? []
        : [
            {
              view,
              plus,
              minus,
              volts: of.volts,
              amps: of.amps,
              runsWith: of.runsWith,
              ...(of.is === "converter" && of.inCurrent === "DC" && of.inputAmps !== undefined
                ? { inputAmps: of.inputAmps }
                : {}),
            },
          ];
    });
    found.set(build, chargers);
  }
  return chargers;
}

/** Those whose plus metal and contacts join with a bank's, every contact closed. */
export function chargersOfBank(build: Build, bank: Bank): readonly Charger[] {
  const pieces = joinedPieces(build.settled);
  const own = pieces[build.settled.model.grid.stores[bank.top[0] ?? -1]?.plus ?? -1];
  return chargersOf(build).filter((c) => pieces[c.plus] === own);
}
