import type { Store } from "../../system/index.ts";
import type { Build, PartView } from "../build.ts";
import type { Needed } from "../finding.ts";
import { needed, type Report } from "../report.ts";
import type { RuleSetId } from "../rule-set-id.ts";
import { nameSome } from "./name-some.ts";

/** A part that holds charge. */
export interface Battery {
  readonly view: PartView;
  readonly store: Store;
}

/** The batteries of a build, in the order of the plan. */
export const batteriesOf = (build: Build): readonly Battery[] =>
  build.parts.flatMap((view): Battery[] => {
    const store = view.elements.find((e) => e.is === "store");
    return store === undefined ? [] : [{ view, store }];
  });

/** Sets that are made for boats. */
export const isBoat = (set: RuleSetId | null): boolean => set === "us-small-craft" || set === "iso-small-craft";

/** Sets that are made for what drives on roads. */
export const isRoad = (set: RuleSetId | null): boolean =>
  set === "us-rv" || set === "iec-caravan" || set === "au-nz-vehicle" || set === "vehicle-practice";

/**
 * Asks once for what a plan does not say of several batteries: the first of them stands for all. Every build has such facts, so a finding for each
 * of them would hide the others.
 *
 * @param fact in words, of the batteries that are named: `how B1 and B2 are held down`
 */
export function askOnce(
  report: Report,
  silent: readonly Battery[],
  isAsked: (battery: Battery) => boolean,
  fact: (names: string, verb: "is" | "are") => string,
): void {
  const asked = silent.filter(isAsked);
  const [first] = asked;
  if (first !== undefined) {
    const names = asked.map((b) => b.view.id);
    const need: Needed = needed(fact(nameSome(names), names.length > 1 ? "are" : "is"), first.view.subject);
    report.cannotTell(first.view.subject, [need]);
  }
  for (const battery of silent)
    if (battery !== first)
      report.notApplicable(
        battery.view.subject,
        asked.includes(battery)
          ? "asked once, with the first battery"
          : "the plan does not say, and the set only advises it",
      );
}
