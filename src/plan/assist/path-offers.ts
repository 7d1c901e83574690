import { foldName } from "../grammar/record.ts";
import { writeValue } from "../text/write-value.ts";
import type { Around } from "./around.ts";
import type { Completions } from "./completions.ts";
import { partCalled, saysOfPart } from "./names.ts";
import type { WritingPlace } from "./place.ts";

const BETWEEN = /→|->|=>|⟶| \+ /g;

/** Parts and their terminals at a point of a path; of a part's terminals the free ones first. */
export function offersInPath(text: string, offset: number, place: WritingPlace, around: Around): Completions | null {
  const whole = text.slice(place.from, place.to);
  const at = offset - place.from;
  let [start, end] = [0, whole.length];
  for (const found of whole.matchAll(BETWEEN)) {
    if (found.index + found[0].length <= at) start = found.index + found[0].length;
    else if (found.index >= at) {
      end = found.index;
      break;
    }
  }
  const tight = start > 0 && start === at && whole.charAt(start - 1) !== " ";
  while (start < at && whole.charAt(start) === " ") start++;
  while (end > Math.max(at, start) && whole.charAt(end - 1) === " ") end--;
  const point = whole.slice(start, end);
  const colon = whole.slice(start, at).lastIndexOf(":");
  if (colon > 0) {
    const part = partCalled(around, point.slice(0, colon));
    const ends = part === undefined ? [] : (around.endsOf?.(part) ?? []).filter((e) => e.name !== "");
    if (ends.length === 0) return null;
    const options = [...ends.filter((e) => e.free), ...ends.filter((e) => !e.free)].map((e) => ({
      label: e.name,
      detail: e.says,
      insert: e.name,
    }));
    return { from: place.from + start + colon + 1, to: place.from + end, options };
  }
  const quoted = /["']/.test(text.charAt(place.from - 1));
  // A name that needs quotes cannot stand bare in a path.
  const writable = around.plan.parts.filter((p) => quoted || writeValue(p.key, place.flow) === p.key);
  const blank = tight || (place.from === offset && text.charAt(place.from - 1) === ":") ? " " : "";
  const options = writable.map((p) => {
    const ends = around.endsOf?.(p) ?? [];
    const asks = ends.length > 1 && ends.every((e) => e.name !== "");
    return { label: p.key, detail: saysOfPart(p), insert: `${blank}${p.key}${asks ? ":" : ""}` };
  });
  const complete = end === whole.length && at === end && writable.some((p) => foldName(p.key) === foldName(point));
  if (complete) options.push({ label: `${point} →`, detail: "on to the next part", insert: `${point} → ` });
  return options.length === 0 ? null : { from: place.from + start, to: place.from + end, options };
}
