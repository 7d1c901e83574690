import type { Move } from "../case.ts";
import { put, takeOff, textOf } from "../write.ts";

/** A size as labels say it. */
const SIZE = /\d+(?:[.,/]\d+)?\s*(?:AWG|SAE|kcmil|mm²|mm2|sq\s?mm)/i;

/** No label is longer. */
const LONGEST = 200;

/** The wire that is bought becomes the one that is drawn: the drawn size is bought, or the bought one drawn. */
export const asDrawn: Move = (at) =>
  at.circuits.flatMap((c) => {
    const path = ["circuits", c.id, "bought as"];
    const size = SIZE.exec((textOf(at.document, path) ?? "").slice(0, LONGEST))?.[0];
    const drawn = takeOff(at.document, path);
    if (drawn.length === 0) return [];
    return [
      [{ edits: drawn }],
      ...(size === undefined ? [] : [[{ edits: [put(at.document, ["circuits", c.id, "wire"], size), ...drawn] }]]),
    ];
  });
