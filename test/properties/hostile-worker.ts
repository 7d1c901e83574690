import { readFileSync } from "node:fs";
import { parseDocument } from "yaml";
import { compile, type Compiled } from "../../src/compile.ts";
import type { Diagnostic } from "../../src/diagnostic.ts";
import { createPlanMemory, readPlan, type PlanMemory } from "../../src/plan/index.ts";
import { kinds } from "../../src/system/index.ts";
import { mutate } from "../fixtures/mutate.ts";
import { processor, slowest } from "../fixtures/slowest.ts";
import { oddNumbers } from "./odd-numbers.ts";

/**
 * Damages a plan again and again, reads and compiles what is left of it, and prints what it found as JSON. Runs in a process of its own, so
 * that the time of the processor is its alone and both cores have work.
 *
 * Usage: node hostile-worker.mjs <plan> <first seed> <how many to read> <how many of these to compile> <one in how many extremes> <which of them> <small plans>
 */
const [, , file = "", first = "1", reads = "0", compiles = "0", oneIn = "1", which = "0", ...small] = process.argv;
const plan = readFileSync(file, "utf8");
const from = Number(first);

interface Tally {
  count: number;
  /** With an error diagnostic. */
  withErrors: number;
  /** Milliseconds of the clock. */
  totalMs: number;
  worstMs: number;
  worstSeed: number;
}

const start = (): Tally => ({ count: 0, withErrors: 0, totalMs: 0, worstMs: 0, worstSeed: 0 });
const wrong: string[] = [];
const fault = (seed: number, what: string): void => {
  if (wrong.length < 50) wrong.push(`seed or place ${seed}: ${what}`);
};

const SLOW = slowest();

function timed<T>(tally: Tally, seed: number, work: () => T): T | undefined {
  const began = performance.now();
  let result: T | undefined;
  try {
    result = work();
  } catch (error) {
    const stack =
      error instanceof Error ? (error.stack ?? error.message).split("\n").slice(0, 4).join(" | ") : String(error);
    fault(seed, `thrown ${stack}`);
  }
  const ms = performance.now() - began;
  tally.count++;
  tally.totalMs += ms;
  if (ms > tally.worstMs) {
    tally.worstMs = ms;
    tally.worstSeed = seed;
  }
  if (ms > SLOW && result !== undefined) {
    // Slow by the clock may be the fault of others: the processor decides.
    const before = processor();
    work();
    const again = processor() - before;
    if (again > SLOW) fault(seed, `took ${Math.round(again)} ms`);
  }
  return result;
}

function checkPlaces(seed: number, text: string, diagnostics: readonly Diagnostic[]): void {
  for (const { id, at } of diagnostics) {
    for (const [start, end] of at) {
      if (!(start >= 0 && start <= end && end <= text.length))
        fault(seed, `${id} at ${start}-${end} of ${text.length}`);
    }
    // What is absent has no place; an error in the text has one.
    if (at.length === 0 && id.startsWith("plan/")) fault(seed, `${id} has no place`);
  }
}

const hasError = (diagnostics: readonly Diagnostic[]): boolean =>
  diagnostics.some((d) => d.level === "error" && d.at.length > 0);

