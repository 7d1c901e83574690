import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import assert from "node:assert/strict";
import { test, vi } from "vitest";
import { compile, compileInSteps, createMemory, type Compiled } from "../../src/compile.ts";
import { randomBuild } from "./random-build.ts";

const root = join(import.meta.dirname, "..", "..");
const read = (...path: readonly string[]): string => readFileSync(join(root, ...path), "utf8");
const yamlIn = (...path: readonly string[]): string[] =>
  readdirSync(join(root, ...path)).flatMap((name) => (name.endsWith(".yaml") ? [read(...path, name)] : []));

const SLOOP = read("examples", "sloop.yaml");

/** All that a plan comes to, to the last bit: what JSON leaves out of numbers is written out. */
const resultOf = ({ design, judgement, diagnostics }: Compiled): string =>
  JSON.stringify([design, judgement, diagnostics], (_, value: unknown) =>
    typeof value !== "number" || (Number.isFinite(value) && !Object.is(value, -0))
      ? value
      : Object.is(value, -0)
        ? "minus nothing"
        : String(value),
  );

/** Two results of hundreds of thousands of letters: where they part is what is worth seeing. */
function assertSame(now: string, then: string, what: string): void {
  let at = 0;
  while (at < now.length && now[at] === then[at]) at++;
  const around = (text: string): string => text.slice(Math.max(0, at - 300), at + 600);
  assert.ok(now === then, `${what} parts at ${at}:\n${around(now)}\nand before:\n${around(then)}`);
}

/** The plan with one figure of one line made larger or smaller: lines in turn, as far as there are any. */
function editsOf(text: string, count: number): string[] {
  const lines = text.split("\n");
  const places = lines.flatMap((line, i) => (/(length|running|demand|capacity): [\d.]+ /.test(line) ? [i] : []));
  const step = Math.max(1, Math.floor(places.length / count));
  return Array.from({ length: Math.min(count, places.length) }, (_, k) => {
    const at = places[k * step] ?? 0;
    const edited = (lines[at] ?? "").replace(
      /(length|running|demand|capacity): ([\d.]+) /,
      (_found, word: string, figure: string) => `${word}: ${(Number(figure) * (k % 2 === 0 ? 1.7 : 0.31)).toFixed(2)} `,
    );
    return lines.map((line, i) => (i === at ? edited : line)).join("\n");
  });
}

/** Compiles one text after the other with one memory, and each once more with none. */
function compareAll(texts: readonly string[]): void {
  const memory = createMemory();
  const known = new Map<string, string>();
  texts.forEach((text, i) => {
    const warm = resultOf(compile(text, memory));
    const fresh = known.get(text) ?? resultOf(compile(text));
    known.set(text, fresh);
    if (warm !== fresh) assert.deepEqual(JSON.parse(warm), JSON.parse(fresh), `text ${i}`);
    assert.ok(warm === fresh, `text ${i} differs`);
  });
}

test("an edited plan comes to the same as a fresh one: twenty-five single edits of the sloop", () => {
  const edits = editsOf(SLOOP, 25);
  assert.equal(edits.length, 25);
  assert.ok(edits.every((text) => text !== SLOOP));
  // Each edit is undone before the next.
  compareAll(edits.flatMap((text) => [SLOOP, text]));
});

test("an edited plan comes to the same as a fresh one: edits that pile up", () => {
  let text = SLOOP;
  compareAll(Array.from({ length: 8 }, (_, k) => (text = editsOf(text, 8)[k] ?? text)));
});

test("an edited plan comes to the same as a fresh one: one plan typed over another", () => {
  compareAll([...yamlIn("examples"), ...yamlIn("test", "plans")]);
});

test("an edited plan comes to the same as a fresh one: builds of every shape, and an edit of each", () => {
  compareAll(
    Array.from({ length: 12 }, (_, seed) => randomBuild(seed + 1)).flatMap((text) => [text, ...editsOf(text, 1)]),
  );
});

test("what was compiled before in the same process changes nothing", async () => {
  const texts = [read("examples", "van.yaml"), read("examples", "sloop-us.yaml"), randomBuild(7)];
  const used = texts.map((text) => resultOf(compile(text)));
  for (const [i, text] of texts.entries()) {
    vi.resetModules();
    const { compile: fresh } = await import("../../src/compile.ts");
    assert.notEqual(fresh, compile);
    assertSame(resultOf(fresh(text)), used[i] ?? "", `text ${i}`);
  }
});

test("what was compiled before of the other current, from the same shelf, changes nothing", async () => {
  const van = read("examples", "van.yaml");
  const stock = /^stock:.*$/m.exec(van)?.[0] ?? "";
  vi.resetModules();
  const { compile: fresh } = await import("../../src/compile.ts");
  fresh(
    `wireworthy: 1\nrules: { AC: us-rv }\n${stock}\nsystems: { AC: { kind: AC, nominal: 120 V, frequency: 60 Hz } }\nparts:\n  INL: { kind: shore inlet, rated: 30 A }\n  LC: { kind: panel, ways: { 1: breaker 15 A } }\n  heater: { kind: load, running: 6 A }\ncircuits:\n  W1: { path: INL → LC, length: 2 m }\n  W2: { path: LC:1 → heater, length: 2 m }\n`,
  );
  const after = resultOf(fresh(van));
  vi.resetModules();
  const { compile: alone } = await import("../../src/compile.ts");
  assertSame(after, resultOf(alone(van)), "the van");
});

test("an older result stays what it was while the plan is compiled again", () => {
  const memory = createMemory();
  const first = compile(SLOOP, memory);
  const before = resultOf(first);
  const volts = first.settled.model.circuits.map((c) => first.settled.weigher.worst(c).map((w) => w.leastVolts));
  for (const text of editsOf(SLOOP, 5)) compile(text, memory);
  assert.equal(resultOf(first), before);
  const after = first.settled.model.circuits.map((c) => first.settled.weigher.worst(c).map((w) => w.leastVolts));
  assert.deepEqual(after, volts);
});

test("a compilation that is let go of half-way leaves nothing behind", () => {
  const memory = createMemory();
  const [edited = ""] = editsOf(SLOOP, 1);
  const wanted = resultOf(compile(edited));
  const steps = (text: string): number => {
    let count = 0;
    for (const halts = compileInSteps(text); halts.next().done !== true;) count++;
    return count;
  };
  const count = steps(SLOOP);
  // Between the stages and before each round of settling.
  assert.ok(count > 8, `${count} halts`);
  for (let most = 0; most < count; most += 3) {
    const halts = compileInSteps(SLOOP, memory);
    for (let k = 0; k <= most; k++) halts.next();
    assert.equal(resultOf(compile(edited, memory)), wanted);
  }
});
