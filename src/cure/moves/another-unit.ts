import type { Edit } from "../../plan/text/index.ts";
import type { Case, Move } from "../case.ts";
import { inPlaceOf } from "../path-text.ts";
import { copyOf, freeName, isWritten, namesIn, put, textOf } from "../write.ts";

/** One unit more in a bank, with leads like those of the first; or one more behind the same terminals. */
export const anotherUnit: Move = (at) => {
  const { document, part } = at;
  if (part?.part.traits.store !== true) return [];
  const count = ["parts", part.id, "count"];
  const now = Number(textOf(document, count));
  if (isWritten(document, count)) return now > 0 ? [[{ edits: [put(document, count, String(now + 1))] }]] : [];
  const key = freeName(namesIn(document, ["parts"]), part.id);
  const unit: Edit = {
    do: "add",
    path: ["parts"],
    key,
    value: { entries: [["like", part.id]] },
    after: part.plan?.key ?? part.id,
  };
  return [[{ edits: [unit, ...leads(at, part.id, key)] }]];
};

/** The circuits of a unit once more, for another. */
function leads({ document, circuits }: Case, unit: string, other: string): readonly Edit[] {
  const taken = [...namesIn(document, ["circuits"])];
  return circuits.map((c): Edit => {
    const path = ["circuits", c.id];
    const swapped = (key: string): Record<string, string> => {
      const text = textOf(document, [...path, key]);
      if (text === null) return {};
      if (key === "path") return { path: inPlaceOf(text, unit, other) };
      const [head = "", place = ""] = text.split(/(?<= (?:at|from) )(?=[^ ])/);
      return { [key]: head + inPlaceOf(place, unit, other) };
    };
    const key = freeName(taken, c.id);
    taken.push(key);
    const value = copyOf(document, path, { ...swapped("path"), ...swapped("fuse"), ...swapped("breaker") });
    return { do: "add", path: ["circuits"], key, value, after: c.plan?.key ?? c.id };
  });
}
