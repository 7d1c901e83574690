import { test } from "vitest";
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { Lexer } from "yaml";
import {
  applyEdits,
  applySplices,
  readDocument,
  type Edit,
  type EditValue,
  type Path,
} from "../../src/plan/text/index.ts";
import { chanceOf, mutate, type Chance } from "../fixtures/mutate.ts";
import { plainOf, type Plain } from "../fixtures/plain-plan.ts";

const SLOOP = readFileSync(new URL("../../examples/sloop.yaml", import.meta.url), "utf8");
const FORMS = readFileSync(new URL("../fixtures/forms.yaml", import.meta.url), "utf8");

/** More for a long look: EDITS=20000. */
const EDITS = Number(process.env["EDITS"] ?? 1000);

const WORDS = [
  "5.2 m", "3,4 m", "unknown", "", " ", "a: b", "a #b", "#1", "- x", "-0.5 V", "?", "[1]", "{x}", "it's", '"', "\\", "two\nlines",
  "tab\there", "*", "&a", "!", "yes", "0000", "B1:− → BN", "<<", "name:", "👍", "'", "x,y", ",", "|", ">", "%", "@", "`", "---", "...", ":",
]; // prettier-ignore
const NAMES = [
  "wire",
  "W99",
  "note",
  "a b",
  "1",
  "x: y",
  "[z]",
  "",
  "length",
  "kind",
  "<<",
  "-",
  "B3:+",
  "__proto__",
  "#",
];

const pick = <T>(chance: Chance, list: readonly T[]): T | undefined => list[chance(list.length)];

/** All paths of a plan, the sections' first. */
function pathsOf(plain: Plain, before: Path = []): Path[] {
  if (typeof plain === "string") return [];
  const inner: (readonly [string | number, Plain])[] = Array.isArray(plain) ? [...plain.entries()] : [...plain.names];
  return inner.flatMap(([step, value]) => [[...before, step], ...pathsOf(value, [...before, step])]);
}

function randomValue(chance: Chance, depth = 0): EditValue {
  const kind = depth > 2 ? 0 : chance(6);
  if (kind === 4) return Array.from({ length: chance(4) }, () => randomValue(chance, depth + 1));
  if (kind === 5) {
    const names = new Set(Array.from({ length: chance(4) }, () => pick(chance, NAMES.slice(0, 6)) ?? ""));
    return { entries: [...names].map((name) => [name, randomValue(chance, depth + 1)]) };
  }
  return pick(chance, WORDS) ?? "";
}

function randomEdit(plain: Plain, chance: Chance): Edit {
  const paths = pathsOf(plain);
  const path = pick(chance, paths) ?? [];
  const around = paths.filter(
    (other) => other.length === path.length && other.slice(0, -1).join() === path.slice(0, -1).join(),
  );
  const neighbour = String(pick(chance, around)?.at(-1) ?? "");
  switch (chance(6)) {
    case 0:
      return { do: "remove", path };
    case 1:
      return { do: "rename", path, to: pick(chance, NAMES) ?? "" };
    case 2:
      return { do: "move", path, after: chance(4) === 0 ? null : neighbour };
    case 3:
      return { do: "set", path, value: randomValue(chance) };
    default: {
      const key = pick(chance, NAMES) ?? "";
      const edit = {
        do: "add",
        path: path.slice(0, chance(2) === 0 ? -1 : undefined),
        key,
        value: randomValue(chance),
      } as const;
      return chance(3) === 0 ? { ...edit, after: neighbour } : edit;
    }
  }
}

/** What a plan should say after an edit, worked out on names and values alone. */
function changed(plain: Plain, path: Path, edit: Edit): Plain {
  const isList = Array.isArray(plain);
  const parts: (readonly [string, Plain])[] =
    typeof plain === "string" ? [] : isList ? plain.map((item) => ["", item]) : [...plain.names];
  const back = (list: readonly (readonly [string, Plain])[]): Plain => {
    if (list.length === 0) return "";
    return isList ? list.map(([, value]) => value) : { names: list.map(([name, value]) => [name, value]) };
  };
  const [step] = path;
  const at = typeof step === "number" ? step : parts.findIndex(([name]) => name === step);
  const here = edit.do === "add" ? path.length === 0 : path.length === 1;
  if (!here) {
    const inside = parts[at] ?? [String(step), ""];
    const list = at < 0 ? [...parts, inside] : parts;
    return back(list.map((part) => (part === inside ? [part[0], changed(part[1], path.slice(1), edit)] : part)));
  }
  const part = parts[at] ?? ["", ""];
  const rest = parts.filter((other) => other !== part);
  const behind = (name: string | null, list: typeof parts) => list.findIndex(([other]) => other === name) + 1;
  switch (edit.do) {
    case "set":
      return back(parts.map((other) => (other === part ? [part[0], plainValue(edit.value)] : other)));
    case "remove":
      return back(rest);
    case "rename":
      return back(parts.map((other) => (other === part ? [edit.to, part[1]] : other)));
    case "move":
      return edit.after === part[0] ? plain : back(rest.toSpliced(behind(edit.after, rest), 0, part));
    case "add": {
      const to = edit.after === undefined ? parts.length : behind(edit.after, parts);
      return back(parts.toSpliced(to, 0, [edit.key, plainValue(edit.value)]));
    }
  }
}

