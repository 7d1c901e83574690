import { nextSizeUp, sizeOfPrint } from "../../wire/index.ts";
import { readLabel } from "../../wire/label/read-label.ts";
import type { Move } from "../case.ts";
import { put, takeOff, textOf } from "../write.ts";

/** The wire that is bought becomes the one that is drawn: the drawn size is bought, the bought one drawn, or the next one up in its system bought. */
export const asDrawn: Move = (at) =>
  at.circuits.flatMap((c) => {
    const path = ["circuits", c.id, "bought as"];
    const drawn = takeOff(at.document, path);
    if (drawn.length === 0) return [];
    const read = readLabel(textOf(at.document, path) ?? "");
    const [only] = read.verdict === "exact" ? read.readings : [];
    const printed = only?.make.size ?? null;
    const size = printed === null ? null : sizeOfPrint(printed);
    // Gauges and metal areas go on in the gauges that are sold.
    const next = size === null ? null : nextSizeUp(size, size.system === "kcmil" ? "AWG" : size.system);
    return [
      [{ edits: drawn }],
      ...(printed === null
        ? []
        : [[{ edits: [put(at.document, ["circuits", c.id, "wire"], printed.label), ...drawn] }]]),
      ...(next === null ? [] : [[{ edits: [put(at.document, path, next.label)] }]]),
    ];
  });
