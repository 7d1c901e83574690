import type { Case, Move, Proposal } from "../case.ts";
import { isWritten, put, textOf } from "../write.ts";
import { devicesIn } from "../written-devices.ts";

/** A conductor of the earthed pole goes without its device. */
export const outOfTheReturn: Move = ({ document, circuits }) =>
  circuits.map((c): Proposal[] => {
    const keys = ["fuse", "breaker"].filter((key) => isWritten(document, ["circuits", c.id, key]));
    return keys.length === 0 ? [] : [{ edits: keys.map((key) => put(document, ["circuits", c.id, key], "none")) }];
  });

/** A switch or a breaker of two poles: the part itself, or what is written in the line of a circuit. */
export const bothPoles: Move = (at: Case) => {
  const { document, part, circuits } = at;
  const named = part === undefined ? [] : [part.id];
  const inLines = circuits.flatMap((c) =>
    devicesIn(at, c).flatMap((device) => {
      if (device.part !== null) return [[{ edits: [put(document, ["parts", device.part, "poles"], "2")] }]];
      const { path, words } = device;
      if (path === null || words === null) return [];
      const two = words.replace(/\s*\d[ -]?poles?(?=\s|$)/i, "").replace(/(\d\s*A)(?=\s|$)/i, "$1 2-pole");
      return [[{ edits: [{ do: "set", path, value: two } as const] }]];
    }),
  );
  return [
    ...named
      .filter((id) => textOf(document, ["parts", id, "kind"]) !== null)
      .map((id): Proposal[] => [{ edits: [put(document, ["parts", id, "poles"], "2")] }]),
    ...inLines,
  ];
};
