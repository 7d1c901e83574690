import type { Edit } from "../../plan/text/index.ts";
import type { Case, Move } from "../case.ts";
import { put, takeOff } from "../write.ts";
import { devicesIn } from "../written-devices.ts";

/** A motor with a protector of its own. */
export const thermalProtector: Move = ({ document, part }) =>
  part === undefined ? [] : [[{ edits: [put(document, ["parts", part.id, "thermal protector"], "yes")] }]];

/** A board or a device moves to where a hand reaches it. */
export const withinReach: Move = ({ document, part }) => {
  if (part === undefined) return [];
  const path = ["parts", part.id];
  return [[{ edits: [put(document, [...path, "reach"], "by hand"), ...takeOff(document, [...path, "height"])] }]];
};

/** An arrester at the controllers that solar modules feed: each that is in question. */
export const surgeArrester: Move = ({ document, build }) =>
  build.parts
    .filter(({ part }) => part.traits.charges === true && part.traits.solar !== true)
    .map(({ id }) => [{ edits: [put(document, ["parts", id, "surge arrester"], "yes")] }]);

/** A breaker that opens on arcs too. */
export const arcFaultGuard: Move = ({ document, circuits }) =>
  circuits.map(({ id }) => [{ edits: [put(document, ["circuits", id, "arc fault"], "yes")] }]);

/** A device that is a part moves out of the hot air that the plan states around it. */
export const coolerPlace: Move = (at: Case) =>
  at.circuits.flatMap((c) =>
    devicesIn(at, c).map(({ part }) => {
      const edits: readonly Edit[] = part === null ? [] : takeOff(at.document, ["parts", part, "ambient"]);
      return edits.length === 0 ? [] : [{ edits }];
    }),
  );

/** A, in the steps of the trade. */
const INTERRUPTS = [2500, 5000, 6000, 10_000, 20_000];

/** A part that is marked for a greater current to break. */
export const higherInterrupt: Move = (at: Case) => {
  const asked = at.finding.measured?.value ?? 0;
  const parts = [
    ...(at.part?.part.device === undefined ? [] : [at.part.id]),
    ...at.circuits.flatMap((c) => devicesIn(at, c).flatMap(({ part }) => part ?? [])),
  ];
  const steps = INTERRUPTS.filter((amps) => amps >= asked);
  return parts.map((part) =>
    steps.map((amps) => ({ edits: [put(at.document, ["parts", part, "interrupt"], `${amps / 1000} kA`)] })),
  );
};
