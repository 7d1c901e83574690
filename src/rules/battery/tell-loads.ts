import type { Build } from "../build.ts";
import { figure, printFigure } from "../figure.ts";
import type { Needed } from "../finding.ts";
import { below, needed, type Report } from "../report.ts";
import type { BankFlow } from "./bank-flows.ts";
import type { Bank } from "./banks.ts";
import { leadDoubt } from "./lead-doubt.ts";
import { placeOf, weighUnits, weighWhenOneIsOff, type LimitFor, type Load } from "./unit-limits.ts";

/** What is weighed of a bank, and in which words it is told. */
export interface Weighing<Message extends string> {
  readonly flows: readonly BankFlow[];
  /** The same with one store off. */
  readonly without: (store: number) => readonly BankFlow[];
  readonly limitFor: LimitFor;
  /** The limit in words: `the peak`. */
  readonly limit: string;
  readonly beyond: (worst: Load) => Message;
  /** Beyond its limit only while another unit is off: advice. */
  readonly lost: Message;
  /** What has to be known before the limits matter, and what only where they hold. */
  readonly first: readonly Needed[];
  readonly last: readonly Needed[];
}

/**
 * Tells whether the units of a bank stay within a limit, all of them and with one of several off. Where nobody knows how the current divides it
 * fails only if an even share is too much, and holds only if all of it through one unit is not.
 */
export function tellLoads<Message extends string>(
  build: Build,
  report: Report<Message>,
  bank: Bank,
  { flows, without, limitFor, limit, beyond, lost, first, last }: Weighing<Message>,
): void {
  const { subject } = bank.first;
  const doubt = leadDoubt(build, bank);
  const { worst, needs } = weighUnits(build, bank, flows, limitFor, null, doubt.length > 0 ? "even" : "solved");
  const most = doubt.length > 0 ? weighUnits(build, bank, flows, limitFor, null, "all").worst : worst;
  if (worst !== null && worst.amps > worst.limit.high)
    report.fail(subject, beyond(worst), {
      ...said(worst),
      words: { place: placeOf(bank, worst), left: leftOf(worst) },
    });
  else if (first.length > 0) report.cannotTell(subject, first);
  else if (needs.length > 0) report.cannotTell(subject, needs);
  else if (worst !== null && worst.amps > worst.limit.low)
    report.cannotTell(subject, [needed(`${limit} of ${worst.part}, closer`, subject)], said(worst));
  else if (most !== null && most.amps > most.limit.low) report.cannotTell(subject, doubt, said(most));
  else if (last.length > 0) report.cannotTell(subject, last);
  else {
    const { worst: left, needs: open } = weighWhenOneIsOff(build, bank, flows, without, limitFor);
    if (left !== null && left.load.amps > left.load.limit.high)
      report.fail(subject, lost, {
        ...said(left.load),
        severity: "should",
        words: { place: placeOf(bank, left.load), off: left.off, left: leftOf(left.load) },
      });
    else if (open.length > 0) report.cannotTell(subject, open, { severity: "should" });
    else report.pass(subject, worst === null ? {} : said(worst));
  }
}

const said = ({ amps, limit, state }: Load) =>
  ({ measured: amps, limit: limit.low, unit: "A", margin: below(amps, limit.low), state }) as const;

/** Volts that are left to what surges, in words; empty where nothing does. */
const leftOf = ({ flow: { left } }: Load): string =>
  left.map(({ part, volts }) => `, ${printFigure(figure(volts, "V"))} left at ${part}`).join("");
