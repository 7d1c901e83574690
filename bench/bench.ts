/** Times the work that people wait for and writes `docs/performance.md`: each figure beside a floor or a peer of the same run. */
import { build } from "esbuild";
import { spawnSync } from "node:child_process";
import { rmSync, writeFileSync } from "node:fs";
import { cpus, loadavg } from "node:os";
import { join } from "node:path";
import { commandLineRows } from "./command-line.ts";
import { makeBuild, networkCases } from "./network.ts";
import { faultRows } from "./faults.ts";
import { judgedRows } from "./judged.ts";
import { labelRows } from "./labels.ts";
import { pageRows } from "./page.ts";
import { coldRows, planRows } from "./plans.ts";
import { timeSimulator } from "./simulator.ts";
import { switchingRows } from "./switching.ts";
import { timeWork, type Timed } from "./time.ts";

interface TimedRow extends Timed {
  readonly work: string;
  readonly goalMs: number | null;
  /** What it is measured against: ms of the same run. */
  readonly beside: { readonly what: string; readonly ms: number } | null;
}

interface PlainRow {
  readonly work: string;
  readonly value: number;
  readonly goal: number;
}

export type Row = TimedRow | PlainRow;

const root = join(import.meta.dirname, "..");

function networkRows(): Row[] {
  const simulator = timeSimulator(makeBuild(330, "linear"));
  if (simulator === null) console.log("ngspice is not installed: its rows stand without a peer");
  return networkCases.map(({ name, goalMs, prepare }): Row => {
    const beside =
      simulator !== null && name.endsWith("1,000 nodes, linear")
        ? { what: "ngspice, the same network, its start not counted", ms: simulator }
        : null;
    return { work: name, ...timeWork(prepare()), goalMs, beside };
  });
}

const ms = (x: number): string =>
  x >= 100 ? x.toFixed(0) : x >= 10 ? x.toFixed(1) : x >= 0.1 ? x.toFixed(2) : x.toFixed(3);

function printRow(row: Row): string[] {
  if ("value" in row)
    return [
      row.work,
      row.value.toPrecision(3),
      "",
      "",
      String(row.goal),
      row.value <= row.goal ? "yes" : "**no**",
      "",
      "",
    ];
  const { work, median, slow, processor, goalMs, beside } = row;
  return [
    work,
    `${ms(median)} ms`,
    `${ms(slow)} ms`,
    processor === undefined ? "" : `${ms(processor)} ms`,
    goalMs === null ? "" : `${goalMs} ms`,
    goalMs === null ? "" : median <= goalMs ? "yes" : "**no**",
    beside === null ? "" : (median / beside.ms).toPrecision(2),
    beside === null ? "" : `${beside.what}, ${ms(beside.ms)} ms`,
  ];
}

const before = loadavg();
const HEAD = ["work", "median", "95th percentile", "processor", "goal", "met", "ratio", "beside"];

/** Builds what is published, bundles the measurements like it, and runs them in a process of their own. */
async function measureBundled(): Promise<void> {
  const run = (command: string, ...args: readonly string[]): boolean =>
    spawnSync(command, args, { cwd: root, stdio: "inherit" }).status === 0;
  if (!run("npm", "run", "--silent", "build")) process.exit(1);
  // Beside the sources, since what is measured is found from there.
  const outfile = join(import.meta.dirname, BUNDLED);
  await build({
    entryPoints: [import.meta.filename],
    outfile,
    bundle: true,
    format: "esm",
    platform: "node",
    target: "node20",
    packages: "external",
    logLevel: "warning",
  });
  const measured = run(process.execPath, outfile);
  rmSync(outfile);
  process.exit(measured ? 0 : 1);
}

// A loader of TypeScript names each function again whenever it is made, which costs more than many of the functions do.
const BUNDLED = "bundled-bench.mjs";
if (!import.meta.filename.endsWith(BUNDLED)) await measureBundled();

const sections = [
  { title: "Plans", rows: planRows },
  { title: "Judging, drawing, explaining", rows: judgedRows },
  { title: "Faults", rows: faultRows },
  { title: "Positions of switches", rows: switchingRows },
  { title: "Labels of wires", rows: labelRows },
  { title: "A cold start", rows: coldRows },
  { title: "Networks", rows: networkRows },
  { title: "Command line", rows: commandLineRows },
  { title: "The page", rows: pageRows },
];

const page = [
  "# Performance",
  "",
  "Written by `npm run bench`; do not edit. A ratio is the time over the time of what stands beside it, measured in the same run: below 1",
  "it is the quicker. “Edit → design” is the whole way from the changed text to sizes, devices and the volts of every state;",
  "“and findings” adds the study of faults and every rule.",
  "“Processor” is the time that all threads of the process worked, collecting garbage and compiling included: on a busy machine it says more than",
  "the clock. What is timed is bundled as it is published.",
  "",
  `Measured with Node ${process.versions.node} on ${cpus().length} cores (${cpus()[0]?.model ?? "unknown"}).`,
];
for (const { title, rows } of sections) {
  page.push("", `## ${title}`, "", `| ${HEAD.join(" | ")} |`, `| ${HEAD.map(() => "---").join(" | ")} |`);
  console.log(`\n${title}`);
  for (const row of await rows()) {
    const cells = printRow(row);
    page.push(`| ${cells.join(" | ")} |`);
    console.log(`  ${cells.filter((c) => c !== "").join(" · ")}`);
  }
}
const load = (at: readonly number[]): string => (at[0] ?? Number.NaN).toFixed(1);
page.push(
  "",
  `Load of the machine, this work included: ${load(before)} when it began, ${load(loadavg())} when it ended.`,
);
writeFileSync(join(root, "docs", "performance.md"), [...page, ""].join("\n"));
