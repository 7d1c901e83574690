import { banksOf, type Bank } from "../battery/banks.ts";
import type { Build } from "../build.ts";
import type { Needed } from "../finding.ts";
import { needed } from "../report.ts";
import { factsOf, saysYes } from "../stated.ts";
import { guardsOf } from "./guards.ts";

/** A bank whose units or strings stand side by side, and the devices at them. */
export interface SideBySide {
  readonly bank: Bank;
  /** Units or strings side by side. */
  readonly count: number;
  /** Parts of which at least one unit has no device before it meets the others. */
  readonly bare: readonly string[];
  /** Short-circuit current of one, the greatest, A. */
  readonly each: number;
  /** Of all together, Ah; null: it is not known of each. */
  readonly ampHours: number | null;
  /** Facts without which it cannot be told which have a device. */
  readonly needs: readonly Needed[];
}

const known = new WeakMap<Build, readonly SideBySide[]>();

/** Every bank of a build, those of one unit among them. */
export function sideBySide(build: Build): readonly SideBySide[] {
  let list = known.get(build);
  if (list === undefined) known.set(build, (list = banksOf(build).list.map((bank) => look(build, bank))));
  return list;
}

function look(build: Build, bank: Bank): SideBySide {
  const guards = guardsOf(build);
  const { stores } = guards.grid;
  const top = bank.top.flatMap((i) => stores[i] ?? []);
  const names = new Set(top.map(({ element }) => element.part));
  let count = 0;
  let each = 0;
  let ampHours: number | null = 0;
  const bare: string[] = [];
  const doubts: Needed[] = [];
  for (const { element, plus } of top) {
    const { part, strings, unit, shortCircuitAmps } = element;
    count += strings;
    each = Math.max(each, shortCircuitAmps.high / strings);
    const { capacityCoulombs } = unit;
    ampHours =
      ampHours === null || typeof capacityCoulombs !== "object"
        ? null
        : ampHours + (strings * capacityCoulombs.high) / 3600;
    // Units that are drawn as one pair of terminals meet before any device.
    const meets = guards.unguardedSources(plus, -1).some((source) => source !== part && names.has(source));
    const view = build.part(part);
    const isFused = strings > 1 && view !== undefined ? saysYes(factsOf(view), "units fused") : undefined;
    if (isFused === "unknown")
      doubts.push(needed(`whether each unit of ${part} has a fuse of its own`, view?.subject ?? part));
    if ((strings > 1 && isFused !== true) || meets) bare.push(part);
  }
  const unlooked = guards.untold
    .filter(({ view: { circuit } }) => names.has(circuit.from.part) || names.has(circuit.to.part))
    .map(({ view }) => needed(`the fuse of ${view.id}`, view.subject));
  return { bank, count, bare, each, ampHours, needs: [...doubts, ...unlooked] };
}
