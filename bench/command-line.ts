import { spawnSync } from "node:child_process";
import { join } from "node:path";
import type { Row } from "./bench.ts";
import { sorted } from "./time.ts";

const root = join(import.meta.dirname, "..");

function run(...args: readonly string[]): number {
  const from = performance.now();
  const { status } = spawnSync(process.execPath, args, { cwd: root, stdio: "ignore" });
  if (status !== 0) throw new Error(`${args.join(" ")} ended with ${String(status)}`);
  return performance.now() - from;
}

/** How soon the command line is ready, beside a process that does nothing. */
export function commandLineRows(): Row[] {
  const bin = join("bin", "wireworthy.js");
  const times = { nothing: [] as number[], help: [] as number[], schedule: [] as number[] };
  for (let k = 0; k < 15; k++) {
    times.nothing.push(run("-e", "0"));
    times.help.push(run(bin, "--help"));
    times.schedule.push(run(bin, "schedule", join("examples", "sloop.yaml")));
  }
  const beside = { what: "`node -e 0`", ms: sorted(times.nothing).median };
  return [
    { work: "command line, ready (`--help`)", ...sorted(times.help), goalMs: 200, beside },
    { work: "command line, schedule of the sloop", ...sorted(times.schedule), goalMs: null, beside },
  ];
}
