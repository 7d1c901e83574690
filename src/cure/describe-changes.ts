import { foldName } from "../plan/index.ts";
import type { Edit, Path, PlanDocument } from "../plan/text/index.ts";
import type { Build, CircuitView } from "../rules/index.ts";
import type { Change } from "./cure.ts";
import { isWritten, namesIn, textOf, textsOf } from "./write.ts";

/** A plan as it was read and computed. */
export interface Stand {
  readonly document: PlanDocument;
  readonly build: Build;
}

const ABSENT = "not there";
const UNSAID = "not stated";
/** Keys of a circuit that are said by what they come to. */
const COMPUTED = new Set(["path", "wire", "fuse", "breaker"]);

/** What edits change, thing by thing, and what is then chosen otherwise for circuits that they do not touch. */
export function describeChanges(
  now: Stand,
  then: Stand,
  edits: readonly Edit[],
): { readonly changes: readonly Change[]; readonly moved: readonly Change[] } {
  const touched = new Map<string, { section: string; name: string; keys: Map<string, Path> }>();
  for (const edit of edits) {
    const path = edit.do === "add" ? [...edit.path, edit.key] : edit.path;
    const [section = "", name = "", ...inside] = path;
    const about = `${foldName(String(section))}.${name}`;
    const there = touched.get(about) ?? { section: foldName(String(section)), name: String(name), keys: new Map() };
    // Of a list the whole is said, since its places shift.
    const item = inside.findIndex((step) => typeof step === "number");
    const key = item < 0 ? inside : inside.slice(0, item);
    if (key.length > 0) there.keys.set(key.join(" "), key);
    touched.set(about, there);
  }
  const changes = [...touched].map(([about, { section, name, keys }]): Change => {
    const [before, after] =
      section === "circuits" ? circuitWords(now, then, name, keys) : entryWords(now, then, section, name, keys);
    return { about, name, now: before, then: after };
  });
  const moved = now.build.circuits.flatMap((c): Change[] => {
    const other = then.build.circuit(c.id);
    if (other === undefined || touched.has(c.subject.path)) return [];
    const words = pairs(c, other).filter(([a, b]) => a !== b);
    return words.length === 0
      ? []
      : [{ about: c.subject.path, name: c.id, now: join(words.map(([a]) => a)), then: join(words.map(([, b]) => b)) }];
  });
  return { changes, moved };
}

const join = (words: readonly string[]): string => words.filter((w) => w !== "").join(", ");

/** Size and devices of a circuit before and after. */
const pairs = (a: CircuitView, b: CircuitView): readonly (readonly [string, string])[] => [
  [sizeOf(a), sizeOf(b)],
  [devicesOf(a), devicesOf(b)],
];

const sizeOf = ({ design, circuit }: CircuitView): string =>
  design.size === null
    ? "size not known"
    : circuit.parallel > 1
      ? `${circuit.parallel} × ${design.size.label}`
      : design.size.label;

function devicesOf({ design, circuit }: CircuitView): string {
  if (circuit.devices === "unknown") return "device not known";
  if (design.devices.length === 0) return "no device";
  return design.devices
    .map((d) => {
      const far = d.distanceM > 0 ? `${Number(d.distanceM.toFixed(3))} m from` : "at";
      return `${d.familyName ?? d.kind} ${d.ratingA === null ? "of unknown rating" : `${d.ratingA} A`} ${far} ${d.at}`;
    })
    .join(" and ");
}

function circuitWords(
  now: Stand,
  then: Stand,
  name: string,
  keys: ReadonlyMap<string, Path>,
): readonly [string, string] {
  const [before, after] = [now.build.circuit(name), then.build.circuit(name)];
  const others = [...keys.values()].filter(([key]) => !COMPUTED.has(foldName(String(key))));
  const [was, is] = entryTexts(now, then, "circuits", name, others);
  const pathOf = (stand: Stand, { circuit }: CircuitView): string =>
    (keys.has("path") ? textOf(stand.document, ["circuits", name, "path"]) : null) ??
    `${circuit.fromText} → ${circuit.toText}`;
  const whole = (stand: Stand, c: CircuitView): string => join([pathOf(stand, c), sizeOf(c), devicesOf(c)]);
  if (before === undefined || after === undefined) {
    return [before === undefined ? ABSENT : whole(now, before), after === undefined ? ABSENT : whole(then, after)];
  }
  const changed = pairs(before, after).filter(([a, b]) => a !== b);
  const words = [
    join([pathOf(now, before), ...changed.map(([a]) => a), ...was]),
    join([pathOf(then, after), ...changed.map(([, b]) => b), ...is]),
  ] as const;
  if (words[0] !== words[1]) return words;
  // It comes to the same size and devices (poles, what stands in a return): then what is written tells the change.
  const [written, rewritten] = entryTexts(now, then, "circuits", name, [...keys.values()]);
  return [join([pathOf(now, before), ...written]), join([pathOf(then, after), ...rewritten])];
}

function entryWords(
  now: Stand,
  then: Stand,
  section: string,
  name: string,
  keys: ReadonlyMap<string, Path>,
): readonly [string, string] {
  const path = [section, name];
  const [was, is] = [isWritten(now.document, path), isWritten(then.document, path)];
  if (keys.size === 0) return [was ? wholeOf(now, path) : ABSENT, is ? wholeOf(then, path) : ABSENT];
  const [before, after] = entryTexts(now, then, section, name, [...keys.values()]);
  return [join(before), join(after)];
}

const wholeOf = ({ document }: Stand, path: readonly string[]): string =>
  textOf(document, path) ??
  join(namesIn(document, path).map((key) => `${key} ${textsOf(document, [...path, key]).join(" and ")}`));

/** What is written under some keys before and after. */
function entryTexts(
  now: Stand,
  then: Stand,
  section: string,
  name: string,
  keys: readonly Path[],
): readonly [string[], string[]] {
  const words = ({ document }: Stand): string[] =>
    keys.map((key) => {
      const path = [section, name, ...key];
      const texts = textsOf(document, path);
      if (texts.length > 0) return `${key.join(" ")} ${texts.join(", ")}`;
      const inside = namesIn(document, path).map((each) => `${each}: ${textsOf(document, [...path, each]).join(", ")}`);
      // A fuse or a switch within a part is told as the plan writes it, so that one of another size is seen to be one.
      if (inside.length > 0) return `${key.join(" ")} { ${inside.join(", ")} }`;
      return `${key.join(" ")} ${isWritten(document, path) ? "as written" : UNSAID}`;
    });
  return [words(now), words(then)];
}