/** Whether the library's full parser rejects a text, but for what the language allows beyond it (docs/language.md). */
function isRejected(text: string): boolean {
  // A line of blanks is nothing, and so is a comment, wherever it starts; a lone `?` is `unknown`.
  const plain = text
    .replace(/^[ \t]*\t[ \t]*(?=\r?$)/gm, "")
    .replace(/^[ \t]*#.*$/gm, "")
    .replace(/(?<=[:,[{]\s+|[[{])\?(?=\s*[,}\]\r\n])/g, "unknown");
  return parseDocument(plain, { schema: "failsafe", logLevel: "silent", prettyErrors: false }).errors.length > 0;
}

const sound = plan.split("\n");

/** The entries that differ from the sound plan, under the head of their section: what stands around them is known to be well formed. */
function changedEntries(text: string): string {
  const lines = text.split("\n");
  const shorter = Math.min(lines.length, sound.length);
  let from = 0;
  while (from < shorter && lines[from] === sound[from]) from++;
  let same = 0;
  while (same < shorter - from && lines.at(-1 - same) === sound.at(-1 - same)) same++;
  const startsEntry = (line: string | undefined): boolean => /^ {0,2}[^ #]/.test(line ?? "");
  do from--;
  while (from > 0 && !startsEntry(lines[from]));
  let end = lines.length - same;
  while (end < lines.length && !startsEntry(lines[end])) end++;
  const head = lines.findLastIndex((line, i) => i < from && /^[a-z]/.test(line));
  const entries = lines.slice(Math.max(0, from), end);
  return [...(head < 0 || /^[a-z]/.test(entries[0] ?? "") ? [] : [lines[head]]), ...entries].join("\n");
}

const read = start();
const compiled = start();
let asked = 0;
let alsoRejected = 0;

/**
 * What is kept of the sound plan, as if it had been read just before: each damaged text is an edit of it, so that only what is damaged is read
 * anew, and not also what the damage before it had spoilt.
 */
function memoryOf(text: string): () => PlanMemory {
  const memory = createPlanMemory();
  readPlan(text, kinds, memory);
  const { document, entries } = memory;
  const { blocks, last } = document;
  return () => ({ document: { blocks, last }, entries });
}
const soundMemory = memoryOf(plan);

for (let i = 0; i < Number(reads); i++) {
  const seed = from + i;
  const text = mutate(plan, seed);
  const memory = soundMemory();
  const told = timed(read, seed, () => readPlan(text, kinds, memory));
  if (told === undefined) continue;
  checkPlaces(seed, text, told.diagnostics);
  if (hasError(told.diagnostics)) {
    read.withErrors++;
    if (i % 200 === 0 && isRejected(text)) alsoRejected++;
  } else {
    asked++;
    // The whole text costs the library ten times what the reader takes, so most are asked of the changed entries alone.
    const part = asked % 20 === 0 ? text : changedEntries(text);
    if (isRejected(part) && (part === text || isRejected(text)))
      fault(seed, "the library rejects it, no error is said");
  }
  // What is kept between two readings changes nothing.
  if (i % 1000 === 0 && JSON.stringify(told) !== JSON.stringify(readPlan(text, kinds)))
    fault(seed, "read otherwise with a memory");
}

/** All of a result that is plain data. */
const plainText = ({ plan, system, runs, design, judgement, diagnostics }: Compiled): string =>
  JSON.stringify([plan, system, runs, design, judgement, diagnostics]);

/** Every other text that is compiled is the whole boat damaged; those between are small builds, where damage meets more of what there is. */
const compiledPlans = small.flatMap((file) => {
  const text = readFileSync(file, "utf8");
  return [
    { text: plan, memory: soundMemory },
    { text, memory: memoryOf(text) },
  ];
});

for (let i = 0; i < Number(compiles); i++) {
  const seed = from + i;
  const { text: whole, memory } = compiledPlans[i % compiledPlans.length] ?? { text: plan, memory: soundMemory };
  const text = mutate(whole, seed);
  const kept = memory();
  const result = timed(compiled, seed, () => compile(text, kept));
  if (result === undefined) continue;
  checkPlaces(seed, text, result.diagnostics);
  if (hasError(result.diagnostics)) compiled.withErrors++;
  for (const odd of oddNumbers(result.design, "design").slice(0, 3)) fault(seed, odd);
  for (const odd of oddNumbers(result.judgement, "judgement").slice(0, 3)) fault(seed, odd);
  if (i % 200 === 0 && plainText(result) !== plainText(compile(text))) fault(seed, "compiled otherwise with a memory");
}

/** A figure with its unit, and what stands in its place: nothing, far too much, next to nothing, nobody knows. */
const FIGURE = /(?<![\w.])\d+(?:\.\d+)? (V|m|A|kA|Ah|°C|W|kW|VA|%|mm²|AWG|mA)(?!\w)/g;
const EXTREMES = ["0", "1e15", "1e-15", "1e6", "-1", "0…1e15", "unknown"];

const extremes = start();
let number = 0;
for (const { index, 0: whole, 1: unit = "" } of plan.matchAll(FIGURE)) {
  for (const extreme of EXTREMES) {
    if (number++ % Number(oneIn) !== Number(which)) continue;
    const figure = extreme === "unknown" ? extreme : `${extreme} ${unit}`;
    const text = plan.slice(0, index) + figure + plan.slice(index + whole.length);
    const kept = soundMemory();
    const result = timed(extremes, index, () => compile(text, kept));
    if (result === undefined) continue;
    checkPlaces(index, text, result.diagnostics);
    if (hasError(result.diagnostics)) extremes.withErrors++;
    for (const odd of oddNumbers(result.design, "design").slice(0, 3)) fault(index, `${whole} → ${figure}: ${odd}`);
  }
}

console.log(JSON.stringify({ read, compiled, extremes, asked, alsoRejected, wrong }));