function plainValue(value: EditValue): Plain {
  if (typeof value === "string") return value;
  if ("entries" in value && typeof value.entries !== "function") {
    return value.entries.length === 0 ? "" : { names: value.entries.map(([name, inner]) => [name, plainValue(inner)]) };
  }
  const items = value as readonly EditValue[]; // the other member of the union
  return items.length === 0 ? "" : items.map(plainValue);
}

/** Empty maps, empty lists and nothing are alike. */
function bare(plain: Plain): Plain {
  if (typeof plain === "string") return plain;
  if (Array.isArray(plain)) return plain.length === 0 ? "" : plain.map(bare);
  return plain.names.length === 0 ? "" : { names: plain.names.map(([name, value]) => [name, bare(value)]) };
}

const commentsOf = (text: string): string[] =>
  [...new Lexer().lex(text)].filter((token) => token.startsWith("#")).sort();

/** @returns whether the edit was made */
function check(text: string, edit: Edit, what: string): boolean {
  const before = readDocument(text);
  const { value, diagnostics } = applyEdits(text, [edit]);
  if (diagnostics.length > 0) {
    assert.deepEqual(value, { text, splices: [], undo: [] }, what);
    return false;
  }
  const after = readDocument(value.text);
  const [found, expected] = [bare(plainOf(after.value)), bare(changed(bare(plainOf(before.value)), edit.path, edit))];
  if (JSON.stringify(found) !== JSON.stringify(expected)) assert.deepEqual(found, expected, what);
  assert.equal(applySplices(text, value.splices), value.text, what);
  assert.equal(applySplices(value.text, value.undo), text, what);
  const errors = (told: typeof before) =>
    told.diagnostics.filter(({ level }) => level === "error" || level === "warning").length;
  assert.ok(errors(after) <= errors(before), what);
  return true;
}

test("an edit of a sound plan does what is meant, keeps every comment, and is rarely refused", () => {
  let [made, possible] = [0, 0];
  for (let seed = 1; seed <= EDITS; seed++) {
    const chance = chanceOf(seed);
    const text = chance(3) === 0 ? SLOOP : FORMS;
    const edit = randomEdit(plainOf(readDocument(text).value), chance);
    const what = `seed ${seed}: ${JSON.stringify(edit)}`;
    const done = check(text, edit, what);
    if (done) made++;
    if (
      done ||
      ["plan/edit-not-proved", "plan/edit-new-message"].includes(applyEdits(text, [edit]).diagnostics[0]?.id ?? "")
    )
      possible++;
    if (!done || edit.do === "remove" || edit.do === "set") continue;
    assert.deepEqual(commentsOf(applyEdits(text, [edit]).value.text), commentsOf(text), what);
  }
  // Refused may be what cannot be: a name that is taken, a map in a text, an empty name.
  assert.ok(made > EDITS / 2, `${made} made`);
  assert.ok(made / possible > 0.9, `${made} made of ${possible} that can be located`);
});

test("an edit of a damaged plan does what is meant or is refused", () => {
  let made = 0;
  for (let seed = 1; seed <= EDITS; seed++) {
    const text = mutate(seed % 3 === 0 ? SLOOP : FORMS, seed);
    const edit = randomEdit(plainOf(readDocument(text).value), chanceOf(seed + 1e6));
    if (check(text, edit, `seed ${seed}: ${JSON.stringify(edit)}`)) made++;
  }
  assert.ok(made > EDITS / 6, `${made} made`);
});

test("a part's new name reaches every place that its old name stood in", () => {
  const { sections } = readDocument(SLOOP).value;
  const parts = sections.find(({ key }) => key.text === "parts")?.entries ?? [];
  let mentions = 0;
  for (const { entry } of parts) {
    const name = entry.key.text;
    const spans: [number, number][] = [];
    const whole = new RegExp(`(?<![\\w.–-])${name}(?![\\w–-])`, "g");
    const text = SLOOP.replace(/#.*$/gm, (comment) => " ".repeat(comment.length));
    for (const { index } of text.matchAll(whole)) spans.push([index, index + name.length]);
    mentions += spans.length;
    for (const to of ["Q77", "new: name", "a, b"]) {
      const { value, diagnostics } = applyEdits(SLOOP, [{ do: "rename", path: ["parts", name], to, and: spans }]);
      assert.deepEqual(diagnostics, [], name);
      const read = JSON.stringify(plainOf(readDocument(value.text).value));
      const there = JSON.stringify(plainOf(readDocument(SLOOP).value));
      assert.equal(read, there.replace(whole, to), name);
      assert.equal(applySplices(value.text, value.undo), SLOOP);
    }
  }
  assert.ok(mentions > 2 * parts.length);
});

test("several edits are one, and are undone as one", () => {
  for (let seed = 1; seed <= 200; seed++) {
    const chance = chanceOf(seed);
    const edits: Edit[] = [];
    let text = FORMS;
    while (edits.length < 4) {
      const edit = randomEdit(plainOf(readDocument(text).value), chance);
      const { value, diagnostics } = applyEdits(text, [edit]);
      if (diagnostics.length > 0) continue;
      edits.push(edit);
      text = value.text;
    }
    const { value } = applyEdits(FORMS, edits);
    assert.equal(value.text, text, JSON.stringify(edits));
    assert.equal(applySplices(FORMS, value.splices), text);
    assert.equal(applySplices(text, value.undo), FORMS);
  }
});
