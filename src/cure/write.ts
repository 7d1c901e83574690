import { foldName } from "../plan/index.ts";
import {
  locate,
  type Edit,
  type EditMap,
  type EditValue,
  type Node,
  type Path,
  type PlanDocument,
} from "../plan/text/index.ts";

type Part = Exclude<ReturnType<typeof locate>, string>["part"];

/** What stands at a path, whatever the case and the blanks of its names; null: nothing does. */
function find(document: PlanDocument, path: Path): { readonly path: Path; readonly part: Part } | null {
  const [section, ...rest] = path;
  const own = document.sections.find(({ key }) => foldName(key.text) === foldName(String(section)));
  const first = own === undefined ? "none" : locate(document, [own.key.text]);
  if (own === undefined || typeof first === "string") return null;
  let part: Part = first.part;
  const at: (string | number)[] = [own.key.text];
  for (const step of rest) {
    const next = part
      .inside()
      ?.parts.find(({ key }, i) =>
        typeof step === "number" ? key === null && i === step : key !== null && foldName(key.text) === foldName(step),
      );
    if (next === undefined) return null;
    at.push(typeof step === "number" ? step : (next.key?.text ?? step));
    part = next;
  }
  return { path: at, part };
}

/** Whether anything is written at a path. */
export const isWritten = (document: PlanDocument, path: Path): boolean => find(document, path) !== null;

/** The text that is written at a path; null: nothing, or a map or a list. */
export function textOf(document: PlanDocument, path: Path): string | null {
  const value = find(document, path)?.part.value;
  return value?.kind === "scalar" ? value.text : null;
}

/** The texts of a list at a path; a text alone counts as a list of one. */
export function textsOf(document: PlanDocument, path: Path): readonly string[] {
  const value = find(document, path)?.part.value;
  if (value?.kind === "scalar") return [value.text];
  return value?.kind === "list" ? value.items.flatMap((item) => (item.kind === "scalar" ? [item.text] : [])) : [];
}

/** Names of the entries at a path, as they are written. */
export const namesIn = (document: PlanDocument, path: Path): readonly string[] =>
  find(document, path)
    ?.part.inside()
    ?.parts.flatMap(({ key }) => (key === null ? [] : [key.text])) ?? [];

/** Writes a value at a path: in place of what stands there, or as a new entry. */
export function put(document: PlanDocument, path: Path, value: EditValue): Edit {
  const found = find(document, path);
  if (found !== null) return { do: "set", path: found.path, value };
  const around = path.slice(0, -1);
  return { do: "add", path: find(document, around)?.path ?? around, key: String(path.at(-1)), value };
}

/** Takes away what stands at a path; nothing where nothing does. */
export function takeOff(document: PlanDocument, path: Path): readonly Edit[] {
  const found = find(document, path);
  return found === null ? [] : [{ do: "remove", path: found.path }];
}

/** A copy of an entry, as it would be written again; `change` gives a key another value, or leaves it out by null. */
export function copyOf(document: PlanDocument, path: Path, change: Readonly<Record<string, string | null>>): EditMap {
  const node = find(document, path)?.part.value;
  if (node?.kind !== "map") return { entries: [] };
  const changed = new Map(Object.entries(change).map(([key, value]) => [foldName(key), value]));
  const kept = node.entries.flatMap(({ key, value }): (readonly [string, EditValue])[] => {
    const other = changed.get(foldName(key.text));
    changed.delete(foldName(key.text));
    if (other !== undefined) return other === null ? [] : [[key.text, other]];
    return value === null ? [] : [[key.text, again(value)]];
  });
  const added = [...changed].flatMap(([key, value]) => (value === null ? [] : [[key, value] as const]));
  return { entries: [...kept, ...added] };
}

/** What was read, as it would be written again. */
function again(node: Node): EditValue {
  if (node.kind === "scalar") return node.text;
  if (node.kind === "list") return node.items.map(again);
  return { entries: node.entries.map(({ key, value }) => [key.text, value === null ? "" : again(value)] as const) };
}

/** A name that is free, made from one that is taken by counting on: `B2` → `B3`. */
export function freeName(taken: readonly string[], like: string): string {
  const there = new Set(taken.map(foldName));
  const [, stem = like, digits = "1"] = /^(.*?)(\d{1,9})$/.exec(like) ?? [];
  for (let n = Number(digits) + 1; ; n++) {
    const name = stem + String(n).padStart(digits.length, "0");
    if (!there.has(foldName(name))) return name;
  }
}
