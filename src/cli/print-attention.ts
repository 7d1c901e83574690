import type { Finding, Judgement } from "../rules/index.ts";
import type { CircuitDesign, Design } from "../size/index.ts";
import { wrap } from "./text-width.ts";

/** What fails, nobody answers for, and is more than worth knowing. */
const isPressing = ({ outcome, severity, waived }: Finding): boolean =>
  outcome === "fail" && severity !== "note" && (waived === null || waived.lapsed !== null);

/**
 * What a reader has to look at before anything else: sizes that did not come to rest, what the rules find, wires that do not meet what is asked of
 * them and of which no rule speaks, loads that nothing reaches, loads that the network cannot bear. Empty where all is well.
 *
 * @param judgement left out where its findings are printed in full, or no wires are shown
 */
export function printAttention(design: Design, width: number, judgement?: Judgement): string[] {
  const pressing = (judgement?.findings ?? []).filter(isPressing);
  const items = [
    ...(design.settled
      ? []
      : [`the sizes did not come to rest: ${design.unsettled.join(", ")}; take nothing below as final`]),
    ...pressing.map((f) => `${f.severity}: ${f.because}`),
    ...(judgement === undefined ? [] : design.circuits.flatMap((c) => printUnmet(c, pressing))),
    ...design.states.flatMap(({ id, dead, collapses, converged }) => [
      ...(converged ? [] : [`state \`${id}\`: no operating point was found; its figures are not to be used`]),
      ...dead.map((load) => `state \`${id}\`: \`${load}\` is on and no source reaches it`),
      ...collapses.map(({ load, says }) => `state \`${id}\`: \`${load}\` ${says}`),
    ]),
  ];
  if (items.length === 0) return [];
  return ["Look at these first", ...items.flatMap((item) => wrap(`! ${item}`, width, 2))];
}

/** A wire that the schedule marks, unless a finding about it stands here. */
function printUnmet({ id, size, constraints, nothingIsEnough }: CircuitDesign, told: readonly Finding[]): string[] {
  const unmet = constraints.filter((c) => c.outcome === "not met");
  const path = `circuits.${id}`;
  if (told.some(({ about }) => about === path || about.startsWith(`${path}.`))) return [];
  if (size === null || (unmet.length === 0 && !nothingIsEnough)) return [];
  const asks = unmet.map((c) => (c.alone === null ? c.id : `${c.id}, which alone asks for ${c.alone.label}`));
  const says = asks.length === 0 ? "no size on sale is enough" : `${size.label} does not meet ${asks.join("; ")}`;
  return [`${id}: ${says}; \`why PLAN ${id}\` tells by how much`];
}
