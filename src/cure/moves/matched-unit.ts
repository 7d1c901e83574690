import type { Edit } from "../../plan/text/index.ts";
import { leadsOf } from "../banks.ts";
import type { Case, Move } from "../case.ts";
import { isWritten, put, takeOff, textOf } from "../write.ts";

/** What has to be alike in the units of a bank. */
const ALIKE = ["kind", "chemistry", "nominal", "in series", "capacity", "short-circuit", "cranking", "resistance"];

/** All units of a bank like one of them: each takes its turn as the model, the first one first. */
export const matchedUnit: Move = (at) =>
  leadsOf(at).map((group) => {
    const units = [...new Set(group.map((l) => l.unit))];
    return units
      .map((model) => ({ edits: units.filter((u) => u !== model).flatMap((u) => like(at, u, model)) }))
      .filter(({ edits }) => edits.length > 0);
  });

/** Edits that give a unit the facts of another. */
function like({ document }: Case, unit: string, model: string): readonly Edit[] {
  const copies = textOf(document, ["parts", unit, "like"]) === model;
  return ALIKE.flatMap((key): readonly Edit[] => {
    const [own, other] = [
      ["parts", unit, key],
      ["parts", model, key],
    ];
    const there = own !== undefined && isWritten(document, own);
    if (own === undefined || other === undefined) return [];
    if (copies) return there ? takeOff(document, own) : [];
    const value = textOf(document, other);
    if (value === null) return [];
    const inherits = !there && textOf(document, ["parts", unit, "like"]) !== null;
    return inherits || textOf(document, own) === value ? [] : [put(document, own, value)];
  });
}
