import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { parseDocument } from "yaml";
import { compile, createMemory } from "../src/compile.ts";
import { computeInSteps } from "../src/compute.ts";
import { createPlanMemory, readPlan } from "../src/plan/index.ts";
import { runToEnd } from "../src/size/index.ts";
import { kinds } from "../src/system/index.ts";
import type { Row } from "./bench.ts";
import { makePlan } from "./make-plan.ts";
import { exponentOf, timeWork } from "./time.ts";

const SLOOP = readFileSync(join(import.meta.dirname, "..", "examples", "sloop.yaml"), "utf8");

/** Plans to be timed, with the goal of an edit. Each edit changes one length. */
const PLANS = [
  {
    name: "sloop, 34 circuits",
    size: 34,
    text: SLOOP,
    goalMs: 16,
    edit: (k: number) => SLOOP.replace("windlass, length: 8.6 m", `windlass, length: ${8 + (k % 40) / 20} m`),
  },
  ...[
    { size: 40, goalMs: 16 },
    { size: 400, goalMs: 60 },
    { size: 5000, goalMs: 150 },
  ].map(({ size, goalMs }) => {
    const text = makePlan(size);
    const edit = (k: number): string =>
      text.replace(/W9: (.*?)length: [\d.]+ m/, `W9: $1length: ${(3 + (k % 40) / 10).toFixed(1)} m`);
    return { name: `${size} circuits`, size, text, goalMs, edit };
  }),
];

/** Reading and designing whole plans, beside a full parse of the same text by the YAML library. */
export function planRows(): Row[] {
  const rows: Row[] = [];
  const reads: { size: number; ms: number }[] = [];
  const edits: { size: number; ms: number }[] = [];
  for (const { name, size, text, goalMs, edit } of PLANS) {
    const budget = size > 1000 ? 4000 : 1500;
    const floor = timeWork(() => void parseDocument(text), budget);
    const beside = { what: "full parse by the YAML library", ms: floor.median };
    const cold = timeWork(() => void readPlan(text, kinds, createPlanMemory()), budget);
    rows.push({ work: `read, all of it: ${name}`, ...cold, goalMs: null, beside });
    const reading = createPlanMemory();
    readPlan(text, kinds, reading);
    rows.push({
      work: `read, one line changed: ${name}`,
      ...timeWork((k) => void readPlan(edit(k), kinds, reading), budget),
      goalMs: null,
      beside,
    });
    const computing = createPlanMemory();
    const computed = timeWork((k) => void runToEnd(computeInSteps(edit(k), computing)), budget);
    rows.push({ work: `edit → design: ${name}`, ...computed, goalMs: null, beside });
    const memory = createMemory();
    compile(text, memory);
    const edited = timeWork((k) => void compile(edit(k), memory), budget);
    rows.push({ work: `edit → design and findings: ${name}`, ...edited, goalMs, beside });
    if (size >= 40) {
      reads.push({ size, ms: cold.median });
      edits.push({ size, ms: edited.median });
    }
  }
  rows.push({ work: "exponent, reading 40 … 5,000 circuits", value: exponentOf(reads), goal: 1.15 });
  rows.push({ work: "exponent, edit → design and findings 40 … 5,000 circuits", value: exponentOf(edits), goal: 1.15 });
  return rows;
}

/** A cold process that compiles 5,000 circuits once: time from the text to the design, and the most memory it ever held. */
export function coldRows(): Row[] {
  const script = `
    import { compile } from ${JSON.stringify(join(import.meta.dirname, "..", "dist", "index.js"))};
    import { readFileSync } from "node:fs";
    const text = readFileSync(0, "utf8");
    const before = process.cpuUsage();
    const from = performance.now();
    compile(text);
    const ms = performance.now() - from;
    const { user, system } = process.cpuUsage(before);
    console.log(ms, (user + system) / 1000, process.resourceUsage().maxRSS / 1024);`;
  const { stdout, status, stderr } = spawnSync(process.execPath, ["--input-type=module", "-e", script], {
    input: makePlan(5000),
    encoding: "utf8",
  });
  if (status !== 0) throw new Error(`the cold run failed: ${stderr}`);
  const [ms = Number.NaN, processor = Number.NaN, mebibytes = Number.NaN] = stdout.trim().split(" ").map(Number);
  return [
    { work: "5,000 circuits, cold", median: ms, slow: ms, processor, runs: 1, goalMs: 3000, beside: null },
    { work: "5,000 circuits, cold: most memory, MiB", value: mebibytes, goal: 512 },
  ];
}
