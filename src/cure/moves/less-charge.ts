import type { Edit } from "../../plan/text/index.ts";
import type { Case, Move, Proposal } from "../case.ts";
import { put, takeOff, textOf } from "../write.ts";

/** Keys by which charging sources say what they give, A. */
const OUTPUTS = ["output", "charging", "limit"];
/** Shares of what they give now. */
const STEPS = [0.75, 0.5, 0.25];

const AMPS = /^\s*(\d+(?:[.,]\d+)?)\s*A\s*$/;

/** The chargers set lower: each alone in steps, then all of them by as much as is too much. */
export const lessCharge: Move = ({ document, build, finding }) => {
  const outputs = build.parts.flatMap(({ id, part }) =>
    part.traits.charges !== true
      ? []
      : OUTPUTS.flatMap((key) => {
          const path = ["parts", id, key];
          const [, figure = ""] = AMPS.exec(textOf(document, path) ?? "") ?? [];
          return figure === "" ? [] : [{ path, amps: Number(figure.replace(",", ".")) }];
        }),
  );
  const { measured, limit } = finding;
  const set =
    (share: number) =>
    ({ path, amps }: (typeof outputs)[number]): readonly Edit[] => {
      // What it takes falls with what it gives.
      const input = [...path.slice(0, 2), "input"];
      const [, taken = ""] = AMPS.exec(textOf(document, input) ?? "") ?? [];
      return [
        put(document, path, `${Math.floor(amps * share)} A`),
        ...(taken === "" || path[2] !== "output"
          ? []
          : [put(document, input, `${Math.ceil(Number(taken.replace(",", ".")) * share)} A`)]),
      ];
    };
  const each = outputs.map((o) => STEPS.map((share): Proposal => ({ edits: set(share)(o) })));
  if (measured === null || limit === null || outputs.length < 2) return each;
  return [...each, [{ edits: outputs.flatMap(set(limit.value / measured.value)) }]];
};

/** An alternator whose regulator lets it give no more than it can for long. */
export const limitedAlternator: Move = ({ document, part, finding }: Case) =>
  part === undefined || finding.limit?.unit !== "A"
    ? []
    : [[{ edits: [put(document, ["parts", part.id, "limit"], `${Math.floor(finding.limit.value)} A`)] }]];

/** A charger set to the volts that the finding asks for, or that no longer does what its battery does not bear. */
export const rightVolts: Move = ({ document, part, finding }) => {
  if (part === undefined) return [];
  const path = ["parts", part.id];
  const volts: readonly Edit[] =
    finding.limit?.unit === "V" ? [put(document, [...path, "charging volts"], `${finding.limit.value} V`)] : [];
  const rest: readonly Edit[] = [
    ...takeOff(document, [...path, "equalising volts"]),
    ...takeOff(document, [...path, "temperature compensation"]),
  ];
  return [volts, rest, [...rest, ...volts]].flatMap((edits) => (edits.length === 0 ? [] : [[{ edits }]]));
};
