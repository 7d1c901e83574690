import type { Edit } from "../../plan/text/index.ts";
import type { Case, Move } from "../case.ts";
import { inPlaceOf } from "../path-text.ts";
import { copyOf, freeName, isWritten, namesIn, put, textOf } from "../write.ts";

/** So many units more are tried. */
const MORE = [1, 2, 3];

/** One unit more in a bank, or a few, with leads like those of the first; or more behind the same terminals. */
export const anotherUnit: Move = (at) => {
  const { document, part } = at;
  if (part?.part.traits.store !== true) return [];
  const count = ["parts", part.id, "count"];
  if (isWritten(document, count)) {
    const now = Number(textOf(document, count));
    return now > 0 ? [MORE.map((n) => ({ edits: [put(document, count, String(now + n))] }))] : [];
  }
  const parts = [...namesIn(document, ["parts"])];
  const circuits = [...namesIn(document, ["circuits"])];
  const take = (taken: string[], like: string): string => {
    const name = freeName(taken, like);
    taken.push(name);
    return name;
  };
  const units = MORE.map(() => {
    const key = take(parts, part.id);
    const value = { entries: [["like", part.id] as const] };
    const unit: Edit = { do: "add", path: ["parts"], key, value, after: part.plan?.key ?? part.id };
    return [unit, ...leads(at, part.id, key, (id) => take(circuits, id))];
  });
  return [MORE.map((n) => ({ edits: units.slice(0, n).flat() }))];
};

/** The circuits of a unit once more, for another. */
function leads(
  { document, circuits }: Case,
  unit: string,
  other: string,
  nameLike: (id: string) => string,
): readonly Edit[] {
  return circuits.map((c): Edit => {
    const path = ["circuits", c.id];
    const swapped = (key: string): Record<string, string> => {
      const text = textOf(document, [...path, key]);
      if (text === null) return {};
      if (key === "path") return { path: inPlaceOf(text, unit, other) };
      const [head = "", place = ""] = text.split(/(?<= (?:at|from) )(?=[^ ])/);
      return { [key]: head + inPlaceOf(place, unit, other) };
    };
    const value = copyOf(document, path, { ...swapped("path"), ...swapped("fuse"), ...swapped("breaker") });
    return { do: "add", path: ["circuits"], key: nameLike(c.id), value, after: c.plan?.key ?? c.id };
  });
}
