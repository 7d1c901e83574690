import type { Finding, Judgement } from "../rules/index.ts";
import type { Design } from "../size/index.ts";
import { wrap } from "./text-width.ts";

/** What fails, nobody answers for, and is more than worth knowing. */
const isPressing = ({ outcome, severity, waived }: Finding): boolean =>
  outcome === "fail" && severity !== "note" && (waived === null || waived.lapsed !== null);

/**
 * What a reader has to look at before anything else: sizes that did not come to rest, what the rules find, loads that nothing reaches, loads that
 * the network cannot bear. Empty where all is well.
 *
 * @param judgement left out where its findings are printed in full
 */
export function printAttention(design: Design, width: number, judgement?: Judgement): string[] {
  const items = [
    ...(design.settled
      ? []
      : [`the sizes did not come to rest: ${design.unsettled.join(", ")}; take nothing below as final`]),
    ...(judgement?.findings ?? []).filter(isPressing).map((f) => `${f.severity}: ${f.because}`),
    ...design.states.flatMap(({ id, dead, collapses, converged }) => [
      ...(converged ? [] : [`state \`${id}\`: no operating point was found; its figures are not to be used`]),
      ...dead.map((load) => `state \`${id}\`: \`${load}\` is on and no source reaches it`),
      ...collapses.map(({ load, says }) => `state \`${id}\`: \`${load}\` ${says}`),
    ]),
  ];
  if (items.length === 0) return [];
  return ["Look at these first", ...items.flatMap((item) => wrap(`! ${item}`, width, 2))];
}
